// Questions that nothing can meet, since two things are asked of a game of which it has but one.

import type { Question } from "./ast.js";

/** Ways of ending that are draws. */
const DRAWN_ENDS = new Set(["stalemate", "agreed", "fifty moves", "repetition"]);

/** Whether nothing can meet a question, since a game is to be drawn and not, or ends in two ways: "won, draw agreed". */
export function isContradictory(node: Question): boolean {
  if (node.kind !== "and") return false;
  const together = (one: Question): readonly Question[] =>
    one.kind === "and" ? one.parts.flatMap(together) : [one];
  const parts = together(node);
  const saidOf = (fact: string) =>
    parts.flatMap((one) =>
      one.kind === "compare" && one.operator === "=" && one.fact.name === fact ? [String(one.value)] : [],
    );
  if (["verdict", "outcome", "defender-result"].some((fact) => new Set(saidOf(fact)).size > 1)) return true;
  const said = (fact: string, value: (text: string) => boolean) => saidOf(fact).some(value);
  const decided =
    said("outcome", (value) => value === "lost") || said("result", (value) => /^[01]-/.test(value));
  // "won on the flag" where the flag is the winner's own
  if (said("outcome", (value) => value === "lost") && said("defender-result", (value) => value !== "lost"))
    return true;
  // a game that ends with a capture ends in no other way
  if (said("captured", () => true) && said("ended-by", (value) => value !== "capture")) return true;
  return (
    decided &&
    (said("ended-by", (value) => DRAWN_ENDS.has(value)) ||
      said("defender-result", (value) => value === "drew"))
  );
}
