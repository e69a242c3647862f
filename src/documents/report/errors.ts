// Where it goes wrong: errors per hundred moves that had something to lose, by what was there to lose, by set-up, by how many
// moves hold, by the clock; and a model of the mistakes.

import type { NamedSetUp } from "../../query/language/catalogue.js";
import { type Split, keyOfNone, readSplit } from "../../query/engine/splits.js";
import { type ErrorGroup, type RuleErrors, errorsBy, errorsByRule } from "../../statistics/errors.js";
import type { Rule, Standing, SideName, Study } from "../../statistics/moves-made.js";
import { type Model, mistakeModel } from "../../statistics/models.js";
import { SMALL, plainProportion } from "../../statistics/proportion.js";
import { sharesChart } from "../charts.js";
import type { Table } from "../tables.js";
import { modelInWords, modelParts } from "./models.js";
import { type Part, SMALL_NOTE, type Section, effectColumn, shareColumn, text, whole } from "./parts.js";

/** A table of errors; `none` names the rows without a value. */
export function errorTable(id: string, head: string, groups: readonly ErrorGroup[], none: string): Table {
  return {
    id,
    caption: head === ALL ? "Errors of all moves that had something to lose" : `Errors by ${head}`,
    columns: [
      text("side", "side"),
      text("stood", "had a"),
      ...(head === ALL ? [] : [text("group", head)]),
      whole("of", "moves"),
      whole("half", "half-point errors"),
      whole("full", "full-point errors"),
      shareColumn("in a hundred moves"),
      effectColumn,
      { name: "expected", head: "at random", kind: "decimal" },
      { name: "ratio", head: "made / at random, %", kind: "decimal" },
    ],
    rows: groups.map((group) => ({
      side: group.side,
      stood: STOOD[group.stood],
      group: group.value ?? none,
      half: group.half,
      full: group.full,
      ...plainProportion(group),
      effect: group.effect,
      expected: group.expected,
      ratio: group.expected === 0 ? null : (100 * group.count) / group.expected,
    })),
    note: groups.some(({ of }) => of < SMALL) ? SMALL_NOTE : undefined,
  };
}

/** The head of the table that is not split. */
const ALL = "all moves";

const STOOD: Readonly<Record<Standing, string>> = { won: "win", drawn: "draw" };

/** The splits of the report, with the moves that each chart is of. */
const SPLITS: readonly {
  readonly split: string;
  readonly title: string;
  readonly of?: readonly [SideName, Standing];
  /** Rows in the order of their shares, where the values have none of their own. */
  readonly ranked?: boolean;
}[] = [
  { split: "set-up", title: "by set-up", of: ["defender", "drawn"], ranked: true },
  { split: "fifty-keeping:2/3/4/6/10", title: "by the number of moves that hold", of: ["defender", "drawn"] },
  { split: "blunder-potential:0.1", title: "by the share of moves that lose something" },
  {
    split: "clock-before:10/30/60/300",
    title: "by the seconds left before the move",
    of: ["defender", "drawn"],
  },
  { split: "spent:2/5/15/60", title: "by the seconds the move took", of: ["defender", "drawn"] },
  { split: "kind", title: "by kind of move" },
];

function splitParts(split: Split, groups: readonly ErrorGroup[], one: (typeof SPLITS)[number]): Part[] {
  const id = `errors-by-${split.name}`;
  const parts: Part[] = [{ table: errorTable(id, split.name, groups, keyOfNone(split)), appendix: true }];
  if (!one.of) return parts;
  const [side, stood] = one.of;
  const shown = groups.filter(
    (group) => group.side === side && group.stood === stood && group.value !== null,
  );
  if (shown.length < 2) return parts;
  const title = `The defender's errors in a hundred moves with a draw to lose, ${one.title}`;
  const ranked = one.ranked ? [...shown].sort((a, b) => b.share - a.share) : shown;
  const svg = sharesChart(
    ranked.map((group) => ({ ...group, label: String(group.value) })),
    title,
    "errors in a hundred moves",
    // one scale for all of them
    Math.min(1, Math.ceil(10 * Math.max(...shown.map(({ share }) => share))) / 10 + 0.1),
  );
  return [{ chart: { id, caption: `${title}, with 95 % intervals.`, svg } }, ...parts];
}

export function errorSection(study: Study, setUps: readonly NamedSetUp[]): () => Section {
  const all = study.ask(errorsBy(study));
  const bySplit = SPLITS.map((one) => {
    const split = readSplit(one.split, setUps);
    const groups = study.ask(errorsBy(study, split));
    return () => splitParts(split, groups(), one);
  });
  const byRule = study.ask(errorsByRule());
  const model = study.ask(mistakeModel(study));
  return () =>
    errorSectionOf(
      study.rule,
      all(),
      bySplit.flatMap((parts) => parts()),
      byRule(),
      model(),
    );
}

function errorSectionOf(
  counted: Rule,
  all: readonly ErrorGroup[],
  bySplit: readonly Part[],
  rule: readonly RuleErrors[],
  model: Model,
): Section {
  const total = (name: "both" | "paperOnly" | "ruleOnly") => rule.reduce((sum, row) => sum + row[name], 0);
  return {
    title: "Where it goes wrong",
    paragraphs: [
      `Counted are moves that had something to lose${counted === "fifty" ? " under the fifty-move rule" : ", the fifty-move rule left out"}: at least one legal move gave it away. A half-point error turns a win into a draw or a draw into a loss, a full-point error a win into a loss.`,
      `Of ${total("both") + total("paperOnly")} errors on paper, ${total("paperOnly")} cost nothing, since the win came too late to be in time (FIDE Laws 9.3; in a game the arbiter decides on a claim); ${total("ruleOnly")} more moves were too slow to win in time.`,
      "“At random” is what random legal moves would have given away on average in the same positions (the sum of their blunder potentials: Anderson, Kleinberg & Mullainathan, KDD 2016).",
      ...modelInWords("the defender's mistakes", model),
    ],
    parts: [
      { table: errorTable("errors", ALL, all, "all") },
      ...bySplit,
      {
        table: {
          id: "errors-by-rule",
          caption: "Errors under the fifty-move rule and on paper",
          columns: [
            text("side", "side"),
            whole("both", "under the rule and on paper"),
            whole("paperOnly", "on paper only"),
            whole("ruleOnly", "under the rule only: too slow"),
          ],
          rows: rule.map((row) => ({ ...row })),
        },
        appendix: true,
      },
      ...modelParts(
        "mistakes",
        "What makes the defender's mistake more likely, move by move, where he has a draw to lose",
        model,
      ),
    ],
  };
}
