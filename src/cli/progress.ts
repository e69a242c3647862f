// Progress on standard error: a bar where that is a terminal, and what is told of a build of tables.

import { Presets, SingleBar } from "cli-progress";

import type { BuildObserver } from "../app/tables.js";
import type { Material } from "../chess/material.js";
import { removeUnfinished } from "../tablebase/table-file.js";
import { counted } from "../position/wording.js";
import { plainLine } from "../plain-text.js";
import { note } from "./messages.js";

/** Exit status of a run that Ctrl-C has stopped. */
export const INTERRUPTED = 130;

/** A progress bar; silent where standard error is no terminal. */
export class Progress {
  private bar: SingleBar | undefined;

  constructor(private readonly title: string) {}

  /** `done` of `total`, in any unit. */
  show(done: number, total: number, what: string): void {
    if (!process.stderr.isTTY) return;
    if (!this.bar) {
      this.bar = new SingleBar(
        {
          format: `${this.title} {bar} {percentage} % {what}`,
          stream: process.stderr,
          hideCursor: true,
          clearOnComplete: true,
          barsize: 24,
          linewrap: false,
          gracefulExit: false,
        },
        Presets.shades_classic,
      );
      this.bar.start(total, 0, { what });
    }
    // what comes through a pipe has no size
    this.bar.setTotal(Math.max(total, done, 1));
    this.bar.update(done, { what: plainLine(what) });
  }

  end(): void {
    this.bar?.stop();
    this.bar = undefined;
  }
}

/** Tells how far a build of tables has come; Ctrl-C stops it, and what is complete stays. */
export class TableBuild implements BuildObserver {
  private readonly progressBar = new Progress("tables");
  private start = 0;

  constructor(private readonly folder: string) {}

  private readonly stop = () => {
    this.progressBar.end();
    removeUnfinished(this.folder);
    note("Stopped; tables that were complete are kept. Run the same command again to go on.");
    process.exit(INTERRUPTED);
  };

  begin(materials: readonly Material[]): void {
    const names = materials.map((material) => material.name).join(", ");
    note(`Building the exact tables of ${names} in ${this.folder} (once; this takes some seconds) …`);
    this.start = performance.now();
    process.once("SIGINT", this.stop);
  }

  progress(done: number, half: string): void {
    this.progressBar.show(Math.round(done * 1000), 1000, half);
  }

  end(built: number): void {
    process.removeListener("SIGINT", this.stop);
    this.progressBar.end();
    if (built > 0)
      note(`Built ${counted(built, "table")} in ${((performance.now() - this.start) / 1000).toFixed(1)} s.`);
  }
}
