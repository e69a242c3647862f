// Looking at a whole database: what is hurt, in which file's games, and what can be made again.

import { KING_FILE, KING_RANK, POSITION_BYTES, POSITION_COLUMNS } from "../endings/position-columns.js";
import { GEOMETRY } from "../geometry/facts.js";
import { GameChecksums, type StoredBlob, blobChecksum } from "./checksums.js";
import { type Chunk, chunksOf, readColumn, readFromOtherEdge, twoEdgesIn } from "./chunks.js";
import type { Connection } from "./connection.js";

/** A file that games come from. */
export interface HurtSource {
  readonly id: number;
  readonly name: string;
  readonly path: string;
}

export interface Hurt {
  /** In words: "the positions of ending 12". */
  readonly what: string;
  /** The numbers of the rows of its games, and their files. */
  readonly games: readonly { readonly game: number; readonly source: HurtSource | null }[];
  /** The number of a chunk whose positions cannot be trusted. */
  readonly chunk: number | null;
}

export interface Checked {
  readonly games: number;
  readonly endings: number;
  readonly chunks: number;
  readonly hurt: readonly Hurt[];
  /** What SQLite itself finds wrong with the file; nothing can be trusted then. */
  readonly file: readonly string[];
}

/** Looks at everything in a database. */
export function checkDatabase(db: Connection): Checked {
  const hurt: Hurt[] = [];
  let file: string[];
  try {
    file = (db.prepare("PRAGMA integrity_check").pluck().all() as string[]).filter((line) => line !== "ok");
  } catch (thrown) {
    file = [(thrown as Error).message];
  }
  if (file.length > 0) return { games: 0, endings: 0, chunks: 0, hurt, file };
  const sources = new Map(
    (db.prepare("SELECT id, name, path FROM sources").all() as HurtSource[]).map((one) => [one.id, one]),
  );
  const of = (game: number, source: number) => ({ game, source: sources.get(source) ?? null });
  const checksums = new GameChecksums(db);
  let games = 0;
  for (const { id, source, number, checksum } of db
    .prepare("SELECT id, source_id AS source, number, checksum FROM games ORDER BY id")
    .all() as { id: number; source: number; number: number; checksum: number }[]) {
    ++games;
    if (checksums.of(id) !== checksum)
      hurt.push({
        what: `game ${number} of ${sources.get(source)?.name ?? "no file"}`,
        games: [of(id, source)],
        chunk: null,
      });
  }
  const endings = db
    .prepare(
      "SELECT e.id, e.positions, g.id AS game, g.source_id AS source FROM endings e JOIN games g ON g.id = e.game_id ORDER BY e.id",
    )
    .all() as { id: number; positions: number; game: number; source: number }[];
  const chunks = db
    .prepare("SELECT id, first_ending AS first, last_ending AS last FROM chunks ORDER BY first_ending")
    .all() as { id: number; first: number; last: number }[];
  const held = new Map<number, number>();
  for (const { id, first, last } of chunks) {
    const fault = faultOf(db, id, held);
    if (fault !== undefined)
      hurt.push({
        what: `${fault}, endings ${first} to ${last}`,
        games: endings
          .filter((one) => one.id >= first && one.id <= last)
          .map((one) => of(one.game, one.source)),
        chunk: id,
      });
  }
  const inHurt = (ending: number) =>
    chunks.some(
      ({ id, first, last }) => ending >= first && ending <= last && hurt.some(({ chunk }) => chunk === id),
    );
  const loose = db.prepare("SELECT data, checksum FROM loose WHERE ending_id = ?");
  for (const { id, positions, game, source } of endings) {
    const blob = loose.get(id) as StoredBlob | undefined;
    const whole = blob
      ? blob.data.length === positions * POSITION_BYTES && blobChecksum(blob.data) === blob.checksum
      : held.get(id) === positions || inHurt(id);
    if (!whole) hurt.push({ what: `the positions of ending ${id}`, games: [of(game, source)], chunk: null });
  }
  return { games, endings: endings.length, chunks: chunks.length, hurt, file };
}

/** What is wrong with a chunk, in words; undefined where nothing is. Notes how many positions it has of each ending. */
function faultOf(db: Connection, id: number, held: Map<number, number>): string | undefined {
  let chunk: Chunk;
  try {
    chunk = chunksOf(db, id)[0];
  } catch {
    return "a chunk's list of endings";
  }
  for (const [column, { name }] of POSITION_COLUMNS.entries()) {
    try {
      if (readColumn(db, chunk, column)?.length !== chunk.positions) return `a chunk of the column ${name}`;
    } catch {
      return `a chunk of the column ${name}`;
    }
  }
  const rows = twoEdgesIn(readColumn(db, chunk, KING_RANK)!, readColumn(db, chunk, KING_FILE)!);
  for (const [fact, { name }] of GEOMETRY.entries()) {
    try {
      if (readFromOtherEdge(db, chunk, fact, rows.length) === undefined)
        return `a chunk of the column ${name}`;
    } catch {
      return `a chunk of the column ${name}`;
    }
  }
  chunk.ids.forEach((ending, n) => held.set(ending, chunk.counts[n]));
  return undefined;
}
