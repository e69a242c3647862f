// What an answering thread works with: the database if there is one, the tables, the catalogue. Each thread has its own.

import { statSync } from "node:fs";

import { type Material, parseMaterial } from "../chess/material.js";
import { LongsideError } from "../errors.js";
import type { Connection } from "../store/connection.js";
import { isThere, openForReading, targetOf } from "../store/database.js";
import type { Question } from "../query/language/ast.js";
import { type Catalogue, catalogueWith } from "../query/language/catalogue.js";
import { parseQuestion } from "../query/language/parse.js";
import type { Tables } from "../tablebase/tables.js";
import { Prober } from "../position/probe.js";

/** What the threads are told when they begin. */
export interface Means {
  readonly db: string;
  /** Name of the material where there is no database. */
  readonly target: string;
  readonly setUps: string | null;
  /** Folder of the tables. */
  readonly folder: string;
  readonly threads: number;
}

export class Workspace {
  readonly catalogue: Catalogue;
  readonly prober: Prober;
  private opened: { readonly db: Connection; readonly file: number } | undefined;

  constructor(readonly means: Means) {
    this.catalogue = catalogueWith(means.setUps);
    this.prober = new Prober(means.folder, this.catalogue);
  }

  /** Which file the database is; undefined where there is none, or an empty one that is about to become one. */
  private file(): number | undefined {
    return isThere(this.means.db) ? statSync(this.means.db).ino : undefined;
  }

  /** The database. Throws `no-database` where there is none, and what opening throws. */
  db(): Connection {
    const file = this.file();
    // another file in its place is another database
    if (this.opened && this.opened.file !== file) this.letGo();
    if (file === undefined) throw new LongsideError("no-database", { path: this.means.db });
    this.opened ??= { db: openForReading(this.means.db), file };
    return this.opened.db;
  }

  /** Lets the database go, to be opened anew. */
  letGo(): void {
    this.opened?.db.close();
    this.opened = undefined;
  }

  /** The database if there is one. */
  dbIfAny(): Connection | undefined {
    return this.file() === undefined ? undefined : this.db();
  }

  /** The material whose endings the database holds, or that was asked for. */
  target(): Material {
    const db = this.dbIfAny();
    return db ? targetOf(db) : parseMaterial(this.means.target);
  }

  /** The target's tables. Throws `tables-missing`. */
  tables(): Tables {
    return this.prober.tablesFor({ material: this.target() });
  }

  /** Throws `QueryError`. */
  question(text: string): Question {
    return parseQuestion(text, this.catalogue.known);
  }
}
