// Real games with independently computed truth: exactly the expected endings, every position with the same
// verdict, distances and number of keeping moves. The data are beside the project on some machines only.

import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { gunzipSync, gzipSync } from "node:zlib";

import { Chess } from "chess.js";
import { parse as parseCsv } from "csv-parse/sync";
import { beforeAll, describe, expect, it } from "vitest";
import { compress } from "zstd-napi";

import { namesIn } from "../../src/endings/candidates.js";
import { guessEncoding } from "../../src/pgn/files/encoding.js";
import { findGames } from "../../src/pgn/scan/game-finder.js";
import { readMainLine, resultOf } from "../../src/pgn/game/movetext.js";
import { playThrough, startOf } from "../../src/pgn/game/replay.js";
import { readTags, tagValue, variantOf } from "../../src/pgn/game/tags.js";
import { PACKAGE } from "../../src/places.js";
import { SHARED, hasShared, jsonLines, longside, temporaryFolder } from "../support.js";

const table = (text: string): Record<string, string>[] => {
  const [head, ...rows] = text
    .trim()
    .split("\n")
    .map((line) => line.split("\t"));
  return rows.map((row) => Object.fromEntries(row.map((cell, n) => [head[n], cell])));
};
/** Names as bytes, since the expected ones may have been decoded otherwise. */
const plain = (name: string | null) => (name ?? "?").normalize("NFD").replace(/[^\x20-\x7e]/g, "");

describe.skipIf(!hasShared)("the archive of real games (absent: skipped)", () => {
  const folder = temporaryFolder();
  const db = join(folder, "archive.db");
  let report = "";
  beforeAll(() => {
    execFileSync("tar", ["-xzf", join(SHARED, "games.tar.gz"), "-C", folder]);
    const { status, stdout, stderr } = longside(["index", join(folder, "games"), "--db", db]);
    expect(status, stderr).toBe(0);
    report = stdout;
  });

  it("holds exactly the expected endings", () => {
    const expected = table(readFileSync(join(SHARED, "endings.expected.tsv"), "utf8"));
    const found = jsonLines<Record<string, string & number>>(
      longside(["find", "--leave-out", "nothing", "--sort", "file", "--json", "--db", db]).stdout,
    );
    expect(found.length).toBe(249);
    const key = (file: unknown, game: unknown, first: unknown, last: unknown) =>
      `${file}#${game} ${first}–${last}`;
    expect(found.map((row) => key(row.file, row.game, row.firstPly, row.lastPly)).sort()).toEqual(
      expected.map((row) => key(row.file, row.game, row.first_ply, row.last_ply)).sort(),
    );
    for (const row of expected) {
      const same = found.find((one) => one.file === row.file && one.game === Number(row.game))!;
      expect(same.attacker).toBe(row.strong);
      expect(same.positions).toBe(Number(row.plies));
      expect(plain(same.white)).toBe(plain(row.white));
      if (row.end_token !== "" && row.result_tag === row.end_token) expect(same.result).toBe(row.result_tag);
    }
    // the same number of games is found to repeat another, whichever of the copies comes first
    // one more than the expected file has: a game that stands in one file twice, with another year and, after 144 equal
    // half-moves, another end
    expect(found.filter((row) => row.duplicateOf !== null).length).toBe(
      expected.filter((row) => row.duplicate === "1").length + 1,
    );
    expect(report).toMatch(
      /249 endings with 13,700 positions from 249 games; duplicates \(kept, counted once\): 28/,
    );
  });

  it("holds all 13,700 positions with the same verdict, distances and keeping moves, and moves that lead from one to the next", () => {
    const expected = table(
      gunzipSync(readFileSync(join(SHARED, "positions.expected.tsv.gz"))).toString("utf8"),
    );
    const found = new Map(
      jsonLines<Record<string, unknown>>(
        longside([
          "find",
          "--each",
          "position",
          "--leave-out",
          "nothing",
          "--sort",
          "file",
          "--json",
          "--db",
          db,
        ]).stdout,
      ).map((row) => [`${row.file}#${row.game}@${row.ply}`, row]),
    );
    expect(found.size).toBe(13_700);
    expect(expected.length).toBe(13_700);
    let otherMoves = 0;
    expected.forEach((row, n) => {
      const drawn = row.verdict_for_attacker === "drawn";
      const own = found.get(`${row.file}#${row.game}@${row.ply}`);
      expect(own).toMatchObject({
        fen: row.fen,
        sideToMove: row.side_to_move,
        verdict: row.verdict_for_attacker,
        dtm: drawn ? null : Number(row.dtm_moves),
        dtc: drawn ? null : Number(row.dtc_moves),
        keeping: Number(row.keeping_moves),
      });
      // The column of moves holds those of another game in some 265 rows, where they do not lead to the next
      // row's FEN; so the move is held against the next FEN, with chess.js 1.4 to make it.
      const next = expected[n + 1];
      if (next?.file !== row.file || next.game !== row.game || Number(next.ply) !== Number(row.ply) + 1)
        return;
      const chess = new Chess(row.fen);
      chess.move(own!.move as string);
      expect(chess.fen()).toBe(next.fen);
      if (row.move !== own!.move) ++otherMoves;
    });
    expect(otherMoves).toBeLessThan(270);
  });

  it("is probed the same from FENs on standard input", () => {
    const expected = table(
      gunzipSync(readFileSync(join(SHARED, "positions.expected.tsv.gz"))).toString("utf8"),
    ).slice(0, 2000);
    const probed = jsonLines<Record<string, unknown>>(
      longside(["probe", "-", "--json"], { input: expected.map((row) => `${row.fen}\n`).join("") }).stdout,
    );
    expect(probed.map((row) => [row.verdict, row.dtm ?? 0, row.dtc ?? 0, row.keeping])).toEqual(
      expected.map((row) => [
        row.verdict_for_attacker,
        Number(row.dtm_moves),
        Number(row.dtc_moves),
        Number(row.keeping_moves),
      ]),
    );
  });

  describe("agrees with what has been published on practice", () => {
    const rows = (words: string[]) =>
      jsonLines<Record<string, number> & { story: { ply: number; verdict: string }[]; stood: string }>(
        longside([...words, "--json", "--db", db]).stdout,
      );
    /** Mean and the error of the mean. */
    const mean = (values: number[]) => {
      const middle = values.reduce((sum, one) => sum + one, 0) / values.length;
      const square = values.reduce((sum, one) => sum + (one - middle) ** 2, 0);
      return { middle, error: Math.sqrt(square / (values.length - 1) / values.length) };
    };
    const moveOf = (ply: number) => Math.floor(ply / 2) + 1;

    it("decisive games over 2300 enter it near move 69, and are lost near move 90 (M. Sadler 2017, 81 games)", () => {
      const lost = rows(["find", "outcome = lost and attacker-rating > 2300 and defender-rating > 2300"]);
      expect(lost.length).toBeGreaterThan(40);
      const entry = mean(lost.map(({ firstPly }) => moveOf(firstPly)));
      const last = mean(
        lost.flatMap(({ story }) => {
          const won = story.filter(({ verdict }) => verdict === "won").at(-1);
          return won ? [moveOf(won.ply)] : [];
        }),
      );
      expect(Math.abs(entry.middle - 69)).toBeLessThan(2 * entry.error);
      expect(Math.abs(last.middle - 90)).toBeLessThan(2 * last.error);
    });

    it("under four in a hundred of the positions in which it arises are won (Mednis 1996), within our interval", () => {
      const [won] = rows(["count", "--share", "entry-verdict = won"]);
      expect(won.low).toBeLessThan(0.04);
      expect(won.share).toBeLessThan(0.06);
    });

    it("errors rise with the share of moves that err, and difficulty tells more than rating (Anderson, Kleinberg & Mullainathan 2016)", () => {
      const tables = rows(["report"]) as unknown as Record<string, string | number>[];
      const bands = tables.filter(
        ({ table: name, side, stood }) =>
          name === "errors-by-blunder-potential" && side === "defender" && stood === "draw",
      );
      const low = bands.slice(1, 5).reduce((sum, { count, of }) => sum + Number(count) / Number(of), 0) / 4;
      const high = bands.slice(-2).reduce((sum, { count, of }) => sum + Number(count) / Number(of), 0) / 2;
      expect(high).toBeGreaterThan(10 * low);
      const model = tables.filter(({ table: name }) => name === "model-of-mistakes");
      const z = (term: RegExp) => {
        const row = model.find((one) => term.test(String(one.term)))!;
        return Math.abs(Number(row.estimate) / Number(row.error));
      };
      expect(z(/^moves that hold/)).toBeGreaterThan(5);
      expect(z(/^moves that hold/)).toBeGreaterThan(3 * z(/^mean rating/));
    });
  });

  const keys = (path: string) =>
    jsonLines<Record<string, unknown>>(
      longside(["find", "--leave-out", "nothing", "--sort", "file", "--json", "--db", path]).stdout,
    )
      .map((row) => [
        String(row.file)
          .replace(/^(?:.*[.]zip\/)?games\//, "")
          .replace(/\.(?:gz|zst)$/, ""),
        row.game,
        row.part,
        row.firstPly,
        row.lastPly,
        row.endedBy,
        row.look,
      ])
      .map((row) => JSON.stringify(row))
      .sort();

  // every game is replayed: a part of the archive is enough to see that nothing is rejected that should not be
  it.runIf(process.env.CI)("holds the same endings when no game is rejected unread", () => {
    const part = ["hauva69+pgn4web", "niklasf+shakmaty", "MichaelB7+Protector", "Jake-Moss+chess-analysis"];
    const other = join(folder, "unrejected.db");
    const indexed = longside([
      "index",
      ...part.map((name) => join(folder, "games", name)),
      "--db",
      other,
      "--no-reject",
    ]);
    expect(indexed.status, indexed.stderr).toBe(0);
    // without the names of folders
    const bare = (path: string) => keys(path).map((key) => key.replace(/^\["(?:[^"]*\/)?([^"/]+)"/, '["$1"'));
    const found = bare(other).sort();
    expect(found.length).toBeGreaterThan(10);
    const all = bare(db).sort();
    expect(found.filter((key) => !all.includes(key))).toEqual([]);
    const whole = all.filter((key) => found.some((one) => one.split(",")[0] === key.split(",")[0]));
    expect(found).toEqual(whole);
  });

  it("holds the same endings from packed copies: gzip, zstd, and one zip of all", () => {
    const zip = join(folder, "games.zip");
    const code = `import os,sys,zipfile
with zipfile.ZipFile(sys.argv[2], "w", zipfile.ZIP_DEFLATED, compresslevel=1) as z:
    for at, _, names in os.walk(sys.argv[1]):
        for name in names:
            path = os.path.join(at, name)
            z.writestr(os.path.relpath(path, os.path.dirname(sys.argv[1])), open(path, "rb").read())`;
    execFileSync("python3", ["-c", code, join(folder, "games"), zip]);
    const wanted = keys(db);
    expect(wanted).toHaveLength(249);
    const packers: (readonly [string, (bytes: Buffer) => Uint8Array])[] = [
      ["gz", (bytes) => gzipSync(bytes, { level: 1 })],
      // tests/indexing reads zstd as well; time is short in CI
      ...(process.env.CI
        ? []
        : [["zst", (bytes: Buffer) => compress(bytes, { compressionLevel: 1 })] as const]),
    ];
    for (const [ending, pack] of packers) {
      const place = join(folder, ending);
      for (const name of readdirSync(join(folder, "games"), { recursive: true, encoding: "utf8" })) {
        if (!/\.pgn$/i.test(name)) continue;
        const path = join(place, "games", `${name}.${ending}`);
        mkdirSync(dirname(path), { recursive: true });
        writeFileSync(path, pack(readFileSync(join(folder, "games", name))));
      }
      const packed = join(folder, `${ending}.db`);
      expect(longside(["index", place, "--db", packed]).status).toBe(0);
      expect(keys(packed), ending).toEqual(wanted);
    }
    const zipped = join(folder, "zip.db");
    expect(longside(["index", zip, "--db", zipped]).status).toBe(0);
    expect(keys(zipped)).toEqual(wanted);
  });
});

describe.skipIf(!hasShared)("the samples of dirt (absent: skipped)", () => {
  it("go through without a crash, and what is skipped is reported with file, game, byte and reason", () => {
    const folder = temporaryFolder();
    const skipped = join(folder, "skipped.jsonl");
    const { status, stdout, stderr } = longside([
      "index",
      join(SHARED, "dirty"),
      "--db",
      join(folder, "dirty.db"),
      "--no-reject",
      "--skipped",
      skipped,
    ]);
    expect(status, stderr).toBe(0);
    const files = readdirSync(join(SHARED, "dirty")).filter((name) => name.endsWith(".pgn")).length;
    expect(stdout).toMatch(new RegExp(`^Read ${files} files`));
    const rows = jsonLines<Record<string, unknown>>(readFileSync(skipped, "utf8"));
    for (const row of rows) {
      expect(row).toMatchObject({
        file: expect.any(String),
        game: expect.any(Number),
        byte: expect.any(Number),
        reason: expect.any(String),
      });
    }
    // as the table has it, sample by sample; two forfeits in figures are known by the result alone
    const faultsOf = (scores: string) =>
      scores
        .split("; ")
        .flatMap((score) => /[a-z]+(?:-[a-z]+)?$/.exec(score.replace(/ part \d+$/, ""))?.[0] ?? []);
    for (const { sample, scores } of knownDirt()) {
      const reported = rows.filter((row) => row.file === sample && row.reason !== "no-game");
      expect(
        reported.map((row) => row.reason),
        sample,
      ).toEqual(faultsOf(scores));
    }
    expect(rows.filter(({ reason }) => reason === "no-game")).toMatchObject([
      { file: "34-html-as-pgn.pgn", game: 0, byte: 0 },
      { file: "43-pgn-feature-file.pgn", game: 0, byte: 51 },
    ]);
  });

  it("get the outcome that a careful reader would choose (tests/pgn/dirt.csv)", () => {
    const table = knownDirt();
    expect(table.map((row) => row.sample)).toEqual(
      readdirSync(join(SHARED, "dirty"))
        .filter((name) => name.endsWith(".pgn"))
        .sort(),
    );
    for (const { sample, scores } of table) {
      expect(scoresOf(new Uint8Array(readFileSync(join(SHARED, "dirty", sample)))).join("; "), sample).toBe(
        scores,
      );
    }
  });

  it("have readable names whatever their encoding", () => {
    const names = (sample: string) => {
      const bytes = new Uint8Array(readFileSync(join(SHARED, "dirty", sample)));
      const encoding = guessEncoding(namesIn(bytes));
      return [encoding.name, readTags(bytes, encoding).get("Event")];
    };
    expect(names("52-latin1-tag.pgn")).toEqual(["iso-8859-2", "4th Marx György Mem"]);
    expect(names("54-cp1251-tags.pgn")).toEqual(["windows-1251", "Первенство Мира 2012"]);
  });
});

const knownDirt = () =>
  parseCsv(readFileSync(join(PACKAGE, "tests", "pgn", "dirt.csv"), "utf8"), { columns: true }) as {
    sample: string;
    outcome: string;
    scores: string;
  }[];

/** What is read of each game of a file: half-moves, result, and why reading stopped, if it did. */
function scoresOf(bytes: Uint8Array): string[] {
  const scores: string[] = [];
  findGames(bytes, (span) => {
    const tags = readTags(bytes.subarray(span.start, span.text));
    if (variantOf(tags.get("Variant")) === "other") return scores.push("other-variant");
    const position = startOf(tags);
    if (!position) return scores.push("bad-start");
    const line = readMainLine(Buffer.from(bytes.subarray(span.text, span.end)).toString("latin1"));
    if (/^0\s*[-–]\s*0$/.test(tags.get("Result") ?? "") && line.moves.at(-1)?.text === "0-0")
      line.moves.pop();
    let plies = 0;
    const stop = playThrough(position, line, (_, __, move) => {
      if (move) ++plies;
    });
    const result = resultOf(tagValue(tags, "Result")) ?? line.result ?? "*";
    const part = span.part > 1 ? ` part ${span.part}` : "";
    return scores.push(`${plies} ${result}${part}${stop ? ` ${stop.fault}` : ""}`);
  });
  return scores;
}
