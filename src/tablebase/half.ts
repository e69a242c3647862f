// A half: the wins of one side of a material against the other. It is what the kernel solves and what one
// table file holds; a material's table is its two halves.

import { type Kind, LETTERS, type Material, type Pieces, lettersOf } from "../chess/material.js";

export interface Half {
  readonly winner: Pieces;
  readonly loser: Pieces;
  /** "RB-beats-R"; also the stem of the file name. */
  readonly name: string;
  /** Pieces beside the kings. */
  readonly pieces: number;
}

/** A smaller half that a capture leads to. */
export interface SmallerHalf {
  /** Who captures: 0 the winner, 1 the loser. */
  readonly side: 0 | 1;
  /** Slot of the piece captured; slots count the winner's pieces first, then the loser's. */
  readonly slot: number;
  readonly half: Half;
}

export const halfOf = (winner: Pieces, loser: Pieces): Half => ({
  winner,
  loser,
  name: `${lettersOf(winner) || "K"}-beats-${lettersOf(loser) || "K"}`,
  pieces: winner.length + loser.length,
});

/** The material in which a half's wins are won, as it is typed: "KRBvKR". */
export const materialText = ({ winner, loser }: Half): string => `K${lettersOf(winner)}vK${lettersOf(loser)}`;

/** The half with a name made by `halfOf`. */
export function halfNamed(name: string): Half {
  const [winner, loser] = name
    .split("-beats-")
    .map((side) => (side === "K" ? [] : [...side].map((letter) => LETTERS.indexOf(letter) as Kind)));
  return halfOf(winner, loser);
}

/** Both halves of a material: the attacker's wins, then the defender's. */
export const halvesOf = (material: Material): readonly [Half, Half] => [
  halfOf(material.attacker, material.defender),
  halfOf(material.defender, material.attacker),
];

/** Pieces without the one at place `n`. */
export const without = (pieces: Pieces, n: number): Pieces => [...pieces.slice(0, n), ...pieces.slice(n + 1)];

/** The halves that captures lead to, one for each piece that can be captured. */
export function smallerHalves(half: Half): SmallerHalf[] {
  const { winner, loser } = half;
  return [
    ...winner.map((_, n) => ({ side: 1 as const, slot: n, half: halfOf(without(winner, n), loser) })),
    ...loser.map((_, n) => ({
      side: 0 as const,
      slot: winner.length + n,
      half: halfOf(winner, without(loser, n)),
    })),
  ];
}

/** Whether it is clear without solving that it cannot be won: the winner has no pieces. */
export const isEmpty = (half: Half): boolean => half.winner.length === 0;

/** All halves that solving these needs, these included, fewest pieces first; empty ones left out. */
export function neededHalves(halves: readonly Half[]): Half[] {
  const found = new Map<string, Half>();
  const visit = (half: Half) => {
    if (isEmpty(half) || found.has(half.name)) return;
    for (const smaller of smallerHalves(half)) visit(smaller.half);
    found.set(half.name, half);
  };
  halves.forEach(visit);
  return [...found.values()].sort((a, b) => a.pieces - b.pieces);
}

/** Slots whose piece is like that of the next slot of the same side, a bit for each: of equal pieces only the order of rising squares is stored. */
export const equalSlots = ({ winner, loser }: Half): number =>
  [...winner.map((kind) => `w${kind}`), ...loser.map((kind) => `l${kind}`)].reduce(
    (bits, kind, n, all) => (kind === all[n + 1] ? bits | (1 << n) : bits),
    0,
  );
