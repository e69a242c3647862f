// Solves one half with the kernel. The result stays in the kernel's log: segments of placements, one for each
// metric, side to move and distance, from which planes (one byte per placement) are painted slice by slice.

import { type Half, isEmpty, smallerHalves } from "./half.js";
import { KING_PAIRS, type Kernel, declare, newKernel, placementsOf } from "./kernel.js";

export const METRICS = ["mate", "conversion"] as const;
export type Metric = (typeof METRICS)[number];
/** Who is to move: the half's winner or its loser. */
export const TURNS = ["winner", "loser"] as const;
export type Turn = (typeof TURNS)[number];

/** Plane bytes: 0 where the winner does not win, else the distance in moves plus one. */
export const NOT_WON = 0;
/** A plane handed to the kernel marks placements that are not legal. */
const ILLEGAL = 255;
/** No pawnless ending of five men needs more moves (the longest, B+N v N, needs 107 to mate). */
const LONGEST = 252;

interface Segment {
  readonly metric: Metric;
  readonly turn: Turn;
  readonly distance: number;
  readonly from: number;
  readonly to: number;
}

export interface Solution {
  readonly kernel: Kernel;
  readonly words: number;
  readonly segments: readonly Segment[];
}

/** A smaller half's values with one side to move, as its planes hold them: see `smallerPlane`. */
export type PlaneReader = (half: Half, metric: Metric, turn: Turn) => Uint8Array;

/** The values a capture leads to: a moves-to-mate plane in which placements that are not legal are marked. */
function smallerPlane(half: Half, turn: Turn, read: PlaneReader): Uint8Array {
  if (half.men === 0) return new Uint8Array(KING_PAIRS);
  const plane = isEmpty(half) ? new Uint8Array(placementsOf(half)) : read(half, "mate", turn).slice();
  const kernel = newKernel();
  const words = declare(kernel, half);
  kernel.legal();
  // the winner's legal set comes first, the loser's right behind it
  const offset = turn === "winner" ? 0 : words * 8;
  const legal = new Uint8Array(kernel.memory.buffer, kernel.winsAddress() + offset, words * 8);
  for (let n = 0; n < plane.length; ++n) {
    if (!((legal[n >> 3] >> (n & 7)) & 1)) plane[n] = ILLEGAL;
  }
  return plane;
}

/**
 * Solves a half: every placement the winner wins, with moves to mate and moves to conversion (definitions in
 * DEVELOPERS.md). `read` gives the planes of the smaller halves, which must have been solved. `report` is
 * called with the distance reached.
 */
export function solveHalf(
  half: Half,
  read: PlaneReader,
  report: (distance: number) => void = () => {},
): Solution {
  const kernel = newKernel();
  const words = declare(kernel, half);
  let longestCapture = 0;
  for (const smaller of smallerHalves(half)) {
    const plane = smallerPlane(smaller.half, smaller.side === 0 ? "loser" : "winner", read);
    for (const value of plane) if (value !== ILLEGAL && value > longestCapture) longestCapture = value;
    const address = kernel.addSub(smaller.side, smaller.slot);
    new Uint8Array(kernel.memory.buffer, address, plane.length).set(plane);
  }
  kernel.settle();
  kernel.legal();

  const segments: Segment[] = [];
  const add = (metric: Metric, turn: Turn, distance: number, from: number) => {
    const segment = { metric, turn, distance, from, to: kernel.logTop() };
    segments.push(segment);
    return segment;
  };

  const begin = kernel.logTop();
  kernel.conversionStart();
  let losses = add("conversion", "loser", 0, begin);
  const atOnce = losses;
  for (let distance = 1; distance <= LONGEST; ++distance) {
    if (kernel.conversionWins(distance, losses.from, losses.to) === 0) break;
    const wins = add("conversion", "winner", distance, losses.to);
    kernel.conversionLosses(wins.from, wins.to);
    losses = add("conversion", "loser", distance, wins.to);
    report(distance);
  }

  kernel.clearOpen();
  for (const { from, to, turn } of segments) kernel.openAgain(from, to, turn === "winner" ? 0 : 1);
  kernel.mateStart(atOnce.from, atOnce.to);
  // releases[v] is where the releases of value v end; those of v + 1 end where they begin
  const releases = new Uint32Array(kernel.memory.buffer, kernel.boundsAddress(), 256).slice();
  losses = add("mate", "loser", 0, releases[0]);
  for (let distance = 1; distance <= LONGEST; ++distance) {
    const won = kernel.mateWins(distance, losses.from, losses.to);
    const wins = add("mate", "winner", distance, losses.to);
    const lost = kernel.mateLosses(wins.from, wins.to, releases[distance + 1], releases[distance]);
    if (won + lost === 0 && distance > longestCapture) break;
    losses = add("mate", "loser", distance, wins.to);
    report(distance);
  }
  kernel.legal();
  return { kernel, words, segments: segments.filter((s) => s.to > s.from) };
}

/** Placements in one plane: won ones by distance included, and all legal ones. */
export interface PlaneCount {
  readonly won: number;
  readonly legal: number;
  readonly longest: number;
}

/**
 * Paints a plane from the first placement to the last, and hands it on in slices of at most `sliceWords` × 64
 * bytes. A slice is a view into the kernel's memory: copy or use it before the next one.
 */
export async function paintPlane(
  solution: Solution,
  metric: Metric,
  turn: Turn,
  sliceWords: number,
  use: (slice: Uint8Array) => Promise<void>,
): Promise<PlaneCount> {
  const { kernel, words } = solution;
  const parts = solution.segments.filter((s) => s.metric === metric && s.turn === turn);
  const cursors = parts.map((part) => part.from);
  let won = 0;
  let legal = 0;
  for (let first = 0; first < words; first += sliceWords) {
    const count = Math.min(sliceWords, words - first);
    const out = kernel.sliceRoom(count);
    kernel.sliceClear(out, count);
    parts.forEach((part, n) => {
      cursors[n] = kernel.slicePaint(out, first, count, cursors[n], part.to, part.distance + 1);
    });
    won += kernel.takeCount();
    kernel.sliceFill(out, first, count, turn === "winner" ? 0 : 1);
    legal += kernel.takeCount();
    await use(new Uint8Array(kernel.memory.buffer, out, count * 64));
  }
  return { won, legal, longest: parts.reduce((most, part) => Math.max(most, part.distance), 0) };
}
