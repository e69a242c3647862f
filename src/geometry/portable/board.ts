// The placement at hand: pieces on squares, lines between them, attacks and legal moves. One placement is looked at at a
// time, so that nothing is made anew for the next.
//
// This folder is written in the part of TypeScript that the compiler to WebAssembly takes too: whole numbers, arrays of
// them, functions. The program uses the compiled form, tests compare it with the same lines run as JavaScript.

/** Kinds of piece: the king's, then as in chess/material.ts. */
export const KING: i32 = -1;
export const QUEEN: i32 = 0;
export const ROOK: i32 = 1;
export const BISHOP: i32 = 2;
export const KNIGHT: i32 = 3;

/** The square of a piece that has been taken. */
export const OFF_BOARD: i32 = 64;
/** No piece, no square. */
export const NONE: i32 = -1;

/** Squares of the pieces: attacker's king, defender's king, attacker's pieces, defender's pieces. */
export const squares = new StaticArray<i32>(8);
/** Kind and side (0 the attacker, 1 the defender) of each piece. */
export const kinds = new StaticArray<i32>(8);
export const sides = new StaticArray<i32>(8);
export let men: i32 = 2;
/** Index of the first of the defender's pieces beside its king. */
export let firstDefender: i32 = 2;
/** The side to move. */
export let turn: i32 = 0;
/** The first piece of its side and kind; NONE where there is none. */
export let rookPiece: i32 = -1;
export let attackerRookPiece: i32 = -1;
export let bishopPiece: i32 = -1;

/** How many pieces each side has beside its king. Their kinds are set with `setKind`, then `settle` is called. */
export function setMen(attackers: i32, defenders: i32): void {
  men = 2 + attackers + defenders;
  firstDefender = 2 + attackers;
}
export function setKind(piece: i32, kind: i32): void {
  kinds[piece] = kind;
}
function firstOf(kind: i32, from: i32, to: i32): i32 {
  for (let n = from; n < to; ++n) if (kinds[n] === kind) return n;
  return NONE;
}
export function settle(): void {
  kinds[0] = KING;
  kinds[1] = KING;
  for (let n = 0; n < men; ++n) sides[n] = n === 1 || n >= firstDefender ? 1 : 0;
  rookPiece = firstOf(ROOK, firstDefender, men);
  attackerRookPiece = firstOf(ROOK, 2, firstDefender);
  bishopPiece = firstOf(BISHOP, 2, firstDefender);
}
export function setSquare(piece: i32, square: i32): void {
  squares[piece] = square;
}
export function setTurn(side: i32): void {
  turn = side;
}

/** The next square in a direction, NONE beyond the edge: directions 0–3 are a rook's, 4–7 a bishop's. */
const next = new StaticArray<i8>(65 * 8);
/** King's and knight's steps from a square: eight places, NONE behind the last. */
const kingSteps = new StaticArray<i8>(65 * 8);
const knightLeaps = new StaticArray<i8>(65 * 8);
/** Direction from a square (on the board or off it) to another if they are on one line; otherwise NO_LINE. */
const direction = new StaticArray<u8>(65 * 65);
const NO_LINE: i32 = 255;
/** King's steps between two squares; 0 where one is off the board. */
const steps = new StaticArray<u8>(65 * 65);

export function fileOf(square: i32): i32 {
  return square & 7;
}
export function rankOf(square: i32): i32 {
  return square >> 3;
}
export function absolute(n: i32): i32 {
  return n < 0 ? -n : n;
}
export function sign(n: i32): i32 {
  return n < 0 ? -1 : n > 0 ? 1 : 0;
}
export function distance(a: i32, b: i32): i32 {
  return steps[a * 65 + b];
}

function squareAt(file: i32, rank: i32): i32 {
  return file < 0 || file > 7 || rank < 0 || rank > 7 ? NONE : rank * 8 + file;
}
function fileStep(d: i32): i32 {
  return d === 0 || d === 1 ? 0 : d === 2 || d === 4 || d === 6 ? 1 : -1;
}
function rankStep(d: i32): i32 {
  return d === 2 || d === 3 ? 0 : d === 0 || d === 4 || d === 5 ? 1 : -1;
}

/** Fills the tables; called once. */
function fillTables(): void {
  direction.fill(NO_LINE as u8);
  next.fill(NONE as i8);
  kingSteps.fill(NONE as i8);
  knightLeaps.fill(NONE as i8);
  for (let s = 0; s < 64; ++s) {
    const file = fileOf(s);
    const rank = rankOf(s);
    let kingCount = 0;
    let leaps = 0;
    for (let d = 0; d < 8; ++d) {
      const step = squareAt(file + fileStep(d), rank + rankStep(d));
      next[s * 8 + d] = step as i8;
      if (step !== NONE) kingSteps[s * 8 + kingCount++] = step as i8;
      for (let t = step; t !== NONE; t = squareAt(fileOf(t) + fileStep(d), rankOf(t) + rankStep(d)))
        direction[s * 65 + t] = d as u8;
    }
    for (let t = 0; t < 64; ++t) {
      const files = absolute(file - fileOf(t));
      const ranks = absolute(rank - rankOf(t));
      steps[s * 65 + t] = (files > ranks ? files : ranks) as u8;
      if (files * ranks === 2) knightLeaps[s * 8 + leaps++] = t as i8;
    }
  }
}
fillTables();

/** Kings attack each other where they stand so. */
function isNear(a: i32, b: i32): bool {
  return a < 64 && b < 64 && steps[a * 65 + b] <= 1;
}

/** Whether some piece but `gone` stands strictly between two squares of one line. */
function isBlocked(from: i32, to: i32, gone: i32): bool {
  const row = from * 65;
  const far: i32 = steps[row + to];
  // neighbours have nothing between them
  if (far <= 1) return false;
  const d: i32 = direction[row + to];
  for (let m = 0; m < men; ++m) {
    const at = row + squares[m];
    if ((direction[at] as i32) === d && (steps[at] as i32) < far && m !== gone) return true;
  }
  return false;
}

/** Whether piece `n` (not a king) attacks `target`; piece `gone` is off the board. */
export function attacksBut(n: i32, target: i32, gone: i32): bool {
  const square = squares[n];
  const kind = kinds[n];
  if (kind === KNIGHT) {
    if (square === OFF_BOARD || target === OFF_BOARD) return false;
    const files = absolute(fileOf(square) - fileOf(target));
    return files * absolute(rankOf(square) - rankOf(target)) === 2;
  }
  const d: i32 = direction[square * 65 + target];
  if (d === NO_LINE || (kind === ROOK && d > 3) || (kind === BISHOP && d < 4)) return false;
  return !isBlocked(square, target, gone);
}
export function attacks(n: i32, target: i32): bool {
  return attacksBut(n, target, NONE);
}

/** The first and the last but one index of a side's pieces beside its king. */
export function firstOfSide(side: i32): i32 {
  return side === 0 ? 2 : firstDefender;
}
export function endOfSide(side: i32): i32 {
  return side === 0 ? firstDefender : men;
}

/** Whether the king of a side is attacked; piece `gone` is off the board. */
export function inCheckBut(side: i32, gone: i32): bool {
  const king = squares[side];
  if (isNear(king, squares[1 - side])) return true;
  const enemy = 1 - side;
  for (let n = firstOfSide(enemy); n < endOfSide(enemy); ++n)
    if (n !== gone && attacksBut(n, king, gone)) return true;
  return false;
}
export function inCheck(side: i32): bool {
  return inCheckBut(side, NONE);
}

/** Whether a side attacks a square that none of its pieces is on; its king counts. */
export function sideAttacks(side: i32, target: i32): bool {
  if (distance(squares[side], target) === 1) return true;
  for (let n = firstOfSide(side); n < endOfSide(side); ++n)
    if (squares[n] !== target && attacks(n, target)) return true;
  return false;
}

/** Lines: none, rank, file, diagonal. */
export function lineOf(a: i32, b: i32): i32 {
  if (rankOf(a) === rankOf(b)) return 1;
  if (fileOf(a) === fileOf(b)) return 2;
  return absolute(fileOf(a) - fileOf(b)) === absolute(rankOf(a) - rankOf(b)) ? 3 : 0;
}
/** Whether two squares are on one line. */
export function isInLine(a: i32, b: i32): bool {
  return direction[a * 65 + b] !== NO_LINE;
}
/** Whether two different squares are on a line with nothing between them. */
export function isClear(a: i32, b: i32): bool {
  return a !== b && direction[a * 65 + b] !== NO_LINE && !isBlocked(a, b, NONE);
}
/** Whether a square is strictly between two others of one line. */
export function isOnWay(square: i32, from: i32, to: i32): bool {
  const d: i32 = direction[from * 65 + to];
  return (
    d !== NO_LINE && direction[from * 65 + square] === d && steps[from * 65 + square] < steps[from * 65 + to]
  );
}
/** The piece on a square; NONE where there is none. */
export function pieceOn(square: i32): i32 {
  for (let n = 0; n < men; ++n) if (squares[n] === square) return n;
  return NONE;
}

/**
 * The line along which piece `n` (not a king) is pinned to its king, 0 for none: it stands alone between that king and an
 * enemy piece that moves along the line.
 */
export function pinLine(n: i32): i32 {
  const side = sides[n];
  const king = squares[side];
  const line = lineOf(king, squares[n]);
  if (line === 0 || !isClear(king, squares[n])) return 0;
  const enemy = 1 - side;
  for (let m = firstOfSide(enemy); m < endOfSide(enemy); ++m)
    if (!attacks(m, king) && attacksBut(m, king, n)) return line;
  return 0;
}

// ---------------------------------------------------------------- legal moves

/** Lists of moves, MOST_MOVES places each: the piece, its new square and the piece taken, NONE for none. */
export const MOST_MOVES: i32 = 128;
export const MOVES: i32 = 0;
export const REPLIES: i32 = 1;
export const LAST: i32 = 2;
export const OWN: i32 = 3;
export const DEFENDER: i32 = 4;
export const movePiece = new StaticArray<i32>(5 * 128);
export const moveTo = new StaticArray<i32>(5 * 128);
export const moveTaken = new StaticArray<i32>(5 * 128);
/** Moves in each list. */
export const moveCount = new StaticArray<i32>(5);

const on = new StaticArray<i32>(65);
on.fill(NONE);
let risky: bool = true;

function tryMove(side: i32, n: i32, to: i32, list: i32): void {
  const taken = on[to];
  if (taken >= 0 && (sides[taken] === side || taken < 2)) return;
  const before = squares[n];
  squares[n] = to;
  if (!risky || !inCheckBut(side, taken)) {
    const at = list * MOST_MOVES + moveCount[list];
    movePiece[at] = n;
    moveTo[at] = to;
    moveTaken[at] = taken;
    ++moveCount[list];
  }
  squares[n] = before;
}

/** Fills a list with the legal moves of a side. */
export function legalMoves(side: i32, list: i32): void {
  const checked = inCheck(side);
  moveCount[list] = 0;
  for (let n = 0; n < men; ++n) on[squares[n]] = n;
  for (let n = 0; n < men; ++n) {
    if (sides[n] !== side) continue;
    const square = squares[n];
    const kind = kinds[n];
    if (square === OFF_BOARD) continue;
    // a piece that is not pinned shields its king from nothing
    risky = checked || kind === KING || pinLine(n) !== 0;
    if (kind === KING || kind === KNIGHT) {
      for (let m = 0; m < 8; ++m) {
        const to: i32 = kind === KING ? kingSteps[square * 8 + m] : knightLeaps[square * 8 + m];
        if (to === NONE) break;
        tryMove(side, n, to, list);
      }
      continue;
    }
    const end = kind === ROOK ? 4 : 8;
    for (let d = kind === BISHOP ? 4 : 0; d < end; ++d) {
      for (let to: i32 = next[square * 8 + d]; to !== NONE; to = next[to * 8 + d]) {
        tryMove(side, n, to, list);
        if (on[to] >= 0) break;
      }
    }
  }
  for (let n = 0; n < men; ++n) on[squares[n]] = NONE;
}

/** Whether the king of a side has a legal step. */
export function canKingMove(side: i32): bool {
  const king = squares[side];
  let found = false;
  for (let m = 0; m < 8 && !found; ++m) {
    const to: i32 = kingSteps[king * 8 + m];
    if (to === NONE) break;
    const taken = pieceOn(to);
    if (taken >= 0 && (sides[taken] === side || taken < 2)) continue;
    squares[side] = to;
    found = !inCheckBut(side, taken);
    squares[side] = king;
  }
  return found;
}
/** Whether a side has a legal move. Fills a list. */
export function canMove(side: i32, list: i32): bool {
  if (canKingMove(side)) return true;
  legalMoves(side, list);
  return moveCount[list] > 0;
}

/** Plays move `n` of a list and gives the square it came from, which `takeBack` wants. */
export function play(list: i32, n: i32): i32 {
  const at = list * MOST_MOVES + n;
  const piece = movePiece[at];
  const from = squares[piece];
  squares[piece] = moveTo[at];
  if (moveTaken[at] >= 0) squares[moveTaken[at]] = OFF_BOARD;
  return from;
}
export function takeBack(list: i32, n: i32, from: i32): void {
  const at = list * MOST_MOVES + n;
  squares[movePiece[at]] = from;
  if (moveTaken[at] >= 0) squares[moveTaken[at]] = moveTo[at];
}
