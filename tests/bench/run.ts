// Benchmarks: whole commands as their own processes (time and peak memory), and questions inside one process.
//
//   npm run bench            everything but scale; the archive's figures only where ../shared/data lies beside the project
//   npm run bench -- solve   the parts whose name contains the word
//   npm run bench -- scale   ten million positions, some quarter of an hour; LONGSIDE_SCALE names a database to measure
//                            instead
//
// With LONGSIDE_BEFORE=FOLDER, a checkout of another version with its build, every part is followed by the same part of that
// one, so that both are measured in the same minutes. Figures worth keeping go into RESULTS.md, with the machine and the
// command. Machines are noisy: compare runs made together, by medians and ratios.

import { execFileSync, spawn, spawnSync } from "node:child_process";
import {
  closeSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readFileSync,
  readSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from "node:fs";
import { availableParallelism, cpus, tmpdir, totalmem } from "node:os";
import { join } from "node:path";

import { parsePgn, startingPosition } from "chessops/pgn";
import { parseSan } from "chessops/san";
import zstd from "zstd-napi/binding.js";

import type { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { DEFAULT_TARGET, allMaterials, parseMaterial } from "../../src/chess/material.js";
import { Movement } from "../../src/chess/moves.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { FileReader, findFiles } from "../../src/pgn/files/find.js";
import { PACKAGE, cacheFolder } from "../../src/places.js";
import { buildTables } from "../../src/tablebase/build.js";
import { Tables } from "../../src/tablebase/tables.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { EXCLUDED_BY_DEFAULT } from "../../src/store/exclusions.js";
import { count } from "../../src/statistics/count.js";
import { readSplit } from "../../src/query/engine/splits.js";
import type { Unit } from "../../src/query/engine/evaluate.js";
import { Answers } from "../../src/query/engine/find.js";
import { answerOnThreads, endHelpers, startHelpers } from "../../src/query/engine/slice-threads.js";
import { totalsOf } from "../../src/store/totals.js";
import { randomGames } from "./random-games.js";

const MAIN = join(PACKAGE, "dist", "src", "cli", "main.js");
const WATCH = join(PACKAGE, "dist", "tests", "bench", "watch.js");
const SHARED = join(PACKAGE, "..", "shared", "data");
const RUNS = 5;

const folder = mkdtempSync(join(tmpdir(), "longside-bench-"));
const out = (text: string): void => {
  process.stdout.write(`${text}\n`);
};
const wanted = (name: string) => process.argv.slice(2).every((word) => name.includes(word));
const median = (values: number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

/** A checkout of another version, with its build, to compare with. */
const BEFORE = process.env.LONGSIDE_BEFORE;
/** Runs a part of the other version's benchmark; its rows are printed as it prints them. */
function runBefore(part: string): void {
  if (BEFORE === undefined) return;
  out(`| **before, ${part}** | | | | |`);
  const program = join(BEFORE, "dist", "tests", "bench", "run.js");
  const env = { ...process.env };
  delete env.LONGSIDE_BEFORE;
  const { stdout } = spawnSync(process.execPath, [program, part], {
    encoding: "utf8",
    env,
    maxBuffer: 1 << 28,
  });
  for (const line of stdout.split("\n")) if (/^\| (?!what |---)/.test(line)) out(line);
}

interface Run {
  readonly seconds: number;
  /** Peak resident memory of the process, in MB. */
  readonly memory: number;
}

/** Runs a command as a process of its own. */
function command(args: readonly string[], env: NodeJS.ProcessEnv = {}): Run {
  const start = performance.now();
  const run = spawnSync(process.execPath, [WATCH, MAIN, ...args], {
    encoding: "utf8",
    env: { ...process.env, ...env },
    maxBuffer: 1 << 28,
  });
  const seconds = (performance.now() - start) / 1000;
  if (run.status !== 0 && run.status !== 1) throw new Error(run.stderr);
  return { seconds, memory: Number(/peak (\d+) MB/.exec(run.stderr)?.[1]) };
}

function report(name: string, runs: readonly Run[], note = ""): void {
  const seconds = runs.map((run) => run.seconds);
  const spread = `${Math.min(...seconds).toFixed(2)}–${Math.max(...seconds).toFixed(2)}`;
  const memory = Math.round(Math.max(...runs.map((run) => run.memory)));
  out(`| ${name} | ${median(seconds).toFixed(2)} s | ${spread} s | ${memory} MB | ${note} |`);
}

const times = (number: number, run: (n: number) => Run) => Array.from({ length: number }, (_, n) => run(n));

function benchStart(): void {
  report(
    "`--help`",
    times(RUNS, () => command(["--help"])),
    "0.15 s",
  );
}

function benchSolve(): void {
  const runs = times(3, (n) => {
    const cache = join(folder, `tables-${n}`);
    const run = command(["solve", "R+B v R"], { LONGSIDE_CACHE: cache });
    if (n < 2) rmSync(cache, { recursive: true });
    return run;
  });
  const cache = join(folder, "tables-2");
  const bytes = readdirSync(cache).reduce((sum, name) => sum + statSync(join(cache, name)).size, 0);
  report(
    '`solve "R+B v R"` from nothing',
    runs,
    `3 s as the ambition, 400 MB; ${(bytes / 1e6).toFixed(1)} MB on disk`,
  );
}

/** Random probes: first with nothing unpacked (the files warm in the system's cache), then again from memory. */
function benchProbes(): void {
  const material = parseMaterial(DEFAULT_TARGET);
  const random = randomNumbers(1);
  const movement = new Movement(material);
  const placements = Array.from({ length: 20_000 }, () => randomPlacement(material, random, movement));
  const tables = new Tables(material, cacheFolder());
  const pass = (attackerToMove: boolean, among = placements) => {
    const some = among.filter((placement) => placement.attackerToMove === attackerToMove);
    const start = performance.now();
    for (const { squares } of some) tables.probe(squares, attackerToMove);
    return ((performance.now() - start) * 1000) / some.length;
  };
  const shown = (values: number[]) => values.map((value) => value.toFixed(2)).join(" / ");
  const line = (name: string, values: number[], goal = "") => {
    const mean = (values[0] + values[1]) / 2;
    out(
      `| ${name} | ${mean.toFixed(2)} µs | defender / attacker to move: ${shown(values)} µs | | ${goal}random placements |`,
    );
  };
  line("probe, nothing unpacked", [pass(false), pass(true)]);
  for (let n = 0; n < 3; ++n) pass(n % 2 === 0);
  line("probe, again: in the processor's cache", [pass(false), pass(true)]);
  // all over the tables, which are unpacked by then: what is looked up has not been looked up before
  const more = Array.from({ length: 600_000 }, () => randomPlacement(material, random, movement));
  for (const { squares, attackerToMove } of more.splice(300_000)) tables.probe(squares, attackerToMove);
  line("probe, all over the tables, from memory", [pass(false, more), pass(true, more)], "0.8 µs; ");
  tables.close();
}

function benchSweep(): void {
  for (const [question, by] of [
    ["everything", null],
    ["everything", "rook-side"],
    ["second-rank defence", "king-file"],
    ["Szén", "foot-room"],
    ["king in the open", null],
    ["only-move, to-move = defender, verdict = drawn, second-rank defence", null],
  ] as const)
    report(
      `\`survey "${question}"${by ? ` --by ${by}` : ""}\``,
      times(3, () => command(["survey", question, ...(by ? ["--by", by] : [])])),
      question === "everything" ? "10 s" : "3 s, 400 MB",
    );
}

/** What looks at the whole table for all set-ups, the first time: their planes are made in a folder of their own. */
function benchTheory(): void {
  const cache = join(folder, "theory");
  command(["solve", DEFAULT_TARGET], { LONGSIDE_CACHE: cache });
  const tables = new Set(readdirSync(cache));
  const first = (args: readonly string[]) => {
    for (const name of readdirSync(cache))
      if (!tables.has(name)) rmSync(join(cache, name), { recursive: true, force: true });
    return command(args, { LONGSIDE_CACHE: cache });
  };
  report("`repertoire Szén`, with the planes of all set-ups", [first(["repertoire", "Szén"])], "8 s");
  report(
    "`repertoire Szén` again",
    times(3, () => command(["repertoire", "Szén"], { LONGSIDE_CACHE: cache })),
    "10 s, 400 MB",
  );
  report(
    "`rule Szén`",
    times(3, () => command(["rule", "Szén"])),
    "30 s",
  );
  report(
    "`exercises --among table --size 24`",
    times(3, (n) => command(["exercises", "--among", "table", "--size", "24", "--seed", String(n)])),
    "3 s",
  );
}

/** Every pawnless material of up to five men: some minutes, and some gigabytes in the temporary folder. */
async function benchEverything(): Promise<void> {
  const cache = join(folder, "everything");
  const start = performance.now();
  const built = await buildTables(allMaterials(), { folder: cache, threads: availableParallelism() });
  const seconds = (performance.now() - start) / 1000;
  const bytes = readdirSync(cache).reduce((sum, name) => sum + statSync(join(cache, name)).size, 0);
  const memory = Math.round(process.resourceUsage().maxRSS / 1024);
  out(
    `| every material of up to five men, ${built.length} halves | ${seconds.toFixed(0)} s | one run | ${memory} MB | ${(bytes / 1e9).toFixed(1)} GB on disk |`,
  );
}

/** A collection as people have them: the archive's games of people, again and again with other rounds. */
function makeCorpus(archive: string, megabytes: number): string {
  const path = join(folder, "corpus.pgn");
  const out = openSync(path, "w");
  const files = readdirSync(archive, { recursive: true, encoding: "utf8" })
    .filter((name) => /\.pgn$/i.test(name) && !/tcec/i.test(name))
    .sort();
  let size = 0;
  for (let copy = 0; size < megabytes * 1e6; ++copy) {
    for (const name of files) {
      const text = readFileSync(join(archive, name), "latin1").replaceAll('[Round "', `[Round "${copy}.`);
      if (!text.includes("[Event")) continue;
      size += writeSync(out, Buffer.from(`${text}\n\n`, "latin1"));
    }
  }
  closeSync(out);
  return path;
}

/** A part of a file, cut between two games. */
function partOf(path: string, bytes: number, name: string): string {
  const all = Buffer.alloc(bytes);
  const file = openSync(path, "r");
  readSync(file, all, 0, bytes, 0);
  closeSync(file);
  const part = join(folder, name);
  writeFileSync(part, all.subarray(0, all.lastIndexOf("\n[Event ") + 1));
  return part;
}

/** The straightforward way: the rules library reads and plays every game. Bytes a second. */
function replayEverything(path: string): number {
  const start = performance.now();
  const text = readFileSync(path, "latin1");
  let found = 0;
  for (const game of parsePgn(text)) {
    const position = startingPosition(game.headers);
    if (position.isErr) continue;
    for (const node of game.moves.mainline()) {
      const move = parseSan(position.value, node.san);
      if (!move) break;
      position.value.play(move);
      if (position.value.board.occupied.size() === 5) ++found;
    }
  }
  if (found === 0) throw new Error("nothing found");
  return (statSync(path).size * 1000) / (performance.now() - start);
}

/** Seconds that unpacking a file takes, some times over, once the thread that does it is there. */
async function unpackedSeconds(path: string): Promise<number[]> {
  const reader = new FileReader();
  const { files } = await findFiles([path]);
  const seconds: number[] = [];
  for (let n = 0; n <= RUNS; ++n) {
    const start = performance.now();
    for await (const block of reader.blocks(files[0])) void block;
    seconds.push((performance.now() - start) / 1000);
  }
  await reader.close();
  return seconds.slice(1);
}

/** What the unpacking library of zstd does with a file in memory, and nothing else: bytes a second. */
function zstdAlone(path: string): number {
  const packed = readFileSync(path);
  const start = performance.now();
  const context = new zstd.DCtx();
  const out = Buffer.allocUnsafe(1 << 18);
  let size = 0;
  for (let from = 0; from < packed.length;) {
    const [, produced, taken] = context.decompressStream(out, packed.subarray(from, from + (1 << 18)));
    size += produced;
    from += taken;
  }
  return (size * 1000) / (performance.now() - start);
}

/** The goals of the scan: against grep, against the rules library, in proportion, packed, and small. */
async function benchScan(): Promise<void> {
  const archive = unpackArchive();
  if (archive === undefined) return;
  const corpus = makeCorpus(archive, 500);
  const size = statSync(corpus).size;
  const index = (path: string) => (n: number) =>
    command(["index", path, "--db", join(folder, `scan-${n}-${Math.random()}.db`)]);
  const grep = times(5, () => {
    const start = performance.now();
    spawnSync("grep", ["-c", "^\\[Event ", corpus]);
    return { seconds: (performance.now() - start) / 1000, memory: NaN };
  });
  const wall = median(grep.map((run) => run.seconds));
  out(`| \`grep -c\` of the corpus, ${(size / 1e6).toFixed(0)} MB | ${wall.toFixed(2)} s | | | |`);
  const whole = times(5, index(corpus));
  const seconds = median(whole.map((run) => run.seconds));
  report("`index` of the corpus", whole, `${(seconds / wall).toFixed(1)} times grep; goal 4, then 3`);
  const sifted = times(5, (n) =>
    command(["index", corpus, "--target", "N v N", "--db", join(folder, `sifted-${n}.db`)]),
  );
  report(
    "`index` of it for N v N, which hardly any game reaches: sifting alone",
    sifted,
    `${(median(sifted.map((run) => run.seconds)) / wall).toFixed(1)} times grep; goal 2.5`,
  );
  const rate = replayEverything(partOf(corpus, 4e6, "slice.pgn"));
  out(`| every game replayed by the rules library, 4 MB | ${(rate / 1e6).toFixed(2)} MB/s | | | |`);
  out(`| \`index\` against that | ${(size / seconds / rate).toFixed(0)} times as fast | | | 150 times |`);
  const tenth = times(5, index(partOf(corpus, size / 10, "tenth.pgn")));
  const short = median(tenth.map((run) => run.seconds));
  report(
    "`index` of a tenth of it",
    tenth,
    `ten times the input takes ${(seconds / short).toFixed(1)} times as long; goal 10.5`,
  );
  report("`index` of 1 MB", times(5, index(partOf(corpus, 1e6, "small.pgn"))), "1 s");
  report(
    "`index` of the engines' games (TCEC), comments and all",
    times(3, index(join(archive, "TCEC-Chess+tcecgames"))),
  );
  const part = partOf(corpus, 120e6, "part.pgn");
  report("`index` of 120 MB, plain", times(3, index(part)));
  for (const [name, program, suffix] of [
    ["gzip", "gzip", "gz"],
    ["zstd", "zstd", "zst"],
    ["bzip2", "bzip2", "bz2"],
  ]) {
    if (spawnSync(program, ["-q", "-k", part]).status !== 0) continue;
    const packed = `${part}.${suffix}`;
    const alone = median(await unpackedSeconds(packed));
    const library = () => median(Array.from({ length: RUNS }, () => zstdAlone(packed))) / 1e6;
    const beside = name === "zstd" ? `; the library alone ${library().toFixed(0)} MB/s` : "";
    report(
      `the same, ${name}`,
      times(3, index(packed)),
      `unpacking alone ${alone.toFixed(2)} s, ${(120 / alone).toFixed(0)} MB/s${beside}`,
    );
  }
}

/** Five questions as people ask them. */
const QUESTIONS = [
  "defender drew with the rook on the long side",
  "second-rank defence for 30 moves, defender held",
  "Szén, defender to move, only move",
  "entry-verdict = drawn, defender lost, defender errs",
  "defender-rating >= 2600, never rook on the short side",
];

/** Unpacks the archive, once; undefined where it is not. */
function unpackArchive(): string | undefined {
  const archive = join(folder, "games");
  if (existsSync(archive)) return archive;
  if (!existsSync(join(SHARED, "games.tar.gz"))) {
    out("| the archive | absent, skipped | | | |");
    return undefined;
  }
  execFileSync("tar", ["-xzf", join(SHARED, "games.tar.gz"), "-C", folder]);
  return archive;
}

/** Fifty questions of all sorts, and ten about the course of an ending. */
const FIFTY = [
  "defender drew with the rook on the long side",
  "defender held",
  "defender lost, entry-verdict drawn",
  "second-rank defence",
  "second-rank defence, defender to move, one move holds",
  "Szén",
  "Szén, attacker to move, verdict won",
  "Philidor, defender errs",
  "Philidor, defender to move, verdict drawn",
  "third-rank defence, mate threatens",
  "first-rank defence or third-rank defence",
  "rear pin, not in check",
  "king in the open, loss-threat = rook",
  "side checks, gives check",
  "rook on the bishop, attacker errs",
  "throughout (king on edge)",
  "never Philidor",
  "mostly (rook on the long side)",
  "entry (king in the corner)",
  "end (verdict won)",
  "wedge-depth >= 2, king-file = 4",
  "wedge-depth = 3, foot-side = long, attacker-rook-side = long",
  "opposition = direct, attacker to move, verdict won, dtm <= 10",
  "dtm 30..60",
  "dtc > 40, beyond-fifty",
  "king-escapes = 0, not in check",
  "rook-safe-squares <= 2, defender to move",
  "stalemate-resource",
  "discovery = attacker, possible = check",
  "fork = attacker or skewer = attacker",
  "needed = check, verdict drawn, defender to move",
  "holding = block",
  "kind = switch, error = half",
  "kind = king, kind = to corner, defender errs",
  "kind = mate block",
  "move = Kd8",
  "move ~ x",
  "error = full",
  "blunder-potential >= 0.8, error != none",
  "legal = 1",
  "attacker-rating > 2400, Philidor",
  "rating-difference > 200, defender held, second-rank defence",
  'player = "Mirrovan", Szén',
  'event ~ "open", rear pin',
  "year = 2015..2018, third-rank defence",
  "errors > 2, attacker won",
  "length >= 40, never king in the corner",
  "not (rook on the long side or king on the edge)",
  "like 3k4/5R2/3K4/3B4/8/8/4r3/8 w",
  "bishop-colour = corner's, corner-steps <= 1, verdict drawn",
];
const COURSES_ASKED = [
  "third-rank defence then within 10 moves Szén",
  "reached second-rank defence from king in the open",
  "held second-rank defence for 5 moves",
  'left "rear pin" by the king\'s move',
  "reached Philidor by a rook's move",
  "first error within 5 moves of the start",
  "first error within 5 moves of entering Philidor",
  "king in the open then second-rank defence then Philidor",
  "defender errs then within 2 moves attacker errs",
  "held king in the corner for 10 moves, defender held",
];

function benchQuestions(): void {
  const games = join(folder, "million.pgn");
  const db = join(folder, "million.db");
  randomGames(games, 20_000);
  report(
    "`index` of 20,000 endings with a million positions",
    [command(["index", games, "--db", db])],
    "8 s, 300 MB",
  );
  out(`| size of that database | ${(statSync(db).size / 1e6).toFixed(0)} MB | | | 30 bytes a position |`);
  for (const [name, questions, goals] of [
    ["fifty questions", FIFTY, ["90 ms", "40 ms"]],
    ["ten questions about the course", COURSES_ASKED, ["", ""]],
  ] as const) {
    const connection = openForReading(db);
    const asked = questions.map((text) => parseQuestion(text, standardCatalogue().known));
    for (const way of [
      "each on a connection of its own",
      "one after another on one connection",
      "the same again",
    ]) {
      const warm = !way.startsWith("each");
      const took = asked.map((question, n) => {
        // a process that answers one question opens the database for it
        const own = warm ? connection : openForReading(db);
        const start = performance.now();
        const answers = new Answers(own, question);
        for (const answer of answers.endings(20)) void answer;
        const number = answers.tally("ending");
        const ms = performance.now() - start;
        if (!warm) own.close();
        if (process.env.BENCH_EACH) out(`  ${questions[n]}: ${ms.toFixed(1)} ms, ${number} endings`);
        return ms;
      });
      const sorted = [...took].sort((a, b) => a - b);
      const at = (share: number) =>
        sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))].toFixed(0);
      out(
        `| ${name} on a million positions, ${way} | ${at(0.5)} ms | ${at(0)}–${at(1)} ms | | 95th percentile ${at(0.95)} ms; ${goals[warm ? 1 : 0]} |`,
      );
    }
    connection.close();
  }
  report(
    "`find everything --data` of it (Parquet)",
    times(3, (n) => command(["find", "everything", "--data", join(folder, `data-${n}.parquet`), "--db", db])),
    "5 s, 300 MB",
  );
}

/** Asks a question `runs` times of one connection, for its first answers and how many there are: seconds, and this process's memory. */
function ask(connection: Connection, text: string, runs: number): Run[] {
  const question = parseQuestion(text, standardCatalogue().known);
  return here(runs, () => {
    const answers = new Answers(connection, question);
    for (const answer of answers.endings(20)) void answer;
    answers.tally("ending");
  });
}

/** Counts everything by two facts, `runs` times. */
function countBy(connection: Connection, unit: Unit, by: readonly string[], runs: number): Run[] {
  return here(runs, () =>
    count(connection, parseQuestion(""), {
      by: by.map((split) => readSplit(split, [])),
      unit,
      leaveOut: EXCLUDED_BY_DEFAULT,
    }),
  );
}

/** Times something in this process; memory is its peak so far. */
const here = (runs: number, work: () => void): Run[] =>
  times(runs, () => {
    const start = performance.now();
    work();
    return { seconds: (performance.now() - start) / 1000, memory: process.resourceUsage().maxRSS / 1024 };
  });

/** Questions on a connection that has been asked before, and memory of this process. */
const ASKED_AT_SCALE: readonly [text: string, goal: string][] = [
  ["defender drew with the rook on the long side", "0.4 s"],
  ["second-rank defence", "0.4 s"],
  ["Szén, attacker to move", "0.4 s"],
  ["only move, defender errs", "0.4 s"],
  ["king in the open then second-rank defence", "1 s"],
  ["held second-rank defence for 5 moves", "1 s"],
];

/**
 * Indexes games and looks on: seconds and memory at each million positions, which should take as long as the first, in as much
 * memory.
 */
async function watchedIndex(games: string, db: string): Promise<void> {
  const child = spawn(process.execPath, [MAIN, "index", games, "--db", db], { stdio: "ignore" });
  const ended = new Promise((resolve) => child.once("exit", resolve));
  const start = performance.now();
  const millions: { seconds: number; memory: number }[] = [];
  const look = (): void => {
    if (!existsSync(db) || !existsSync(`/proc/${child.pid}/status`)) return;
    const [, kilobytes] = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, "utf8")) ?? [];
    let positions = 0;
    try {
      const connection = openForReading(db);
      ({ positions } = totalsOf(connection));
      connection.close();
    } catch {
      // it is being made, or its totals are not there yet
    }
    if (positions >= (millions.length + 1) * 1e6)
      millions.push({ seconds: (performance.now() - start) / 1000, memory: Number(kilobytes) / 1024 });
  };
  const timer = setInterval(look, 500);
  await ended;
  clearInterval(timer);
  const seconds = (performance.now() - start) / 1000;
  const took = millions.map((one, n) => one.seconds - (millions[n - 1]?.seconds ?? 0));
  const list = (values: number[], digits: number) => values.map((value) => value.toFixed(digits)).join(" ");
  out(
    `| \`index\` of ten million positions in one run | ${seconds.toFixed(0)} s | seconds for each million: ${list(took, 1)} | at each: ${list(
      millions.map(({ memory }) => memory),
      0,
    )} MB | the same rate throughout, 300 MB |`,
  );
}

/** Ten million positions by chance, in one run, and in a hundred databases that are merged. */
async function benchScale(): Promise<void> {
  const given = process.env.LONGSIDE_SCALE;
  const db = given ?? join(folder, "scale.db");
  if (given === undefined) {
    const games = join(folder, "scale");
    mkdirSync(games);
    for (let n = 0; n < 10; ++n) randomGames(join(games, `${n}.pgn`), 20_000, 3000 + n, 20_000 * n);
    await watchedIndex(games, db);
    const parts = Array.from({ length: 100 }, (_, n) => {
      const some = join(folder, `part-${n}.pgn`);
      randomGames(some, 2000, 5000 + n, 2000 * n);
      const part = join(folder, `part-${n}.db`);
      command(["index", some, "--db", part]);
      rmSync(some);
      return part;
    });
    report(
      "`merge` of a hundred databases with ten million positions",
      [command(["merge", ...parts, "--db", join(folder, "merged.db")])],
      "60 s",
    );
  }
  const connection = openForReading(db);
  // as the page does it: others have been started
  answerOnThreads(connection, cpus().length);
  startHelpers(connection);
  await new Promise((resolve) => setTimeout(resolve, 2000));
  const { positions } = totalsOf(connection);
  const size = statSync(db).size;
  out(`| size | ${(size / 1e6).toFixed(0)} MB | ${(size / positions).toFixed(1)} bytes a position | | 30 |`);
  for (const [text, goal] of ASKED_AT_SCALE) {
    const [first, ...warm] = ask(connection, text, 4);
    const { memory } = warm[warm.length - 1];
    out(
      `| find: ${text} | ${median(warm.map(({ seconds }) => seconds)).toFixed(2)} s | at first ${first.seconds.toFixed(2)} s | ${memory.toFixed(0)} MB | ${goal}, 400 MB |`,
    );
  }
  report(
    "count every position by two facts",
    countBy(connection, "position", ["rook-side", "verdict"], 4).slice(1),
    "0.6 s, 400 MB",
  );
  endHelpers(connection);
  connection.close();
  report("`report`", [command(["report", "--db", db, "--html", join(folder, "scale.html")])], "15 s, 600 MB");
  report("`exercises --size 24`", [command(["exercises", "--size", "24", "--db", db])], "15 s, 600 MB");
}

function benchArchive(): void {
  const games = unpackArchive();
  if (games === undefined) return;
  const db = (n: number) => join(folder, `archive-${n}.db`);
  report(
    "`index` of the archive (116 MB, 117,243 games)",
    times(3, (n) => command(["index", games, "--db", db(n)])),
  );
  report(
    "`index` again, nothing changed",
    times(3, () => command(["index", games, "--db", db(0)])),
  );
  const connection = openForReading(db(0));
  const inMilliseconds = (name: string, runs: readonly Run[], note: string) => {
    const ms = runs.map(({ seconds }) => seconds * 1000);
    out(
      `| ${name} | ${median(ms).toFixed(1)} ms | ${Math.min(...ms).toFixed(1)}–${Math.max(...ms).toFixed(1)} ms | | ${note} |`,
    );
  };
  for (const text of QUESTIONS) inMilliseconds(`find: ${text}`, ask(connection, text, 9), "13,700 positions");
  inMilliseconds(
    "count by outcome and defender's rating",
    countBy(connection, "ending", ["outcome", "defender-rating:200"], 9),
    "",
  );
  connection.close();
}

try {
  out(
    `${cpus().length} × ${cpus()[0]?.model.trim()}, ${(totalmem() / 2 ** 30).toFixed(0)} GiB, Node ${process.version}, ${process.platform}\n`,
  );
  out("| what | median | least–most | peak memory | goal |\n| --- | --- | --- | --- | --- |");
  for (const [name, run] of [
    ["start", benchStart],
    ["solve", benchSolve],
    ["probes", benchProbes],
    ["sweep", benchSweep],
    ["theory", benchTheory],
    ["questions", benchQuestions],
    ["archive", benchArchive],
    ...(process.argv.includes("scale") ? [["scale", benchScale] as const] : []),
    ["scan", benchScan],
    ["everything", benchEverything],
  ] as const) {
    if (!wanted(name)) continue;
    await run();
    runBefore(name);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
