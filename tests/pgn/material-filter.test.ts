// The cut and the lean replay against the rules library: on random games, however they are dressed up, no ending is
// let go, and the pieces on the board are the same after every move.

import { Chess } from "chessops/chess";
import { makeFen, parseFen } from "chessops/fen";
import { makeSanAndPlay } from "chessops/san";
import type { Move } from "chessops/types";
import { describe, expect, it } from "vitest";

import { lettersOf, parseMaterial } from "../../src/chess/material.js";
import { randomNumbers } from "../../src/chess/random.js";
import { SpanCollector } from "../../src/endings/spans.js";
import { filterTarget, mayHold, mayHoldPlain } from "../../src/pgn/scan/material-filter.js";
import { type GameBounds, findGames, mayReach } from "../../src/pgn/scan/game-finder.js";
import type { FilterTarget } from "../../src/pgn/scan/scan-kernel.js";
import { LeanBoard, menNumber } from "../../src/pgn/scan/lean.js";
import { readMainLine } from "../../src/pgn/game/movetext.js";
import { playThrough, startOf } from "../../src/pgn/game/replay.js";
import { readTags } from "../../src/pgn/game/tags.js";
import { Words } from "../../src/pgn/scan/words.js";

const TARGETS = ["R+B v R", "R v R", "Q v R", "R v B", "R v K", "Q v K", "B v N", "B+N v K", "Q v Q"].map(
  parseMaterial,
);
const FENS = [
  "r3k2r/pppppppp/8/8/8/8/PPPPPPPP/R3K2R w KQkq - 0 1",
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

/** The score with comments, side lines and marks, as annotators leave it. */
function dressed({ fen, sans }: Played, random: () => number): string {
  let text = `[Event "Tarn Cup"]\n[White "A"]\n[Black "B"]\n${fen ? `[SetUp "1"]\n[FEN "${fen}"]\n` : ""}\n`;
  const style = random();
  sans.forEach((san, n) => {
    if (n % 2 === 0 || random() < 0.1) text += `${Math.floor(n / 2) + 1}${random() < 0.5 ? ". " : "."}`;
    text += san;
    if (style > 0.5) {
      if (random() < 0.1) text += "!?";
      if (random() < 0.1) text += " $14";
      if (random() < 0.1) text += " {better was Qxe5 (or Rxa1)}";
      if (random() < 0.1) text += ` (${n}... Kxe4 {so [%clk 0:01:00]} (2. Nxd4) Rxf1)`;
      if (random() < 0.03) text += " ; and now Qxf7\n";
    }
    text += random() < 0.2 ? "\n" : " ";
  });
  return `${text}${["1/2-1/2", "1-0", "*", ""][Math.floor(random() * 4)]}\n\n`;
}

function onlySpan(bytes: Uint8Array): GameBounds {
  const spans: GameBounds[] = [];
  findGames(bytes, (span) => spans.push({ ...span }));
  expect(spans).toHaveLength(1);
  return spans[0];
}

/** Whether the rules library finds the material in a game. */
function holds(bytes: Uint8Array, span: GameBounds, material: (typeof TARGETS)[number]): boolean {
  const position = startOf(readTags(bytes.subarray(span.start, span.text)))!;
  const line = readMainLine(Buffer.from(bytes.subarray(span.text, span.end)).toString("latin1"));
  const collector = new SpanCollector(material, line.clocks);
  playThrough(position, line, (at, ply, move) => collector.visit(at, ply, move));
  return collector.spans.length > 0;
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
    ];
    const length = Math.floor(random() * 3);
    text = text.slice(0, place) + odd[Math.floor(random() * odd.length)] + text.slice(place + length);
  }
  return text;
}

describe("the cut", () => {
  it("is the same in the kernel, for whole games, spoilt games and any bytes", () => {
    const random = randomNumbers(20261126);
    let kept = 0;
    let all = 0;
    for (let n = 0; n < 1500; ++n) {
      const text = spoilt(dressed(randomGame(random), random), random);
      const bytes = new Uint8Array(Buffer.from(text, "latin1"));
      const spans: GameBounds[] = [];
      findGames(bytes, (span) => spans.push({ ...span, special: false, unsigned: false, captures: 1 }));
      for (const span of spans) {
        for (const target of TARGETS.map(filterTarget)) {
          const may = mayHold(bytes, span, target);
          if (may !== mayHoldPlain(bytes, span, target)) expect.fail(`${target.letters} in: ${text}`);
          ++all;
          if (may) ++kept;
        }
      }
    }
    expect(kept).toBeGreaterThan(all / 50);
    expect(kept).toBeLessThan(all * 0.9);
  });

  it("lets go no ending of any target in 1,200 random games, and most of the others", () => {
    const random = randomNumbers(20261125);
    const targets: (readonly [(typeof TARGETS)[number], FilterTarget])[] = TARGETS.map((m) => [
      m,
      filterTarget(m),
    ]);
    let found = 0;
    let kept = 0;
    let all = 0;
    for (let n = 0; n < 1200; ++n) {
      const text = dressed(randomGame(random), random);
      const bytes = new Uint8Array(Buffer.from(text, "latin1"));
      const span = onlySpan(bytes);
      for (const [material, target] of targets) {
        const is = holds(bytes, span, material);
        const may = mayReach(span, material.men) && mayHold(bytes, span, target);
        if (is && !may) expect.fail(`${material.name} let go in: ${text}`);
        ++all;
        if (is) ++found;
        if (may) ++kept;
      }
    }
    expect(found).toBeGreaterThan(100);
    expect(kept).toBeLessThan(1.5 * found);
    expect(all).toBe(10_800);
  });

  it("knows the pieces of a material on both sides", () => {
    const { letters, sides } = filterTarget(parseMaterial("R+B v R"));
    expect(letters).toBe("KRBKR");
    expect(sides).toEqual([menNumber("KRBkr"), menNumber("KRkrb")]);
    expect(lettersOf(parseMaterial("R+B v R").attacker)).toBe("RB");
  });
});

describe("the lean replay", () => {
  it("has the pieces of the rules library after every move of 1,000 random games", () => {
    const random = randomNumbers(4711);
    const board = new LeanBoard();
    const words = new Words();
    let moves = 0;
    for (let n = 0; n < 1000; ++n) {
      const game = randomGame(random);
      const bytes = new Uint8Array(Buffer.from(dressed(game, random), "latin1"));
      const span = onlySpan(bytes);
      expect(board.set(bytes, span)).toBe(true);
      words.set(bytes, span.text, span.end);
      const position = startOf(readTags(bytes.subarray(span.start, span.text)))!;
      const line = readMainLine(Buffer.from(bytes.subarray(span.text, span.end)).toString("latin1"));
      playThrough(position, line, (at, _, move) => {
        const letters = makeFen(at.toSetup()).split(" ")[0].replace(/[\d/]/g, "");
        expect([board.count, board.men]).toEqual([letters.length, menNumber(letters)]);
        if (!move) return;
        expect(words.next()).toBe(true);
        const word = Buffer.from(bytes.subarray(words.word, words.wordEnd)).toString();
        if (!board.play(bytes, words.word, words.wordEnd, words.kind))
          expect.fail(`${word} in ${makeFen(at.toSetup())}`);
        ++moves;
      });
    }
    expect(moves).toBeGreaterThan(50_000);
  });
});
