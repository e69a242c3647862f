// Opening the database file: checks that it is ours and of this version before anything is done with it.

import { createHash, randomUUID } from "node:crypto";
import { existsSync, statSync } from "node:fs";

import { type Material, parseMaterial } from "../chess/material.js";
import { LongsideError, causeOf, notReadable } from "../errors.js";
import { version } from "../places.js";
import { Connection } from "./connection.js";
import { OLDEST_SCHEMA, convert } from "./convert.js";
import { APPLICATION_ID, SCHEMA, SCHEMA_VERSION } from "./schema.js";
import { lockForWriting } from "./write-lock.js";

/** Files that SQLite and runs keep beside a database, by what their names end in. */
export const SIDE_FILES = ["-journal", "-wal", "-shm", "-run"] as const;

/** What the file system knows of a path; undefined where there is nothing. Throws `not-readable` for what can be no path. */
function infoOf(path: string) {
  try {
    return statSync(path, { throwIfNoEntry: false });
  } catch (thrown) {
    throw notReadable(path, thrown);
  }
}

/** Refuses what is no file: SQLite would keep a database without a name in memory, and lose it. Throws `not-a-database`, `not-readable`. */
export function refuseNoFile(path: string): void {
  const refuse = (cause: string) => new LongsideError("not-a-database", { path: path || '""', cause });
  if (path.trim() === "" || /^:.*:$/.test(path)) throw refuse("it is no file's name");
  const info = infoOf(path);
  if (info?.isDirectory()) throw refuse("it is a folder");
  if (info && !info.isFile()) throw refuse("it is no plain file");
}

/** Refuses a file with several names: its side files would belong to one of them only, and two runs could write to it. */
function refuseManyNames(path: string): void {
  const names = statSync(path, { throwIfNoEntry: false })?.nlink ?? 1;
  if (names > 1)
    throw new LongsideError("cannot-write", {
      path,
      cause: `the file has ${names} names (hard links); copy it first`,
    });
}

function check(db: Connection, path: string): void {
  let id: unknown;
  try {
    id = db.setting("application_id");
  } catch (thrown) {
    throw new LongsideError("not-a-database", { path, cause: causeOf(thrown) });
  }
  if (id !== APPLICATION_ID) {
    const empty = statSync(path, { throwIfNoEntry: false })?.size === 0;
    const cause = empty ? "it is empty" : "it belongs to something else";
    throw new LongsideError("not-a-database", { path, cause });
  }
  const found = db.setting("user_version") as number;
  if (found !== SCHEMA_VERSION) {
    const code =
      found > SCHEMA_VERSION
        ? "newer-database"
        : found >= OLDEST_SCHEMA
          ? "older-database"
          : "much-older-database";
    throw new LongsideError(code, { path, found, known: SCHEMA_VERSION });
  }
}

/** Brings a database that an older longside wrote up to this schema, where that can be done; says whether it was. */
function convertIfOlder(db: Connection, path: string): boolean {
  const found = db.setting("user_version") as number;
  const known = db.setting("application_id") === APPLICATION_ID;
  if (!known || found < OLDEST_SCHEMA || found >= SCHEMA_VERSION) return false;
  // nobody else may be writing while every row is written anew
  const lock = lockForWriting(path);
  try {
    convert(db, found, targetOf(db));
  } finally {
    lock.release();
  }
  return true;
}

/** The same for a file. Throws `database-busy`, `not-a-database`, `cannot-write`. */
export function bringUpToDate(path: string): boolean {
  if (!isThere(path)) return false;
  refuseNoFile(path);
  refuseManyNames(path);
  try {
    const db = new Connection(path);
    try {
      return convertIfOlder(db, path);
    } finally {
      db.close();
    }
  } catch (thrown) {
    if (thrown instanceof LongsideError) throw thrown;
    throw new LongsideError("not-a-database", { path, cause: causeOf(thrown) });
  }
}

/** Whether there is a database; an empty file is one that is about to be made. */
export const isThere = (path: string): boolean => (infoOf(path)?.size ?? 0) > 0;

/** Opens an existing database for questions. */
export function openForReading(path: string): Connection {
  refuseNoFile(path);
  if (!existsSync(path)) throw new LongsideError("no-database", { path });
  let db: Connection;
  try {
    db = new Connection(path, { readonly: true });
  } catch (thrown) {
    throw new LongsideError("not-a-database", { path, cause: causeOf(thrown) });
  }
  try {
    check(db, path);
    return db;
  } catch (thrown) {
    db.close();
    throw thrown;
  }
}

/**
 * Opens a database for indexing `target`, making it if there is none (or an empty file), and bringing it up to this
 * schema if an older longside wrote it. Throws `other-target` if it holds another material.
 */
export function openForWriting(path: string, target: Material): Connection {
  refuseNoFile(path);
  refuseManyNames(path);
  let db: Connection;
  try {
    db = new Connection(path);
  } catch (thrown) {
    throw new LongsideError("cannot-write", { path, cause: causeOf(thrown) });
  }
  try {
    let empty: boolean;
    try {
      empty = db.prepare("SELECT count(*) FROM sqlite_master").pluck().get() === 0;
    } catch (thrown) {
      throw new LongsideError("not-a-database", { path, cause: causeOf(thrown) });
    }
    if (empty) {
      // room that is given back at the end of a run; must be said before the first table
      db.exec("PRAGMA auto_vacuum = INCREMENTAL");
      db.transaction(() => {
        db.exec(`PRAGMA application_id = ${APPLICATION_ID}`);
        db.exec(`PRAGMA user_version = ${SCHEMA_VERSION}`);
        db.exec(SCHEMA);
        setMeta(db, "target", target.name);
        setMeta(db, "version", version());
        setMeta(db, "identity", randomUUID());
      }).immediate();
    }
    convertIfOlder(db, path);
    check(db, path);
    const found = targetOf(db);
    if (found.id !== target.id) {
      throw new LongsideError("other-target", { path, found: found.name, wanted: target.name });
    }
    db.exec("PRAGMA journal_mode = WAL");
    db.exec("PRAGMA synchronous = NORMAL");
    return db;
  } catch (thrown) {
    db.close();
    throw thrown;
  }
}

/** Notes something about the whole database: its target, the version that made it. */
export function setMeta(db: Connection, key: string, value: string): void {
  db.prepare("INSERT INTO meta VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value").run(
    key,
    value,
  );
}

/** What `setMeta` noted; undefined if nothing was. */
export const getMeta = (db: Connection, key: string): string | undefined =>
  db.prepare("SELECT value FROM meta WHERE key = ?").pluck().get(key) as string | undefined;

/** The material whose endings the database holds. */
export const targetOf = (db: Connection): Material => parseMaterial(getMeta(db, "target")!);

/**
 * What a database is known by, whatever its file is called and wherever it lies: twelve hexadecimal digits. One that was
 * made before databases had an identity is known by its path.
 */
export const identityOf = (db: Connection, path: string): string =>
  createHash("sha256")
    .update(getMeta(db, "identity") ?? path)
    .digest("hex")
    .slice(0, 12);
