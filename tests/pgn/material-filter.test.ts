// The material filter and the kernel's board against the rules library: on random games, however they are dressed up or
// spoilt, no game that reaches a target is rejected, and the board is the same after every move.

import { Chess } from "chessops/chess";
import { makeFen, parseFen } from "chessops/fen";
import { makeSanAndPlay } from "chessops/san";
import type { Move } from "chessops/types";
import { describe, expect, it } from "vitest";

import { type Material, parseMaterial } from "../../src/chess/material.js";
import { randomNumbers } from "../../src/chess/random.js";
import { SpanCollector } from "../../src/endings/spans.js";
import { readMainLine } from "../../src/pgn/game/movetext.js";
import { playThrough, startOf } from "../../src/pgn/game/replay.js";
import { readTags, variantOf } from "../../src/pgn/game/tags.js";
import type { GameBounds } from "../../src/pgn/scan/game-bounds.js";
import { findGames } from "../../src/pgn/scan/game-finder.js";
import { mayReach } from "../../src/pgn/scan/material-filter.js";
import { theKernel } from "../../src/pgn/scan/scan-kernel.js";

const TARGETS = ["R+B v R", "R v R", "Q v R", "R v B", "R v K", "Q v K", "B v N", "B+N v K", "Q v Q"].map(
  parseMaterial,
);
const FENS = [
  "r3k2r/pppppppp/8/8/8/8/PPPPPPPP/R3K2R w KQkq - 0 1",
  "bnrbnkrq/pppppppp/8/8/8/8/PPPPPPPP/BNRBNKRQ w KQkq - 0 1",
  "4k3/P6p/8/2r5/3B4/8/p5RP/4K3 b - - 0 1",
  "8/8/3k4/2r5/3BR3/3K4/8/8 w - - 0 1",
  "1n2k1n1/8/8/8/3R4/8/8/R3K1N1 w - - 3 40",
];

interface Played {
  readonly fen: string | undefined;
  readonly sans: readonly string[];
}

/** A game of random moves that takes what it can and runs its pawns. */
function randomGame(random: () => number): Played {
  const fen = random() < 0.4 ? FENS[Math.floor(random() * FENS.length)] : undefined;
  const position = fen ? Chess.fromSetup(parseFen(fen).unwrap()).unwrap() : Chess.default();
  const greed = random();
  const sans: string[] = [];
  while (sans.length < 260 && !position.isEnd() && position.board.occupied.size() > 2) {
    const moves: Move[] = [];
    for (const [from, targets] of position.allDests())
      for (const to of targets) {
        const pawn = position.board.pawn.has(from);
        const promotion = pawn && (to >> 3 === 0 || to >> 3 === 7);
        const roles = promotion ? (["queen", "rook", "bishop", "knight"] as const) : [undefined];
        for (const role of roles) moves.push({ from, to, promotion: role });
      }
    const captures = moves.filter(({ to }) => position.board.occupied.has(to));
    const pool = captures.length > 0 && random() < greed ? captures : moves;
    sans.push(makeSanAndPlay(position, pool[Math.floor(random() * pool.length)]));
  }
  return { fen, sans };
}

/** The game with comments, side lines and marks, as annotators leave it. */
function dressed({ fen, sans }: Played, random: () => number): string {
  let text = `[Event "Tarn Cup"]\n[White "A"]\n[Black "B"]\n${fen ? `[SetUp "1"]\n[FEN "${fen}"]\n` : ""}\n`;
  const style = random();
  const noughts = random() < 0.3;
  sans.forEach((san, n) => {
    if (noughts) san = san.replaceAll("O", "0");
    if (n % 2 === 0 || random() < 0.1) text += `${Math.floor(n / 2) + 1}${random() < 0.5 ? ". " : "."}`;
    text += san;
    if (style > 0.5) {
      if (random() < 0.1) text += "!?";
      if (random() < 0.1) text += " $14";
      if (random() < 0.1) text += " {better was Qxe5 (or Rxa1)}";
      if (random() < 0.1) text += ` (${n}... Kxe4 {so [%clk 0:01:00]} (2. Nxd4) Rxf1)`;
      if (random() < 0.05) text += [" D", " +=", " +-", " with", " \u00b1"][Math.floor(random() * 5)];
      if (random() < 0.03) text += " ; and now Qxf7\n";
    }
    text += random() < 0.2 ? "\n" : " ";
  });
  return `${text}${["1/2-1/2", "1-0", "*", ""][Math.floor(random() * 4)]}\n\n`;
}

function gamesOf(bytes: Uint8Array): GameBounds[] {
  const games: GameBounds[] = [];
  findGames(bytes, (game) => games.push({ ...game }));
  return games;
}

/** The game's start and main line, as the rules library is to play them; undefined if its start is none. */
function lineOf(bytes: Uint8Array, { start, text, end }: GameBounds) {
  const tags = readTags(bytes.subarray(start, text));
  const position = variantOf(tags.get("Variant")) === "other" ? undefined : startOf(tags);
  const line = readMainLine(Buffer.from(bytes.subarray(text, end)).toString("latin1"));
  return position && { position, line };
}

/** Which of the targets the rules library finds in a game. */
function reached(bytes: Uint8Array, game: GameBounds): Material[] {
  const found = lineOf(bytes, game);
  if (!found) return [];
  const collectors = TARGETS.map((target) => new SpanCollector(target));
  playThrough(found.position, found.line, (at, ply, move) => {
    if (at.board.occupied.size() <= 5) for (const one of collectors) one.visit(at, ply, move);
  });
  return TARGETS.filter((_, n) => collectors[n].spans.length > 0);
}

/** Turns a game into one that no longer is quite one. */
function spoilt(text: string, random: () => number): string {
  const at = () => Math.floor(random() * text.length);
  for (let n = Math.floor(random() * 4); n > 0; --n) {
    const place = at();
    const odd = [
      "(",
      ")",
      "{",
      "}",
      "[",
      ";",
      "%",
      "$",
      "x",
      ":",
      "O-O",
      "e8=Q(",
      "1-0",
      "*",
      "\n%",
      "e.p.",
      "\0",
      "Q",
      "\u00bd-\u00bd",
      "--",
    ];
    const length = Math.floor(random() * 3);
    text = text.slice(0, place) + odd[Math.floor(random() * odd.length)] + text.slice(place + length);
  }
  return text;
}

describe("the material filter", () => {
  /** How often a target is reached and how often a game is let through, in games of a kind. */
  function filtered(count: number, seed: number, textOf: (random: () => number) => string) {
    const random = randomNumbers(seed);
    const sum = { reached: 0, through: 0, asked: 0, fromFen: 0 };
    for (let n = 0; n < count; ++n) {
      const text = textOf(random);
      const bytes = new Uint8Array(Buffer.from(text, "latin1"));
      for (const game of gamesOf(bytes)) {
        const found = reached(bytes, game);
        const through = TARGETS.filter((target) => mayReach(bytes, game, target));
        for (const target of found)
          if (!through.includes(target)) expect.fail(`${target.name} rejected in: ${text}`);
        sum.reached += found.length;
        sum.through += through.length;
        sum.asked += TARGETS.length;
        if (game.fen >= 0) sum.fromFen += found.length;
      }
    }
    return sum;
  }

  it("rejects no game that reaches a target, and most of the others", () => {
    const sum = filtered(1200, 20261125, (random) => dressed(randomGame(random), random));
    expect(sum.asked).toBe(1200 * TARGETS.length);
    expect(sum.fromFen).toBeGreaterThan(50);
    expect(sum.reached - sum.fromFen).toBeGreaterThan(50);
    expect(sum.through).toBeLessThan(1.5 * sum.reached);
  });

  it("rejects no spoilt game that reaches a target, however it is read", () => {
    const sum = filtered(1500, 20261126, (random) => spoilt(dressed(randomGame(random), random), random));
    expect(sum.fromFen).toBeGreaterThan(50);
    expect(sum.reached - sum.fromFen).toBeGreaterThan(50);
    expect(sum.through).toBeLessThan(sum.asked / 2);
  });
});

describe("the kernel's board", () => {
  it("is that of the rules library after every move of 1,000 random games", () => {
    const random = randomNumbers(4711);
    const kernel = theKernel();
    const { exports } = kernel;
    let moves = 0;
    for (let n = 0; n < 1000; ++n) {
      const bytes = new Uint8Array(Buffer.from(dressed(randomGame(random), random), "latin1"));
      const [game] = gamesOf(bytes);
      const fen = game.fen < 0 ? 0 : kernel.address(game.fen);
      expect(exports.begin(kernel.address(game.text), kernel.address(game.end), fen)).toBe(1);
      const board = new Uint8Array(exports.memory.buffer, exports.boardAddress(), 128);
      const { position, line } = lineOf(bytes, game)!;
      playThrough(position, line, (at, _, move) => {
        for (let square = 0; square < 64; ++square) {
          const piece = at.board.get(square);
          const role = piece
            ? 1 + ["pawn", "knight", "bishop", "rook", "queen", "king"].indexOf(piece.role)
            : 0;
          const wanted = piece?.color === "black" ? role + 8 : role;
          if (board[(square >> 3) * 16 + (square & 7)] !== wanted)
            expect.fail(`square ${square} of ${makeFen(at.toSetup())}`);
        }
        expect(exports.playNext()).toBe(move ? 1 : 0);
        if (move) ++moves;
      });
    }
    expect(moves).toBeGreaterThan(50_000);
  });

  it("moves the one of two pieces that is not pinned", () => {
    const fen = "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1";
    const kernel = theKernel();
    kernel.load(new Uint8Array(Buffer.from(`${fen} 1. Ne2`, "latin1")));
    const start = kernel.address(0);
    kernel.exports.begin(start + fen.length, start + fen.length + " 1. Ne2".length, start);
    expect(kernel.exports.playNext()).toBe(1);
    const board = new Uint8Array(kernel.exports.memory.buffer, kernel.exports.boardAddress(), 128);
    // c3, g1, e2
    expect([board[0x22], board[0x06], board[0x14]]).toEqual([2, 0, 2]);
  });

  it.each([
    ["a placement that is none", "8/8/8/8/8/8/8/4K2k1 w - - 0 1"],
    ["too few ranks", "4k3/8/8/4K3 w - - 0 1"],
    ["nobody to move", "4k3/8/8/8/8/8/8/4K3"],
    ["a piece that is none", "4k3/8/8/8/8/8/8/4K2x w - - 0 1"],
  ])("is not set up from %s", (_, fen) => {
    const kernel = theKernel();
    kernel.load(new Uint8Array(Buffer.from(fen, "latin1")));
    const start = kernel.address(0);
    expect(kernel.exports.begin(start, start, start)).toBe(0);
  });

  it.each([
    ["a move that no piece can make", "1. Ne5"],
    [
      "a move that two can make",
      "1. Nf3 a6 2. Nd4 a5 3. Nc3 a4 4. Ndb5 a3 5. Nb1 h6 6. Nc3 h5 7. Nd5 h4 8. Nc3",
    ],
    ["a capture of nothing", "1. Nxf3"],
    ["a word", "1. and"],
    ["a comment that never closes", "1. e4 {so"],
  ])("does not follow %s", (_, text) => {
    const kernel = theKernel();
    kernel.load(new Uint8Array(Buffer.from(text, "latin1")));
    kernel.exports.begin(kernel.address(0), kernel.address(text.length), 0);
    let step: number;
    do step = kernel.exports.playNext();
    while (step === 1);
    expect(step).toBe(-1);
  });
});
