// The material filter (AssemblyScript): of the games that hold enough captures, those that can reach the target.
//
// The game is played on the board up to the capture that leaves fewer men than the target has. Everything that is not
// plainly a move lets the game through, to be read in full.

import { BLACK, count, material, pieceOf, play, setBoard, weight } from "./board";
import { next, setMovetext } from "./tokens";

/** Of a material, see `weight`: the highest bit of each kind, and the bits of both sides' pawns. */
const HIGH_BITS: u64 = 0x820820820820820;
const PAWNS: u64 = 0xfc000003f;

/** Men of the target, and its material with White and with Black as the attacker. */
let targetMen: i32 = 0;
let whiteAttacks: u64 = 0;
let blackAttacks: u64 = 0;

/** Begins another target; then its pieces are to be added. */
export function clearTarget(): void {
  targetMen = 0;
  whiteAttacks = 0;
  blackAttacks = 0;
}

/** Adds a piece of the target, by its letter in SAN, kings included. */
export function addPiece(letter: i32, isAttacker: bool): void {
  const piece = pieceOf(<u8>letter);
  ++targetMen;
  whiteAttacks += weight(isAttacker ? piece : piece + BLACK);
  blackAttacks += weight(isAttacker ? piece + BLACK : piece);
}

/** Begins to play a movetext from a start as `setBoard` has it; false if that cannot be followed. */
export function begin(from: i32, to: i32, fen: i32): bool {
  setMovetext(from, to);
  return setBoard(fen);
}

const PLAYED: i32 = 1;
const ENDED: i32 = 0;
const NOT_FOLLOWED: i32 = -1;

/** Whether no kind of piece but pawns is on the board in greater number than in a material. */
@inline function isWithin(whole: u64): bool {
  return (((whole | HIGH_BITS) - (material & ~PAWNS)) & HIGH_BITS) == HIGH_BITS;
}

/** Plays the next move: 1 if that was done, 0 if there is none, -1 if it cannot be followed. */
export function playNext(): i32 {
  if (!next()) return ENDED;
  return play() ? PLAYED : NOT_FOLLOWED;
}

/**
 * Whether the game whose movetext is from `from` to `to` may reach the target; false only where it certainly does
 * not. It starts from the FEN at `fen` or, where that is 0, as usual.
 */
export function mayReach(from: i32, to: i32, fen: i32): bool {
  if (!begin(from, to, fen)) return true;
  for (let step = PLAYED; step != ENDED; step = playNext()) {
    if (step == NOT_FOLLOWED) return true;
    if (count > targetMen) continue;
    if (count < targetMen) return false;
    if (material == whiteAttacks || material == blackAttacks) return true;
    // with so many men only a promotion can still bring the target about
    if (!isWithin(whiteAttacks) && !isWithin(blackAttacks)) return false;
  }
  return false;
}
