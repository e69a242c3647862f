// The quality of exercises, measured: over a set of 200 drawn from the whole table, and one from games (a database
// may be named), that every solution is right, that no two are twins, and how difficulty and set-ups are spread.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { Chess } from "chessops/chess";
import { makeFen, parseFen } from "chessops/fen";
import { makeSanAndPlay } from "chessops/san";

import { DEFAULT_TARGET, parseMaterial } from "../../src/chess/material.js";
import type { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { EXCLUDED_BY_DEFAULT } from "../../src/store/exclusions.js";
import { cacheFolder } from "../../src/places.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { buildHalves, missingHalves } from "../../src/tablebase/build.js";
import { Tables } from "../../src/tablebase/tables.js";
import { tableText } from "../../src/cli/terminal.js";
import { candidatesFromTable, questionFor } from "../../src/exercises/candidates.js";
import type { Exercise } from "../../src/exercises/exercise.js";
import { ExerciseMaker } from "../../src/exercises/maker.js";
import { Prober } from "../../src/position/probe.js";
import { indexBundled } from "../bundled.js";
import { alikeBySymmetry } from "../exercises/twins.js";

const SIZE = 200;
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

function measure(title: string, exercises: readonly Exercise[], prober: Prober): number {
  const wrong = exercises.filter(
    (one) => keepingMoves(prober, one).sort().join() !== [...one.answers].sort().join(),
  );
  let twins = 0;
  exercises.forEach((one, n) => {
    for (const other of exercises.slice(0, n)) if (alikeBySymmetry(one.fen, other.fen)) ++twins;
  });
  out(`\n${title}: ${exercises.length} exercises`);
  out(`solutions right by the table: ${exercises.length - wrong.length} of ${exercises.length}`);
  out(`pairs that are twins: ${twins}`);
  spread("grade", exercises, ({ grade }) => [String(grade)]);
  spread("set-up", exercises, ({ setUps }) => (setUps.length > 0 ? setUps : ["none"]));
  spread("side to move", exercises, ({ sideToMove, verdict }) => [`${sideToMove}, ${verdict}`]);
  spread("colour of the attacker", exercises, ({ attacker }) => [attacker]);
  spread("king's file", exercises, ({ fen }) => {
    const { "king-file": file } = prober.probe(fen).facts;
    return [String(file)];
  });
  return wrong.length + twins;
}

const folder = cacheFolder();
const scratch = mkdtempSync(join(tmpdir(), "longside-quality-"));
let faults = 0;
try {
  await buildHalves(missingHalves(folder, [TARGET], "head"), { folder, threads: 2, onProgress: () => {} });
  let path = process.argv[2];
  if (path === undefined) await indexBundled((path = join(scratch, "bundled.db")));
  const db: Connection = openForReading(path);
  const tables = new Tables(TARGET, folder);
  const catalogue = standardCatalogue();
  const prober = new Prober(folder, catalogue);
  const maker = new ExerciseMaker(TARGET, tables, prober, catalogue, db, EXCLUDED_BY_DEFAULT);
  const wanted = { task: "find", answers: 1, size: SIZE, seed: SEED } as const;
  const question = questionFor(parseQuestion("", catalogue.known), wanted.task);
  const candidates = await candidatesFromTable(TARGET, question, wanted, { setUps: null, threads: 2 });
  faults += measure("from the whole table", maker.choose(candidates, wanted), prober);
  const games = maker.candidatesFromGames(question);
  faults += measure("from games", maker.choose(games, wanted), prober);
  prober.close();
  tables.close();
  db.close();
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
process.exitCode = faults === 0 ? 0 : 1;
