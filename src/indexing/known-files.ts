// What has become of files that were indexed before: which have only been moved, and which are gone.

import { type Stats, statSync } from "node:fs";
import { dirname } from "node:path";

import { type FoundFile, isBelow } from "../pgn/files/find.js";
import type { IndexWriter, SourceRow } from "../store/writer.js";

/** Whether a file, or the zip that a member is in, is still in its place. */
function isThere(path: string): boolean {
  for (let at = path; ; at = dirname(at)) {
    let info: Stats | undefined;
    try {
      info = statSync(at);
    } catch {
      // not there, or below a file: look at what it would be in
    }
    if (info) return at === path || info.isFile();
    if (dirname(at) === at) return false;
  }
}

/** The file indexed before, now gone from its place, that has the bytes of a new one, by its digest. */
export async function movedFrom(
  writer: IndexWriter,
  file: FoundFile,
  digestOf: (file: FoundFile) => Promise<string>,
): Promise<SourceRow | undefined> {
  if (file.size === 0) return undefined;
  const gone = writer.sourcesOfSize(file.size).filter((source) => !isThere(source.path));
  if (gone.length === 0) return undefined;
  const digest = await digestOf(file);
  return gone.find((source) => source.hash === digest);
}

/** The files indexed before from one of the paths that are neither among those found now nor in their place. */
export function vanishedFrom(
  writer: IndexWriter,
  files: readonly FoundFile[],
  paths: readonly string[],
): SourceRow[] {
  const found = new Set(files.map((file) => file.path));
  return writer.sources().filter(({ path }) => {
    const below = paths.some((one) => isBelow(path, one));
    return below && !found.has(path) && !isThere(path);
  });
}
