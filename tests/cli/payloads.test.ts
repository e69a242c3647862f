// What strangers write into games and names of files, sent through every command that shows some of it: nothing that
// commands a terminal, turns the order of letters or runs in a page comes out, in any format.

import { mkdirSync, readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { beforeAll, describe, expect, it } from "vitest";

import { run } from "../fuzz/terminal.js";
import { temporaryFolder } from "../support.js";

const folder = temporaryFolder();
/** What no output may hold: control characters, overrides and isolates, halves of characters. */
const UNSAFE =
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\u2028\u2029]|\p{Surrogate}/u;
/** What would run in a page. */
const ALIVE = /<script>alert|<img src=x/;

const PAYLOADS = [
  "\u001b[2J",
  "\u001b]0;title\u0007",
  "\u009b31m",
  "\u202eevil",
  "\u2066evil\u2069",
  "\u2028",
  "<script>alert(1)</script>",
  "<img src=x onerror=alert(1)>",
];
const FEN = "8/8/3k4/8/8/3KB3/8/R6r w - - 0 1";
const games = join(folder, "games");
const db = join(folder, "games.db");
const out = join(folder, "out");
const outline = join(folder, "outline.md");

beforeAll(async () => {
  mkdirSync(games);
  mkdirSync(out);
  PAYLOADS.forEach((payload, n) => {
    const text = `x${payload}y`;
    const value = text.replaceAll("\n", " ");
    const tags = ["Event", "Site", "Round", "White", "Black", "Termination", "TimeControl", "Annotator"];
    // each of another length, so that none is a copy of another
    const moves = `1. Ra6+ {${value}} Kd5 2. Ra5+ Kc6 ${Array.from({ length: n }, (_, k) => `${3 + k}. Ra${6 + (k % 2)} Kd5`).join(" ")}`;
    const game = `${tags.map((tag) => `[${tag} "${value}"]\n`).join("")}[SetUp "1"]\n[FEN "${FEN}"]\n\n${moves} 1/2-1/2\n\n`;
    const broken = `[Event "${value}"]\n[FEN "${FEN}"]\n\n1. Ra6+ Kh${value} 1-0\n`;
    writeFileSync(join(games, `${n} ${text.replaceAll("/", "")}.pgn`), game + broken);
  });
  const blocks = PAYLOADS.map((_, n) => `\n\`\`\`game\nending: ${n + 1}\n\`\`\`\n`);
  writeFileSync(outline, `# A lesson ${PAYLOADS.join(" ")}\n${PAYLOADS.join("\n\n")}\n${blocks.join("")}`);
  await run(["index", games, "--db", db]);
}, 120_000);

/** Commands whose words come from games, files, questions or captions; %s is the folder for what they write. */
const COMMANDS: readonly (readonly string[])[] = [
  ["index", games, "--db", join(folder, "again.db"), "--skipped", "%s/skipped.jsonl"],
  ["index", games, "--db", join(folder, "json.db"), "--json"],
  ["merge", db, "--db", join(folder, "merged.db")],
  ["check", db],
  ["find", "", "--db", db],
  ["find", "", "--db", db, "--json"],
  ["find", "", "--db", db, "--csv"],
  ["find", "", "--db", db, "--pgn"],
  ["find", "", "--db", db, "--each", "position"],
  ["find", "", "--db", db, "--data", "%s/positions.csv"],
  ["count", "--by", "event,site", "--db", db],
  ["count", "--by", "event", "--db", db, "--csv"],
  ["report", "--db", db, "--html", "%s/report.html", "--tables", "%s/tables"],
  ["lesson", "--outline", outline, "--db", db, "--html", "%s/lesson.html"],
  ["show", "1", "--db", db],
  ["show", "1", "--db", db, "--pgn"],
  ...PAYLOADS.flatMap((payload) => [
    ["diagram", FEN, "--caption", payload, "--svg", "%s/board.svg"],
    ["find", payload, "--db", db],
    ["words", payload],
    ["probe", payload],
    ["find", "", "--db", join(folder, `${payload.replaceAll("/", "")}.db`)],
    ["show", "1", "--db", db, "--set-ups", payload],
  ]),
];

/** The texts of all files in a folder. */
const filesIn = (place: string): string[] =>
  readdirSync(place, { recursive: true })
    .map((name) => join(place, String(name)))
    .filter((path) => statSync(path).isFile())
    .map((path) => readFileSync(path, "utf8"));

describe("text of strangers", () => {
  it.each(COMMANDS.map((argv, n) => [argv.slice(0, 2).join(" "), argv, n] as const))(
    "%j comes out plain",
    async (_, argv, n) => {
      const place = join(out, String(n));
      mkdirSync(place);
      const { stdout, stderr } = await run(argv.map((word) => word.replace("%s", place)));
      expect(stdout + stderr).not.toBe("");
      for (const text of [stdout, stderr, ...filesIn(place)]) expect(text).not.toMatch(UNSAFE);
      for (const text of filesIn(place).filter((one) => one.startsWith("<"))) expect(text).not.toMatch(ALIVE);
    },
    120_000,
  );
});
