// Compilation of conditions on games and endings to SQL. Values are always bound, never written into the text.

import { foldText } from "../../store/names.js";
import type { Compare, Operator, Question, Range } from "../language/ast.js";
import type { Stored } from "../language/vocabulary.js";

/** SQL text with the values for its question marks, in order. */
export interface Sql {
  readonly text: string;
  readonly values: readonly Stored[];
}

/** Games, endings, files and originals of copies that SQL text speaks of, and no more. */
export function tablesFor(sql: string): string {
  const games = /\b[gs]\./.test(sql) ? " JOIN games g ON g.id = e.game_id" : "";
  const sources = /\bs\./.test(sql) ? " JOIN sources s ON s.id = g.source_id" : "";
  const originals = /\bo\./.test(sql) ? " LEFT JOIN games o ON o.id = g.duplicate_of" : "";
  return `endings e${games}${sources}${originals}`;
}

function junction(kind: "and" | "or", parts: readonly Sql[]): Sql {
  if (parts.length === 0) return { text: "1", values: [] };
  return {
    text: `(${parts.map((part) => part.text).join(kind === "and" ? " AND " : " OR ")})`,
    values: parts.flatMap((part) => part.values),
  };
}

/** Text is compared without case and accents; a name also by its part before the comma. */
function compareColumn(sql: string, operator: Operator, value: Stored, ofPlayer: boolean): Sql {
  if (ofPlayer && operator === "contains") return { text: `named(${sql}, ?)`, values: [value] };
  const folded = `fold(${sql})`;
  const sought = foldText(String(value));
  const before = `${sought},`;
  switch (operator) {
    case "contains":
      return { text: `instr(${folded}, ?) > 0`, values: [sought] };
    case "=":
    case "!=": {
      const text = `(${folded} = ? OR substr(${folded}, 1, ?) = ?)`;
      return { text: operator === "=" ? text : `NOT ${text}`, values: [sought, before.length, before] };
    }
    default:
      return { text: `${sql} ${operator} ?`, values: [value] };
  }
}

/** A fact that stands in either of two columns is met by one of them, and missed only by both. */
const compareText = ({ fact, operator, value }: Compare): Sql =>
  junction(
    operator === "!=" ? "and" : "or",
    (fact.either ?? [fact.sql!]).map((sql) =>
      compareColumn(sql, operator, value, fact.nameOfPlayer === true),
    ),
  );

function compare(node: Compare): Sql {
  if (node.fact.type === "text") return compareText(node);
  return { text: `(${node.fact.sql}) ${node.operator} ?`, values: [node.value] };
}

const range = ({ fact, from, to }: Range): Sql => ({
  text: `(${fact.sql}) BETWEEN ? AND ?`,
  values: [from, to],
});

/** Whether a condition speaks of the game and the ending as wholes only, and not of their positions. */
export function isPlain(node: Question): boolean {
  switch (node.kind) {
    case "compare":
    case "range":
      return node.fact.sql !== undefined;
    case "facts":
      return node.fact.sql !== undefined && node.other.sql !== undefined;
    case "not":
      return isPlain(node.part);
    case "and":
    case "or":
      return node.parts.every(isPlain);
    default:
      return false;
  }
}

/** The WHERE condition of a plain condition. A comparison with an unknown value is not met. */
export function compilePlain(node: Question): Sql {
  switch (node.kind) {
    case "compare":
      return compare(node);
    case "range":
      return range(node);
    case "facts":
      return { text: `(${node.fact.sql}) ${node.operator} (${node.other.sql})`, values: [] };
    case "not": {
      const part = compilePlain(node.part);
      return { text: `(${part.text}) IS NOT TRUE`, values: part.values };
    }
    case "and":
    case "or":
      return junction(node.kind, node.parts.map(compilePlain));
    default:
      throw new Error(`${node.kind} is no plain condition`);
  }
}
