// Connections to SQLite, and what keeps them from being collected.
//
// Built against the headers of Node 24 and newer, better-sqlite3 12 aborts the process when one of its objects is
// collected between two calls of JavaScript (node::ObjectWrap asks for an environment that is not there then).
// So its objects are kept as long as the process: a statement for each text, of which there are few.

import Database from "better-sqlite3";

const kept = new Set<unknown>();
const keep = <T>(one: T): T => {
  kept.add(one);
  return one;
};

/** A database whose statements and iterators live as long as the process; equal texts share a statement. */
export class Connection extends Database {
  /** How many threads share the memory that is kept for columns, each with a connection of its own. */
  sharedBy = 1;

  constructor(path: string, options?: Database.Options) {
    super(path, options);
    keep(this);
    const statements = new Map<string, Database.Statement>();
    const prepare = this.prepare.bind(this) as (sql: string) => Database.Statement;
    this.prepare = ((sql: string) => {
      let statement = statements.get(sql);
      if (!statement) {
        statement = prepare(sql);
        const iterate = statement.iterate.bind(statement);
        statement.iterate = (...values: unknown[]) => keep(iterate(...values));
        statements.set(sql, statement);
      }
      return statement;
    }) as typeof this.prepare;
  }

  /** The value of a pragma: by a statement of ours, since those that `pragma` makes cannot be kept. */
  setting(name: string): unknown {
    return this.prepare(`PRAGMA ${name}`).pluck().get();
  }
}
