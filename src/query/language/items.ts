// What a question's words are taken for, one after another: conditions, sides, joining words; and what of it is a guess.

import type { Question } from "./ast.js";
import type { Phrase } from "./lexicon/phrase.js";
import type { JoiningKind } from "./lexicon/words.js";
import type { Subject } from "./meanings.js";
import type { Order } from "./orders.js";
import type { QueryError } from "./query-error.js";
import { piecesInWords } from "./spoken.js";
import { spotOf } from "./spots.js";

/** A word that can mean several things, and which it was taken for. */
export interface Guess {
  /** The words as they were written. */
  readonly words: string;
  readonly at: number;
  readonly length: number;
  /** What it could mean instead: a whole question, and what the words would then be about. */
  readonly other: Question;
  readonly about: string;
}

export interface Place {
  readonly at: number;
  readonly length: number;
}
export interface ConditionItem extends Place {
  readonly kind: "condition";
  readonly phrase: Phrase;
  readonly bound: Readonly<Record<string, string>>;
  readonly quantifier: string | undefined;
  /** The side whose name it begins with: "attacker lost the rook". */
  readonly side?: "attacker" | "defender" | undefined;
}
/** What a chart finds at a place of the text. */
export type Item =
  | ConditionItem
  /** With an error where it is a question that can't be answered here. */
  | (Place & {
      readonly kind: "question";
      readonly question: Question;
      readonly error?: QueryError | undefined;
    })
  /** `by`: said behind what it is about, as in "by the defender". */
  | (Place & { readonly kind: "who" | "by"; readonly subject: Subject })
  | (Place & { readonly kind: "quantifier"; readonly quantifier: string })
  | (Place & { readonly kind: "within" | "within-of" | "for"; readonly moves: number })
  /** Words that were passed over and are told. */
  | (Place & { readonly kind: "idle" })
  /** "twice": a comparison for the number of positions. */
  | (Place & { readonly kind: "times"; readonly compared: string })
  /** `moves`: at most so many later, "right after". */
  | (Place & { readonly kind: "before" | "after"; readonly moves?: number })
  | (Place & { readonly kind: Exclude<JoiningKind, "before" | "after"> });

/** Items that a condition can begin with. */
export const BEGINS = new Set<Item["kind"]>([
  "condition",
  "question",
  "who",
  "quantifier",
  "not",
  "without",
  "open",
  "within",
  "times",
]);

const says = (items: readonly Item[], means: RegExp): boolean =>
  items.some((item) => item.kind === "condition" && means.test(String(item.phrase.means)));
/** Whether an item says whose move it is. */
export const saysTurn = (items: readonly Item[]): boolean => says(items, /^(?:to-move|turn) = [\w{}]+$/);
/** Whether an item says how far the mate is, so that a win is the position's. */
export const saysDistance = (items: readonly Item[]): boolean => says(items, /^verdict = won and dt[mc] /);

/** A piece of a colour that a condition is about: "white king in the corner". */
export interface ColouredPiece {
  readonly condition: ConditionItem;
  readonly colour: "white" | "black";
  /** It can only be the attacker's: the bishop, or a king or rook that is said to be. */
  readonly isAttackers: boolean;
}

/** The piece of somebody that a condition is about: "white rook pinned", "the attacker had a passive rook". */
function pieceOf(who: Item, condition: ConditionItem, text: string): string | undefined {
  const said = piecesInWords(text.slice(condition.at, condition.at + condition.length)).toLowerCase();
  const [, first] =
    /^(?:(?:attack|defend)(?:ing|er['’]s)\s+|(?:lone|enemy)\s+)?(king|rook|bishop)\b/.exec(said) ?? [];
  if (first) return first;
  const owns = /['’]s\b|\b(?:had|has|have|having|with)\b/i.test(text.slice(who.at, condition.at));
  return owns ? /^[\p{L}-]+ (king|rook|bishop)$/u.exec(said)?.[1] : undefined;
}

/** The piece that a condition behind a colour is about; undefined where no piece is spoken of. */
export function colouredPiece(
  who: Item & { readonly subject: Subject },
  items: readonly Item[],
  text: string,
): ColouredPiece | undefined {
  const { subject } = who;
  if (subject.kind !== "colour") return undefined;
  const condition = items.find((one): one is ConditionItem => one.kind === "condition");
  const means = condition?.phrase.means;
  if (!condition || typeof means !== "string") return undefined;
  const piece = pieceOf(who, condition, text);
  if (!piece) return undefined;
  const isAttackers =
    piece === "bishop" || /attacker-(?:king|rook)/.test([means, ...Object.values(condition.bound)].join(" "));
  return { condition, colour: subject.colour, isAttackers };
}

/** The attacker's colour by one piece: king and rook are taken for the defender's. */
export const attackersColour = ({ colour, isAttackers }: ColouredPiece): "white" | "black" =>
  isAttackers === (colour === "white") ? "white" : "black";

/**
 * The colours that the attacker may have by the colours of the pieces that are spoken of. The bishop is the attacker's; king
 * and rook are the defender's, unless both colours' are spoken of: then either may be. Empty where no piece has a colour.
 */
export function attackersColours(items: readonly Item[], text: string): readonly ("white" | "black")[] {
  const pieces: ColouredPiece[] = [];
  const said = new Set<"white" | "black">();
  items.forEach((item, n) => {
    if (item.kind === "condition") {
      const [, colour] = /^attacker = (white|black)$/.exec(String(item.phrase.means)) ?? [];
      if (colour) said.add(colour as "white" | "black");
    }
    if (item.kind !== "who" || item.subject.kind !== "colour") return;
    const piece = colouredPiece(item, items.slice(n + 1, n + 3), text);
    if (piece) pieces.push(piece);
    // "White has the bishop"
    const next = items[n + 1];
    const means = next?.kind === "condition" ? next.phrase.means : undefined;
    const [, colour] =
      /^attacker = (white|black)$/.exec(
        typeof means === "object" ? (means[item.subject.colour] ?? "") : "",
      ) ?? [];
    if (colour) said.add(colour as "white" | "black");
  });
  if (pieces.length === 0) return [];
  for (const { colour, isAttackers } of pieces) if (isAttackers) said.add(colour);
  if (said.size > 0) return [...said].slice(0, 1);
  const colours = [...new Set(pieces.map(attackersColour))];
  // "white king on a1 or black king on a8": each speaks of the defender's
  return colours.length > 1 && items.some(({ kind }) => kind === "or") ? [] : colours;
}

/** Whether whom it is about changes what a condition means. */
export const asksWho = ({ means }: Phrase): boolean => typeof means !== "string" || means.includes("{mover}");

/** Kinds of items over which "by the attacker" reaches back to what was done. */
const REACHED_OVER = new Set<Item["kind"]>(["condition", "with", "quantifier"]);

/** The same items, where "by the attacker" stands behind what was done: "error in the Philidor by the attacker". */
export function withOwnersInPlace(items: readonly Item[]): readonly Item[] {
  const placed: Item[] = [];
  for (const item of items) {
    let to = placed.length;
    if (item.kind === "by") {
      while (to > 0 && REACHED_OVER.has(placed[to - 1].kind)) {
        const before = placed[to - 1];
        if (before.kind === "condition" && asksWho(before.phrase)) break;
        --to;
      }
      if (to === 0 || placed[to - 1].kind !== "condition") to = placed.length;
    }
    placed.splice(to, 0, item);
  }
  return placed;
}

/** Whether a condition behind the attacker is about a piece that both sides have: "attacker's rook unprotected". */
export function isAttackersPiece(
  who: Item & { readonly subject: Subject },
  item: Item | undefined,
  text: string,
): boolean {
  const { subject } = who;
  if (subject.kind !== "side" || subject.side !== "attacker" || item?.kind !== "condition") return false;
  return /^(?:rook|king)$/.test(pieceOf(who, item, text) ?? "") && hasTwin(item);
}

/** Whether a condition is about a piece of the defender's that the attacker has too. */
const hasTwin = ({ phrase: { means }, bound }: ConditionItem): boolean =>
  typeof means === "string" &&
  (/(?<![\w-])(?:rook|king|corner)-/.test(means) ||
    Object.values(bound).some((value) => /^(?:rook|king)$/.test(value)));

/** Whether a condition begins with "his king" or "its rook", and both sides have one of which it can be said. */
export function saysOwnPiece(item: ConditionItem, text: string): boolean {
  if (!hasTwin(item)) return false;
  // a move of it is the mover's
  if (/(?<![\w-])(?:kind|needed|holding|possible)\b/.test(String(item.phrase.means))) return false;
  const said = text.slice(item.at, item.at + item.length);
  const before = text.slice(0, item.at);
  return /^(?:king|rook)\b/i.test(said)
    ? /\b(?:his|her|its|their|whose)\s+(?:own\s+)?$/i.test(before)
    : /^(?:his|her|its|their|whose)\s+(?:own\s+)?(?:king|rook)\b/i.test(said);
}

/** Places that are a fact of the defender's king, and squares for the attacker's. */
const [CORNER, EDGE] = ["corner", "edge"].map((place) => spotOf(place, "attacker-king"));

/** A condition about the defender's rook or king, said of the attacker's; facts that the attacker has not stay unknown. */
export const ofAttackers = (means: string): string =>
  means === "king-rank = 1"
    ? EDGE
    : means
        .replaceAll("corner-steps = 0", CORNER)
        .replace(/(?<![\w-])(?=(?:rook|king|corner)-)/g, "attacker-");

/** The same pieces of the attacker, where categories found the defender's. */
export const attackersPieces = (bound: ConditionItem["bound"]): ConditionItem["bound"] =>
  Object.fromEntries(
    Object.entries(bound).map(([name, value]) => [
      name,
      /^(?:rook|king)$/.test(value) ? `attacker-${value}` : value,
    ]),
  );

/** The order of the answers that some items ask for: "the longest". */
export const orderIn = (items: readonly Item[]): Order | undefined =>
  items.flatMap((item) => (item.kind === "condition" && item.phrase.order ? [item.phrase.order] : []))[0];

/** A place among items, which moves on as they are read. */
export class ItemCursor {
  protected p = 0;

  constructor(protected readonly items: readonly Item[]) {}

  /** The kind of the item that comes next. */
  protected get kind(): Item["kind"] | undefined {
    return this.items[this.p]?.kind;
  }

  /** Passes over an item of some kind, if it comes next. */
  protected next(kind: Item["kind"]): boolean {
    if (this.kind !== kind) return false;
    ++this.p;
    return true;
  }

  /** Whether a quantifier before this place belongs to what stands before it, and not to what follows. */
  protected endsHere(place: number): boolean {
    const kind = this.items[place]?.kind;
    return kind === undefined || !BEGINS.has(kind);
  }
}
