// The one gate for text from anywhere: what each payload becomes in every format.

import { describe, expect, it } from "vitest";

import { csvText } from "../src/documents/csv.js";
import { diagramsSvg } from "../src/documents/diagram.js";
import { renderOutline } from "../src/documents/lesson/outline.js";
import { LongsideError } from "../src/errors.js";
import { writeGame } from "../src/pgn/game/write.js";
import { plainLine, plainText, safeJson, terminalText } from "../src/plain-text.js";

const PAYLOADS = [
  "\u001b[2J",
  "\u001b]0;title\u0007",
  "\u009b31m",
  "\u0000",
  "\u0007",
  "\r",
  "\u007f",
  "\u202eevil",
  "\u2066evil\u2069",
  "\u2028",
  "\ud800",
];
const UNSAFE =
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u2028\u2029]|\p{Surrogate}/u;

describe.each(PAYLOADS)("%j", (payload) => {
  const text = `a${payload}b`;

  it("is harmless in every output", async () => {
    const svg = diagramsSvg([{ fen: "8/8/8/8/8/8/8/8 w - - 0 1", caption: [text] }], 1, text);
    const game = { tags: [["White", text]] as const, start: null, moves: [], result: "*" };
    const pgn = writeGame({ ...game, annotations: new Map(), comment: text });
    const error = new LongsideError("no-such-path", { path: text });
    for (const said of [
      plainText(text),
      terminalText(text, true),
      svg,
      pgn,
      error.message,
      csvText([{ text }]),
    ]) {
      expect(said).not.toMatch(UNSAFE);
      expect(said).toContain("a");
    }
  });

  it("is an escape in JSON, so that nothing is lost", () => {
    const json = safeJson({ text });
    expect(json).not.toMatch(UNSAFE);
    expect(JSON.parse(json)).toEqual({ text });
  });
});

describe("plain text", () => {
  it("keeps letters of all writings, lines, and the program's own colours in a terminal alone", () => {
    const text = "Ångström 名前 ½ – שלום 👩‍🚀\nnext";
    expect(plainText(text)).toBe(text);
    expect(plainLine("a\r\nb")).toBe("a b");
    expect(terminalText("\u001b[1mbold\u001b[22m \u001b[8mhidden\u001b[0m", true)).toBe(
      "\u001b[1mbold\u001b[22m [8mhidden\u001b[0m",
    );
  });
});

describe("CSV", () => {
  it.each(["=1+1", "+1", "-1", "@x", " =1", "\t=1", "＝1"])("shows %j and does not run it", (text) => {
    expect(csvText([{ text }], { header: false })).toBe(`'${text.replace("\t", " ")}\n`);
    expect(csvText([{ text }], { header: false, raw: true })).not.toContain("'");
  });
  it("leaves numbers, empty values and other texts alone", () => {
    expect(csvText([{ a: -1, b: null, c: "1-0", d: true }])).toBe("a,b,c,d\n-1,,1-0,yes\n");
    expect(csvText([{ band: "-200 to -101" }], { header: false })).toBe("-200 to -101\n");
  });
});

describe("a picture in an outline", () => {
  const html = async (text: string) => (await renderOutline(text, "lesson.md", async () => "")).html;
  it.each(["https://example.org/a.png", "//example.org/a.png", "ftp://example.org/a.png"])(
    "that lies elsewhere is a link: %s",
    async (address) => {
      const page = await html(`![a board](${address})`);
      expect(page).not.toContain("<img");
      expect(page).toMatch(/<a href="[^"]+">a board<\/a>/);
    },
  );
  it.each(["board.png", "pictures/board.png", "data:image/png;base64,AAAA"])(
    "beside it stays: %s",
    async (address) => {
      expect(await html(`![a board](${address})`)).toContain("<img");
    },
  );
});
