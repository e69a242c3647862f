// Whom words are about, and what a meaning of the lexicon says for each of them.

import type { BySubject, Phrase } from "./lexicon/phrase.js";
import { SPOT, spotOf } from "./spots.js";

/** Whom words are about. */
export type Subject =
  | { readonly kind: "nobody" | "both" }
  | { readonly kind: "side"; readonly side: "attacker" | "defender" }
  | { readonly kind: "colour"; readonly colour: "white" | "black" }
  /** The name in quotes. */
  | { readonly kind: "name"; readonly name: string };

/** The subject that a category's value says. */
export function subjectOf(value: string): Subject {
  if (value === "attacker" || value === "defender") return { kind: "side", side: value };
  if (value === "white" || value === "black") return { kind: "colour", colour: value };
  return value === "both" ? { kind: "both" } : { kind: "name", name: value };
}

/**
 * Canonical form of a meaning for whom it is about; undefined where it can't be about them. `near` says that they were
 * named right before it.
 */
function bySubject(means: BySubject, subject: Subject, near: boolean): string | undefined {
  const ofSide = (side: "attacker" | "defender") => (means[side] ?? means.side)?.replaceAll("{side}", side);
  const either = (attacker: string, defender: string): string | undefined => {
    const [one, other] = [ofSide("attacker"), ofSide("defender")];
    return one === undefined || other === undefined
      ? undefined
      : `(${attacker} and ${one}) or (${defender} and ${other})`;
  };
  switch (subject.kind) {
    case "nobody":
      return means.nobody ?? ofSide("defender");
    case "both": {
      const [one, other] = [ofSide("attacker"), ofSide("defender")];
      return (
        (near ? undefined : means.together) ??
        means.both ??
        means.nobody ??
        (one !== undefined && other !== undefined ? `${one} and ${other}` : undefined)
      );
    }
    case "side":
      return ofSide(subject.side);
    case "colour": {
      const { colour } = subject;
      return means[colour] ?? either(`attacker = ${colour}`, `attacker != ${colour}`);
    }
    case "name":
      return (means.name ?? either("attacker-name ~ {name}", "defender-name ~ {name}"))?.replaceAll(
        "{name}",
        subject.name,
      );
  }
}

/** Whose move it is, for the subject, with an "and" behind it. */
export function moverText(subject: Subject): string {
  switch (subject.kind) {
    case "side":
      return `to-move = ${subject.side} and `;
    case "colour":
      return `turn = ${subject.colour} and `;
    case "name":
      return `mover ~ ${subject.name} and `;
    default:
      return "";
  }
}

/** What each side did at some moment, of moves: "both players missed a win"; undefined of anything else. */
function ofEach(means: Phrase["means"]): string | undefined {
  const of = (side: "attacker" | "defender") => {
    const said = typeof means === "string" ? means : (means[side] ?? means.side?.replaceAll("{side}", side));
    return said?.replaceAll("{mover}", `to-move = ${side} and `);
  };
  const both = typeof means === "string" ? undefined : (means.both ?? means.together);
  const texts = [of("attacker"), of("defender")];
  const ofMoves = texts.every((text, n) => text?.startsWith(`to-move = ${["attacker", "defender"][n]} and `));
  return both === undefined && ofMoves ? texts.map((text) => `somewhere (${text})`).join(" and ") : undefined;
}

/** What matters of the words around a phrase. */
export interface Around {
  /** Which of its other meanings is wanted. */
  readonly taken: number | undefined;
  /** What stands before it says how the ending was ended. */
  readonly ended: boolean;
  /** What stands before it says how the game came out. */
  readonly resulted?: boolean;
  /** Positions are spoken of, and nobody has been named. */
  readonly ofPositions: boolean;
  /** Beside it stands how the ending was ended, and "when" or "although". */
  readonly endsBeside?: boolean;
  /** Who it is about was named right before it. */
  readonly near: boolean;
}

/** Canonical form of what a phrase means where it stands; undefined where it can't be about its subject. */
export function meantBy(phrase: Phrase, subject: Subject, around: Around): string | undefined {
  if (around.taken !== undefined) return phrase.or![around.taken][0];
  if (phrase.atEnd !== undefined && around.ended) return phrase.atEnd;
  if (phrase.atResult !== undefined && (around.ended || around.resulted)) return phrase.atResult;
  if (subject.kind === "both" && around.near) {
    const each = ofEach(phrase.means);
    if (each) return each;
  }
  // "defender to move, a draw": positions are spoken of; their ranks are counted from the edge
  if (around.ofPositions && /^(?:verdict|\{piece\}-rank) = /.test(phrase.or?.[0][0] ?? ""))
    return phrase.or![0][0];
  const means =
    typeof phrase.means === "string" ? phrase.means : bySubject(phrase.means, subject, around.near);
  // "drawn when he resigned"
  return around.endsBeside ? means?.replace(/^verdict = /, "final-verdict = ") : means;
}

/**
 * What a phrase says of whoever did something, by what is so where each side did it: "players over 2500 who erred" made the
 * move.
 */
export function byEither(phrase: Phrase, doer: Readonly<Record<"attacker" | "defender", string>>): string {
  const around = { taken: undefined, ended: false, ofPositions: false, near: true };
  const of = (side: "attacker" | "defender") =>
    `(${doer[side]} and ${meantBy(phrase, subjectOf(side), around)})`;
  return `${of("attacker")} or ${of("defender")}`;
}

const MIRRORED: Readonly<Record<string, string>> = { ">": "<", "<": ">", ">=": "<=", "<=": ">=", "=": "=" };

const isAttackers = (piece: string): boolean => /^(?:attacker|bishop)/.test(piece);

/** A value as a template wants it. */
function partOf(value: string, of: string | undefined, bound: Readonly<Record<string, string>>): string {
  switch (of) {
    case undefined:
      return value;
    case "mirror":
      return String(9 - Number(value));
    case "negative": {
      const [, sign, from, to] = /^(\S+) (-?[\d.]+?)(?:\.\.(.+))?$/.exec(value)!;
      return to === undefined ? `${MIRRORED[sign]} ${-Number(from)}` : `= ${-Number(to)}..${-Number(from)}`;
    }
    case "double":
      return value.replace(/\d+(?:\.\d+)?/g, (n) => String(2 * Number(n)));
    // half-moves without a capture when so many moves are left
    case "fifty":
      return String(100 - 2 * Number(value));
    // half-moves that may have been played before a move of this number
    case "before":
      return String(2 * Number(value) - 2);
    // "more than 30" of a share is per cent
    case "share":
      return value.replace(/\d+(?:\.\d+)?/g, (n) => String(Number(n) > 1 ? Number(n) / 100 : Number(n)));
    // how far apart ratings are, whoever has the higher one
    case "apart": {
      const [, sign, from, to] = /^(\S+) ([\d.]+?)(?:\.\.(.+))?$/.exec(value)!;
      const fact = "rating-difference";
      if (to !== undefined) return `(${fact} = ${from}..${to} or ${fact} = -${to}..-${from})`;
      return `(${fact} ${value} ${sign.startsWith("<") ? "and" : "or"} ${fact} ${MIRRORED[sign]} -${from})`;
    }
    case "other":
      return value === "attacker" ? "defender" : "attacker";
    // the attacker's colour if the piece is White's, or Black's
    case "white":
      return isAttackers(value) ? "white" : "black";
    case "black":
      return isAttackers(value) ? "black" : "white";
    case "rank":
      return value[1];
    // the attacker counts ranks from the side that it comes from
    case "own":
      return isAttackers(bound.piece) ? String(9 - Number(value)) : value;
    // "at least three squares away" is the fourth rank or farther
    case "next":
      return value.replace(/\d+/g, (n) => String(Number(n) + 1));
    default:
      return value[0];
  }
}

/** A meaning with what its categories found put in, and who is to move; undefined where something is missing. */
export function filledIn(
  text: string,
  bound: Readonly<Record<string, string>>,
  subject: Subject,
): string | undefined {
  const filled = text
    .replaceAll("{mover}", moverText(subject))
    .replace(/\{([\w-]+)(?:\.([\w-]+))?\}/g, (whole, name: string, of: string | undefined) => {
      const value = bound[name] ?? (name === "name" && subject.kind === "name" ? subject.name : undefined);
      if (value === undefined) return whole;
      // where a piece stands: the piece that was named, or a certain one
      return value.startsWith(SPOT)
        ? spotOf(value.slice(SPOT.length), bound[of!] ?? of!)
        : partOf(value, of, bound);
    });
  return /\{[\w.-]+\}/.test(filled) ? undefined : filled;
}
