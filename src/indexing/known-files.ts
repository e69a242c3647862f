// What has become of files that were indexed before: which have only been moved, and which are gone.

import { type Stats, statSync } from "node:fs";
import { dirname } from "node:path";

import { type FoundFile, isBelow } from "../pgn/files/find.js";
import type { IndexWriter } from "../store/writer.js";
import type { SourceRow } from "../store/sources.js";

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

/** The files that earlier runs read and that are gone from their places, so that a new one may be one of them. */
export class GoneFiles {
  /** Files that earlier runs read to their end, by size; those that are still there have been left out once looked at. */
  private readonly bySize = new Map<number, SourceRow[]>();
  private readonly lookedAt = new Set<number>();

  constructor(known: readonly SourceRow[]) {
    for (const source of known) {
      if (source.complete === 0 || source.size === 0 || source.file_parts > 1) continue;
      const same = this.bySize.get(source.size);
      if (same) same.push(source);
      else this.bySize.set(source.size, [source]);
    }
  }

  /** Takes out the file that has the bytes of a new one, by its digest; undefined if there is none. */
  async take(
    file: FoundFile,
    digestOf: (file: FoundFile) => Promise<string>,
  ): Promise<SourceRow | undefined> {
    let gone = this.bySize.get(file.size) ?? [];
    if (!this.lookedAt.has(file.size)) {
      this.lookedAt.add(file.size);
      gone = gone.filter((source) => !isThere(source.path));
      this.bySize.set(file.size, gone);
    }
    if (gone.length === 0) return undefined;
    const digest = await digestOf(file);
    const at = gone.findIndex((source) => source.hash === digest);
    return at < 0 ? undefined : gone.splice(at, 1)[0];
  }
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
