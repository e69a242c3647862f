// The frame: the twin of a placement in which rank 1 is the edge nearest to the defender's king and that king is on files
// a to d (DEVELOPERS.md, definitions).

import { absolute, fileOf, firstDefender, kinds, men, OFF_BOARD, rankOf, squares } from "./board";

/** Image of a square under each of the eight symmetries (chess/squares.ts); off the board stays there. */
const images = new StaticArray<i32>(8 * 65);
function fillImages(): void {
  for (let g = 0; g < 8; ++g) {
    for (let s = 0; s < 64; ++s) {
      const flipped = s ^ ((g & 1) !== 0 ? 7 : 0) ^ ((g & 2) !== 0 ? 56 : 0);
      images[g * 65 + s] = (g & 4) !== 0 ? (flipped >> 3) | ((flipped & 7) << 3) : flipped;
    }
    images[g * 65 + OFF_BOARD] = OFF_BOARD;
  }
}
fillImages();

/** The mirror in the long diagonal. */
const MIRROR: i32 = 4;

export function image(symmetry: i32, square: i32): i32 {
  return images[symmetry * 65 + square];
}

const twin = new StaticArray<i32>(8);
const best = new StaticArray<i32>(8);

/** Puts equal pieces of a side in the order of their squares. */
function sortEqual(all: StaticArray<i32>): void {
  for (let n = 3; n < men; ++n) {
    if (n === firstDefender) continue;
    for (let m = n; m > 2 && m !== firstDefender && kinds[m - 1] === kinds[m] && all[m - 1] > all[m]; --m) {
      const square = all[m];
      all[m] = all[m - 1];
      all[m - 1] = square;
    }
  }
}

/** Whether a twin is to be preferred to the best so far. */
function isBetter(): bool {
  const lead = rankOf(twin[0]) - rankOf(twin[1]) - (rankOf(best[0]) - rankOf(best[1]));
  if (lead !== 0) return lead > 0;
  const apart = absolute(fileOf(twin[0]) - fileOf(twin[1])) - absolute(fileOf(best[0]) - fileOf(best[1]));
  if (apart !== 0) return apart < 0;
  if (twin[0] !== best[0]) return twin[0] < best[0];
  for (let n = 2; n < men; ++n) if (twin[n] !== best[n]) return twin[n] < best[n];
  return false;
}

/** The symmetry that turns the placement at hand into its frame; `sorted` receives the frame, equal pieces in order. */
export function frameSymmetry(sorted: StaticArray<i32>): i32 {
  let by = -1;
  for (let g = 0; g < 8; ++g) {
    const king = image(g, squares[1]);
    if (fileOf(king) > 3 || rankOf(king) > fileOf(king)) continue;
    for (let n = 0; n < men; ++n) twin[n] = image(g, squares[n]);
    sortEqual(twin);
    if (by >= 0 && !isBetter()) continue;
    by = g;
    for (let n = 0; n < men; ++n) best[n] = twin[n];
  }
  for (let n = 0; n < men; ++n) sorted[n] = best[n];
  return by;
}

/** Turns the placement at hand. */
export function turnBy(symmetry: i32): void {
  for (let n = 0; n < men; ++n) squares[n] = image(symmetry, squares[n]);
}

/** Whether the defender's king, in a frame, is as near to another edge. */
export function hasTwoEdges(): bool {
  return fileOf(squares[1]) === rankOf(squares[1]);
}

/** Turns a frame with two equal edges so that the other is rank 1. */
export function turnToOtherEdge(): void {
  for (let n = 0; n < men; ++n) squares[n] = image(MIRROR, squares[n]);
  sortEqual(squares);
}
