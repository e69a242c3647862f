// Positions as columns for other programs: every fact of the vocabulary, one row a position.

import { moversOf } from "../query/engine/movers.js";
import { kindNames } from "../geometry/move-kinds.js";
import { sanText } from "../chess/san.js";
import type { Connection } from "../store/connection.js";
import { targetOf } from "../store/database.js";
import { columnStoreOf } from "../store/column-store.js";
import type { Question } from "../query/language/ast.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { FACTS, type Fact, type Stored } from "../query/language/vocabulary.js";
import { EndingReader, type StoredEnding } from "../query/engine/rows.js";

export interface DataColumn {
  readonly name: string;
  readonly type: "INT32" | "DOUBLE" | "STRING" | "BOOLEAN";
  /** Null where there is no value. */
  readonly data: (number | string | boolean | null)[];
}

/** A stored value as its fact writes it. */
function shown(fact: Fact, value: Stored | null): number | string | boolean | null {
  if (value === null) return null;
  if (fact.type === "flag") return value === 1;
  if (fact.type === "kinds") return kindNames(Number(value)).join(", ");
  if (fact.values) return fact.values.find(({ stored }) => stored === value)?.name ?? String(value);
  return value;
}

/**
 * The positions that answer a question, column by column: ending and FEN, then every fact, the ply among them. At most
 * `rows` at a time, since a million positions of eighty columns would not fit; at least one chunk, if an empty one.
 */
export function* positionColumns(db: Connection, question: Question, rows: number): Generator<DataColumn[]> {
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
  const begin = (): DataColumn[] => [
    { name: "ending", type: "INT32", data: [] },
    { name: "fen", type: "STRING", data: [] },
    ...FACTS.map(({ name, type }): DataColumn => ({
      name,
      type: type === "flag" ? "BOOLEAN" : type === "number" ? "DOUBLE" : "STRING",
      data: [],
    })),
  ];
  let columns = begin();
  let given = false;
  for (let n = 0; n < store.endings; ++n) {
    let stored: StoredEnding | undefined;
    for (let p = store.starts[n]; p < store.starts[n + 1]; ++p) {
      if (!mask[p]) continue;
      stored ??= reader.read(store.ids[n])!;
      columns[0].data.push(store.ids[n]);
      columns[1].data.push(stored.fenAt(p - store.starts[n]));
      FACTS.forEach((fact, m) => columns[m + 2].data.push(shown(fact, valuesOf[m](p, n))));
      if (columns[0].data.length < rows) continue;
      yield columns;
      given = true;
      columns = begin();
    }
  }
  if (!given || columns[0].data.length > 0) yield columns;
}
