// The one index run, removal of a file, or table build that the page may have under way: started, watched, stopped, started again.

import { sep } from "node:path";
import { MessageChannel, type MessagePort } from "node:worker_threads";

import { parseMaterial } from "../chess/material.js";
import { type Crossing, LongsideError, errorOf, landed } from "../errors.js";
import { startThreads } from "../threads.js";
import { buildMissing } from "../app/tables.js";
import type { Settings } from "../app/workspace.js";
import { withTimeout } from "./timeout.js";
import { withoutUploadsFolder, uploadsFolder } from "./uploads.js";
import type { DropTask, IndexTask, Progress, RunOutcome } from "./index-thread.js";

/** What is going on, as every page is told. */
export interface Work {
  readonly what: "index" | "drop" | "tables" | null;
  readonly paths: readonly string[];
  /** What the paths are called for people. */
  readonly names: readonly string[];
  readonly progress: Progress | null;
  readonly stopping: boolean;
  /** What came of the run before. */
  readonly last: (RunOutcome & { readonly paths: readonly string[] }) | null;
  readonly error: ReturnType<LongsideError["toJSON"]>["error"] | null;
}

/** Milliseconds that closing waits for a run to store what it has read. */
const CLOSE_TIMEOUT = 2000;

const IDLE: Work = {
  what: null,
  paths: [],
  names: [],
  progress: null,
  stopping: false,
  last: null,
  error: null,
};

export class Indexing {
  private state: Work = IDLE;
  private port: MessagePort | undefined;
  private running: Promise<void> | undefined;

  /** `changed` is called with everything that happens. */
  constructor(
    private readonly settings: Settings,
    /** Folders outside of which nothing is read. */
    private readonly within: readonly string[],
    private readonly changed: (work: Work) => void,
  ) {}

  get work(): Work {
    return this.state;
  }

  private set(change: Partial<Work>): void {
    this.state = { ...this.state, ...change };
    this.changed(this.state);
  }

  private told(thrown: unknown): Work["error"] {
    return errorOf(thrown, this.settings.db).toJSON().error;
  }

  private begin(work: Partial<Work>): void {
    if (this.state.what !== null) throw new LongsideError("already-indexing", {});
    this.set({ ...IDLE, last: this.state.last, ...work, names: work.paths?.map(withoutUploadsFolder) ?? [] });
  }

  /** Begins a run; it ends by itself. Throws `already-indexing`. */
  index(paths: readonly string[]): void {
    this.begin({ what: "index", paths });
    this.running = this.run(paths);
  }

  private async run(paths: readonly string[]): Promise<void> {
    const pool = startThreads<IndexTask, Crossing<RunOutcome>>("index");
    const { port1, port2 } = new MessageChannel();
    this.port = port1;
    port1.on("message", (progress: Progress) =>
      this.set({ progress: { ...progress, file: withoutUploadsFolder(progress.file) } }),
    );
    try {
      const task: IndexTask = {
        kind: "index",
        settings: this.settings,
        paths,
        within: this.within,
        port: port2,
      };
      const found = landed(await pool.run(task, { transferList: [port2] }));
      this.set({ what: null, progress: null, stopping: false, last: { ...this.withNames(found), paths } });
    } catch (thrown) {
      this.set({ what: null, progress: null, stopping: false, error: this.told(thrown) });
    } finally {
      port1.close();
      this.port = undefined;
      await pool.destroy();
    }
  }

  /** What came of a run, with files as they are called for people. */
  private withNames(found: RunOutcome): RunOutcome {
    const folder = `${uploadsFolder(this.settings.db)}${sep}`;
    return {
      ...found,
      empty: found.empty.map(withoutUploadsFolder),
      vanished: found.vanished.map(withoutUploadsFolder),
      unreadable: found.unreadable.map(({ message, hint }) => ({
        message: message.replaceAll(folder, ""),
        hint,
      })),
    };
  }

  /** Ends the run; what has been stored stays, the rest is read by the next one. Nothing happens where there is none. */
  stop(): void {
    if (this.state.what !== "index") return;
    this.port?.postMessage("stop");
    this.set({ stopping: true });
  }

  /** Takes a file's games out of the database. Throws `already-indexing`. */
  drop(name: string): void {
    this.begin({ what: "drop", paths: [name] });
    this.running = this.takeOut(name);
  }

  private async takeOut(name: string): Promise<void> {
    const pool = startThreads<DropTask, Crossing<undefined>>("index");
    try {
      landed(await pool.run({ kind: "drop", settings: this.settings, name }));
      this.set({ what: null, last: null });
    } catch (thrown) {
      this.set({ what: null, error: this.told(thrown) });
    } finally {
      await pool.destroy();
    }
  }

  /** Builds a material's tables. Throws `bad-material`, `already-indexing`. */
  tables(name: string): void {
    const material = parseMaterial(name);
    this.begin({ what: "tables", paths: [material.name] });
    const progress = (done: number, half: string) =>
      this.set({ progress: { done: Math.round(1000 * done), total: 1000, file: half } });
    this.running = buildMissing([material], "blocks", this.settings, { progress }).then(
      () => this.set({ what: null, progress: null }),
      (thrown: unknown) => this.set({ what: null, progress: null, error: this.told(thrown) }),
    );
  }

  /** Stops a run and waits until what it has read is stored; a table build is not waited for. */
  async close(): Promise<void> {
    this.stop();
    if (this.state.what !== "index") return;
    // a file that does not answer must not hold up the end: the database knows how far the run has come
    await withTimeout(CLOSE_TIMEOUT, this.running);
  }
}
