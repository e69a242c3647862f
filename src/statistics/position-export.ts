// Positions as columns for other programs: every fact of the vocabulary, one row a position.

import { placementAt } from "../chess/placement.js";
import { moversOf } from "../query/engine/movers.js";
import { kindNames } from "../geometry/move-kinds.js";
import { sanText } from "../chess/san.js";
import type { Connection } from "../store/connection.js";
import { gamesOfEndings, startsOfEndings } from "../store/totals.js";
import { columnStoreOf } from "../store/column-store.js";
import type { Question } from "../query/language/ast.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { fenInEnding } from "../query/engine/rows.js";
import { FACTS, type Fact, type Stored } from "../query/language/vocabulary.js";

export type DataType = "INT32" | "DOUBLE" | "STRING" | "BOOLEAN";

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

export interface DataColumn {
  readonly name: string;
  readonly type: DataType;
  /** Null where there is no value. */
  readonly data: (number | string | boolean | null)[];
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

type Cell = number | string | boolean | null;

/** A stored value as its fact writes it. */
function shown(fact: Fact, value: Stored | null): Cell {
  if (value === null) return null;
  if (fact.type === "flag") return value === 1;
  if (fact.type === "kinds") return kindNames(Number(value)).join(", ");
  if (fact.name === "move") return sanText(Number(value));
  if (fact.values) return fact.values.find(({ stored }) => stored === value)?.name ?? String(value);
  return value;
}

/** What is shown of stored values, each worked out once. */
function shownOnce(fact: Fact): (value: Stored | null) => Cell {
  if (fact.type === "number") return (value) => value;
  const known = new Map<Stored | null, Cell>();
  return (value) => {
    let cell = known.get(value);
    if (cell === undefined) known.set(value, (cell = shown(fact, value)));
    return cell;
  };
}

/** Gives a fact's cell at a position of an ending, both by their places in an evaluation. */
function cellsOf(evaluation: Evaluation, fact: Fact): (position: number, ending: number) => Cell {
  const show = shownOnce(fact);
  if (fact.sql !== undefined) {
    const cells = evaluation.endingValues(fact).map(show);
    return (_, ending) => cells[ending];
  }
  if (fact.derived === "mover") return moversOf(evaluation);
  const { values, none } = evaluation.values(fact);
  return (position) => {
    const value = values[position];
    return value === none || Number.isNaN(value) ? null : show(value);
  };
}

/**
 * The positions that answer a question, column by column (see `codebook`). At most `rows` at a time, since a million
 * positions of eighty columns would not fit; at least one chunk, if an empty one.
 */
export function* positionColumns(
  db: Connection,
  question: Question,
  setUps: readonly NamedSetUp[],
  rows: number,
): Generator<DataColumn[]> {
  const store = columnStoreOf(db);
  const games = gamesOfEndings(db);
  const starts = startsOfEndings(db);
  const meanings = codebook();
  let given = false;
  for (const slice of store.slices()) {
    const evaluation = new Evaluation(db, slice);
    const mask = evaluation.positions(question);
    const met: number[] = [];
    for (let p = 0; p < mask.length; ++p) if (mask[p]) met.push(p);
    if (met.length === 0) continue;
    const { ids, starts: firsts, from } = slice;
    const endingOf = slice.endingOf();
    const numbers = slice.column("placement").values;
    const turns = slice.column("attacker-to-move").values;
    const masks = setUps.map(({ test }) => evaluation.positions(test));
    const own: ((position: number, ending: number) => Cell)[] = [
      (_, ending) => ids[ending],
      ...[0, 1, 2].map((n) => (_: number, ending: number) => games[from + ending][n]),
      (position, ending) => {
        const [attacker, halfmoves, fullmove] = starts[from + ending];
        const attackerToMove = turns[firsts[ending]] === 1;
        const placement = placementAt(numbers[position], slice.target.men);
        const begins = { attacker, halfmoves, fullmove, attackerToMove };
        return fenInEnding(placement, slice.target, begins, position - firsts[ending]);
      },
      (position) => {
        const fitting = setUps.filter((_, n) => masks[n][position]).map(({ name }) => name);
        return fitting.length === 0 ? null : fitting.join("; ");
      },
    ];
    const cells = [...own, ...FACTS.map((fact) => cellsOf(evaluation, fact))];
    for (let at = 0; at < met.length; at += rows) {
      const some = met.slice(at, at + rows);
      yield meanings.map(({ name, type }, n) => ({
        name,
        type,
        data: some.map((position) => cells[n](position, endingOf[position])),
      }));
      given = true;
    }
  }
  if (!given) yield meanings.map(({ name, type }) => ({ name, type, data: [] }));
}
