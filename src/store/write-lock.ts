// One writer for a database: a lock that the system lets go of when its process dies, however it dies.
//
// The lock is SQLite's own, on an empty file beside the database, held for the whole run; a process number in
// the database itself would outlive a killed run and could come to mean another process.

import { realpathSync, rmSync, statSync } from "node:fs";

import { LongsideError, causeOf } from "../errors.js";
import { Connection } from "./connection.js";

export interface WriteLock {
  release(): void;
}

const identityOf = (path: string) => statSync(path, { throwIfNoEntry: false })?.ino;

/** Claims the database at `path`. Throws `database-busy` while another run holds it, or `cannot-write`. */
export function lockForWriting(path: string): WriteLock {
  // a link leads to the same database
  const lockPath = `${realpathSync(path)}-run`;
  for (;;) {
    const before = identityOf(lockPath);
    let lock: Connection | undefined;
    try {
      lock = new Connection(lockPath, { timeout: 0 });
      lock.exec("BEGIN EXCLUSIVE");
    } catch (thrown) {
      lock?.close();
      const busy = (thrown as { code?: string }).code?.startsWith("SQLITE_BUSY");
      throw busy
        ? new LongsideError("database-busy", { path })
        : new LongsideError("cannot-write", { path: lockPath, cause: causeOf(thrown) });
    }
    const after = identityOf(lockPath);
    // the run before may have taken its lock file away between our opening it and our locking it
    if (after === undefined || (before !== undefined && before !== after)) {
      lock.close();
      continue;
    }
    const held = lock;
    return {
      release() {
        rmSync(lockPath, { force: true });
        held.close();
      },
    };
  }
}
