// The commands as a user meets them: output, exit status, clear errors, pipes.

import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { Chess } from "chess.js";
import { beforeAll, describe, expect, it } from "vitest";

import { PACKAGE, gamesFolder } from "../../src/places.js";
import { COMMANDS } from "../../src/cli/options.js";
import { jsonLines, longside, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const db = join(folder, "games.db");
const PHILIDOR = "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1";

beforeAll(() => {
  const { status, stdout } = longside(["index", gamesFolder(), "--db", db]);
  expect(status).toBe(0);
  expect(stdout).toMatch(/Read 4 files, 160 games/);
});

describe("longside", () => {
  it("without arguments says what it is for and shows three examples", () => {
    const { status, stdout } = longside([]);
    expect(status).toBe(0);
    expect(stdout.match(/^ {2}longside /gm)).toHaveLength(3);
  });
  it("helps with every command", () => {
    const { stdout } = longside(["--help"]);
    for (const { name, examples, options } of COMMANDS) {
      expect(stdout).toContain(name);
      const help = longside([name, "--help"]).stdout;
      for (const example of examples) expect(help).toContain(example);
      expect(help.match(/^ {2}--/gm) ?? []).toHaveLength(options.length);
    }
  });
  it.each([
    [["fnd"], /did you mean find/],
    [["find", "--lmit", "3"], /--limit/],
    [["find", "--limit", "many", "--db", db], /whole number/],
    [["find", "x", "--db", "nowhere.db"], /no database/],
    [["find", "--db", "nowhere.db"], /there is no database nowhere.db/],
    [["index", "nowhere"], /no file or folder nowhere/],
    [["count", "--by", "outcom", "--db", db], /did you mean outcome/],
    [["count", "--by", "outcome:100", "--db", db], /band/],
    [["show", "999999", "--db", db], /no ending 999999/],
    [["show", "one", "--db", db], /no ending/],
    [["show", "1", "--ply", "1", "--db", db], /this ending has plies/],
    [["probe", "nonsense"], /not a position/],
    [["probe", "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"], /outside the tables/],
    [["solve", "R+P v R"], /pawns are outside/],
    [["find", "--pgn", "--each", "position", "--db", db], /for endings/],
    [["map", PHILIDOR, "--piece", "knight"], /attacker's rook, bishop, rook/],
    [["map", PHILIDOR, "--piece", "rook,bishop,king"], /two pieces at most/],
    [["map", PHILIDOR, "--piece", "rook,e2"], /one piece twice/],
    [["map", "nonsense"], /not a position/],
    [["slide", "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"], /outside the tables/],
    [["survey", "attacker won"], /about games/],
    [["survey", "held szen for 3 moves"], /about games/],
    [["survey", "szen", "--by", "year"], /no fact of the geometry/],
    [["rule", "defender held"], /a rule is about placements, and "outcome = held" is about games/],
    [["changes", "rear pin", "--db", "missing.db"], /there is no database/],
    [["repertoire", "rear pin", "--db", "missing.db"], /there is no database/],
    [["contrast", "8/8/8/8/8/8/8/8 w"], /not a position/],
    [["find", "like 8/8/8", "--db", db], /not a position/],
    [["find", "like", "--db", db], /write a FEN/],
    [["find", "never (outcome > held)", "--db", db], /cannot be compared/],
  ])("%j fails with status 2 and a clear word on standard error", (args, why) => {
    const { status, stdout, stderr } = longside(args, { cwd: folder });
    expect(stderr).toMatch(why);
    expect(stderr).not.toMatch(/^\s+at /m);
    expect(stdout).toBe("");
    expect(status).toBe(2);
  });
  it("tells errors to programs as one JSON object", () => {
    const { status, stdout } = longside(["find", "rook on the lon side", "--json", "--db", db]);
    expect(status).toBe(2);
    expect(JSON.parse(stdout)).toMatchObject({ error: { code: "question-fault", at: 12, length: 3 } });
  });
  it("a closed pipe is no error", () => {
    const main = join(PACKAGE, "dist", "src", "cli", "main.js");
    const { stdout, stderr } = spawnSync(
      "sh",
      ["-c", `"${process.execPath}" "${main}" find --each position --json --db "${db}" | head -1`],
      {
        encoding: "utf8",
      },
    );
    expect(stdout.split("\n")).toHaveLength(2);
    expect(stderr).toBe("");
  });
});

describe("find", () => {
  it("answers in a table that fits the terminal", () => {
    const { status, stdout } = longside(["find", "defender drew with the rook on the long side", "--db", db]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Endings in which the defender drew and most of the time the defender's rook/);
    expect(stdout).toMatch(/^defender-result = drew and mostly \(rook-side = long\)$/m);
    expect(stdout.split("\n").every((line) => line.length <= 100)).toBe(true);
  });
  it("has the fields that programs rely on", () => {
    const rows = jsonLines<Record<string, unknown>>(longside(["find", "", "--json", "--db", db]).stdout);
    expect(rows.length).toBeGreaterThan(100);
    for (const row of rows) {
      expect(row).toMatchObject({
        file: expect.any(String),
        game: expect.any(Number),
        white: expect.any(String),
        black: expect.any(String),
        result: expect.stringMatching(/^(1-0|0-1|1\/2-1\/2|\*)$/),
        attacker: expect.stringMatching(/^(white|black)$/),
        firstPly: expect.any(Number),
        lastPly: expect.any(Number),
        positions: (row.lastPly as number) - (row.firstPly as number) + 1,
        outcome: expect.stringMatching(/^(held|lost|open)$/),
      });
    }
  });
  it("finds positions", () => {
    const rows = jsonLines<Record<string, unknown>>(
      longside(["find", "third-rank defence, only move", "--each", "position", "--json", "--db", db]).stdout,
    );
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) {
      expect(row).toMatchObject({
        keeping: 1,
        sideToMove: expect.stringMatching(/^(attacker|defender)$/),
        verdict: expect.stringMatching(/^(won|drawn|lost)$/),
      });
      if (row.verdict === "drawn") expect([row.dtm, row.dtc]).toEqual([null, null]);
      if (row.move !== null) expect(new Chess(row.fen as string).moves()).toContain(row.move);
    }
  });
  it("finds nothing with status 1", () => {
    expect(longside(["find", "year = 1066", "--db", db])).toMatchObject({
      status: 1,
      stderr: expect.stringMatching(/^No ending/),
    });
  });
  it("writes CSV with one header, and PGN that chess.js reads", () => {
    const csv = longside(["find", "--csv", "--db", db]).stdout.split("\n");
    expect(csv.filter((line) => line.startsWith("id,file"))).toHaveLength(1);
    const pgn = longside(["find", "thrown away", "--pgn", "--limit", "3", "--db", db]).stdout;
    const games = pgn.split(/(?=\[Event )/);
    expect(games).toHaveLength(3);
    for (const game of games) {
      const chess = new Chess();
      chess.loadPgn(game);
      expect(chess.history().length).toBeGreaterThan(50);
      expect(game).toMatch(/\$2|\$4/);
    }
  });
});

describe("count", () => {
  it("always gives the denominator", () => {
    const [all] = jsonLines<{ count: number; of: number }>(
      longside(["count", "defender held", "--json", "--db", db]).stdout,
    );
    const groups = jsonLines<{ outcome: string; count: number; of: number }>(
      longside(["count", "--by", "outcome", "--json", "--db", db]).stdout,
    );
    expect(groups.reduce((sum, group) => sum + group.count, 0)).toBe(all.of);
    expect(groups.find((group) => group.outcome === "held")!.count).toBe(all.count);
    expect(longside(["count", "--db", db]).stdout).toMatch(/(\d+) of \1 endings/);
  });
  it("splits by two facts and by bands", () => {
    const rows = jsonLines<Record<string, unknown>>(
      longside(["count", "--by", "outcome,defender-rating:200", "--json", "--db", db]).stdout,
    );
    expect(rows.some((row) => row["defender-rating"] === "2200 to 2399")).toBe(true);
  });
});

describe("show", () => {
  it("draws the board and goes through the moves", () => {
    const { stdout } = longside(["show", "1", "--db", db]);
    expect(stdout).toMatch(/^8 {2}/m);
    expect(stdout).toMatch(/a b c d e f g h|h g f e d c b a/);
    expect(stdout).toMatch(/keep it/);
  });
  it("gives JSON and PGN", () => {
    expect(JSON.parse(longside(["show", "1", "--json", "--db", db]).stdout)).toMatchObject({
      id: 1,
      plies: expect.any(Array),
    });
    expect(longside(["show", "1", "--pgn", "--db", db]).stdout).toMatch(/^\[Event "/);
  });
});

describe("probe", () => {
  it("Philidor 1749 (in Howell 1997): won, mate in 19", () => {
    const probe = JSON.parse(longside(["probe", PHILIDOR, "--json"]).stdout) as {
      moves: { san: string; verdict: string }[];
    };
    expect(probe).toMatchObject({
      verdict: "won",
      dtm: 19,
      dtc: 13,
      setUps: ["Philidor"],
      attacker: "white",
    });
    expect(probe.moves.map((move) => move.san).sort()).toEqual(new Chess(PHILIDOR).moves().sort());
    expect(longside(["probe", PHILIDOR]).stdout).toMatch(
      /won, mate in 19, conversion in 13; 21 of 27 moves keep it/,
    );
  });
  it("Haworth, ICGA Journal 37(3), 2014: Bxd2 is stalemate, and no win is lost on paper by the clock", () => {
    const fen = "5r2/8/8/8/8/3kb3/3R4/3K4 b - - 94 109";
    const probe = JSON.parse(longside(["probe", fen, "--json"]).stdout) as {
      moves: { san: string; verdict: string }[];
    };
    expect(probe.moves.find((move) => move.san === "Bxd2")).toMatchObject({ verdict: "drawn" });
  });
  it("names the fifty-move rule and defers to the arbiter", () => {
    const { stdout } = longside(["probe", PHILIDOR.replace("0 1", "90 120")]);
    expect(stdout).toMatch(/FIDE Laws 2023, 9\.3/);
    expect(stdout).toMatch(/the arbiter decides/);
  });
  it("reads many FENs in order, and goes on after a bad one", () => {
    const rows = jsonLines<{ verdict?: string; error?: { code: string } }>(
      longside(["probe", "-", "--json"], {
        input: `${PHILIDOR}\nrubbish\n4k3/R7/8/4K3/4B3/8/4r3/8 b - - 0 1\n`,
      }).stdout,
    );
    expect(rows.map((row) => row.verdict ?? row.error?.code)).toEqual(["won", "bad-fen", "drawn"]);
  });
});

describe("index", () => {
  it("says what was skipped, where and why; --strict makes it fatal", () => {
    const path = join(folder, "dirty");
    mkdirSync(path);
    writeFileSync(
      join(path, "dirty.pgn"),
      '[Event "a"]\n[Variant "Atomic"]\n\n1. e4 *\n\n[Event "b"]\n[FEN "8/8/8/8/8/8/8/8 w - - 0 1"]\n\n*\n\n[Event "c"]\n[FEN "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1"]\n\n1. Rg7 Re1 2. Kh5 *\n',
    );
    const out = join(folder, "skipped.jsonl");
    const other = join(folder, "dirty.db");
    const { status, stdout } = longside(["index", path, "--db", other, "--skipped", out]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/1 +another variant +dirty.pgn, game 1, byte 0: Atomic/);
    expect(stdout).toMatch(/a move that is not legal +dirty.pgn, game 3, byte \d+, ply 2: Kh5/);
    expect(longside(["index", path, "--db", other, "--strict"])).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/3 games or files could not be read/),
    });
    expect(JSON.parse(longside(["find", "unreadable", "--json", "--db", other]).stdout)).toMatchObject({
      stoppedAt: 2,
      positions: 3,
      outcome: "open",
    });
  });
});

describe("map, slide, survey", () => {
  it("draw SVG that tells in words what it shows", () => {
    for (const [command, name] of [
      [["map", PHILIDOR, "--piece", "attacker's rook"], "map.svg"],
      [["map", PHILIDOR, "--piece", "rook,bishop"], "counts.svg"],
      [["slide", PHILIDOR], "slide.svg"],
      [["diagram", PHILIDOR], "diagram.svg"],
    ] as const) {
      const path = join(folder, name);
      const { status, stderr } = longside([...command, "--svg", path]);
      expect(status, stderr).toBe(0);
      const svg = readFileSync(path, "utf8");
      expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"[^>]*role="img"/);
      expect(svg).toMatch(/<title id="[\w-]+-title">[^<]+<\/title><desc id="[\w-]+-desc">[^<]+<\/desc>/);
      // every element that is opened is closed
      const open = svg.match(/<(\w+)[^>]*[^/]>/g)!.filter((tag) => !tag.startsWith("</")).length;
      expect(open).toBe(svg.match(/<\/\w+>/g)!.length);
    }
    const { status, stderr } = longside(["map", PHILIDOR, "--svg", join(folder, "map.svg", "such.svg")]);
    expect([status, stderr]).toEqual([2, expect.stringMatching(/cannot write/)]);
  });

  it("give programs every square, slide and group", () => {
    expect(jsonLines(longside(["map", PHILIDOR, "--json"]).stdout)).toHaveLength(65);
    const slid = jsonLines<Record<string, unknown>>(longside(["slide", PHILIDOR, "--json"]).stdout);
    expect(slid).toHaveLength(12);
    expect(slid[0]).toMatchObject({
      fen: expect.any(String),
      setUps: expect.any(Array),
      changes: expect.any(Array),
    });
    const rows = jsonLines<Record<string, unknown>>(
      longside(["survey", "Philidor, attacker to move", "--by", "king-file", "--json"]).stdout,
    );
    expect(rows).toHaveLength(5);
    expect(rows[0]).toMatchObject({ "king-file": 1, toMove: "attacker", placements: expect.any(Number) });
    expect(rows[4]).toMatchObject({ zugzwangs: [], examples: expect.any(Array) });
    expect(longside(["survey", "king-rank = 1, king-rank = 2"]).status).toBe(1);
  });
});

describe("words", () => {
  it("draws a fact", () => {
    const { stdout } = longside(["words", "foot side"]);
    expect(stdout).toMatch(/foot-side: long +foot-side: short\n8/);
  });

  it("lists the vocabulary, or what has to do with a word", () => {
    expect(longside(["words"]).stdout).toMatch(/rook-side[\s\S]*rook on the long side[\s\S]*Szén/);
    expect(longside(["words", "wedge"]).stdout).not.toMatch(/white-rating/);
    expect(longside(["words", "zugzwang"]).stdout).toMatch(/reciprocal-zugzwang[\s\S]*zugzwang/);
    expect(longside(["words", "xyzzy"]).status).toBe(1);
  });
});

describe("theory of set-ups", () => {
  it("says so where the catalogue has none for an ending, in place of empty tables", () => {
    for (const [side, ...words] of [
      ["defender", "changes"],
      ["defender", "repertoire"],
      ["defender", "repertoire", "--order"],
      ["attacker", "plan"],
    ]) {
      const { status, stdout, stderr } = longside([...words, "--target", "Q v R"]);
      expect(stderr, words.join(" ")).toContain(`no set-up of the ${side}'s for Q v R`);
      expect(stdout).toBe("");
      expect(status).toBe(2);
    }
  });
});
