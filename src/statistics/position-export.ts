// Positions as columns for other programs: every fact of the vocabulary, one row a position.

import { moversOf } from "../query/engine/movers.js";
import { kindNames } from "../geometry/move-kinds.js";
import { sanText } from "../chess/san.js";
import type { Connection } from "../store/connection.js";
import { targetOf } from "../store/database.js";
import { gamesOfEndings } from "../store/totals.js";
import { columnStoreOf } from "../store/column-store.js";
import type { Question } from "../query/language/ast.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { FACTS, type Fact, type Stored } from "../query/language/vocabulary.js";
import { EndingReader, type StoredEnding } from "../query/engine/rows.js";

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

/** A stored value as its fact writes it. */
function shown(fact: Fact, value: Stored | null): number | string | boolean | null {
  if (value === null) return null;
  if (fact.type === "flag") return value === 1;
  if (fact.type === "kinds") return kindNames(Number(value)).join(", ");
  if (fact.values) return fact.values.find(({ stored }) => stored === value)?.name ?? String(value);
  return value;
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
  const evaluation = new Evaluation(db);
  const mask = evaluation.positions(question);
  const reader = new EndingReader(db, targetOf(db));
  const valuesOf = FACTS.map((fact) => {
    if (fact.sql !== undefined) {
      const values = evaluation.endingValues(fact);
      return (_position: number, ending: number) => values[ending];
    }
    if (fact.derived === "mover") return moversOf(evaluation);
    const { values, none } = evaluation.values(fact);
    const isMove = fact.name === "move";
    return (position: number) => {
      const value = values[position];
      if (value === none || Number.isNaN(value)) return null;
      return isMove ? sanText(value) : value;
    };
  });
  const games = gamesOfEndings(db);
  const masks = setUps.map(({ test }) => evaluation.positions(test));
  const meanings = codebook();
  const begin = (): DataColumn[] => meanings.map(({ name, type }) => ({ name, type, data: [] }));
  let columns = begin();
  let given = false;
  for (let n = 0; n < store.endings; ++n) {
    let stored: StoredEnding | undefined;
    for (let p = store.starts[n]; p < store.starts[n + 1]; ++p) {
      if (!mask[p]) continue;
      stored ??= reader.read(store.ids[n])!;
      const [game, part, original] = games[n];
      const fitting = setUps.flatMap(({ name }, m) => (masks[m][p] ? [name] : []));
      const own = [
        store.ids[n],
        game,
        part,
        original,
        stored.fenAt(p - store.starts[n]),
        fitting.length === 0 ? null : fitting.join("; "),
      ];
      own.forEach((value, m) => columns[m].data.push(value));
      FACTS.forEach((fact, m) => columns[own.length + m].data.push(shown(fact, valuesOf[m](p, n))));
      if (columns[0].data.length < rows) continue;
      yield columns;
      given = true;
      columns = begin();
    }
  }
  if (!given || columns[0].data.length > 0) yield columns;
}
