// Words of lessons and sheets: shares, names, dates, letters of pieces, pictures.

import { describe, expect, it } from "vitest";

import { withLetters } from "../../src/documents/piece-letters.js";
import { listed, shareInWords } from "../../src/documents/lesson/sentences.js";
import { uprightFen } from "../../src/documents/lesson/upright.js";
import { pictureOf } from "../../src/exercises/pictures.js";
import { withWrittenNames, writtenDate, writtenName } from "../../src/pgn/game/players.js";
import { materialInWords } from "../../src/position/wording.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { setUpInWords } from "../../src/query/language/set-up-words.js";
import { faultsOf } from "../grammar.js";

describe("a share", () => {
  it.each([
    [1, "all"],
    [0, "none"],
    [0.98, "nearly all"],
    [0.91, "nine in ten"],
    [0.5, "half"],
    [0.46, "about half"],
    [1 / 3, "one in three"],
    [0.05, "one in twenty"],
    [0.01, "hardly any"],
  ])("%d is %s", (share, said) => expect(shareInWords(share)).toBe(said));
});

describe("names", () => {
  it("stand as people write them", () => {
    expect(writtenName("Quellmar,A")).toBe("A. Quellmar");
    expect(writtenName("Quellmar, Ada B")).toBe("Ada B. Quellmar");
    expect(writtenName("Quellmar, A.")).toBe("A. Quellmar");
    expect(writtenName("Quellmar")).toBe("Quellmar");
    // marks of collections, which are no part of a name
    expect(writtenName("Quellmar, Ada2")).toBe("Ada Quellmar");
    expect(writtenName("Quellmar, A(QD)")).toBe("A. Quellmar");
    expect(writtenName("Quellmar, A NED")).toBe("A. Quellmar");
    expect(writtenName("Quellmar, Ada Lee")).toBe("Ada Lee Quellmar");
    expect(writtenName("Ada Quellmar2")).toBe("Ada Quellmar");
    expect(withWrittenNames({ white: "?", black: null })).toEqual({ white: "NN", black: "NN" });
    expect(withWrittenNames({ white: "Quellmar,A", black: " " }).white).toBe("A. Quellmar");
    expect(writtenDate("2011.10.01")).toBe("1 October 2011");
    expect(writtenDate("2011.10.??")).toBe("October 2011");
    expect(writtenDate("2011.??.??")).toBe("2011");
    expect(writtenDate("????.??.??")).toBeNull();
    expect(writtenDate(null)).toBeNull();
  });

  it("of every set-up fit into a sentence", () => {
    for (const { name } of standardCatalogue().setUps)
      expect(faultsOf(`It turns into ${setUpInWords(name)}.`), name).toEqual([]);
    expect(listed(["a", "b", "c"], "or")).toBe("a, b or c");
    expect(materialInWords("R+B v R")).toBe("rook and bishop against rook");
  });
});

describe("letters of the pieces", () => {
  it("change in moves, and in nothing else", () => {
    const page =
      "<style>Rd4</style><p class='Rd4'>1. Rd4 Kxe5 2. R1d3+, Bd4# Rook Bd Rd44</p><code>Rd4</code>";
    expect(withLetters(page, "german")).toBe(
      "<style>Rd4</style><p class='Rd4'>1. Td4 Kxe5 2. T1d3+, Ld4# Rook Bd Rd44</p><code>Rd4</code>",
    );
    expect(withLetters("<p>Nf3</p>", "figurines")).toBe("<p>♘f3</p>");
  });
});

describe("a picture", () => {
  it("is the same wherever it stands and however it is turned, and another with the other side to move", () => {
    const own = { squares: [12, 28, 3, 20, 45], attackerToMove: true };
    const moved = { ...own, squares: own.squares.map((square) => square + 8) };
    const mirrored = { ...own, squares: own.squares.map((square) => square ^ 7) };
    expect(pictureOf(moved)).toBe(pictureOf(own));
    expect(pictureOf(mirrored)).toBe(pictureOf(own));
    expect(pictureOf({ ...own, attackerToMove: false })).not.toBe(pictureOf(own));
    expect(pictureOf({ ...own, squares: [12, 28, 3, 20, 46] })).not.toBe(pictureOf(own));
  });

  it("of a lesson stands upright", () => {
    // the defender's king is at the top, White attacks
    for (const fen of ["4k3/R7/8/4K3/4B3/8/4r3/8 b - - 0 1", "8/8/8/8/8/1rb5/3k4/K6R w - - 0 1"]) {
      const [board] = uprightFen(fen).split(" ");
      expect(board.split("/").slice(0, 4).join("/")).toContain("k");
      expect(board).toContain("B");
    }
  });
});

describe("the check on grammar", () => {
  it.each([
    ["1 more errors.", "plural after 1"],
    ["There are 3 move left.", "singular after a number"],
    ["An rook moves.", "article"],
    ["It is a a draw.", "a word twice"],
    ["White wins..", "two stops"],
    ["White wins", "no end"],
  ])("marks %s", (text, fault) => expect(faultsOf(text)).toContain(fault));
});
