// Positions as columns for other programs: every fact of the vocabulary, one row a position.

import { KINDS_OF_MOVE } from "../geometry/kinds.js";
import { sanText } from "../chess/san.js";
import type { Connection } from "../index/connection.js";
import { targetOf } from "../index/database.js";
import { shelfOf } from "../index/shelf.js";
import type { Question } from "../questions/ast.js";
import { Evaluation } from "../questions/evaluate.js";
import { FACTS, type Fact, type Stored } from "../questions/vocabulary.js";
import { EndingReader, type StoredEnding } from "./rows.js";

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
  if (fact.type === "kinds")
    return KINDS_OF_MOVE.filter((_, n) => (Number(value) >> n) & 1)
      .map(({ name }) => name)
      .join(", ");
  if (fact.values) return fact.values.find(({ stored }) => stored === value)?.name ?? String(value);
  return value;
}

/** The positions that answer a question, column by column: ending and FEN, then every fact, the ply among them. */
export function positionColumns(db: Connection, question: Question): DataColumn[] {
  const shelf = shelfOf(db);
  const evaluation = new Evaluation(db);
  const mask = evaluation.positions(question);
  const reader = new EndingReader(db, targetOf(db));
  const places: { position: number; ending: number }[] = [];
  const fens: string[] = [];
  for (let n = 0; n < shelf.endings; ++n) {
    let stored: StoredEnding | undefined;
    for (let p = shelf.starts[n]; p < shelf.starts[n + 1]; ++p) {
      if (!mask[p]) continue;
      stored ??= reader.read(shelf.ids[n])!;
      places.push({ position: p, ending: n });
      fens.push(stored.fenAt(p - shelf.starts[n]));
    }
  }
  const columns: DataColumn[] = [
    { name: "ending", type: "INT32", data: places.map(({ ending }) => shelf.ids[ending]) },
    { name: "fen", type: "STRING", data: fens },
  ];
  for (const fact of FACTS) {
    let valueAt: (place: { position: number; ending: number }) => Stored | null;
    if (fact.sql !== undefined) {
      const values = evaluation.endingValues(fact);
      valueAt = ({ ending }) => values[ending];
    } else {
      const { values, none } = evaluation.values(fact);
      valueAt = ({ position }) => {
        const value = values[position];
        if (value === none || Number.isNaN(value)) return null;
        return fact.name === "move" ? sanText(value) : value;
      };
    }
    const type = fact.type === "flag" ? "BOOLEAN" : fact.type === "number" ? "DOUBLE" : "STRING";
    columns.push({ name: fact.name, type, data: places.map((place) => shown(fact, valueAt(place))) });
  }
  return columns;
}
