// Replaying the main line of a game with the rules library: what each token means as a move, and where a
// game stops being readable.

import { type Chess, castlingSide, normalizeMove } from "chessops/chess";
import { Chess as ChessGame } from "chessops/chess";
import { parseFen } from "chessops/fen";
import { parseSan } from "chessops/san";
import type { Move, NormalMove } from "chessops/types";
import { parseSquare, squareFile, squareRank } from "chessops/util";

import type { Ply } from "../../chess/units.js";
import type { Fault } from "../faults.js";
import { type MainLine, WELL_WRITTEN } from "./movetext.js";
import { type Tags, tagValue } from "./tags.js";

/** Where and why reading stopped. */
export interface Stop {
  readonly fault: Fault;
  readonly ply: Ply;
  /** Offset of the token in the movetext. */
  readonly at: number;
  readonly token: string;
}

const ROLES = { q: "queen", r: "rook", b: "bishop", n: "knight" } as const;

/** The start of a game: the FEN tag's position or the usual one; undefined if the FEN is not legal. */
export function startOf(tags: Tags): Chess | undefined {
  const fen = tagValue(tags, "FEN");
  if (fen === undefined) return ChessGame.default();
  const setup = parseFen(fen.trim());
  if (setup.isErr) return undefined;
  const position = ChessGame.fromSetup(setup.value);
  return position.isOk ? position.value : undefined;
}

/** Coordinates: e2e4, e2-e4, e7e8q, and castling as the king's move. */
function fromCoordinates(position: Chess, token: string): Move | undefined {
  const match = /^([a-h][1-8])[-x:]?([a-h][1-8])(?:=?([qrbn]))?$/i.exec(token);
  if (!match) return undefined;
  const move: NormalMove = {
    from: parseSquare(match[1].toLowerCase())!,
    to: parseSquare(match[2].toLowerCase())!,
    promotion: match[3] ? ROLES[match[3].toLowerCase() as keyof typeof ROLES] : undefined,
  };
  return legal(position, castlingSide(position, move) ? normalizeMove(position, move) : move);
}

/** Pawn captures that name two files only: "ed", "exd", "ed=Q". */
function fromTwoFiles(position: Chess, token: string): Move | undefined {
  const match = /^([a-h])x?([a-h])(?:=?([QRBN]))?$/.exec(token);
  if (!match) return undefined;
  const [from, to] = [match[1], match[2]].map((file) => file.charCodeAt(0) - 97);
  const found: NormalMove[] = [];
  for (const square of position.board.pieces(position.turn, "pawn")) {
    if (squareFile(square) !== from) continue;
    for (const target of position.dests(square)) {
      if (squareFile(target) !== to) continue;
      const last = squareRank(target) === 0 || squareRank(target) === 7;
      const promotion = last ? ROLES[(match[3] ?? "q").toLowerCase() as keyof typeof ROLES] : undefined;
      found.push({ from: square, to: target, promotion });
    }
  }
  return found.length === 1 ? found[0] : undefined;
}

const legal = (position: Chess, move: Move): Move | undefined => (position.isLegal(move) ? move : undefined);

/** The move a token of the main line means in a position; undefined if it is none. */
export function readMove(position: Chess, token: string): Move | undefined {
  const move = WELL_WRITTEN.test(token) ? parseSan(position, token) : undefined;
  if (move) return move;
  const plain = token
    .replace(/[!?+#=~]+$/, "")
    .replace(/^[0o]-[0o]-[0o]/, "O-O-O")
    .replace(/^[0o]-[0o]/, "O-O")
    .replace(/(?:ep|e\.p\.)$/, "")
    .replace(":", "x")
    .replace(/^P(?=[a-h])/, "");
  return (
    parseSan(position, plain) ??
    fromCoordinates(position, plain) ??
    fromTwoFiles(position, plain) ??
    // a promotion that does not say to what is to a queen (common practice, no source)
    (/[a-h][18]$/.test(plain) ? parseSan(position, `${plain}=Q`) : undefined)
  );
}

/**
 * Kings put on the centre squares when the game is over, which electronic boards take for moves (common practice, no
 * source: the squares tell the result). They end the game if nothing else follows.
 */
const KING_TO_CENTRE = /^Kx?[de][45][+#]?$/;

function isSettingDown(line: MainLine, ply: Ply): boolean {
  const rest = line.moves.slice(ply);
  return rest.length <= 2 && rest.every(({ text }) => KING_TO_CENTRE.test(text));
}

/**
 * Plies that are read of a game: with the rule of seventy-five moves (FIDE Laws of Chess 9.6.2) none is longer than some
 * 17,700 (a known count, from memory).
 */
export const MOST_PLIES = 20_000;

const NULL_MOVE = /^(?:--|Z0|@@@@)$/;

/** What a main line is played to: sees each position before its move, and the last one with none. */
export type Visit = (position: Chess, ply: Ply, move: Move | undefined) => void;

/**
 * Plays the main line from `position`, which is changed. `glance` may read a token sooner than the rules library does:
 * undefined where it does not. Returns where reading stopped short, if it did.
 */
export function playThrough(
  position: Chess,
  line: MainLine,
  visit: Visit,
  glance: (position: Chess, ply: Ply, token: string) => Move | undefined = () => undefined,
): Stop | undefined {
  for (let ply = 0; ply < line.moves.length; ++ply) {
    const { text, at } = line.moves[ply];
    if (ply === MOST_PLIES) {
      visit(position, ply, undefined);
      return { fault: "too-many-moves", ply, at, token: text };
    }
    const move = glance(position, ply, text) ?? readMove(position, text);
    if (!move) {
      visit(position, ply, undefined);
      if (isSettingDown(line, ply)) return undefined;
      return { fault: NULL_MOVE.test(text) ? "null-move" : "illegal-move", ply, at, token: text };
    }
    visit(position, ply, move);
    position.play(move);
  }
  const ply = line.moves.length;
  visit(position, ply, undefined);
  return line.unclosed && { fault: "unclosed", ply, at: line.unclosed.at, token: line.unclosed.text };
}
