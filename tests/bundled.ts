// Games of a folder, the bundled ones unless told otherwise, as a database, for tests and for scripts.

import { DEFAULT_TARGET, parseMaterial } from "../src/chess/material.js";
import { indexGames } from "../src/indexing/run.js";
import { findFiles } from "../src/pgn/files/find.js";
import { cacheFolder, gamesFolder } from "../src/places.js";
import { openForWriting } from "../src/store/database.js";

/** Indexes the bundled games, or those of another folder, into a database at `path`. The tables must be there. */
export async function indexBundled(path: string, games = gamesFolder()): Promise<void> {
  const target = parseMaterial(DEFAULT_TARGET);
  const writing = openForWriting(path, target);
  await indexGames(writing, path, await findFiles([games]), {
    target,
    folder: cacheFolder(),
    threads: 2,
  });
  writing.close();
}
