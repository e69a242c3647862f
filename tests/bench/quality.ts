// The quality of exercises, measured: over 500 drawn from the whole table, and sets from the bundled games and from the
// archive where it lies beside the project (or from the database that is named), that every solution is right, that none is a piece simply taken, that no two show one picture, that hints are
// true and sentences well formed; and how difficulty, themes and set-ups are spread.

import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { Chess } from "chessops/chess";
import { makeFen, parseFen } from "chessops/fen";
import { makeSanAndPlay } from "chessops/san";

import { DEFAULT_TARGET, parseMaterial } from "../../src/chess/material.js";
import type { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { EXCLUDED_BY_DEFAULT } from "../../src/store/exclusions.js";
import { PACKAGE, cacheFolder } from "../../src/places.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { buildHalves, missingHalves } from "../../src/tablebase/build.js";
import { Tables } from "../../src/tablebase/tables.js";
import { tableText } from "../../src/cli/terminal.js";
import { candidatesFromTable, questionFor } from "../../src/exercises/candidates.js";
import {
  gradeInWords,
  joined,
  sourceInWords,
  taskInWords,
  themesInWords,
} from "../../src/documents/exercise-words.js";
import { capital, sentence } from "../../src/position/wording.js";
import type { Exercise } from "../../src/exercises/exercise.js";
import { ExerciseMaker } from "../../src/exercises/maker.js";
import { Prober } from "../../src/position/probe.js";
import { indexBundled } from "../bundled.js";
import { faultsOf } from "../grammar.js";
import { hintsAreTrue, isThreat, isTrivial, pictureOfFen, withNext } from "../exercises/judged-otherwise.js";

const SIZE = 500;
const SEED = 1;
const TARGET = parseMaterial(DEFAULT_TARGET);

const out = (text: string) => process.stdout.write(`${text}\n`);

/** Moves of a position that keep its verdict for the side to move, by the rules library's moves and the tables. */
function keepingMoves(prober: Prober, { fen, verdict, attacker }: Exercise): string[] {
  const position = Chess.fromSetup(parseFen(fen).unwrap()).unwrap();
  const kept: string[] = [];
  for (const [from, targets] of position.allDests()) {
    for (const to of targets) {
      const after = position.clone();
      const san = makeSanAndPlay(after, { from, to });
      let now: string;
      if (after.isCheckmate()) now = after.turn === attacker ? "lost" : "won";
      else if (after.board.occupied.size() === 2 || after.isStalemate()) now = "drawn";
      else {
        const probe = prober.probe(makeFen(after.toSetup()));
        now =
          probe.attacker === attacker
            ? probe.verdict
            : { won: "lost", drawn: "drawn", lost: "won" }[probe.verdict];
      }
      if (now === verdict) kept.push(san);
    }
  }
  return kept;
}

function spread(
  title: string,
  exercises: readonly Exercise[],
  keysOf: (one: Exercise) => readonly string[],
): void {
  const counts = new Map<string, number>();
  for (const one of exercises) for (const key of keysOf(one)) counts.set(key, (counts.get(key) ?? 0) + 1);
  const rows = [...counts].sort(([a], [b]) => (a < b ? -1 : 1));
  out(
    tableText([
      { head: title, cells: rows.map(([key]) => key) },
      { head: "exercises", cells: rows.map(([, count]) => String(count)), right: true },
    ]),
  );
}

/** Every sentence that a sheet says of an exercise. */
const sentencesOf = (one: Exercise): string[] =>
  [
    taskInWords(one),
    ...one.hints,
    joined([themesInWords(one), one.setUps.join(", "), gradeInWords(one), sourceInWords(one)]),
    sentence(capital(one.solution.end)),
    ...one.refutations.map(({ end }) => sentence(capital(end))),
  ].filter((text) => text !== "");

function measure(title: string, exercises: readonly Exercise[], prober: Prober): number {
  const wrong = exercises.filter(
    (one) => keepingMoves(prober, one).sort().join() !== [...one.answers].sort().join(),
  );
  const trivial = exercises.filter(isTrivial);
  const pictures = new Map<string, number>();
  for (const { fen } of exercises) {
    const picture = pictureOfFen(fen);
    pictures.set(picture, (pictures.get(picture) ?? 0) + 1);
  }
  const same = exercises.length - pictures.size;
  const named = exercises.filter(({ themes }) => themes.length > 0);
  const hints = exercises.map((one) => hintsAreTrue(one, prober));
  const untrue = exercises.filter((_, n) => hints[n] === false);
  const unchecked = hints.filter((one) => one === undefined).length;
  const threats = exercises.flatMap(({ fen }) => withNext(fen)).map((fen) => isThreat(fen, prober));
  const said = threats.filter((one) => one !== undefined).length;
  const noThreats = threats.filter((one) => one === false).length;
  const sentences = exercises.flatMap(sentencesOf);
  const bad = sentences.flatMap((text) => faultsOf(text).map((fault) => `${fault}: ${text}`));
  out(`\n${title}: ${exercises.length} exercises`);
  out(
    `answers right by the rules library and the tables: ${exercises.length - wrong.length} of ${exercises.length}`,
  );
  out(`pieces simply taken: ${trivial.length}`);
  out(`same pictures: ${same}`);
  out(`themes named: ${named.length} of ${exercises.length}`);
  out(`hints untrue: ${untrue.length}; ideas not checked in another way: ${unchecked}`);
  for (const { fen, themes, answers } of untrue.slice(0, 5))
    out(`  ${fen} ${themes[0]} ${answers.join(" ")}`);
  out(`threats told, in them and a move later: ${said}, of which none is: ${noThreats}`);
  out(`sentences: ${sentences.length}, with faults of grammar: ${bad.length}`);
  for (const text of bad.slice(0, 5)) out(`  ${text}`);
  spread("grade", exercises, ({ grade }) => [String(grade)]);
  spread("theme", exercises, ({ themes }) => [themes[0] ?? "none"]);
  spread("set-up", exercises, ({ setUps }) => (setUps.length > 0 ? setUps : ["none"]));
  spread("side to move", exercises, ({ sideToMove, verdict }) => [`${sideToMove}, ${verdict}`]);
  spread("colour of the attacker", exercises, ({ attacker }) => [attacker]);
  const few = named.length < 0.9 * exercises.length ? 1 : 0;
  return wrong.length + trivial.length + same + untrue.length + bad.length + noThreats + few;
}

/** Databases to take games from, with what they are called. */
async function databases(scratch: string): Promise<(readonly [string, string])[]> {
  const named = process.argv[2];
  if (named !== undefined) return [["from games", named]];
  const bundled = join(scratch, "bundled.db");
  await indexBundled(bundled);
  const archive = join(PACKAGE, "..", "shared", "data", "games.tar.gz");
  if (!existsSync(archive)) return [["from the bundled games", bundled]];
  execFileSync("tar", ["-xzf", archive, "-C", scratch]);
  const real = join(scratch, "archive.db");
  await indexBundled(real, join(scratch, "games"));
  return [
    ["from the bundled games", bundled],
    ["from the archive of real games", real],
  ];
}

const folder = cacheFolder();
const scratch = mkdtempSync(join(tmpdir(), "longside-quality-"));
let faults = 0;
try {
  await buildHalves(missingHalves(folder, [TARGET], "head"), { folder, threads: 2, onProgress: () => {} });
  const tables = new Tables(TARGET, folder);
  const catalogue = standardCatalogue();
  const prober = new Prober(folder, catalogue);
  const wanted = { task: "find", answers: null, size: SIZE, seed: SEED } as const;
  const question = questionFor(parseQuestion("", catalogue.known), wanted.task);
  const candidates = await candidatesFromTable(TARGET, question, wanted, { setUps: null, threads: 2 });
  const makerWith = (db?: Connection) =>
    new ExerciseMaker(TARGET, tables, prober, catalogue, db, EXCLUDED_BY_DEFAULT);
  const drawn = makerWith().choose([candidates], wanted);
  faults += measure("from the whole table", drawn.exercises, prober);
  for (const [title, path] of await databases(scratch)) {
    const db = openForReading(path);
    const maker = makerWith(db);
    const games = maker.candidatesFromGames(question);
    faults += measure(title, maker.choose([games], wanted).exercises, prober);
    db.close();
  }
  prober.close();
  tables.close();
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
process.exitCode = faults === 0 ? 0 : 1;
