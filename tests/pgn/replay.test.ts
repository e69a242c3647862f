// What tokens mean as moves, and writing games that read back the same.

import { Chess as ChessJs } from "chess.js";
import { makeFen } from "chessops/fen";
import { makeUci } from "chessops";
import { describe, expect, it } from "vitest";

import { guessEncoding, isUtf8 } from "../../src/pgn/files/encoding.js";
import { readMainLine, resultOf } from "../../src/pgn/game/movetext.js";
import { playThrough, startOf } from "../../src/pgn/game/replay.js";
import { readTags, variantOf, yearOf } from "../../src/pgn/game/tags.js";
import { writeGame } from "../../src/pgn/game/write.js";

function play(movetext: string, fen?: string) {
  const position = startOf(new Map(fen ? [["FEN", fen]] : []))!;
  const moves: string[] = [];
  const line = readMainLine(movetext);
  const stop = playThrough(position, line, (_, __, move) => {
    if (move) moves.push(makeUci(move));
  });
  return { moves: moves.join(" "), stop, fen: makeFen(position.toSetup()), line };
}

describe("the main line", () => {
  it.each([
    ["numbers glued to moves", "1.e4 e5 2.Nf3 Nc6", "e2e4 e7e5 g1f3 b8c6"],
    [
      "noughts for castling",
      "1. Nf3 Nf6 2. g3 g6 3. Bg2 Bg7 4. 0-0 o-o",
      "g1f3 g8f6 g2g3 g7g6 f1g2 f8g7 e1h1 e8h8",
    ],
    ["coordinates", "1. e2e4 e7-e5 2. g1f3", "e2e4 e7e5 g1f3"],
    ["captures without a sign", "1. e4 d5 2. ed5 Qd5", "e2e4 d7d5 e4d5 d8d5"],
    ["captures in two letters", "1. e4 d5 2. ed Qxd5", "e2e4 d7d5 e4d5 d8d5"],
    ["colons for captures", "1. e4 d5 2. e:d5 Q:d5", "e2e4 d7d5 e4d5 d8d5"],
    ["marks and glyphs", "1. e4! e5?! $1 2. Nf3!? +/= Nc6 =", "e2e4 e7e5 g1f3 b8c6"],
    ["nested variations", "1. e4 (1. d4 d5 (1... Nf6 2. c4)) 1... e5", "e2e4 e7e5"],
    ["a misspelt result", "1. e4 e5 1/2-1/", "e2e4 e7e5"],
    ["a result glued to a move", "1. e4 e5* 2. d4", "e2e4 e7e5"],
    ["a star before the first move", "*1. e4 e5", "e2e4 e7e5"],
    ["en passant spelt out", "1. e4 a6 2. e5 d5 3. exd6e.p. a5", "e2e4 a7a6 e4e5 d7d5 e5d6 a6a5"],
    ["a line comment in a side line", "1. e4 (1. d4 ; not :)\n d5) e5", "e2e4 e7e5"],
    ["a semicolon that is no comment", "1. e4 (1. d4 good; d5) e5", "e2e4 e7e5"],
    ["words between", "1. e4 e5 with an edge e.g. N D", "e2e4 e7e5"],
  ])("copes with %s", (_, movetext, moves) => {
    expect(play(movetext)).toMatchObject({ moves, stop: undefined });
  });

  it("takes a promotion without a sign, and one that does not say to what as a queen", () => {
    const fen = "8/P3k3/8/8/8/8/4K3/8 w - - 0 1";
    expect(play("1. a8N", fen).moves).toBe("a7a8n");
    expect(play("1. a8", fen).moves).toBe("a7a8q");
    expect(play("1. a8(R)", fen).moves).toBe("a7a8r");
  });

  it("takes kings put on the centre squares for the end of the game, not for a move", () => {
    const fen = "8/8/8/8/8/k6K/8/r6R w - - 0 1";
    expect(play("1. Rxa1+ Kb2 2. Kd4 1-0", fen)).toMatchObject({ stop: undefined, moves: "h1a1 a3b2" });
    expect(play("1. Rxa1+ Kb2 2. Ke4 Kd5 1-0", fen)).toMatchObject({ stop: undefined });
    expect(play("1. Rxa1+ Kb2 2. Kd4 Kb3 1-0", fen).stop).toMatchObject({ fault: "illegal-move", ply: 2 });
  });

  it("stops at an illegal move and says where", () => {
    expect(play("1. e4 e5 2. Ke3 d6").stop).toEqual({ fault: "illegal-move", ply: 2, at: 12, token: "Ke3" });
    expect(play("1. e4 -- 2. d4").stop).toMatchObject({ fault: "null-move", ply: 1 });
  });

  it.each(["{", "(", "["])("reports a %s that never closes, and keeps what stands before it", (open) => {
    expect(play(`1. e4 e5 ${open}2. Nf3`)).toMatchObject({
      moves: "e2e4 e7e5",
      stop: { fault: "unclosed", ply: 2, at: 9, token: open },
    });
  });

  it("reads clocks and the result", () => {
    const { line } = play("1. e4 {[%clk 1:02:03]} e5 {[%clk 0:00:09.5] good} 1/2-1/2 2. d4");
    expect(line.clocks).toEqual([3723, 9.5]);
    expect(line.result).toBe("1/2-1/2");
    expect(line.moves).toHaveLength(2);
  });

  it("plays Fischer random games from their FEN", () => {
    const fen = "bnrbnkrq/pppppppp/8/8/8/8/PPPPPPPP/BNRBNKRQ w KQkq - 0 1";
    expect(play("1. f3 f6 2. Nd3 Nd6", fen)).toMatchObject({ stop: undefined });
  });
});

describe("tags", () => {
  const table = (label: string) => {
    const decoder = new TextDecoder(label);
    return new Map(Array.from({ length: 256 }, (_, byte) => [decoder.decode(Uint8Array.of(byte)), byte]));
  };
  const encode = (text: string, label: string) => Buffer.from([...text].map((c) => table(label).get(c)!));

  it.each([
    ["windows-1252", "Müller, Jörg\nGrünfeld-Verteidigung Köln"],
    ["iso-8859-2", "Dvořák, Jiří\nPříbram Český Krumlov"],
    ["windows-1251", "Иванов, Пётр\nМосква"],
    ["koi8-r", "Иванов, Пётр"],
    ["windows-1253", "Παπαδόπουλος"],
    ["windows-1254", "Şahin Çağlar"],
  ])("in %s are read as they were meant", (label, text) => {
    const guess = guessEncoding(encode(text, label));
    expect(guess.decode(encode(text, label))).toBe(text);
    expect(guess.name).not.toMatch(/unsure/);
  });

  it("in an encoding that cannot be told lose nothing, and are marked", () => {
    const bytes = encode("Pérez", "windows-1252");
    const guess = guessEncoding(bytes);
    expect(guess.name).toBe("windows-1252 (unsure)");
    expect(encode(guess.decode(bytes), "windows-1252").equals(bytes)).toBe(true);
    const every = Uint8Array.from({ length: 128 }, (_, n) => 128 + n);
    expect(new Set(guess.decode(every)).size).toBe(128);
    expect(isUtf8(Buffer.from("Þórunn"))).toBe(true);
    expect(isUtf8(bytes)).toBe(false);
  });

  it("tell year, variant and result", () => {
    const tags = readTags(
      Buffer.from('[Date "????.??.??"]\n[EventDate "2019.02.01"]\n[Variant "Crazyhouse"]\n'),
    );
    expect(yearOf(tags)).toBe(2019);
    expect(variantOf(tags.get("Variant"))).toBe("other");
    expect(["1/2", "½-½", "1-0", "1–0", "0-0"].map(resultOf)).toEqual([
      "1/2-1/2",
      "1/2-1/2",
      "1-0",
      "1-0",
      undefined,
    ]);
  });
});

describe("writing", () => {
  it("makes PGN that chess.js 1.4 reads back, and this program too", () => {
    const moves = "e2e4 e7e5 g1f3 b8c6 f1b5 a7a6 b5c6 d7c6 e1h1";
    const text = writeGame({
      tags: [
        ["White", 'A "quoted" name'],
        ["Result", "*"],
      ],
      start: null,
      moves: moves.split(" "),
      result: "*",
      annotations: new Map([[2, { glyphs: [1], comment: "a {brace} inside" }]]),
    });
    const theirs = new ChessJs();
    theirs.loadPgn(text.replaceAll('\\"', "'")); // it knows no escaped quotes
    expect(theirs.history()).toEqual(["e4", "e5", "Nf3", "Nc6", "Bb5", "a6", "Bxc6", "dxc6", "O-O"]);
    expect(readTags(Buffer.from(text)).get("White")).toBe('A "quoted" name');
    expect(play(text.slice(text.indexOf("\n\n"))).moves).toBe(moves);
    expect(text.split("\n").every((line) => line.length <= 79)).toBe(true);
  });
});
