// Finding games in bytes: the rules for real files, independence of where a block ends, and any bytes in.

import fc from "fast-check";
import { describe, expect, it } from "vitest";

import { lastBlockEnd } from "../../src/pgn/files/block-end.js";
import { findGames } from "../../src/pgn/scan/game-finder.js";
import { hasCapturesFor } from "../../src/pgn/scan/material-filter.js";
import { type Scan, ScanKernel } from "../../src/pgn/scan/scan-kernel.js";
import { readMainLine } from "../../src/pgn/game/movetext.js";
import { readTags } from "../../src/pgn/game/tags.js";
import { PlainScan } from "./plain-scan.js";

const bytesOf = (text: string) => new Uint8Array(Buffer.from(text, "latin1"));

interface Seen {
  readonly part: number;
  readonly white: string | undefined;
  readonly moves: string[];
  readonly captures: number;
  readonly may: boolean;
}

function games(text: string | Uint8Array): Seen[] {
  const bytes = typeof text === "string" ? bytesOf(text) : text;
  const seen: Seen[] = [];
  findGames(bytes, (game) => {
    const line = readMainLine(Buffer.from(bytes.subarray(game.text, game.end)).toString("latin1"));
    seen.push({
      part: game.part,
      white: readTags(bytes.subarray(game.start, game.text)).get("White"),
      moves: line.moves.map((move) => move.text),
      captures: game.captures,
      may: hasCapturesFor(game, 5),
    });
  });
  return seen;
}

const GAME = (white: string, moves: string) =>
  `[Event "Tarn Cup"]\n[White "${white}"]\n[Black "B"]\n\n${moves}\n\n`;

describe("finding games", () => {
  it("finds plain games, with or without blank lines between", () => {
    expect(games(GAME("A", "1. e4 e5 1-0") + GAME("B", "1. d4 *")).map((g) => [g.white, g.moves])).toEqual([
      ["A", ["e4", "e5"]],
      ["B", ["d4"]],
    ]);
    expect(games('[White "A"]\n1. e4 *\n[White "B"]\n1. d4 *')).toHaveLength(2);
  });

  it.each([
    ["blank lines inside the movetext", GAME("A", "1. e4 {first}\n\n1... e5\n\n2. Nf3 *"), [["A", 3]]],
    [
      "tags glued to a move",
      `${GAME("A", "1. e4 e5 2. K").trimEnd()}${GAME("B", "1. d4 *")}`,
      [
        ["A", 2],
        ["B", 1],
      ],
    ],
    [
      "tags glued to a result",
      `${GAME("A", "1. e4 1/2-1/2").trimEnd()}${GAME("B", "1. d4 *")}`,
      [
        ["A", 1],
        ["B", 1],
      ],
    ],
    [
      "a comment that never closes",
      GAME("A", "1. e4 {cut off here") + GAME("B", "1. d4 *"),
      [
        ["A", 1],
        ["B", 1],
      ],
    ],
    ["brackets inside a comment", GAME("A", "1. e4 {[%clk 0:01:00] [Kf2!]} e5 *"), [["A", 2]]],
    ["a semicolon before a brace", GAME("A", "1. e4 ; { no comment\n1... e5 *"), [["A", 2]]],
    ["a percent line", GAME("A", '1. e4\n% [White "X"] 1. h4\n1... e5 *'), [["A", 2]]],
    ["quotes inside a tag", '[Event "The "Old" Cup"]\n[White "A"]\n\n1. e4 *', [["A", 1]]],
    ["variations in square brackets", GAME("A", "1. e4 e5 [1... c5 2. Nf3] 2. Nc3 *"), [["A", 3]]],
    ["text before the first tag", `Report of the day\n\n${GAME("A", "1. e4 *")}`, [["A", 1]]],
    ["moves without tags", "1. e4 e5 2. Nf3 1-0", [[undefined, 3]]],
    ["a byte order mark", `\u00ef\u00bb\u00bf${GAME("A", "1. e4 *")}`, [["A", 1]]],
    ["CR LF", GAME("A", "1.e4 e5 2.Nf3 *").replaceAll("\n", "\r\n"), [["A", 3]]],
    ["a web page", "<html><body>1 error</body></html>", []],
    ["nothing", "", []],
  ] as const)("copes with %s", (_, text, wanted) => {
    expect(games(text).map((g) => [g.white, g.moves.length])).toEqual(wanted);
  });

  it("gives a game recovered from inside a comment the number of the game before, as part 2", () => {
    const text = `${GAME("A", "1. e4 {[%clk ").trimEnd()} ${GAME("B", "1. d4 *")}${GAME("C", "1. c4 *")}`;
    expect(games(text).map((g) => [g.white, g.part])).toEqual([
      ["A", 1],
      ["B", 2],
      ["C", 1],
    ]);
  });

  it("gives the first game number 1 though a note with an open bracket comes before it", () => {
    const text = `Notes of the club {unfinished [Event "x"]\n[White "A"]\n\n1. e4 *\n`;
    expect(games(text).map((g) => [g.white, g.part])).toEqual([["A", 1]]);
  });
});

describe("the quick reject", () => {
  const captures = (count: number) => GAME("A", `1. e4 ${"Rxa1 ".repeat(count)}*`);

  it("counts captures and lets go what cannot reach five men", () => {
    expect(games(captures(26))[0]).toMatchObject({ captures: 26, may: false });
    expect(games(captures(27))[0]).toMatchObject({ captures: 27, may: true });
    expect(games(GAME("A", `1. e4 {${"x".repeat(40)}} e5 *`))[0].may).toBe(false);
  });

  it.each([
    ["a FEN", '[White "A"]\n[FEN "8/8/8/8/8/8/8/8 w - - 0 1"]\n\n*'],
    ["another variant", '[White "A"]\n[Variant "Atomic"]\n\n1. e4 *'],
    ["pawn captures without a sign", GAME("A", "1. e4 d5 2. ed5 Rxa1 *")],
    ["pawn captures in two letters", GAME("A", "1. e4 d5 2. ed Rxa1 *")],
    ["a comment that never closes", GAME("A", "1. e4 d5 {Rxa1 Rxa1")],
    ["captures behind a semicolon", GAME("A", `1. e4 (1. d4 ; ${"Rxa1 ".repeat(27)}) e5 *`)],
    ["a long game without any sign of capture", GAME("A", "1. e2e4 e7e5 ".repeat(60))],
  ])("keeps a game with %s", (_, text) => {
    expect(games(text)[0].may).toBe(true);
  });

  it("does not take Nbd7 for a capture", () => {
    expect(games(GAME("A", "1. d4 Nf6 2. c4 Nbd7 Rxa1 *"))[0].may).toBe(false);
  });
});

/** Pieces of PGN, clean and dirty, in any order. */
const dirt = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        '[Event "Tarn Cup"]\n',
        '[White "A"]\n',
        '[Event "x',
        '\n[Event "x\n',
        '[Event "x"]\n[White "A"]\n[Black "B"]\n[Result "*"]\n\n1. e4 e5 2. Nxe5 dxe5 *\n\n',
        '[Event "x"] [Event "y"]\n',
        '[FEN "8/8/8/8/8/8/8/k1K5 w - - 0 1"]\n',
        '[FENs "x"]\n',
        '[Variant "Atomic"]\n',
        '[Variation "2... Nc6"]\n',
        '[Events\t  "x" ]\r\n',
        '[ Site "x"]\n',
        '[Site "the "old" ] place"  ]\n',
        "{ [x] } ",
        '{ [Site "x"] }',
        '{ [ Event "x"] }',
        "{ 1. Rxd4 }\n",
        '\n% [Site "y"]\n',
        "\n1. e4 *\n\n",
        "[",
        "{",
        "}",
        "(",
        ")",
        ";",
        "%",
        "\n",
        "\r\n",
        "\n\n",
        " ",
        "1. e4 ",
        "Rxd4 ",
        "ed5 ",
        "1-0",
        "*",
        "\0",
        '"',
        "]",
        "[%clk 0:01:02]",
      ),
      fc.string({ maxLength: 12 }),
    ),
    { maxLength: 60 },
  )
  .map((parts) => parts.join(""));

describe("the kernel", () => {
  const [kernel, plain] = [new ScanKernel(), new PlainScan()];

  it("passes over movetext and comments like the plain scan, from any place in any bytes", () => {
    fc.assert(
      fc.property(fc.oneof(fc.uint8Array({ maxLength: 200 }), dirt.map(bytesOf)), fc.nat(), (bytes, seed) => {
        kernel.load(bytes);
        plain.load(bytes);
        for (let from = seed % (bytes.length + 1); from < bytes.length; ++from) {
          expect(kernel.commentStop(from)).toBe(plain.commentStop(from));
          const stop = plain.scan(from);
          expect([kernel.scan(from), kernel.captures, kernel.unsigned]).toEqual([
            stop,
            plain.captures,
            plain.unsigned,
          ]);
          from = stop;
        }
      }),
      { numRuns: 4000 },
    );
  });

  it("finds the same games as the plain scan", () => {
    const found = (bytes: Uint8Array, scan: Scan) => {
      const games: unknown[] = [];
      findGames(bytes, (game) => games.push({ ...game }), { kernel: scan });
      return games;
    };
    fc.assert(
      fc.property(dirt, (text) => {
        expect(found(bytesOf(text), kernel)).toEqual(found(bytesOf(text), plain));
      }),
      { numRuns: 3000 },
    );
  });
});

describe("any bytes", () => {
  it("are read without a crash, in order and without overlap", () => {
    fc.assert(
      fc.property(fc.oneof(fc.uint8Array({ maxLength: 400 }), dirt.map(bytesOf)), (bytes) => {
        let reached = 0;
        findGames(bytes, ({ start, text, end }) => {
          expect(start).toBeGreaterThanOrEqual(reached);
          expect(text).toBeGreaterThanOrEqual(start);
          expect(end).toBeGreaterThanOrEqual(text);
          expect(end).toBeLessThanOrEqual(bytes.length);
          reached = end;
        });
        readMainLine(Buffer.from(bytes).toString("latin1"));
      }),
      { numRuns: 3000 },
    );
  });

  it("are two where tags behind a blank line say again what has been said, an Event among them or not", () => {
    const first = '[White "A"]\n[Black "B"]\n\n';
    for (const second of ['[Event "X"]\n[White "C"]\n', '[White "C"]\n'])
      for (const moves of ["1. e4 *\n", "1. e4 {[a} *\n"])
        expect(games(bytesOf(`${first}${second}\n${moves}`))).toHaveLength(2);
  });

  it("hold the same games however they are cut", () => {
    fc.assert(
      fc.property(fc.array(dirt, { minLength: 2, maxLength: 6 }), (parts) => {
        const bytes = bytesOf(parts.map((part) => `${part}\n[Event "Next"]\n[White "N"]\n`).join(""));
        const end = lastBlockEnd(bytes);
        if (end < 0) return;
        const both = [...games(bytes.subarray(0, end)), ...games(bytes.subarray(end))];
        expect(both).toEqual(games(bytes));
      }),
      { numRuns: 4000 },
    );
  });
});
