// Solves one half with the kernel.
//
// Distances are kept of the placements with the loser to move: a placement with the winner to move is won one move
// sooner than those that some move leads to, and a probe looks at these moves (src/tablebase/tables.ts). The
// result stays in the kernel's log: segments of placements, one for each metric and distance, from which planes
// (one byte per placement) are painted slice by slice. What is won with the winner to move, a bit for each placement,
// is what the iterations have left in the kernel's sets.

import { ones } from "./bits.js";
import { type Half, isEmpty, smallerHalves } from "./half.js";
import { KING_PAIRS, type Kernel, declare, newKernel, placementsOf } from "./solver-kernel.js";

export const METRICS = ["mate", "conversion"] as const;
export type Metric = (typeof METRICS)[number];
/** What is stored of a half: distances with the loser to move, and what is won with the winner to move, in bits. */
export const PLANES = [...METRICS, "wins"] as const;
export type Plane = (typeof PLANES)[number];

/** Marks placements that are not legal, in what the kernel is told of smaller halves. */
const ILLEGAL = 255;
/** No pawnless ending of five men needs more moves (the longest, B+N v N, needs 107 to mate). */
const LONGEST = 252;

export interface Segment {
  readonly metric: Metric;
  readonly turn: "winner" | "loser";
  readonly distance: number;
  readonly from: number;
  readonly to: number;
}

/** Counts of placements as they are stored: those with both kings on the long diagonal count twice. */
export interface HalfCounts {
  readonly winnerToMove: { readonly won: number; readonly legal: number };
  readonly loserToMove: { readonly lost: number; readonly legal: number };
  /** Greatest lengths with the winner to move, in moves; 0 where nothing is won. */
  readonly longestMate: number;
  readonly longestConversion: number;
}

export interface Solution {
  readonly kernel: Kernel;
  readonly segments: readonly Segment[];
  readonly counts: HalfCounts;
}

/**
 * Moves to mate of a small half with each side to move, one byte per placement: 0 not won, else the distance +
 * 1, ILLEGAL where the placement is not legal. Order: king pair, then the squares of the pieces in slot order.
 */
interface SmallValues {
  readonly winner: Uint8Array;
  readonly loser: Uint8Array;
}

/** Small halves already solved in this thread: every larger half needs some of the same. */
const solved = new Map<string, SmallValues>();

/** Solves a half of at most two men beside the kings, or the ending of bare kings. */
function smallValues(half: Half): SmallValues {
  if (half.pieces === 0) return { winner: new Uint8Array(KING_PAIRS), loser: new Uint8Array(KING_PAIRS) };
  let values = solved.get(half.name);
  if (!values)
    solved.set(
      half.name,
      (values = isEmpty(half) ? unwon(half) : valuesOf(solveHalf(half, { keepWins: true }), half)),
    );
  return values;
}

/** The values of a half in which nothing is won: what is legal, and no more. */
function unwon(half: Half): SmallValues {
  const kernel = newKernel();
  const words = declare(kernel, half);
  kernel.legal();
  const plane = (address: number) => {
    const legal = new Uint8Array(kernel.memory.buffer, address, words * 8);
    const values = new Uint8Array(placementsOf(half));
    for (let n = 0; n < values.length; ++n) values[n] = (legal[n >> 3] >> (n & 7)) & 1 ? 0 : ILLEGAL;
    return values;
  };
  // the winner's legal set comes first, the loser's right behind it
  return { winner: plane(kernel.winsAddress()), loser: plane(kernel.winsAddress() + words * 8) };
}

function valuesOf({ kernel, segments }: Solution, half: Half): SmallValues {
  const values = unwon(half);
  const log = new DataView(kernel.memory.buffer);
  for (const { metric, turn, distance, from, to } of segments) {
    if (metric !== "mate") continue;
    for (let entry = from; entry < to; entry += 12) {
      const row = log.getUint32(entry, true) * 64;
      for (const half32 of [0, 32]) {
        let bits = log.getUint32(entry + 4 + half32 / 8, true);
        for (; bits !== 0; bits &= bits - 1)
          values[turn][row + half32 + 31 - Math.clz32(bits & -bits)] = distance + 1;
      }
    }
  }
  return values;
}

export interface SolveOptions {
  /** Keep the placements with the winner to move too. */
  readonly keepWins?: boolean;
  /** Called with the distance reached. */
  readonly report?: (distance: number) => void;
}

/** A kernel that has been told of a half and of what captures lead to. */
export interface Prepared {
  readonly kernel: Kernel;
  /** Addresses of the sets asked for, one u64 a word. */
  readonly sets: readonly number[];
  readonly words: number;
  /** The longest mate, plus one, that a capture leads to. */
  readonly longestCapture: number;
}

/** Makes a kernel ready for a half; the smaller halves it needs are solved. `sets`: how many sets of placements it keeps room for. */
export function prepare(half: Half, sets = 0): Prepared {
  const smaller = smallerHalves(half).map(({ side, slot, half: one }) => ({
    side,
    slot,
    values: smallValues(one)[side === 0 ? "loser" : "winner"],
  }));
  const kernel = newKernel();
  const words = declare(kernel, half);
  let longestCapture = 0;
  for (const { side, slot, values } of smaller) {
    for (const value of values) if (value !== ILLEGAL && value > longestCapture) longestCapture = value;
    const address = kernel.addSub(side, slot);
    new Uint8Array(kernel.memory.buffer, address, values.length).set(values);
  }
  const addresses = Array.from({ length: sets }, () => kernel.addSet());
  kernel.settle();
  kernel.legal();
  return { kernel, sets: addresses, words, longestCapture };
}

/**
 * Solves a half, and all the smaller ones it needs: every placement the winner wins, with moves to mate and
 * moves to conversion (definitions in DEVELOPERS.md).
 */
export function solveHalf(half: Half, { keepWins = false, report = () => {} }: SolveOptions = {}): Solution {
  const { kernel, longestCapture } = prepare(half);
  if (keepWins) kernel.keepWins();
  const legal = [kernel.countLegal(0), kernel.countLegal(1)];

  const segments: Segment[] = [];
  const add = (
    metric: Metric,
    turn: Segment["turn"],
    distance: number,
    from: number,
    to = kernel.logTop(),
  ) => {
    const segment = { metric, turn, distance, from, to };
    segments.push(segment);
    return segment;
  };
  /** Notes what a step has logged since `from`; `middle` is where its wins ended. */
  const addStep = (metric: Metric, distance: number, from: number, middle: number) => {
    if (keepWins) add(metric, "winner", distance, from, middle);
    return add(metric, "loser", distance, keepWins ? middle : from);
  };

  const begin = kernel.logTop();
  kernel.conversionStart();
  const atOnce = add("conversion", "loser", 0, begin);
  let losses = atOnce;
  let longestConversion = 0;
  for (let distance = 1; distance <= LONGEST; ++distance) {
    const from = kernel.logTop();
    if (kernel.conversionWins(distance, losses.from, losses.to) === 0) break;
    longestConversion = distance;
    const middle = kernel.logTop();
    kernel.conversionLosses(from);
    losses = addStep("conversion", distance, from, middle);
    report(distance);
  }
  const won = kernel.countWon();
  const lostSegments = segments.filter((segment) => segment.turn === "loser");
  const lost = countLog(kernel, lostSegments);

  kernel.closeLosses();
  for (const { from, to } of lostSegments) kernel.openAgain(from, to);
  kernel.mateStart(atOnce.from, atOnce.to);
  // releases[v] is where the releases of value v end; those of v + 1 end where they begin
  const releases = new Uint32Array(kernel.memory.buffer, kernel.boundsAddress(), 256).slice();
  losses = add("mate", "loser", 0, releases[0]);
  let longestMate = 0;
  for (let distance = 1; distance <= LONGEST; ++distance) {
    const from = kernel.logTop();
    const changedWins = kernel.mateWins(distance, losses.from, losses.to);
    const middle = kernel.logTop();
    const changedLosses = kernel.mateLosses(from, releases[distance + 1], releases[distance]);
    if (changedWins > 0) longestMate = distance;
    losses = addStep("mate", distance, from, middle);
    if (changedWins + changedLosses === 0 && distance > longestCapture) break;
    report(distance);
  }
  const counts = {
    winnerToMove: { won, legal: legal[0] },
    loserToMove: { lost, legal: legal[1] },
    longestMate,
    longestConversion,
  };
  return { kernel, segments, counts };
}

/** Placements in some segments of the log. */
function countLog(kernel: Kernel, segments: readonly Segment[]): number {
  const log = new DataView(kernel.memory.buffer);
  let count = 0;
  for (const { from, to } of segments) {
    for (let entry = from; entry < to; entry += 12) {
      for (const at of [entry + 4, entry + 8]) {
        count += ones(log.getUint32(at, true));
      }
    }
  }
  return count;
}

/** Bytes of a plane painted at once. */
const SLICE = 1 << 22;

export interface Slice {
  /** Address in the kernel's memory, and bytes. */
  readonly at: number;
  readonly size: number;
  readonly firstPair: number;
  readonly pairs: number;
}

/** Paints the plane of a metric with the loser to move slice by slice, in the kernel's memory: use each before the next. */
function* paintPlane(
  { kernel, segments }: Pick<Solution, "kernel" | "segments">,
  half: Half,
  metric: Metric,
): Generator<Slice> {
  const parts = segments.filter((segment) => segment.metric === metric && segment.turn === "loser");
  const cursors = parts.map((part) => part.from);
  const pairBytes = 64 ** half.pieces;
  const pairsAtOnce = Math.max(1, Math.floor(SLICE / pairBytes));
  for (let firstPair = 0; firstPair < KING_PAIRS; firstPair += pairsAtOnce) {
    const pairs = Math.min(pairsAtOnce, KING_PAIRS - firstPair);
    const at = kernel.sliceRoom(pairs);
    parts.forEach((part, n) => {
      cursors[n] = kernel.slicePaint(at, firstPair, pairs, cursors[n], part.to, part.distance + 1);
    });
    yield { at, size: pairs * pairBytes, firstPair, pairs };
  }
}

/** A plane's slice, compressed: the blocks one behind the other, and the length of each. Views: use at once. */
export interface PackedSlice {
  readonly blocks: Uint8Array;
  readonly lengths: Uint16Array;
}

/** Puts the bits of what is won with the winner to move in the kernel's memory, slice by slice: use each before the next. */
function* sliceWins({ kernel }: Pick<Solution, "kernel">, half: Half): Generator<Slice> {
  const pairBytes = 64 ** half.pieces / 8;
  const pairsAtOnce = Math.max(1, Math.floor(SLICE / pairBytes));
  for (let firstPair = 0; firstPair < KING_PAIRS; firstPair += pairsAtOnce) {
    const pairs = Math.min(pairsAtOnce, KING_PAIRS - firstPair);
    const at = kernel.sliceRoom(pairs);
    kernel.sliceWins(at, firstPair, pairs);
    yield { at, size: pairs * pairBytes, firstPair, pairs };
  }
}

/** Compresses a plane of a solution, in blocks of so many placements, slice by slice in order. */
export function* packPlane(
  solution: Pick<Solution, "kernel" | "segments">,
  half: Half,
  plane: Plane,
  placements: number,
): Generator<PackedSlice> {
  const { kernel } = solution;
  const isBits = plane === "wins";
  const blockSize = isBits ? placements / 8 : placements;
  const slices = isBits ? sliceWins(solution, half) : paintPlane(solution, half, plane);
  for (const { at, size, firstPair } of slices) {
    const count = Math.ceil(size / blockSize);
    const lengths = at + count * blockSize;
    const packed = lengths + count * 2;
    const end = kernel.encodeBlocks(at, firstPair, count, packed, lengths, isBits ? 1 : 0);
    const { buffer } = kernel.memory;
    yield {
      blocks: new Uint8Array(buffer, packed, end - packed),
      lengths: new Uint16Array(buffer, lengths, count),
    };
  }
}
