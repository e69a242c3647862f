// Which files of this machine the page may read games from: those below the folders that were allowed, links followed
// to where they lead, and nothing else.

import { type Dirent, type Stats, readdirSync, realpathSync, statSync } from "node:fs";
import { join, resolve } from "node:path";

import { LongsideError, causeOf } from "../errors.js";
import { plainLine } from "../plain-text.js";
import { isBelow, isGames } from "../pgn/files/find.js";

export interface Entry {
  readonly name: string;
  readonly path: string;
  readonly folder: boolean;
  /** Bytes of a file. */
  readonly size: number;
}

export class Folders {
  readonly allowed: readonly string[];

  /** Throws `no-such-path` for a folder that is not there. */
  constructor(folders: readonly string[]) {
    this.allowed = folders.map((folder) => {
      try {
        return realpathSync(folder);
      } catch {
        throw new LongsideError("no-such-path", { path: folder });
      }
    });
  }

  /**
   * The place that a path leads to, links followed. Throws `not-allowed` for one outside the folders, whether it is there
   * or not, and `no-such-path`.
   */
  confined(path: string): string {
    const refuse = () =>
      new LongsideError("not-allowed", {
        cause: `${path} is outside the folders that may be read`,
        hint: "choose one inside them, or start longside again with this folder allowed",
      });
    if (path.includes("\0")) throw refuse();
    const asked = resolve(path);
    if (!this.allowed.some((folder) => isBelow(asked, folder))) throw refuse();
    let real: string;
    try {
      real = realpathSync(asked);
    } catch {
      throw new LongsideError("no-such-path", { path });
    }
    if (!this.allowed.some((folder) => isBelow(real, folder))) throw refuse();
    return real;
  }

  /** Folders and files of games in a folder; of those allowed where none is named. Throws as `confined`, `not-readable`. */
  list(path?: string): { readonly path: string | null; readonly entries: readonly Entry[] } {
    if (path === undefined)
      return {
        path: null,
        entries: this.allowed.map((one) => ({ name: one, path: one, folder: true, size: 0 })),
      };
    const folder = this.confined(path);
    let names: Dirent[];
    try {
      names = readdirSync(folder, { withFileTypes: true });
    } catch (thrown) {
      throw new LongsideError("not-readable", { path: folder, cause: causeOf(thrown) });
    }
    const entries = names.flatMap((entry): Entry[] => {
      if (entry.name.startsWith(".")) return [];
      const place = join(folder, entry.name);
      let info: Stats;
      try {
        info = statSync(this.confined(place));
      } catch {
        // a link to nowhere, in circles, or outside
        return [];
      }
      if (info.isDirectory()) return [{ name: plainLine(entry.name), path: place, folder: true, size: 0 }];
      return info.isFile() && isGames(entry.name)
        ? [{ name: plainLine(entry.name), path: place, folder: false, size: info.size }]
        : [];
    });
    const order = (a: Entry, b: Entry) => Number(b.folder) - Number(a.folder) || (a.name < b.name ? -1 : 1);
    return { path: folder, entries: entries.sort(order) };
  }
}
