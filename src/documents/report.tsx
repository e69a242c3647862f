// The report: practice in numbers on a question's endings, beside theory, as tables and charts and as one page.

import type { ComponentChildren } from "preact";

import type { Connection } from "../store/connection.js";
import { targetOf } from "../store/database.js";
import type { Exclusion } from "../store/exclusions.js";
import { type Question, formatQuestion, isEverything } from "../query/language/ast.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { understood } from "../query/engine/evaluate.js";
import { parseQuestion } from "../query/language/parse.js";
import { leftOutInWords } from "../statistics/cases.js";
import { changesOf } from "../statistics/changes.js";
import { count } from "../statistics/count.js";
import { type ErrorGroup, errorsBy, squaresOfErrors } from "../statistics/errors.js";
import { SMALL, atRiskAt, plainProportion } from "../statistics/estimators.js";
import { Study } from "../statistics/moves-made.js";
import { type Split, keyOfNone, readSplit } from "../query/engine/splits.js";
import { LEAST_CASES, type SurvivalGroup, type SurvivalStudy, survivalBy } from "../statistics/survival.js";
import type { Theory } from "../survey/theory.js";
import { MOST_CURVES, sharesChart, squaresChart, survivalChart } from "./charts.js";
import { Figure, renderPage } from "./printed-page.js";
import { type Table, TableView, percentText } from "./tables.js";

/** What outcomes are split by where the user does not say. */
export const USUAL_SPLITS = [
  "defender-rating:200",
  "attacker-rating:200",
  "rating-difference:100",
  "year:10",
  "pace",
  "defender-clock:30/120/600",
  "entry-set-up",
  "attacker",
  "event-type",
];

export interface ReportAsked {
  readonly question: Question;
  readonly leaveOut: readonly Exclusion[];
  /** Outcomes are split by each of these, facts of endings. */
  readonly by: readonly Split[];
  readonly setUps: readonly NamedSetUp[];
  /** Where survival starts; the entry where it is left out. */
  readonly from?: NamedSetUp;
  /** One for each set-up. */
  readonly theory: readonly Theory[];
}

interface Chart {
  /** File name of its SVG. */
  readonly id: string;
  readonly svg: string;
  readonly caption: string;
}

interface Section {
  readonly title: string;
  readonly paragraphs: readonly string[];
  readonly parts: readonly ({ readonly table: Table } | { readonly chart: Chart })[];
}

export interface Report {
  readonly title: string;
  readonly asked: string;
  readonly summary: readonly string[];
  readonly sections: readonly Section[];
}

/** A fact that is known of a smaller share of the endings gets no table. */
const LEAST_KNOWN = 0.1;
const DECIDED = parseQuestion("outcome != open");
const HELD = parseQuestion("outcome = held");
const SMALL_NOTE = `* fewer than ${SMALL}: trust the interval, not the share. Intervals: Wilson 1927, 95 %.`;

const text = (name: string, head: string) => ({ name, head, kind: "text" }) as const;
const whole = (name: string, head: string) => ({ name, head, kind: "count" }) as const;
const SHARE = (head: string) => ({ name: "share", head, kind: "share" }) as const;

/** Of the endings with a result, and with what else is asked of them, how many were held; split if so wanted. */
const heldOf = (db: Connection, asked: ReportAsked, by: readonly Split[] = [], ...more: Question[]) =>
  count(
    db,
    { kind: "and", parts: [asked.question, DECIDED, ...more] },
    { by, unit: "ending", leaveOut: asked.leaveOut, share: HELD },
  );

function outcomes(db: Connection, asked: ReportAsked): Section {
  const parts: Section["parts"][number][] = [];
  const unknown: string[] = [];
  for (const split of asked.by) {
    const { groups } = heldOf(db, asked, [split]);
    const of = groups.reduce((sum, group) => sum + group.of, 0);
    const known = groups.reduce((sum, group) => sum + (group.values[0] === null ? 0 : group.of), 0);
    if (split.kind === "fact" && known < LEAST_KNOWN * of) {
      unknown.push(`${split.name} (${known} of ${of})`);
      continue;
    }
    const rows = groups.map((group) => ({
      [split.name]: group.values[0] ?? keyOfNone(split),
      ...plainProportion(group),
    }));
    const id = `outcome-by-${split.name}`;
    parts.push({
      table: {
        id,
        caption: `Held, by ${split.name}`,
        columns: [
          text(split.name, split.name),
          whole("count", "held"),
          whole("of", "of"),
          SHARE("share held"),
        ],
        rows,
        note: rows.some(({ small }) => small) ? SMALL_NOTE : undefined,
      },
    });
    if (groups.length > 1) {
      parts.push({
        chart: {
          id,
          caption: `Share held by ${split.name}, with 95 % intervals.`,
          svg: sharesChart(
            groups.map((group) => ({ label: String(group.values[0] ?? keyOfNone(split)), ...group })),
            `Share held by ${split.name}`,
            "held, %",
          ),
        },
      });
    }
  }
  return {
    title: "Who held",
    paragraphs: [
      "An ending is held when the defender drew or won the game. Endings without a result are in no denominator here.",
      ...(unknown.length > 0 ? [`Known of too few to be told: ${unknown.join(", ")}.`] : []),
    ],
    parts,
  };
}

/** Times at which to say how many are still at risk: six or so, round. */
function roundTimes(longest: number): number[] {
  const step = [1, 2, 5, 10, 20, 50].find((one) => longest / one <= 8) ?? 100;
  return Array.from({ length: Math.floor(longest / step) + 1 }, (_, n) => n * step);
}

function survivalTable(id: string, caption: string, groups: readonly SurvivalGroup[]): Table {
  return {
    id,
    caption,
    columns: [
      text("group", "group"),
      whole("cases", "endings"),
      whole("events", "lost the draw"),
      whole("median", "median, moves"),
      text("interval", "95 % interval"),
      whole("longest", "longest seen"),
    ],
    rows: groups.map(({ value, survival }) => ({
      group: value,
      cases: survival.cases,
      events: survival.events,
      median: survival.median,
      interval:
        survival.medianLow === null ? "not reached" : `${survival.medianLow}–${survival.medianHigh ?? "…"}`,
      longest: survival.longest,
    })),
  };
}

function survivalSection(
  id: string,
  title: string,
  start: string,
  study: SurvivalStudy,
  split: Split,
): Section {
  const { all, groups, without, logRank } = study;
  const parts: Section["parts"][number][] = [];
  if (all.spells.length === 0) return { title, paragraphs: [`No ending is drawn ${start}.`], parts };
  const axis = `moves of the defender ${start}`;
  parts.push({
    chart: {
      id,
      caption: `Share still holding, with the 95 % band.`,
      svg: survivalChart([all], title, axis),
    },
  });
  const at = (time: number) => {
    const step = all.survival.steps.filter((one) => one.time <= time).at(-1);
    return step ?? { survival: 1, low: 1, high: 1 };
  };
  parts.push({
    table: {
      id: `${id}-at-risk`,
      caption: `Still holding ${start}`,
      columns: [
        whole("moves", "moves"),
        whole("at-risk", "at risk"),
        SHARE("still holding after that many moves"),
      ],
      rows: roundTimes(all.survival.longest).map((time) => {
        const { survival, low, high } = at(time);
        // nobody is left: no interval, but nothing to doubt about the share
        const limits = Number.isFinite(low) ? { low, high } : { low: survival, high: survival };
        return { moves: time, "at-risk": atRiskAt(all.spells, time), share: survival, ...limits };
      }),
    },
  });
  const compared = groups.filter(({ spells }) => spells.length >= LEAST_CASES);
  parts.push({
    table: survivalTable(`${id}-groups`, `How long they held, by ${split.name}`, [all, ...groups]),
  });
  const paragraphs = [
    `${all.survival.cases} endings that are not won for the attacker ${start}; in ${all.survival.events} of them the defender lost the draw (or his win) by a move. The others ended first and are censored: nobody knows how long he would have held. ${without} endings have no such start.`,
  ];
  if (compared.length >= 2) {
    parts.push({
      chart: {
        id: `${id}-groups`,
        caption: `By ${split.name}, groups of ${LEAST_CASES} endings or more${compared.length > MOST_CURVES ? `, the ${MOST_CURVES} largest` : ""}.`,
        svg: survivalChart(
          [...compared].sort((a, b) => b.spells.length - a.spells.length),
          `${title}, by ${split.name}`,
          axis,
        ),
      },
    });
  }
  if (logRank) {
    parts.push({
      table: {
        id: `${id}-log-rank`,
        caption: `Log-rank test by ${split.name}`,
        columns: [
          { name: "chi-square", head: "χ²", kind: "decimal" },
          whole("degrees", "degrees of freedom"),
          { name: "p", head: "p", kind: "text" },
        ],
        rows: [{ "chi-square": logRank.chiSquare, degrees: logRank.degrees, p: logRank.p.toPrecision(3) }],
      },
    });
    paragraphs.push(
      `Do the groups of ${LEAST_CASES} or more by ${split.name} differ? Log-rank χ² = ${logRank.chiSquare.toFixed(2)} on ${logRank.degrees} degree${logRank.degrees === 1 ? "" : "s"} of freedom, p ${logRank.p < 0.0001 ? "< 0.0001" : `= ${logRank.p.toFixed(4)}`}.`,
    );
  }
  return { title, paragraphs, parts };
}

/** A table of errors; `none` names the rows without a value. */
export function errorTable(id: string, head: string, groups: readonly ErrorGroup[], none: string): Table {
  return {
    id,
    caption: `Errors by ${head}`,
    columns: [
      text("side", "side"),
      text("group", head),
      whole("of", "moves"),
      whole("half", "half-point errors"),
      whole("full", "full-point errors"),
      SHARE("in a hundred moves"),
      { name: "expected", head: "at random", kind: "decimal" },
      { name: "ratio", head: "made / at random, %", kind: "decimal" },
    ],
    rows: groups.map((group) => ({
      side: group.side,
      group: group.value ?? none,
      half: group.half,
      full: group.full,
      ...plainProportion(group),
      expected: group.expected,
      ratio: group.expected === 0 ? null : (100 * group.count) / group.expected,
    })),
    note: groups.some(({ of }) => of < SMALL) ? SMALL_NOTE : undefined,
  };
}

function errorSection(study: Study, setUps: readonly NamedSetUp[]): Section {
  const table = (id: string, name: string, only?: "defender") => {
    const split = readSplit(name, setUps);
    const groups = errorsBy(study, split).filter(({ side }) => !only || side === only);
    return { groups, part: { table: errorTable(id, split.name, groups, keyOfNone(split)) } };
  };
  const bySetUp = table("errors-by-set-up", "set-up");
  const hazard = bySetUp.groups.filter(({ side }) => side === "defender");
  return {
    title: "Where it goes wrong",
    paragraphs: [
      "Counted are moves that could give something away: those in positions that are not lost for the side to move. A half-point error turns a win into a draw or a draw into a loss, a full-point error a win into a loss.",
      "“At random” is what a player choosing among the legal moves by lot would have given away on average in the same positions (the sum of their blunder potentials: Anderson, Kleinberg & Mullainathan, KDD 2016).",
      "A set-up's errors in a hundred moves are the hazard of its defender at each move there. Moves of one game are not independent, so that intervals are narrower than they should be.",
    ],
    parts: [
      { table: errorTable("errors", "all moves", errorsBy(study), "all") },
      bySetUp.part,
      {
        chart: {
          id: "errors-by-set-up",
          caption: "The defender's errors in a hundred moves, by the set-up he stands in.",
          svg: sharesChart(
            hazard.map((group) => ({ label: String(group.value ?? "none"), ...group })),
            "The defender's errors in a hundred moves, by set-up",
            "errors in a hundred moves",
          ),
        },
      },
      table("errors-by-blunder-potential", "blunder-potential:0.1").part,
      table("errors-by-clock", "clock:10/30/60/300").part,
      table("errors-by-kind", "kind", "defender").part,
    ],
  };
}

function changeSection(study: Study, setUps: readonly NamedSetUp[]): Section {
  const changes = changesOf(study, setUps);
  return {
    title: "One set-up becomes another",
    paragraphs: [
      "When a set-up stands no more it has become each of those that stand in the next named position, at most ten moves later, and did not stand when it began. “Kept” is the share of those that began drawn and are drawn still.",
    ],
    parts: [
      {
        table: {
          id: "changes",
          caption: "Changes of set-up",
          columns: [
            text("from", "from"),
            text("to", "to"),
            whole("changes", "changes"),
            whole("of", "drawn before"),
            SHARE("kept"),
            whole("wonBefore", "won before"),
            whole("wonToDrawn", "of these drawn after"),
          ],
          rows: changes.map(({ from, to, changes: all, wonBefore, wonToDrawn, ...kept }) => ({
            from,
            to,
            changes: all,
            wonBefore,
            wonToDrawn,
            ...plainProportion(kept),
          })),
          note: SMALL_NOTE,
        },
      },
    ],
  };
}

function theorySection(db: Connection, asked: ReportAsked): Section {
  const rows = asked.setUps.map(({ name, test }, n) => {
    const { attackerToMove, defenderToMove } = asked.theory[n];
    const turn = (name: string, { won, drawn, lost }: Theory["attackerToMove"]) => {
      const of = won + drawn + lost;
      return {
        [`${name}-placements`]: of,
        [`${name}-not-won`]: drawn + lost,
        [name]: of === 0 ? null : (drawn + lost) / of,
      };
    };
    // a set-up reached while the draw was there
    const reached: Question = {
      kind: "scoped",
      quantifier: "somewhere",
      part: { kind: "and", parts: [test, parseQuestion("verdict = drawn")] },
    };
    const { share } = heldOf(db, asked, [], reached);
    return {
      "set-up": name,
      ...turn("attacker-to-move", attackerToMove),
      ...turn("defender-to-move", defenderToMove),
      ...plainProportion(share!),
    };
  });
  return {
    title: "Theory beside practice",
    paragraphs: [
      "Theory: of all placements of the table that fit the set-up, the share not won for the attacker, with either side to move. Practice: of the endings in which the set-up stood on the board while the position was drawn, the share that the defender held.",
    ],
    parts: [
      {
        table: {
          id: "theory-and-practice",
          caption: "Each set-up over the whole table and in the games",
          columns: [
            text("set-up", "set-up"),
            { name: "attacker-to-move", head: "not won, attacker to move", kind: "percent" },
            { name: "defender-to-move", head: "not won, defender to move", kind: "percent" },
            whole("of", "endings"),
            whole("count", "held"),
            SHARE("share held"),
          ],
          rows,
          note: SMALL_NOTE,
        },
      },
    ],
  };
}

function squareSection(study: Study): Section {
  const { king, rook } = squaresOfErrors(study);
  const part = (piece: string, counts: typeof king) => {
    const id = `squares-${piece}`;
    return [
      {
        chart: {
          id,
          caption: `The defender's ${piece}, seen in the frame: the edge he is held at is the first rank, his king on the files a to d.`,
          svg: squaresChart(counts, piece),
        },
      },
    ];
  };
  const any = (counts: typeof king) => counts.moves.some((count) => count > 0);
  return {
    title: "Where the pieces stood",
    paragraphs: ["Moves of the defender in drawn positions."],
    parts: [...(any(king) ? part("king", king) : []), ...(any(rook) ? part("rook", rook) : [])],
  };
}

/** What the database was made from: "116,272 games in 285 files, of 1903 to 2025". */
function sourcesInWords(db: Connection): string {
  const { files, games } = db.prepare("SELECT count(*) AS files, sum(games) AS games FROM sources").get() as {
    files: number;
    games: number | null;
  };
  const { first, last } = db.prepare("SELECT min(year) AS first, max(year) AS last FROM games").get() as {
    first: number | null;
    last: number | null;
  };
  const years = first === null ? "" : `; those with this ending are of ${first} to ${last}`;
  return `Read were ${(games ?? 0).toLocaleString("en")} games in ${files.toLocaleString("en")} files${years}.`;
}

/** Works out everything a report says. */
export function makeReport(db: Connection, asked: ReportAsked): Report {
  const study = new Study(db, asked.question, asked.leaveOut);
  const target = targetOf(db);
  const held = heldOf(db, asked).share!;
  const open = study.endings.length - held.of;
  const entry = readSplit("entry-set-up", asked.setUps);
  const rating = readSplit("defender-rating:200", []);
  return {
    title: `${target.name}: ${isEverything(asked.question) ? "practice in numbers" : formatQuestion(asked.question)}`,
    asked: understood(asked.question, "ending"),
    summary: [
      sourcesInWords(db),
      `${study.endings.length.toLocaleString("en")} ${study.endings.length === 1 ? "ending" : "endings"}; ${leftOutInWords(study.leftOut)}.`,
      held.of === 0
        ? "None of them has a result."
        : `The defender held ${held.count} of ${held.of} with a result: ${percentText(held.share)} (95 % interval ${(100 * held.low).toFixed(1)} to ${(100 * held.high).toFixed(1)} %). ${open === 0 ? "All have a result" : open === 1 ? "One has no result" : `${open} have no result`}.`,
    ],
    sections: [
      outcomes(db, asked),
      theorySection(db, asked),
      survivalSection(
        "survival",
        "How long they hold",
        "from the entry",
        survivalBy(study, { split: entry }),
        entry,
      ),
      ...(asked.from
        ? [
            survivalSection(
              "survival-from-set-up",
              `How long they hold the ${asked.from.name}`,
              `from the ${asked.from.name}`,
              survivalBy(study, { from: asked.from.test, split: rating }),
              rating,
            ),
          ]
        : []),
      errorSection(study, asked.setUps),
      changeSection(study, asked.setUps),
      squareSection(study),
    ],
  };
}

/** Every table of a report. */
export const tablesOf = ({ sections }: Report): Table[] =>
  sections.flatMap(({ parts }) => parts.flatMap((part) => ("table" in part ? [part.table] : [])));

/** Every chart of a report. */
export const chartsOf = ({ sections }: Report): Chart[] =>
  sections.flatMap(({ parts }) => parts.flatMap((part) => ("chart" in part ? [part.chart] : [])));

const METHOD: readonly (readonly [term: string, meaning: string])[] = [
  ["Attacker, defender", "the side with more material, and the other."],
  [
    "Ending",
    "an unbroken stay in exactly this material, from the first position to the last. Endings shorter than two half-moves are called passing (Müller & Lamprecht, Fundamental Chess Endings, 2001, count from two on).",
  ],
  [
    "Verdict",
    "what a position is with best play, from the exact table that this program solves and checks; the fifty-move rule is left out of it.",
  ],
  [
    "Set-up",
    "where the pieces stand, by the definitions of the catalogue. A position can fit several; it is counted in each. Longer tables of survival take the first.",
  ],
  [
    "Interval",
    "95 %, for proportions by Wilson (JASA 1927). It takes cases for independent; games of one player, and moves of one game, are not quite.",
  ],
  [
    "Survival",
    "product-limit estimate (Kaplan & Meier 1958), Greenwood's variance, limits on the log(−log) scale; groups compared by the log-rank test. Endings that were over before the draw was lost are censored. That is honest only if they did not end because the defence was about to fail.",
  ],
  [
    "Duplicates",
    "the same game in several files, or the beginning of one, counts once, unless it is said that they are counted.",
  ],
];

/** The report as one page. */
export function reportPage(
  report: Report,
  made: {
    command: string;
    date: string;
    database: string;
    setUps: readonly { name: string; means: string }[];
  },
): string {
  const sections: ComponentChildren = report.sections.map(({ title, paragraphs, parts }) => (
    <section>
      <h2>{title}</h2>
      {paragraphs.map((paragraph) => (
        <p>{paragraph}</p>
      ))}
      {parts.map((part) =>
        "table" in part ? (
          <TableView {...part.table} />
        ) : (
          <Figure svg={part.chart.svg}>{part.chart.caption}</Figure>
        ),
      )}
    </section>
  ));
  return renderPage({
    title: report.title,
    command: made.command,
    date: made.date,
    body: (
      <>
        <h1>{report.title}</h1>
        <p>
          Asked: <code>{report.asked}</code> of {made.database}.
        </p>
        {report.summary.map((line) => (
          <p>{line}</p>
        ))}
        {sections}
        <section>
          <h2>Method and definitions</h2>
          <dl>
            {METHOD.map(([term, meaning]) => (
              <>
                <dt>{term}</dt>
                <dd>{meaning}</dd>
              </>
            ))}
          </dl>
          <h3>The set-ups</h3>
          <dl>
            {made.setUps.map(({ name, means }) => (
              <>
                <dt>{name}</dt>
                <dd>
                  <code>{means}</code>
                </dd>
              </>
            ))}
          </dl>
        </section>
      </>
    ),
  });
}
