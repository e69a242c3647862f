// Exercises: every solution against the table move by move with chessops, no two alike under symmetry by a way of its
// own, the files read by other libraries.

import { Chess as OtherChess } from "chess.js";
import { Chess } from "chessops/chess";
import { makeFen, parseFen } from "chessops/fen";
import { parsePgn } from "chessops/pgn";
import { makeSanAndPlay, parseSan } from "chessops/san";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { join } from "node:path";

import type { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { EXCLUDED_BY_DEFAULT } from "../../src/store/exclusions.js";
import { cacheFolder } from "../../src/places.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { questionFor } from "../../src/exercises/candidates.js";
import { expectedFailure, gradeOf } from "../../src/exercises/difficulty.js";
import type { Exercise } from "../../src/exercises/exercise.js";
import { Pool } from "../../src/exercises/pool.js";
import { ExerciseMaker } from "../../src/exercises/maker.js";
import { Prober } from "../../src/position/probe.js";
import type { Task } from "../../src/exercises/tasks.js";
import { placementOf, readFen } from "../../src/chess/fen.js";
import { answerInWords } from "../../src/documents/exercise-words.js";
import { exercisesEpd, exercisesPgn } from "../../src/documents/exercise-files.js";
import { exercisesPage } from "../../src/documents/exercise-set.js";
import { TARGET, indexBundled, longside, openTables, temporaryFolder } from "../support.js";
import { hintsAreTrue, isThreat, isTrivial, pictureOfFen, withNext } from "./judged-otherwise.js";
import { alikeBySymmetry } from "./twins.js";

/** A win in at least 58 moves to the capture or mate (own computation).*/
const LONGEST = "8/B7/8/6R1/1K6/3r4/8/k7 w - - 0 1";
const candidatesFrom = (fen: string) => Pool.of(TARGET, [placementOf(readFen(fen))]);

const tables = openTables();
const catalogue = standardCatalogue();
const prober = new Prober(cacheFolder(), catalogue);
afterAll(() => prober.close());
let db: Connection;
let maker: ExerciseMaker;
let path: string;

beforeAll(async () => {
  path = join(temporaryFolder(), "bundled.db");
  await indexBundled(path);
  db = openForReading(path);
  maker = new ExerciseMaker(TARGET, tables, prober, catalogue, db, EXCLUDED_BY_DEFAULT);
});

function made(
  question: string,
  task: Task,
  size: number,
  seed = 1,
  answers: number | null = 1,
): readonly Exercise[] {
  const asked = questionFor(parseQuestion(question, catalogue.known), task);
  return maker.choose([maker.candidatesFromGames(asked)], { task, answers, size, seed }).exercises;
}

/** The verdict of a position for the exercise's attacker. */
const verdictAfter = (fen: string, san: string, attacker: string) => {
  const position = Chess.fromSetup(parseFen(fen).unwrap()).unwrap();
  position.play(parseSan(position, san)!);
  if (position.isCheckmate()) return position.turn === attacker ? "lost" : "won";
  if (position.board.occupied.size() === 2) return "drawn";
  const probe = prober.probe(makeFen(position.toSetup()));
  if (probe.attacker === attacker) return probe.verdict;
  return { won: "lost", drawn: "drawn", lost: "won" }[probe.verdict];
};

describe("exercises from games", () => {
  it.each(["hold", "win", "find"] as const)("to %s have one answer, which the table confirms", (task) => {
    const set = made("", task, 12);
    expect(set.length).toBeGreaterThan(5);
    for (const { fen, answers, attacker, verdict, sideToMove, legal } of set) {
      const position = Chess.fromSetup(parseFen(fen).unwrap()).unwrap();
      const moves = [...position.allDests()].flatMap(([from, targets]) =>
        [...targets].map((to) => makeSanAndPlay(position.clone(), { from, to })),
      );
      expect(moves.length).toBe(legal);
      const keeping = moves.filter((san) => verdictAfter(fen, san, attacker) === verdict);
      expect(keeping, fen).toEqual(answers);
      expect(answers.length).toBe(1);
      if (task === "hold") expect([sideToMove, verdict]).toEqual(["defender", "drawn"]);
      if (task === "win") expect([sideToMove, verdict]).toEqual(["attacker", "won"]);
    }
  });

  it("may have more answers, all of them named", () => {
    for (const { answers, fen, attacker, verdict } of made("", "hold", 6, 1, 2)) {
      expect(answers.length).toBe(2);
      for (const san of answers) expect(verdictAfter(fen, san, attacker)).toBe(verdict);
    }
  });

  it("are unlike each other, and from different games", () => {
    const set = made("", "find", 24);
    expect(set.length).toBeGreaterThan(15);
    set.forEach((one, n) => {
      for (const other of set.slice(0, n)) {
        expect(alikeBySymmetry(one.fen, other.fen), `${one.fen} and ${other.fen}`).toBe(false);
        expect(one.source!.ending).not.toBe(other.source!.ending);
      }
    });
  });

  it("ask for one move in one picture once, where there are others, though one piece stands elsewhere", () => {
    // the king goes behind the bishop's king, wherever on the edge the rook is about to check from
    const [near, far] = ["8/8/8/8/4BK2/8/3rk3/7R b - - 0 1", "8/8/8/8/4KB2/8/5kr1/R7 b - - 0 1"];
    const other = "3k4/2r5/2BK3R/8/8/8/8/8 b - - 0 1";
    const chosen = (fens: readonly string[], seed: number) => {
      const pool = Pool.of(
        TARGET,
        fens.map((fen) => placementOf(readFen(fen))),
      );
      return maker.choose([pool], { task: "hold", answers: 1, size: 2, seed }).exercises;
    };
    for (let seed = 1; seed <= 12; ++seed) {
      const answers = chosen([near, far, other], seed).map(({ answers: [san] }) => san[0]);
      expect(answers.sort(), `seed ${seed}`).toEqual(["K", "R"]);
    }
    expect(chosen([near, far], 1)).toHaveLength(2);
  });

  it("go from easy to hard, and follow from the seed", () => {
    const set = made("", "find", 12);
    set.forEach((one, n) => {
      expect(one.number).toBe(n + 1);
      expect(one.grade).toBe(gradeOf(one.difficulty!));
      if (n > 0) expect(one.difficulty).toBeGreaterThanOrEqual(set[n - 1].difficulty!);
    });
    expect(made("", "find", 12)).toEqual(set);
    expect(made("", "find", 12, 2).map(({ fen }) => fen)).not.toEqual(set.map(({ fen }) => fen));
    // turned and mirrored, colours exchanged
    expect(new Set(set.map(({ attacker }) => attacker)).size).toBe(2);
  });

  it("are harder the fewer moves keep the verdict", () => {
    expect(expectedFailure(20, 1, false, null)).toBeGreaterThan(expectedFailure(20, 10, false, null));
    expect(expectedFailure(20, 1, true, null)).toBeLessThan(expectedFailure(20, 1, false, null));
    expect(expectedFailure(20, 1, false, 40)).toBeGreaterThan(expectedFailure(20, 1, false, 3));
  });

  it("have solutions and refutations that chess.js can play", () => {
    for (const { fen, answers, solution, refutations } of made("", "find", 12)) {
      for (const line of [
        [answers[0], ...solution.line],
        ...refutations.map((one) => [one.san, ...one.line]),
      ]) {
        const game = new OtherChess(fen);
        for (const san of line) game.move(san, { strict: true });
      }
      expect(solution.end).not.toBe("");
    }
  });

  it("to judge come won and drawn in an order that tells nothing, and the verdict is the answer", () => {
    const set = made("", "judge", 12);
    const order = set.map(({ verdict }) => verdict);
    expect(order.filter((verdict) => verdict === "drawn").length).toBe(order.length / 2);
    // neither all drawn first nor in turn
    const changes = order.filter((verdict, n) => n > 0 && verdict !== order[n - 1]).length;
    expect(changes).toBeGreaterThan(1);
    expect(changes).toBeLessThan(order.length - 1);
    expect(answerInWords(set[0])).toMatch(/^(?:drawn|(?:White|Black) wins, mate in \d+)$/);
    for (const { fen, verdict } of set) expect(prober.probe(fen).verdict).toBe(verdict);
  });
});

describe("the choice", () => {
  it("takes nothing that everybody sees, and shows no picture twice", () => {
    const set = (["hold", "win", "find"] as const).flatMap((task) => made("", task, 12, 3, null));
    expect(set.filter(isTrivial)).toEqual([]);
    for (const { fen, verdict, dtm, refutations } of set) {
      expect(verdict === "drawn" || dtm! > 1, fen).toBe(true);
      for (const { san, line } of refutations) {
        // no wrong move that loses to a mate in one
        expect(line[0]?.endsWith("#") ?? false, `${fen} ${san}`).toBe(false);
      }
    }
    const find = made("", "find", 24, 1, null).map(({ fen }) => pictureOfFen(fen));
    expect(new Set(find).size).toBe(find.length);
  });

  it("of one seed is another for each task", () => {
    const of = (task: Task) => made("", task, 12, 1, null).map(({ fen }) => pictureOfFen(fen));
    const find = of("find");
    const shared = [...of("hold"), ...of("win")].filter((picture) => find.includes(picture));
    expect(shared.length).toBeLessThan(find.length / 2);
  });

  it("has themes and hints that another library finds true", () => {
    const set = made("", "find", 24, 1, null);
    expect(set.filter(({ themes }) => themes.length > 0).length).toBeGreaterThanOrEqual(0.9 * set.length);
    for (const one of set) expect(hintsAreTrue(one, prober), `${one.fen} ${one.themes[0]}`).not.toBe(false);
    const [theme] = set.find(({ themes }) => themes.length > 0)!.themes;
    const asked = questionFor(parseQuestion("", catalogue.known), "find");
    const { exercises } = maker.choose([maker.candidatesFromGames(asked)], {
      task: "find",
      answers: null,
      size: 3,
      seed: 1,
      themes: [theme],
    });
    expect(exercises.length).toBeGreaterThan(0);
    for (const { themes } of exercises) expect(themes).toContain(theme);
  });

  it("mix the themes that are asked for, each for its part, or go through them one after another", () => {
    // the three that these games have most of
    const leads = made("", "find", 24, 1, null).flatMap((one) => one.themes.slice(0, 1));
    const count = (theme: string) => leads.filter((one) => one === theme).length;
    const themes = [...new Set(leads)].sort((a, b) => count(b) - count(a)).slice(0, 3);
    const asked = questionFor(parseQuestion("", catalogue.known), "find");
    const of = (byTheme: boolean) =>
      maker.choose([maker.candidatesFromGames(asked)], {
        task: "find",
        answers: null,
        size: 6,
        seed: 1,
        themes,
        byTheme,
      }).exercises;
    const [mixed, inTurn] = [of(false), of(true)];
    const picturesOf = (set: readonly Exercise[]) => set.map(({ fen }) => pictureOfFen(fen)).sort();
    expect(picturesOf(inTurn)).toEqual(picturesOf(mixed));
    // the theme that was asked for names the exercise
    const firsts = inTurn.map((one) => themes.indexOf(one.themes[0]));
    expect(firsts).not.toContain(-1);
    expect(firsts).toEqual([...firsts].sort());
    for (const n of themes.keys()) {
      const group = inTurn.filter((_, at) => firsts[at] === n);
      expect(group.length, themes[n]).toBe(2);
      expect(group[0].difficulty).toBeLessThanOrEqual(group[1].difficulty!);
    }
    const rising = mixed.map(({ difficulty }) => difficulty!);
    expect(rising).toEqual([...rising].sort((a, b) => a - b));
  });

  it("say of threats only what another library finds true: no trade, no stalemate", () => {
    const fens = made("", "find", 24, 1, null).flatMap(({ fen }) => withNext(fen));
    const threats = fens.filter((fen) => isThreat(fen, prober) !== undefined);
    expect(threats.length).toBeGreaterThan(30);
    for (const fen of threats) expect(isThreat(fen, prober), fen).toBe(true);
    // taking the rook would be stalemate, as Kxg7 would
    for (const fen of ["5k1K/3r4/7R/8/8/4b3/8/8 w - - 0 1", "6B1/6r1/5K2/8/1R6/8/8/k7 b - - 0 1"])
      expect(prober.probe(fen).explanation.threat).toBeNull();
  });

  it("have stars that mean what is said of them", () => {
    // "what nearly everybody finds", "what one player in three or more gets wrong"
    expect([0.01, 0.04].map(gradeOf)).toEqual([1, 1]);
    expect([0.1, 0.2, 0.3].every((difficulty) => gradeOf(difficulty) > 1 && gradeOf(difficulty) < 5)).toBe(
      true,
    );
    const hardest = Array.from({ length: 100 }, (_, n) => n / 100).filter((one) => gradeOf(one) === 5);
    expect(Math.min(...hardest)).toBeGreaterThanOrEqual(1 / 3);
  });

  const pairsOf = (size: number, seed: number) => {
    const asked = questionFor(parseQuestion("", catalogue.known), "judge");
    const wanted = { task: "judge", answers: null, size, seed, pairs: true } as const;
    return maker.choose([maker.candidatesFromGames(asked)], wanted).exercises;
  };

  it("in pairs never has them all in the same order", () => {
    // of two pairs every second set would, if each were put in order by lot
    for (let seed = 1; seed <= 5; ++seed) {
      const [one, , other] = pairsOf(4, seed);
      expect(one.verdict, `seed ${seed}`).not.toBe(other.verdict);
    }
  });

  it("in pairs puts two side by side that come out otherwise", () => {
    const exercises = pairsOf(6, 1);
    expect(exercises.length).toBeGreaterThan(1);
    for (let n = 0; n < exercises.length; n += 2) {
      const [one, other] = exercises.slice(n, n + 2);
      expect(one.pair).toBe(other.pair);
      expect(one.verdict).not.toBe(other.verdict);
      expect(one.fen.split(" ")[1]).toBe(other.fen.split(" ")[1]);
    }
  });

  it("leaves out what hangs on the fifty-move rule, and says so where it was given", () => {
    // no position takes more than 59 (Thompson 1986)
    const { exercises } = maker.given([{ fen: LONGEST }]);
    expect(exercises[0].beyondFifty).toBe(true);
    const made = { title: "One", command: "longside", date: "2026-01-01" };
    const page = exercisesPage(exercises, made);
    expect(page).toContain("The fifty-move rule is left out");
    expect(page).toContain("the arbiter decides");
    const drawn = candidatesFrom(LONGEST);
    expect(maker.choose([drawn], { task: "win", answers: null, size: 1, seed: 1 }).exercises).toEqual([]);
  });

  it("names each given position that is not taken, with the reason", () => {
    const given = [
      "8/8/8/8/8/2k5/8/K1R4r b - - 0 1",
      "k7/8/8/8/8/8/5R2/KB5r w - - 0 1",
      "8/8/8/4k3/8/8/1R6/KB5r b - - 0 1",
    ];
    const { exercises, notTaken } = maker.given(given.map((fen) => ({ fen })));
    expect(exercises.length + notTaken.length).toBe(given.length);
    expect(notTaken[0]).toEqual({ fen: given[0], reason: "another ending" });
    const page = exercisesPage(
      exercises,
      { title: "T", command: "longside", date: "2026-01-01" },
      { notTaken },
    );
    expect(page).toContain("is another ending");
  });
});

describe("the files", () => {
  it("PGN is read by chessops, solutions as moves, errors as variations", () => {
    const set = made("", "find", 8);
    const games = parsePgn(exercisesPgn(set, "Ten puzzles"));
    expect(games.length).toBe(set.length);
    games.forEach((game, n) => {
      expect(game.headers.get("FEN")).toBe(set[n].fen);
      expect(game.headers.get("SetUp")).toBe("1");
      const [main, ...variations] = game.moves.children;
      expect(main.data.san).toBe(set[n].answers[0]);
      expect(main.data.nags).toContain(8);
      expect(variations.map(({ data }) => data.san)).toEqual(set[n].refutations.map(({ san }) => san));
      expect([...game.moves.mainline()].length).toBe(1 + set[n].solution.line.length);
    });
  });

  it("EPD holds the four fields of the position and its operations", () => {
    const set = made("", "find", 8);
    const lines = exercisesEpd(set, "Ten puzzles").trimEnd().split("\n");
    lines.forEach((line, n) => {
      const [, fields, rest] = /^(\S+ \S+ \S+ \S+) (.*)$/.exec(line)!;
      expect(set[n].fen.startsWith(fields)).toBe(true);
      const operations = new Map(
        [...rest.matchAll(/(\w+) ((?:"[^"]*"|[^;"])*);/g)].map(([, opcode, operand]) => [opcode, operand]),
      );
      expect(operations.get("bm")).toBe(set[n].answers.join(" "));
      expect(operations.get("id")).toBe(`"Ten puzzles, ${n + 1}"`);
      expect([...operations.keys()]).toEqual([...operations.keys()].sort());
    });
  });

  it("the sheet has a board for each, and holds nothing from elsewhere", () => {
    const set = made("", "find", 6);
    const page = exercisesPage(set, {
      title: "A <sheet>",
      command: "longside exercises",
      date: "2026-01-01",
    });
    expect(page.match(/<svg/g)!.length).toBe(6);
    expect(page).toContain("A &lt;sheet>");
    expect(page).not.toMatch(/<script|src=|url\(http|<link/);
    for (const { fen, answers } of set)
      expect(page).toContain(
        `<b>${fen.includes(" w ") ? "1.\u00a0" : "1...\u00a0"}${answers[0]}${answers.length === 1 ? "!" : ""}</b>`,
      );
  });
});

describe("exercises from the command line", () => {
  it("out of the whole table", () => {
    const args = ["exercises", "Szén", "--among", "table", "--size", "5", "--json", "--db", path];
    const found = longside(args);
    expect(found.status).toBe(0);
    expect(found.stdout.trimEnd().split("\n").length).toBe(5);
    for (const line of found.stdout.trimEnd().split("\n")) {
      const { fen, setUps } = JSON.parse(line) as Exercise;
      expect(setUps).toContain("Szén");
      expect(prober.probe(fen).keeping).toBe(1);
    }
  });

  it("of equal pieces call White the attacker, as the tables do", () => {
    const { stdout } = longside(
      ["exercises", "--target", "R v R", "--among", "table", "--task", "win", "--size", "6", "--json"],
      { cwd: temporaryFolder() },
    );
    const set = stdout
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line) as Exercise);
    expect(set.length).toBe(6);
    for (const { fen, attacker, verdict, sideToMove } of set) {
      expect([attacker, verdict, sideToMove]).toEqual(["white", "won", "attacker"]);
      expect(prober.probe(fen)).toMatchObject({ verdict: "won" });
    }
  });

  it("says when there are too few, and refuses what it cannot do", () => {
    const few = longside([
      "exercises",
      "first-rank defence",
      "--task",
      "hold",
      "--size",
      "500",
      "--among",
      "games",
      "--db",
      path,
    ]);
    expect(few.stderr).toMatch(/of 500 wanted/);
    const games = longside(["exercises", "defender held", "--among", "table", "--db", path]);
    expect(games.status).toBe(2);
    expect(games.stderr).toMatch(/is about games/);
    expect(longside(["exercises", "--task", "guess"]).stderr).toMatch(/hold, win, find, judge/);
  });
});
