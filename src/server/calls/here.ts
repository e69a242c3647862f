// Calls that the server answers itself, for the user at this machine: folders, the index run, the build of tables.

import type { Settings } from "../../app/workspace.js";
import { gamesFolder, version } from "../../places.js";
import type { HereCall, Input } from "../api.js";
import type { Folders } from "../folders.js";
import type { Indexing } from "../index-job.js";
import type { Uploads } from "../uploads.js";

/** What answers each of these calls. */
export const hereCalls = (settings: Settings, folders: Folders, indexing: Indexing, uploads: Uploads) =>
  ({
    state: () => ({
      version: version(),
      db: settings.db,
      folders: folders.allowed,
      /** Where the games that come with longside lie. */
      bundled: [gamesFolder()],
      work: indexing.work,
    }),
    folders: ({ path }: Input<"folders">) => folders.list(path),
    /** Reads games below the folders that are allowed, and files that were uploaded. */
    index: ({ paths }: Input<"index">) => {
      const given = (path: string) => uploads.holds(path) || path === gamesFolder();
      indexing.index(paths.map((path) => (given(path) ? path : folders.confined(path))));
      return {};
    },
    /** Takes a file's games out of the database; the file itself stays where it is. */
    drop: ({ name }: Input<"drop">) => {
      indexing.drop(name);
      return {};
    },
    stop: () => {
      indexing.stop();
      return {};
    },
    tables: ({ material }: Input<"tables">) => {
      indexing.tables(material);
      return {};
    },
  }) satisfies { [Name in HereCall]: (input: Input<Name>) => object };

export type HereCalls = ReturnType<typeof hereCalls>;
