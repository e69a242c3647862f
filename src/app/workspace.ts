// What a command or an answering thread works with: the database if there is one, the tables, the catalogue of
// set-ups. Each is opened when it is first asked for, once, and here alone; a process or thread has its own workspace.

import { statSync } from "node:fs";

import { type Material, parseMaterial } from "../chess/material.js";
import { LongsideError } from "../errors.js";
import { Prober } from "../position/probe.js";
import type { Question } from "../query/language/ast.js";
import { type Catalogue, catalogueWith } from "../query/language/catalogue.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { answerOnThreads, endHelpers } from "../query/engine/slice-threads.js";
import { isEmpty } from "../query/engine/masks.js";
import { columnStoreOf } from "../store/column-store.js";
import { type KnownNames, type Reading, readingsOf } from "../query/language/parse.js";
import type { Connection } from "../store/connection.js";
import { namesIn } from "../store/names.js";
import { isThere, openForReading, targetOf } from "../store/database.js";
import type { Care } from "../tablebase/build.js";
import type { Half } from "../tablebase/half.js";
import type { Tables } from "../tablebase/tables.js";
import { type BuildObserver, buildMissing } from "./tables.js";

/** Plain data, so that it can be given to a thread. */
export interface Settings {
  /** Path of the database, which need not be there. */
  readonly db: string;
  /** Name of the material where there is no database. */
  readonly target: string;
  /** The user's own file of set-ups. */
  readonly setUps: string | null;
  /** Folder of the tables. */
  readonly folder: string;
  readonly threads: number;
}

/** Told in words how far some work has come. */
export type OnProgress = (said: string) => void;

export class Workspace {
  private openedDb: { readonly db: Connection; readonly file: number } | undefined;
  private openedProber: Prober | undefined;
  private readCatalogue: Catalogue | undefined;

  /**
   * `observer` is told when `prepare` builds tables; without one nothing is built. Throws `bad-set-up`, so that a fault
   * in the user's file is told before any work begins.
   */
  constructor(
    readonly settings: Settings,
    private readonly observer?: BuildObserver,
  ) {
    if (settings.setUps !== null) this.readCatalogue = catalogueWith(settings.setUps);
  }

  /** The set-ups of the program and of the user's own file. */
  get catalogue(): Catalogue {
    return (this.readCatalogue ??= catalogueWith(this.settings.setUps));
  }

  /** Holds the tables open. */
  get prober(): Prober {
    return (this.openedProber ??= new Prober(this.settings.folder, this.catalogue));
  }

  /** Which file the database is; undefined where there is none, or an empty one that is about to become one. */
  private file(): number | undefined {
    return isThere(this.settings.db) ? statSync(this.settings.db).ino : undefined;
  }

  /** The database. Throws `no-database` where there is none, and what opening throws. */
  db(): Connection {
    const file = this.file();
    // another file in its place is another database
    if (this.openedDb && this.openedDb.file !== file) this.closeDb();
    if (file === undefined) throw new LongsideError("no-database", { path: this.settings.db });
    if (!this.openedDb) {
      this.openedDb = { db: openForReading(this.settings.db), file };
      answerOnThreads(this.openedDb.db, this.settings.threads);
    }
    return this.openedDb.db;
  }

  /** The database if there is one. */
  dbIfAny(): Connection | undefined {
    return this.file() === undefined ? undefined : this.db();
  }

  /** The material whose endings the database holds; the one of the settings where there is no database. */
  target(): Material {
    const db = this.dbIfAny();
    return db ? targetOf(db) : parseMaterial(this.settings.target);
  }

  /** A material's tables, the target's if none is named. Throws `tables-missing`. */
  tables(material: Material = this.target()): Tables {
    return this.prober.tablesFor({ material });
  }

  /**
   * Builds what is missing of some materials' tables, where this workspace may build; what is damaged counts as missing,
   * if `care` is enough to see it. Returns what was built.
   */
  async prepare(materials: readonly Material[], care: Care = "blocks"): Promise<readonly Half[]> {
    return this.observer ? buildMissing(materials, care, this.settings, this.observer) : [];
  }

  /** Every way to understand a question, the most likely first; names are the database's. Throws `QueryError`. */
  readings(text: string): readonly Reading[] {
    return readingsOf(text, this.catalogue.known, this.names());
  }

  /** The most likely reading of a question. Throws `QueryError`. */
  question(text: string): Question {
    return this.readings(text)[0].question;
  }

  /** Names are read in when a word is met that could be one. */
  private names(): KnownNames | undefined {
    const db = this.dbIfAny();
    if (!db) return undefined;
    return {
      isPlayer: (text) => namesIn(db).isPlayer(text),
      isEvent: (text) => namesIn(db).isEvent(text),
      isSite: (text) => namesIn(db).isSite(text),
      target: targetOf(db),
      near: (word) => namesIn(db).near(word),
      answers: (question) => {
        for (const slice of columnStoreOf(db).slices())
          if (!isEmpty(new Evaluation(db, slice).endings(question))) return true;
        return false;
      },
    };
  }

  /** Closes the database; it is opened anew when it is next asked for. */
  closeDb(): void {
    if (this.openedDb) endHelpers(this.openedDb.db);
    this.openedDb?.db.close();
    this.openedDb = undefined;
  }

  /** Closes the tables; they are opened anew when they are next asked for. */
  closeTables(): void {
    this.openedProber?.close();
    this.openedProber = undefined;
  }

  close(): void {
    this.closeDb();
    this.closeTables();
  }
}
