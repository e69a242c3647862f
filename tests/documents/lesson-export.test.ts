// A lesson as files for other programs, read again by other libraries: PGN by chess.js and kokopu, Markdown by markdown-it.

import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { Chess } from "chess.js";
import { pgnRead } from "kokopu";
import MarkdownIt from "markdown-it";
import { beforeAll, describe, expect, it } from "vitest";

import { run } from "../fuzz/terminal.js";
import { indexBundled, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const out = join(folder, "out");
const HELD = "3k4/5r2/3K4/4B3/8/8/8/2R5 w - - 0 1";
const TO_HOLD = "3k4/2r5/2BK3R/8/8/8/8/8 b - - 0 1";
const OUTLINE = `# Hold on

Look at the rook [first].

\`\`\`board
fen: ${HELD}
caption: It holds
\`\`\`

## On every square

\`\`\`map
fen: ${HELD}
\`\`\`

| a | b |
|---|---|
| 1 | 2 |

## A game

\`\`\`game
ending: 1
\`\`\`

## Exercises

\`\`\`exercises
fens:
  - ${TO_HOLD}; mind the corner
\`\`\`
`;
const read = (name: string) => readFileSync(join(out, name), "utf8");

beforeAll(async () => {
  const db = join(folder, "games.db");
  await indexBundled(db);
  const outline = join(folder, "outline.md");
  writeFileSync(outline, OUTLINE);
  const said = await run(["lesson", "--outline", outline, "--db", db, "--folder", out]);
  expect(said.status, said.stderr).toBe(0);
}, 60_000);

describe("a lesson as files", () => {
  it("has each drawing by itself, as SVG and PNG, and Markdown that shows them all in order", () => {
    const html = new MarkdownIt().render(read("lesson.md"));
    const shown = [...html.matchAll(/<img src="diagrams\/(\d\d)\.svg"/g)].map(([, name]) => name);
    const files = readdirSync(join(out, "diagrams")).sort();
    expect(files).toEqual(shown.flatMap((name) => [`${name}.png`, `${name}.svg`]));
    expect(shown.length).toBeGreaterThan(3);
    expect(html).toMatch(/<h1>Hold on<\/h1>\s*<p>Look at the rook \[first\]\.<\/p>/);
    expect(html).toContain("<td>1</td>");
    expect(html).toContain("mind the corner");
  });

  it("has its boards, games and exercises as PGN that other libraries read", () => {
    const database = pgnRead(read("lesson.pgn"));
    const games = Array.from({ length: database.gameCount() }, (_, n) => database.game(n));
    expect(games.map((game) => game.event())).toEqual(["Hold on", expect.any(String), "Hold on"]);
    expect(games[0].initialPosition().fen()).toBe(HELD);
    expect(games[0].mainVariation().comment()).toBe("Look at the rook [first]. It holds");
    expect(games[1].mainVariation().nodes().length).toBeGreaterThan(100);
    expect(games[2].initialPosition().fen()).toBe(TO_HOLD);
    for (const text of read("lesson.pgn").split(/(?=\[Event )/)) {
      const chess = new Chess();
      // its reader takes no variations, which stand in brackets
      chess.loadPgn(text.replace(/\([^()]*\)/g, ""));
      expect(chess.fen()).not.toBe("");
    }
  });

  it("has every position as EPD, but none from which a piece has been taken to be put elsewhere", () => {
    const lines = read("lesson.epd").trimEnd().split("\n");
    expect(lines.map((line) => line.split(" ").slice(0, 4).join(" "))).toEqual([
      HELD.slice(0, -4),
      TO_HOLD.slice(0, -4),
    ]);
    expect(lines[0]).toContain('c0 "It holds";');
    expect(lines[1]).toMatch(/bm R/);
  });
});
