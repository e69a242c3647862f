// Checksums of what a database holds: CRC-32 of each blob of positions, looked at whenever one is read, and of each game's row
// with those of its endings, looked at by `check`. A changed bit is told, not answered with.

import { crc32 } from "node:zlib";

import { LongsideError } from "../errors.js";
import type { Connection } from "./connection.js";

/** The checksum that is stored beside a blob. */
export const blobChecksum = (data: Uint8Array): number => crc32(data);

/** The bytes of a blob. Throws `database-damaged` where they are not those that were written. */
export function wholeBlob(
  { data, checksum }: StoredBlob,
  db: Connection,
  what: string,
): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(data);
  if (crc32(bytes) !== checksum) throw new LongsideError("database-damaged", { path: db.name, what });
  return bytes;
}
export interface StoredBlob {
  readonly data: Buffer;
  readonly checksum: number;
}

/** Columns that depend on the numbers that rows have got here, or on other games. */
const LOCAL = new Set(["id", "source_id", "game_id", "duplicate_of", "checksum"]);

/** Works out the checksums of games. */
export class GameChecksums {
  private readonly game;
  private readonly endings;

  constructor(db: Connection) {
    const columns = (table: string) =>
      (db.prepare(`PRAGMA table_info(${table})`).all() as { name: string; type: string }[])
        .filter(({ name }) => !LOCAL.has(name))
        .map(({ name, type }) => (type === "BLOB" ? `hex(${name})` : name))
        .join(", ");
    this.game = db.prepare(`SELECT ${columns("games")} FROM games WHERE id = ?`).raw();
    this.endings = db
      .prepare(`SELECT ${columns("endings")} FROM endings WHERE game_id = ? ORDER BY first_ply`)
      .raw();
  }

  /** Of a game as it is stored now. */
  of(id: number | bigint): number {
    return crc32(JSON.stringify([this.game.get(id), this.endings.all(id)]));
  }
}
