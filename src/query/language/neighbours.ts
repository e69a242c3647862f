// What the words beside a condition say of it: who it is about, and when.

import type { ConditionItem, Item } from "./items.js";
import type { Phrase } from "./lexicon/phrase.js";
import type { Subject } from "./meanings.js";
import { piecesInWords } from "./spoken.js";

/**
 * Whether a condition says how it stood when the ending was ended: "drawn when he resigned", "draw agreed although White was
 * winning".
 */
export function endsBeside(items: readonly Item[], item: ConditionItem, text: string): boolean {
  const before = items
    .slice(0, items.indexOf(item))
    .findLast((one) => one.kind !== "who" && !(one.kind === "condition" && saysWhichSide(one.phrase)));
  if (before?.kind === "condition" && before.phrase.end === true) {
    const between = text.slice(before.at + before.length, item.at + item.length);
    if (/\b(?:although|though|while|when|despite)\b/i.test(between)) return true;
  }
  const next = items.slice(items.indexOf(item) + 1).find(({ kind }) => kind !== "who" && kind !== "comma");
  if (next?.kind !== "condition" || next.phrase.end !== true) return false;
  // "the attacker, although he was winning, agreed to a draw"
  if (/\b(?:although|though|while|despite)\W+(?:\w+\W+){0,3}$/i.test(text.slice(0, item.at))) return true;
  if (/^(?:although|though|while|despite|even though)\b/i.test(text.slice(item.at))) return true;
  return /\bwhen\b|\bat the moment\b/i.test(text.slice(item.at + item.length, next.at));
}

/** Whether a word behind a placement asks how it stands, and not how a game came out: "king on h8, won?", "is Philidor won?". */
export function asksVerdict({ at, length }: ConditionItem, text: string): boolean {
  if (!/^\s*\?/.test(text.slice(at + length))) return false;
  return (
    /^\s*(?:is|are)\b/i.test(text) ||
    /[,;:–—-]\s*(?:(?:is|are)\s+(?:it|this|that|they)\s+)?$/i.test(text.slice(0, at))
  );
}

/** Whether a phrase says no more than which side somebody had: "with the rook alone". */
const saysWhichSide = ({ means }: Phrase): boolean =>
  typeof means !== "string" && (means.attacker ?? means.defender) === "everything";

/** Several words: "drawn from start to finish" is said of what stands before it, whatever follows. */
export const hasWords = ({ at, length }: Item, text: string): boolean =>
  text.slice(at, at + length).includes(" ");

/** Whose deed a condition tells: a side's, or of either side where something else is so. */
export type Doer = "attacker" | "defender" | Readonly<Record<"attacker" | "defender", string>>;

const MOVER = { attacker: "to-move = attacker", defender: "to-move = defender" };

/** Who does what a phrase says, where nobody is named; undefined where it is nobody's deed. */
function doerOf({ of, unsaid, means }: Phrase): Doer | undefined {
  if (of ?? unsaid) return of ?? unsaid;
  const said = typeof means === "string" ? means : (means.nobody ?? "");
  const [, side] = /^to-move = (attacker|defender) and/.exec(said) ?? [];
  if (side) return side as "attacker" | "defender";
  if (said.startsWith("{mover}")) return MOVER;
  if (typeof means === "string") return undefined;
  const { attacker, defender } = {
    attacker: means.attacker ?? means.side?.replaceAll("{side}", "attacker") ?? "",
    defender: means.defender ?? means.side?.replaceAll("{side}", "defender") ?? "",
  };
  if (attacker.startsWith(`${MOVER.attacker} and `) && defender.startsWith(`${MOVER.defender} and `))
    return MOVER;
  // "mated": where nobody is named, the defender was
  if (said !== "" && attacker !== defender && (said === attacker || said === defender))
    return said === attacker ? "attacker" : "defender";
  // "resigned": the side that did not get the point
  const how = `${said} and `;
  return /^ended-by = \w+$/.test(said) && attacker.startsWith(how) && defender.startsWith(how)
    ? { attacker: attacker.slice(how.length), defender: defender.slice(how.length) }
    : undefined;
}

/** Whom the words behind a condition are about, where it is about them too: "players under 2000 held". */
export function ownerBehind(items: readonly Item[], item: ConditionItem, text: string): Doer | undefined {
  // "rated above 2400, resigned"; but "players over 2400, blunders" names no one of them
  const said = text.slice(item.at, item.at + item.length);
  const over = /\bplayers?\b/i.test(said) ? ["quantifier"] : ["quantifier", "comma"];
  const next = items.slice(items.indexOf(item) + 1).find(({ kind }) => !over.includes(kind));
  if (next?.kind === "who" && next.subject.kind === "side") {
    // "players under 2000 on the defending side"
    return /\b(?:on|as)\b/i.test(text.slice(item.at + item.length, next.at)) ? next.subject.side : undefined;
  }
  if (next?.kind !== "condition") return undefined;
  // "players under 2200 with the bishop"
  const { means } = next.phrase;
  if (typeof means !== "string" && saysWhichSide(next.phrase))
    return means.attacker ? "attacker" : "defender";
  return doerOf(next.phrase);
}

/** What ties what stands behind it to something other than the deed before it. */
const APART = new Set<Item["kind"]>(["or", "then", "before", "after", "open", "close", "who", "by"]);

/**
 * Whose deed stands before a condition that is said of whoever did it: "resigned in a drawn position, rated above 2400"; not
 * "checks, players over 2400", who are named anew.
 */
export function ownerBefore(items: readonly Item[], item: ConditionItem, text: string): Doer | undefined {
  const said = text.slice(item.at, item.at + item.length);
  const before = text.slice(0, item.at);
  if (/^(?!(?:by|against|to)\b).*\bplayers?\b/i.test(said) && !/\bby\W+(?:an?\W+)?$/i.test(before))
    return undefined;
  for (let n = items.indexOf(item) - 1; n >= 0 && !APART.has(items[n].kind); --n) {
    const before = items[n];
    const doer = before.kind === "condition" ? doerOf(before.phrase) : undefined;
    if (doer) return doer;
  }
  return undefined;
}

/** A deed of one side only: a move of it that was right or wrong, or of some kind. */
const DEED =
  /^(?:\w+ \()?to-move = (attacker|defender) and .*(?:error|only-move|needed|keeping|(?<![\w-])kind) /;

/** Whether a condition tells a deed of the side that was not named right before it, and names none itself. */
export function isOfOtherSide(item: ConditionItem, subject: Subject, near: boolean, text: string): boolean {
  const { means } = item.phrase;
  if (!near || subject.kind !== "side" || typeof means !== "string") return false;
  const [, side] = DEED.exec(means) ?? [];
  const said = text.slice(item.at, item.at + item.length);
  return side !== undefined && side !== subject.side && !/\b(?:attack|defend|side|white|black)/i.test(said);
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
  const said = piecesInWords(text.slice(before.at, before.at + before.length)).toLowerCase();
  const { means } = before.phrase;
  const [piece] = /\b(?:rook|bishop)(?=s?\b)/.exec(said) ?? [];
  if (isOfMove(means) && /\b(?:rook|bishop|moves?)\b/.test(said)) return "move";
  if (piece === undefined || /\bking/.test(said)) return undefined;
  const { piece: one, sided, guardable } = before.bound;
  return one ?? sided ?? guardable ?? (/attacker-rook/.test(String(means)) ? "attacker-rook" : piece);
}
