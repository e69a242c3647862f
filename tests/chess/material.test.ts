import { describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";

describe("material", () => {
  it.each([
    ["R+B v R", "KRBvKR", "R+B v R"],
    ["KRBvKR", "KRBvKR", "R+B v R"],
    ["rook and bishop against rook", "KRBvKR", "R+B v R"],
    ["R v R+B", "KRBvKR", "R+B v R"],
    ["B+N v lone king", "KBNvK", "B+N v K"],
    ["BB v N", "KBBvKN", "B+B v N"],
    ["N v B", "KBvKN", "B v N"],
    ["q vs bb", "KQvKBB", "Q v B+B"],
    ["R v R", "KRvKR", "R v R"],
  ])("reads %s", (text, id, name) => {
    expect(parseMaterial(text)).toMatchObject({ id, name });
  });

  it.each([
    ["P v R", /pawns are outside/],
    ["QQ v RR", /more than five men/],
    ["R+X v R", /"X" is no piece/],
    ["K v K", /no pieces beside the kings/],
    ["", /two sides/],
  ])("refuses %s", (text, why) => {
    expect(() => parseMaterial(text)).toThrow(why);
  });
});
