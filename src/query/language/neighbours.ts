// What the words beside a condition say of it: who it is about, and when.

import type { ConditionItem, Item } from "./items.js";

/**
 * Whether a condition says how it stood when the ending was ended: "drawn when he resigned", "draw agreed although White was
 * winning".
 */
export function endsBeside(items: readonly Item[], item: ConditionItem, text: string): boolean {
  const before = items.slice(0, items.indexOf(item)).findLast(({ kind }) => kind !== "who");
  if (before?.kind === "condition" && before.phrase.end === true) {
    const between = text.slice(before.at + before.length, item.at + item.length);
    if (/\b(?:although|though|while|when|despite)\b/i.test(between)) return true;
  }
  const next = items.slice(items.indexOf(item) + 1).find(({ kind }) => kind !== "who");
  if (next?.kind !== "condition" || next.phrase.end !== true) return false;
  return /\bwhen\b|\bat the moment\b/i.test(text.slice(item.at + item.length, next.at));
}

/** Several words: "drawn from start to finish" is said of what stands before it, whatever follows. */
export const hasWords = ({ at, length }: Item, text: string): boolean =>
  text.slice(at, at + length).includes(" ");

/** Whom the words behind a condition are about, where it is about them too: "players under 2000 held". */
export function ownerBehind(
  items: readonly Item[],
  item: ConditionItem,
  text: string,
): "attacker" | "defender" | "mover" | undefined {
  const next = items.slice(items.indexOf(item) + 1).find(({ kind }) => kind !== "quantifier");
  if (next?.kind === "who" && next.subject.kind === "side") {
    // "players under 2000 on the defending side"
    return /\b(?:on|as)\b/.test(text.slice(item.at + item.length, next.at)) ? next.subject.side : undefined;
  }
  if (next?.kind !== "condition") return undefined;
  const { of, unsaid, means } = next.phrase;
  // "players under 2200 with the bishop"
  if (typeof means !== "string" && (means.attacker ?? means.defender) === "everything")
    return means.attacker ? "attacker" : "defender";
  const said = typeof means === "string" ? means : (means.nobody ?? "");
  const side = of ?? unsaid ?? (/^to-move = (attacker|defender) and/.exec(said)?.[1] as typeof of);
  return side ?? (said.startsWith("{mover}") ? "mover" : undefined);
}

/** Kinds of condition in which a piece moves. */
const isOfMove = (means: unknown): boolean => /(?<![\w-])(?:kind|waiting-move)\b/.test(String(means));

/**
 * Which piece a place behind a condition is about: "bishop attacked on e4"; "move" where it is about a move's square; undefined
 * where it is about the king, or nothing is spoken of.
 */
export function pieceBefore(items: readonly Item[], item: ConditionItem, text: string): string | undefined {
  const before = items[items.indexOf(item) - 1];
  if (before?.kind !== "condition") return undefined;
  const said = text.slice(before.at, before.at + before.length).toLowerCase();
  const { means } = before.phrase;
  const [piece] = /\b(?:rook|bishop)(?=s?\b)/.exec(said) ?? [];
  if (isOfMove(means) && /\b(?:rook|bishop|moves?)\b/.test(said)) return "move";
  if (piece === undefined || /\bking/.test(said)) return undefined;
  const { piece: one, sided, guardable } = before.bound;
  return one ?? sided ?? guardable ?? (/attacker-rook/.test(String(means)) ? "attacker-rook" : piece);
}
