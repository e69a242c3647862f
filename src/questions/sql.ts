// Compilation of a question to SQL. Values are always bound, never written into the text.

import type { Compare, Operator, Question, Range } from "./ast.js";
import { aboutEndings } from "./ast.js";
import type { Quantifier, Stored } from "./vocabulary.js";

/** A piece of SQL with the values for its question marks, in order. */
export interface Sql {
  readonly text: string;
  readonly values: readonly Stored[];
}

/** What an answer's row is. */
export type Unit = "ending" | "position";

const EVERY = { text: "1", values: [] };

function junction(kind: "and" | "or", parts: readonly Sql[]): Sql {
  if (parts.length === 0) return EVERY;
  return {
    text: `(${parts.map((part) => part.text).join(kind === "and" ? " AND " : " OR ")})`,
    values: parts.flatMap((part) => part.values),
  };
}

/** Text is compared without case and accents; a name also by its part before the comma. */
function compareColumn(sql: string, operator: Operator, value: Stored): Sql {
  const folded = `fold(${sql})`;
  const sought = fold(String(value));
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
    (fact.either ?? [fact.sql]).map((sql) => compareColumn(sql, operator, value)),
  );

function compare(node: Compare): Sql {
  if (node.fact.type === "text") return compareText(node);
  return { text: `(${node.fact.sql}) ${node.operator} ?`, values: [node.value] };
}

const range = ({ fact, from, to }: Range): Sql => ({
  text: `(${fact.sql}) BETWEEN ? AND ?`,
  values: [from, to],
});

/** How a quantifier other than "mostly" asks for a position that meets, or fails, a condition. */
const WHICH: Readonly<
  Record<Exclude<Quantifier, "mostly">, { exists: boolean; where: string; part: string }>
> = {
  somewhere: { exists: true, where: "", part: "" },
  throughout: { exists: false, where: "", part: "IS NOT TRUE" },
  never: { exists: false, where: "", part: "" },
  entry: { exists: true, where: " AND p.ply = e.first_ply", part: "" },
  end: { exists: true, where: " AND p.ply = e.last_ply", part: "" },
};

/** The condition that a node puts on the rows in scope. A comparison with an unknown value is not met. */
function condition(node: Question): Sql {
  switch (node.kind) {
    case "compare":
      return compare(node);
    case "range":
      return range(node);
    case "set-up":
      return condition(node.means);
    case "not": {
      const part = condition(node.part);
      return { text: `(${part.text}) IS NOT TRUE`, values: part.values };
    }
    case "scoped": {
      const part = condition(node.part);
      if (node.quantifier === "mostly") {
        const text = `(SELECT 2 * sum((${part.text}) IS TRUE) > count(*) FROM positions p WHERE p.ending_id = e.id)`;
        return { text, values: part.values };
      }
      const { exists, where, part: suffix } = WHICH[node.quantifier];
      const text = `${exists ? "" : "NOT "}EXISTS (SELECT 1 FROM positions p WHERE p.ending_id = e.id${where} AND (${part.text}) ${suffix})`;
      return { text, values: part.values };
    }
    default:
      return junction(node.kind, node.parts.map(condition));
  }
}

/** The WHERE condition of a question about endings or about positions. */
export function compileQuestion(question: Question, unit: Unit): Sql {
  return condition(unit === "ending" ? aboutEndings(question) : question);
}

/**
 * An expression for the ply of an ending's first position that the question is about, null where it is about
 * no single position.
 */
export function compileFirstPly(question: Question): Sql {
  const about = aboutEndings(question);
  const parts = about.kind === "and" ? about.parts : [about];
  const scoped = parts.find(
    (part) => part.kind === "scoped" && (part.quantifier === "mostly" || WHICH[part.quantifier].exists),
  );
  if (scoped?.kind !== "scoped") return { text: "NULL", values: [] };
  const part = condition(scoped.part);
  const where = scoped.quantifier === "mostly" ? "" : WHICH[scoped.quantifier].where;
  return {
    text: `(SELECT min(p.ply) FROM positions p WHERE p.ending_id = e.id${where} AND (${part.text}))`,
    values: part.values,
  };
}

/** Text as `fold` in SQL sees it: lower case, without accents. */
export const fold = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
