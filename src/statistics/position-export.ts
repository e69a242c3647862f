// Positions as columns for other programs: every fact of the vocabulary, one row a position.

import { FenBytes } from "../chess/fen-bytes.js";
import { fullmoveAt } from "../chess/move-numbers.js";
import { sanText } from "../chess/san.js";
import { kindNames } from "../geometry/move-kinds.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { type Mask, isEmpty } from "../query/engine/masks.js";
import type { Question } from "../query/language/ast.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { FACTS, type Fact, type Stored, factNamed } from "../query/language/vocabulary.js";
import { type ColumnStore, columnStoreOf } from "../store/column-store.js";
import type { Connection } from "../store/connection.js";
import { gamesOfEndings, startsOfEndings } from "../store/totals.js";
import {
  type CodedColumn,
  type DataColumn,
  type DataType,
  type DataValues,
  NO_NUMBER,
  WordList,
  valuesAt,
} from "./data-columns.js";

/** What a column means: the codebook's row. */
export interface ColumnMeaning {
  readonly name: string;
  readonly type: DataType;
  readonly meaning: string;
  readonly unit: string;
  /** For words: all there can be. */
  readonly values: string;
  /** What an empty cell means. */
  readonly empty: string;
}

/** Numbers that have parts: shares and seconds. */
const hasParts = ({ unit }: Fact) => unit === "share" || unit === "seconds";

const typeOf = (fact: Fact): DataType =>
  fact.type === "flag"
    ? "BOOLEAN"
    : fact.type === "number"
      ? hasParts(fact)
        ? "DOUBLE"
        : "INT32"
      : "STRING";

/** Columns that are no facts of the vocabulary. */
const OWN: readonly ColumnMeaning[] = [
  {
    name: "ending",
    type: "INT32",
    meaning: "number of the ending in the database, as show takes it",
    unit: "",
    values: "",
    empty: "",
  },
  {
    name: "game",
    type: "INT32",
    meaning: "number of the game in its file, from 1",
    unit: "",
    values: "",
    empty: "",
  },
  {
    name: "part",
    type: "INT32",
    meaning: "above 1 for a game recovered from a comment that never closed",
    unit: "",
    values: "",
    empty: "",
  },
  {
    name: "original",
    type: "INT32",
    meaning: "for a copy: number of the first ending of the game that counts",
    unit: "",
    values: "",
    empty: "no copy",
  },
  { name: "fen", type: "STRING", meaning: "the position", unit: "", values: "", empty: "" },
  {
    name: "set-ups",
    type: "STRING",
    meaning: "set-ups that the position fits, in the order of the catalogue",
    unit: "",
    values: "",
    empty: "none fits",
  },
];

/** What every column of the positions means, in their order. */
export const codebook = (): ColumnMeaning[] => [
  ...OWN,
  ...FACTS.map((fact) => ({
    name: fact.name,
    type: typeOf(fact),
    meaning: fact.meaning,
    unit: fact.unit ?? "",
    values: (fact.values ?? []).map(({ name }) => name).join(", "),
    empty: fact.none ?? (fact.type === "flag" ? "" : "not known"),
  })),
];

/** The word for a stored value of a fact that has words. */
function wordOf(fact: Fact, value: Stored): string {
  if (fact.type === "kinds") return kindNames(Number(value)).join(", ");
  if (fact.name === "move") return sanText(Number(value));
  return fact.values?.find(({ stored }) => stored === value)?.name ?? String(value);
}

/** Rows that are written together: places of positions, which rise, and of the ending of each. */
interface Rows {
  readonly positions: Int32Array;
  readonly endings: Int32Array;
}

/** What a column is made of, for a part of the store; then of some rows. */
type ColumnMaker = (rows: Rows) => DataColumn;

/** A column with one value an ending. */
const ofEndings =
  (column: CodedColumn): ColumnMaker =>
  ({ endings }) => ({ ...column, of: endings });

/** Numbers, none where there is null. */
const numbersOf = (values: readonly (Stored | null)[]): Int32Array =>
  Int32Array.from(values, (value) => (value === null ? NO_NUMBER : Number(value)));

/** Numbers of words in a list, none where there is null. */
const listed = (list: WordList, words: readonly (string | null)[]): Int32Array =>
  numbersOf(words.map((word) => (word === null ? null : list.numberOf(word))));

/** The column of a fact about games or endings. */
function ofEndingFact(evaluation: Evaluation, fact: Fact): ColumnMaker {
  const { name } = fact;
  const type = typeOf(fact);
  const values = evaluation.endingValues(fact);
  if (type === "STRING") {
    const list = new WordList();
    const words = values.map((value) => (value === null ? null : wordOf(fact, value)));
    return ofEndings({ name, type, values: listed(list, words), none: NO_NUMBER, wordOf: list.wordOf });
  }
  if (type === "DOUBLE") {
    const parts = Float64Array.from(values, (value) => (value === null ? NaN : Number(value)));
    return ofEndings({ name, type, values: parts, none: NaN });
  }
  return ofEndings({ name, type, values: numbersOf(values), none: NO_NUMBER });
}

/** The column of whose move it is, by name. */
function ofMovers(evaluation: Evaluation, { name }: Fact): ColumnMaker {
  const list = new WordList();
  const [attackers, defenders] = ["attacker-name", "defender-name"].map((side) =>
    listed(list, evaluation.endingValues(factNamed(side)!) as (string | null)[]),
  );
  const { values: attackerToMove } = evaluation.store.column("attacker-to-move");
  return ({ positions, endings }) => {
    const values = new Int32Array(positions.length);
    for (let row = 0; row < values.length; ++row)
      values[row] = (attackerToMove[positions[row]] === 1 ? attackers : defenders)[endings[row]];
    return { name, type: "STRING", values, none: NO_NUMBER, wordOf: list.wordOf };
  };
}

/** The column of any fact. */
function ofFact(evaluation: Evaluation, fact: Fact): ColumnMaker {
  if (fact.sql !== undefined) return ofEndingFact(evaluation, fact);
  if (fact.derived === "mover") return ofMovers(evaluation, fact);
  const { name } = fact;
  const type = typeOf(fact);
  const asWord = type === "STRING" ? (value: number) => wordOf(fact, value) : undefined;
  return ({ positions }) => {
    const { values, none } = evaluation.values(fact);
    return { name, type, values: valuesAt<DataValues>(values, positions), none, wordOf: asWord };
  };
}

/** The column of the set-ups that each position fits. */
function ofSetUps(evaluation: Evaluation, setUps: readonly NamedSetUp[]): ColumnMaker {
  const { numbers, members } = evaluation.setUps(setUps);
  const wordOf = (set: number) => members[set].map((n) => setUps[n].name).join("; ");
  // the set that is empty is 0
  return ({ positions }) => ({
    name: "set-ups",
    type: "STRING",
    values: valuesAt(numbers, positions),
    none: 0,
    wordOf,
  });
}

/** The column of the positions as FENs. */
function ofFens(slice: ColumnStore, starts: ReturnType<typeof startsOfEndings>): ColumnMaker {
  const numbers = slice.column("placement").values;
  const turns = slice.column("attacker-to-move").values;
  return ({ positions, endings }) => {
    const fens = new FenBytes(slice.target, positions.length);
    for (let row = 0; row < positions.length; ++row) {
      const ending = endings[row];
      const [attacker, halfmoves, fullmove] = starts[slice.from + ending];
      const first = slice.starts[ending];
      const whiteBegins = (turns[first] === 1) === (attacker === "white");
      const n = positions[row] - first;
      fens.add(numbers[positions[row]], attacker, halfmoves + n, fullmoveAt(fullmove, whiteBegins, n));
    }
    return { name: "fen", type: "STRING", bytes: fens.bytes, ends: fens.ends };
  };
}

/** Positions of one year, or of any, as columns in the order of the codebook. */
export interface DataPart {
  /** Where years were asked for; null where it is not known. */
  readonly year?: number | null;
  readonly rows: number;
  /** To be gone through once: each is made when it is its turn. */
  readonly columns: Iterable<DataColumn>;
}

function* made(makers: readonly ColumnMaker[], rows: Rows): Generator<DataColumn> {
  for (const make of makers) yield make(rows);
}

/** What the columns are made of. */
export interface DataWanted {
  readonly question: Question;
  readonly setUps: readonly NamedSetUp[];
  /** About how many rows a part has at most. */
  readonly rows: number;
  /** Whether a part holds games of one year only, and no column of it. */
  readonly byYear: boolean;
}

const YEAR = factNamed("year")!;

/** The positions of a mask, in the groups that are written together. */
function* groupsOf(
  slice: ColumnStore,
  mask: Mask,
  years: readonly (Stored | null)[] | undefined,
  rows: number,
): Generator<Rows & { readonly year?: number | null }> {
  const endingOf = slice.endingOf();
  const byYear = new Map<number | null | undefined, number[]>();
  for (let p = 0; p < mask.length; ++p) {
    if (!mask[p]) continue;
    const year = years && (years[endingOf[p]] as number | null);
    const group = byYear.get(year);
    if (group) group.push(p);
    else byYear.set(year, [p]);
  }
  for (const [year, met] of byYear) {
    // slices are a little longer than a group is to be: better one too long than a second of a few rows
    const groups = Math.max(Math.round(met.length / rows), 1);
    for (let n = 0; n < groups; ++n) {
      const [from, to] = [n, n + 1].map((one) => Math.floor((one * met.length) / groups));
      const positions = Int32Array.from(met.slice(from, to));
      yield { year, positions, endings: valuesAt(endingOf, positions) };
    }
  }
}

/**
 * The positions that answer a question, column by column (see `codebook`), part by part, since a million positions of all
 * columns would not fit; at least one part, if an empty one, unless it is by year.
 */
export function* positionColumns(
  db: Connection,
  { question, setUps, rows, byYear }: DataWanted,
): Generator<DataPart> {
  const store = columnStoreOf(db);
  const games = gamesOfEndings(db);
  const starts = startsOfEndings(db);
  const facts = FACTS.filter((fact) => !byYear || fact !== YEAR);
  let given = false;
  for (const slice of store.slices()) {
    const evaluation = new Evaluation(db, slice);
    const mask = evaluation.positions(question);
    if (isEmpty(mask)) continue;
    evaluation.readTogether(FACTS.filter(({ sql }) => sql !== undefined));
    const ofGames = games.slice(slice.from, slice.to);
    const own = (name: string, values: readonly (number | null)[]) =>
      ofEndings({ name, type: "INT32", values: numbersOf(values), none: NO_NUMBER });
    const makers: ColumnMaker[] = [
      own("ending", [...slice.ids]),
      ...["game", "part", "original"].map((name, n) =>
        own(
          name,
          ofGames.map((values) => values[n]),
        ),
      ),
      ofFens(slice, starts),
      ofSetUps(evaluation, setUps),
      ...facts.map((fact) => ofFact(evaluation, fact)),
    ];
    const years = byYear ? evaluation.endingValues(YEAR) : undefined;
    for (const { year, ...group } of groupsOf(slice, mask, years, rows)) {
      yield { year, rows: group.positions.length, columns: made(makers, group) };
      given = true;
    }
  }
  if (!given && !byYear)
    yield {
      rows: 0,
      columns: codebook().map(({ name, type }) => ({
        name,
        type,
        values: new Int32Array(0),
        none: NO_NUMBER,
      })),
    };
}
