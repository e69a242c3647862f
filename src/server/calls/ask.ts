// Calls that ask: what can be said, what a question means, its answers, how often and in what share.

import { csvText } from "../../documents/csv.js";
import type { Connection } from "../../store/connection.js";
import type { Suggestable } from "../../query/language/completion.js";
import { columnStoreOf } from "../../store/column-store.js";
import { identityOf, targetOf } from "../../store/database.js";
import { namesIn } from "../../store/names.js";
import { heldFileCount, heldFiles, skippedCount, skippedOf, totalsOf } from "../../store/totals.js";
import { FAULTS } from "../../pgn/faults.js";
import { Evaluation } from "../../query/engine/evaluate.js";
import { startHelpers } from "../../query/engine/slice-threads.js";
import { QueryError } from "../../query/language/query-error.js";
import { spoken } from "../../query/language/tokens.js";
import { FACTS } from "../../query/language/vocabulary.js";
import { wordList } from "../../query/language/word-list.js";
import { endedInWords, valueInWords } from "../../position/wording.js";
import { moveNumber, moveOf } from "../../chess/move-numbers.js";
import { namesText, playersText, placeText } from "../../pgn/game/players.js";
import { leftOutInWords, takenAway } from "../../statistics/exclusions.js";
import { plainProportion } from "../../statistics/proportion.js";
import type { FoundEnding, FoundPosition } from "../../query/engine/find.js";
import { keyOfNone } from "../../query/engine/splits.js";
import { topicOf } from "../../documents/lesson/topic.js";
import { type Input, ROW_LIMIT } from "../api.js";
import { countAsked } from "../../app/count.js";
import { GEOMETRY } from "../../geometry/fact-table.js";
import { type Found, findAsked, heldMoves, readAsked } from "../../app/find.js";
import type { Workspace } from "../../app/workspace.js";
import { withoutUploadsFolder } from "../uploads.js";
import { changeText, lookMove } from "../../documents/look-text.js";

/** Names of players that are offered while somebody types; more would make the list slow to send. */
const MOST_NAMES = 2000;

const namesToComplete = (workspace: Workspace): Suggestable[] => {
  const db = workspace.dbIfAny();
  if (!db) return [];
  return namesIn(db)
    .players.slice(0, MOST_NAMES)
    .map((say) => ({ say, sort: "name", meaning: "a player" }));
};

/** Everything that can be written in a question, and the facts that answers can be counted by. */
export function words(workspace: Workspace) {
  return {
    words: [...wordList(workspace.catalogue), ...namesToComplete(workspace)],
    splits: [
      ...["set-up", "entry-set-up"].map((name) => ({ name, number: false })),
      ...FACTS.filter(({ type }) => type !== "text").map(({ name, type }) => ({
        name,
        number: type === "number",
      })),
    ],
    setUps: workspace.catalogue.setUps.map(({ name, picture, known }) => ({ name, picture, known })),
    /** Facts that every position of the table has. */
    geometry: GEOMETRY.map(({ name, meaning }) => ({ name, meaning })),
    target: workspace.target().name,
  };
}

/** Reads in what most questions are answered from, so that the first one need not wait for it. */
export function ready(workspace: Workspace) {
  const db = workspace.dbIfAny();
  if (!db) return {};
  startHelpers(db);
  const tests = workspace.catalogue.tests(targetOf(db));
  for (const slice of columnStoreOf(db).slices()) {
    const evaluation = new Evaluation(db, slice);
    for (const { test } of tests) evaluation.positions(test);
  }
  ask(workspace, { question: "defender held", each: "ending", from: 0, size: 1 });
  return {};
}

/** The question as it is understood, or its fault: while somebody types, that is an answer like another. */
export function check(workspace: Workspace, { question }: Input<"check">) {
  try {
    const { sentence, canonical, others, passed, mended } = readAsked(workspace, question, "ending");
    return { understood: canonical, sentence, others, passed, mended, fault: null };
  } catch (thrown) {
    if (!(thrown instanceof QueryError)) throw thrown;
    return {
      understood: null,
      sentence: null,
      others: [],
      passed: [],
      mended: [],
      fault: thrown.toJSON().error,
    };
  }
}

/** What is shown of an ending among others. */
export interface EndingRow {
  readonly id: number;
  readonly ply: number;
  readonly fen: string;
  readonly players: string;
  readonly where: string;
  readonly result: string;
  /** The move played there, with its number; null at the end. */
  readonly move: string | null;
  readonly value: string;
  /** Whether the move gave something away; then the value says what, and what would have held. */
  readonly changed: boolean;
  readonly verdict: "won" | "drawn" | "lost" | null;
  /** Stretches of one verdict, each with the number of the move it begins with. */
  readonly story: readonly {
    readonly verdict: "won" | "drawn" | "lost";
    readonly move: number;
    readonly ply: number;
  }[];
  /** The first ply of the ending and the one behind its last. */
  readonly from: number;
  readonly to: number;
  readonly outcome: string;
  readonly endedBy: string;
  /** Games of the database that are this one. */
  readonly copies: number;
  /** How much of the ending each condition covers. */
  readonly covers: readonly string[];
  /** What differs from the position that was asked about. */
  readonly differs: readonly string[] | null;
}

const played = (fen: string, move: string | null) => (move === null ? null : `${moveNumber(fen)} ${move}`);

function endingRow(workspace: Workspace, one: FoundEnding): EndingRow {
  const numberOf = moveOf(one);
  const { ply, fen, move } = one.look;
  const chapter = one.story.findLast((part) => part.ply <= ply);
  return {
    id: one.id,
    ply,
    fen,
    players: playersText(one),
    where: placeText([one.event], one.date),
    result: one.result,
    move: move === null ? null : lookMove(one.look),
    value: changeText(one.look, heldMoves(workspace, one.look)) ?? chapter?.verdict ?? "outside the tables",
    changed: one.look.error !== null && one.look.error !== "none",
    verdict: chapter?.verdict ?? null,
    story: one.story.map((part) => ({ verdict: part.verdict, move: numberOf(part.ply), ply: part.ply })),
    from: one.firstPly,
    to: one.firstPly + one.positions,
    outcome: one.outcome,
    endedBy: endedInWords(one),
    copies: one.copies,
    covers: one.covers.map(({ moves, of }) => `${moves} of ${of} moves`),
    differs: one.like?.differs ?? null,
  };
}

function positionRow(one: FoundPosition): EndingRow {
  return {
    id: one.id,
    ply: one.ply,
    fen: one.fen,
    players: namesText(one),
    where: "",
    result: one.result,
    move: played(one.fen, one.move),
    value: valueInWords(one),
    changed: false,
    verdict: one.verdict,
    story: [],
    from: one.ply,
    to: one.ply + 1,
    outcome:
      one.error === null || one.error === "none"
        ? ""
        : `gives away ${one.error === "half" ? "half a point" : "a full point"}`,
    endedBy: one.keeping === null ? "" : `${one.keeping} of ${one.legal} moves keep it`,
    copies: 1,
    covers: [],
    differs: one.like?.differs ?? null,
  };
}

/** The last question's answers, since more of them are wanted as somebody scrolls. */
let last: { readonly key: string; readonly db: Connection; readonly found: Found } | undefined;

/** Answers to a question, from one of them on. */
export function ask(workspace: Workspace, asked: Input<"ask">) {
  const start = performance.now();
  const { question: text, each, from, size, sort, reading, duplicates } = asked;
  const db = workspace.db();
  const key = JSON.stringify([text, each, sort, reading, duplicates, db.setting("data_version")]);
  if (last?.key !== key || last.db !== db) {
    last = {
      key,
      db,
      found: findAsked(workspace, { question: text, each, order: sort, reading, duplicates }),
    };
  }
  const { found } = last;
  const wanted = Math.min(size, ROW_LIMIT - from);
  const rows =
    each === "ending"
      ? [...found.answers.endings(wanted, from)].map((one) => endingRow(workspace, one))
      : [...found.answers.positions(wanted, from)].map(positionRow);
  return {
    games: identityOf(db, workspace.settings.db),
    sentence: found.sentence,
    understood: found.canonical,
    others: found.others,
    passed: found.passed,
    mended: found.mended,
    answers: found.count,
    order: found.order,
    leftOut: takenAway(found.leftOut),
    rows,
    /** Where the list is cut short, after how many rows. */
    limit: found.count > ROW_LIMIT ? ROW_LIMIT : null,
    idle: from === 0 ? found.idle().map(({ said, met, of }) => ({ said, met, of })) : [],
    nothing: found.count === 0 ? found.nothing() : null,
    milliseconds: performance.now() - start,
  };
}

/** How many answer, and in which groups; with a chart where there are groups. */
export async function count(
  workspace: Workspace,
  { question: text, by: names, share: shareText }: Input<"count">,
) {
  const share = shareText?.trim() === "" ? undefined : shareText;
  const found = countAsked(workspace, { question: text, by: names, share });
  const { by, unit, sharing } = found;
  const groups = found.groups.map((group) => {
    const values = group.values.map((value, n) => (value === null ? keyOfNone(by[n]) : String(value)));
    return { values, label: values.join(", "), ...plainProportion(group) };
  });
  const title = `${found.canonical}, by ${names.join(" and ")}`;
  const bars = found.groups.map((group, n) => ({ ...group, label: groups[n].label }));
  // what draws charts takes longer to load than all the rest: no first question waits for it
  const { sharesChart } = await import("../../documents/charts.js");
  const axis = sharing ? `share in which ${shareText}, %` : `share of these ${unit}s, %`;
  return {
    unit,
    matching: found.matching,
    of: found.of,
    leftOut: leftOutInWords(found.leftOut),
    share: found.share ? plainProportion(found.share) : null,
    by: names,
    groups,
    chart: bars.length > 0 && bars.length <= 60 ? sharesChart(bars, title, axis) : null,
  };
}

/** The answers counted by several facts, each by itself: what they can be narrowed by. */
export function facets(workspace: Workspace, { question: text, by }: Input<"facets">) {
  return {
    facets: by.map((name) =>
      countAsked(workspace, { question: text, by: [name], each: "ending" }).groups.map(
        ({ values, count }) => ({
          label: values[0] === null ? null : String(values[0]),
          count,
        }),
      ),
    ),
  };
}

/** The answers as a table for spreadsheets, as many as can be had of one question. */
export function table(workspace: Workspace, { question: text, each, sort, reading }: Input<"table">) {
  const { answers } = findAsked(workspace, { question: text, each, order: sort, reading });
  const rows =
    each === "ending"
      ? [...answers.endings(ROW_LIMIT, 0)].map((one) => endingRow(workspace, one))
      : [...answers.positions(ROW_LIMIT, 0)].map(positionRow);
  const columns = ["players", "where", "result", "move", "value", "outcome", "endedBy", "fen", "id", "ply"];
  return {
    made: {
      name: "answers.csv",
      type: "text/csv",
      content: csvText(rows, { columns }),
    },
  };
}

/** The set-ups of the catalogue, each with a position that shows it. */
export function setUps(workspace: Workspace) {
  const { catalogue, prober } = workspace;
  return {
    setUps: catalogue.setUps.map(({ name }) => {
      const test = catalogue.known.get(spoken(name))!;
      return { name, fen: topicOf(test, catalogue, prober, workspace.target()).fen ?? null };
    }),
  };
}

/** In how many endings a set-up was met, and how many of them were held; null where there are no games. */
export function met(workspace: Workspace, { setUp }: Input<"met">) {
  if (!workspace.dbIfAny()) return { met: null };
  const { matching, share } = countAsked(workspace, {
    question: setUp,
    by: [],
    each: "ending",
    share: "defender held",
  });
  return { met: { endings: matching, held: share?.count ?? 0 } };
}

/** What the database holds; nothing where there is none. */
export function holds(workspace: Workspace) {
  const db = workspace.dbIfAny();
  return {
    games: db ? identityOf(db, workspace.settings.db) : "",
    held: db
      ? {
          ...totalsOf(db),
          target: targetOf(db).name,
          skipped: skippedCount(db),
          files: heldFileCount(db),
        }
      : null,
  };
}

/** The files whose games are held. */
export function files(workspace: Workspace, { from, size }: Input<"files">) {
  const db = workspace.dbIfAny();
  const rows = db ? heldFiles(db, from, size) : [];
  return {
    all: db ? heldFileCount(db) : 0,
    rows: rows.map((row) => ({ ...row, shown: withoutUploadsFolder(row.name) })),
  };
}

/** Games that could not be read, or not to their end. */
export function skipped(workspace: Workspace, { from, size }: Input<"skipped">) {
  const db = workspace.db();
  return {
    all: skippedCount(db),
    rows: skippedOf(db, from, size).map((row) => ({
      ...row,
      file: withoutUploadsFolder(row.file),
      because: FAULTS[row.reason],
    })),
  };
}
