// Kinds of move: what a move does, seen from the placement before it and after it. A move is of several kinds at
// once, so that its kinds are a set: bit n stands for word n of `KINDS_OF_MOVE`. The kernel finds them
// (./portable/kinds.ts has the bits).

import { KINDS } from "../chess/material.js";

/** Every kind, with what it means. "The enemy" is the side that is not to move. */
export const KINDS_OF_MOVE = [
  { name: "king", meaning: "a move of the king" },
  ...KINDS.map((name) => ({ name, meaning: `a move of a ${name}` })),
  { name: "capture", meaning: "takes a piece" },
  { name: "check", meaning: "gives check" },
  { name: "discovered check", meaning: "gives check with a piece that did not move" },
  { name: "attack", meaning: "attacks the enemy's rook, which was not attacked before" },
  { name: "block", meaning: "a piece steps between its king and a check" },
  {
    name: "mate block",
    meaning: "a piece steps into the way of a mate that threatened, which is no mate any more",
  },
  { name: "pin", meaning: "pins an enemy piece that was not pinned before" },
  { name: "pin kept", meaning: "an enemy piece that was pinned stays so" },
  {
    name: "switch",
    meaning: "a rook goes from one side of the defender's king to the other (files of the frame)",
  },
  { name: "leaves rank", meaning: "a rook leaves its rank of the frame" },
  { name: "to corner", meaning: "the defender's king steps nearer to a corner" },
  { name: "from corner", meaning: "the defender's king steps away from the nearest corner" },
  { name: "into wedge", meaning: "the defender's king steps into the bishop's wedge" },
  { name: "out of wedge", meaning: "the defender's king steps out of the bishop's wedge" },
  {
    name: "edge switch",
    meaning: "the defender's king steps to where another edge is nearer, from which everything is then seen",
  },
] as const satisfies readonly { name: string; meaning: string }[];

/** A set of kinds: bit n is kind n of `KINDS_OF_MOVE`. */
export type KindSet = number;

/** The bit of a kind in a set. */
export const kindBit = (name: (typeof KINDS_OF_MOVE)[number]["name"]): KindSet =>
  1 << KINDS_OF_MOVE.findIndex((kind) => kind.name === name);

/** Kinds that do something: none of them is only waiting. */
export const ACTIVE_KINDS: KindSet = (["capture", "check", "attack", "block", "mate block", "pin"] as const)
  .map(kindBit)
  .reduce((all, bit) => all | bit);

/** The names of a set's kinds. */
export const kindNames = (kinds: KindSet): string[] =>
  KINDS_OF_MOVE.filter((_, n) => (kinds >> n) & 1).map(({ name }) => name);
