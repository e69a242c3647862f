// A user's own set-ups: added, put in place of others, and every fault shown under its line.

import { writeFileSync } from "node:fs";
import { join } from "node:path";

import { describe, expect, it } from "vitest";

import { catalogueWith } from "../../src/query/language/catalogue.js";
import { SetUpError } from "../../src/query/language/set-up-error.js";
import { formatQuestion } from "../../src/query/language/ast.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { longside, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
let made = 0;
function file(text: string): string {
  const path = join(folder, `${++made}.yaml`);
  writeFileSync(path, text);
  return path;
}
function faultOf(text: string): SetUpError {
  try {
    catalogueWith(file(text));
  } catch (thrown) {
    expect(thrown).toBeInstanceOf(SetUpError);
    return thrown as SetUpError;
  }
  throw new Error("no fault");
}

describe("a file of own set-ups", () => {
  it("may not lead too deep, nor hold too much", () => {
    const chain = (means: (before: string) => string) =>
      Array.from({ length: 12 }, (_, n) => {
        const before = n === 0 ? "king-file = 1" : `link${"abcdefghijkl"[n - 1]}`;
        return `- name: link${"abcdefghijkl"[n]}\n  means: ${means(before)}\n`;
      }).join("");
    expect(faultOf(chain((before) => before)).message).toMatch(/more than 8 deep/);
    const names = [..."abcdefghijklmnopqrst"].map((letter) => `broad${letter}`);
    const conditions = Array.from(
      { length: 28 },
      (_, n) => `foot-room = ${n % 7} and king-file = ${1 + (n >> 3)}`,
    );
    const wide = names.map((name) => `- name: ${name}\n  means: ${conditions.join(" or ")}\n`).join("");
    const wider = `- name: wider\n  means: ${names.join(" or ")}\n`;
    expect(faultOf(wide + wider).message).toMatch(/more than 500 conditions/);
  });

  it("adds to the catalogue, builds on it, and replaces what has the same name", () => {
    const catalogue = catalogueWith(
      file(`
- name: box
  also: [the box]
  means: king in the corner and rook on the second rank
- name: guarded box
  means: box and rook-guarded
- name: Philidor
  means: king on the edge and opposition = direct
  known: our own reading
`),
    );
    const parse = (text: string) => parseQuestion(text, catalogue.known);
    expect(formatQuestion(parse("guarded box, defender to move"))).toBe("guarded-box and to-move = defender");
    expect(catalogue.named(parse("philidor"))).toMatchObject({ known: "our own reading" });
    expect(catalogue.setUps.filter(({ name }) => name === "Philidor")).toHaveLength(1);
    expect(catalogue.named(parse("Szén"))).toBeDefined();
  });

  it.each([
    [
      "- name: box\n  means: king in the corne\n",
      2,
      "king in the corne",
      /did you mean "king in the corner"/,
    ],
    ["- name: box\n  means: outcome = held\n", 2, "outcome", /outcome/],
    ["- name: box\n  means: held szen for 3 moves\n", 2, "held", /not known of a placement/],
    ["- name: box\n", 1, "name", /means must be a text/],
    ["- name: [a, b]\n  means: in check\n", 1, "[", /name must be a text/],
    ["- in check\n", 1, "in check", /name: … and means: …/],
    ["name: box\n", 1, "name", /must be a list/],
    ["- name: box\n  means: in check\n  material: R+P v R\n", 3, "R+P", /pawns/],
    ["- name: box\n  means: in check\n  pictur: a box\n", 3, "pictur", /did you mean picture/],
    [
      "- name: box\n  means: in check\n- name: Box\n  means: in check\n",
      3,
      "name",
      /two set-ups of the name box/,
    ],
    ["- name: box\n means: in check\n", 2, "means", /cannot be used/],
  ])("%j: line %i, at %j", (text, line, at, message) => {
    const fault = faultOf(text);
    expect(fault.message).toMatch(message);
    expect(fault.where.line).toBe(line);
    const [shown, carets] = fault.pointer().split("\n");
    expect(shown).toBe(text.split("\n")[line - 1]);
    if (at !== "king in the corne" && at !== "means")
      expect(shown.slice(carets.indexOf("^"))).toMatch(new RegExp(`^${at.replace(/[[+]/g, "\\$&")}`));
    else expect(carets).toContain("^");
  });

  it("is told of on the command line, with its line", () => {
    const bad = file("- name: box\n  means: rook on the lon side\n");
    const { status, stderr } = longside(["survey", "box", "--set-ups", bad]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/ {2}means: rook on the lon side\n {21}\^\^\^\n/);
    expect(stderr).toMatch(/line 2/);
    const { stdout } = longside(["find", "x", "--set-ups", join(folder, "none.yaml"), "--json"]);
    expect(JSON.parse(stdout)).toMatchObject({ error: { code: "no-such-path" } });
    const good = file("- name: box\n  means: king in the corner and rook on the second rank\n");
    expect(longside(["words", "box", "--set-ups", good]).stdout).toMatch(/box +king in the corner/);
    expect(longside(["probe", "k7/7r/8/8/3K4/4B3/8/1R6 b - - 0 1", "--set-ups", good]).stdout).toMatch(/box/);
  });
});
