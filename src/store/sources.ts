// Files as the database knows them: whole, or in parts that several runs have read.

import type { Connection } from "./connection.js";

/** A row of `sources`: a file, or a part of one, and how far it was read. */
export interface SourceRow {
  readonly id: number;
  readonly path: string;
  readonly name: string;
  readonly size: number;
  readonly modified: number;
  readonly hash: string | null;
  readonly done: number;
  readonly numbers: number;
  readonly games: number;
  readonly replayed: number;
  readonly complete: number;
  readonly file_part: number;
  readonly file_parts: number;
}

/** One of several parts that a file is read in, from 1 on. */
export interface FilePart {
  readonly part: number;
  readonly of: number;
}

/** What a file looks like before it is read. */
export interface SourceState {
  readonly path: string;
  readonly name: string;
  readonly size: number;
  readonly modified: number;
}

/** A file that is read as a whole. */
export const WHOLE: FilePart = { part: 1, of: 1 };
/** Which part of its file a source is. */
export const partOf = ({ file_part, file_parts }: SourceRow): FilePart => ({
  part: file_part,
  of: file_parts,
});

/** What a part of a file is called. */
export const nameOfPart = (name: string, { part, of }: FilePart): string =>
  of === 1 ? name : `${name} (part ${part} of ${of})`;

/**
 * The name under which a file, or a part of it, is to be shown: its own, or its path where another file has that name. `own` is
 * the number of its row, if there is one.
 */
export function shownName(
  db: Connection,
  { name, path }: Pick<SourceState, "name" | "path">,
  part: FilePart,
  own = -1,
): string {
  const taken = db
    .prepare("SELECT 1 FROM sources WHERE name = ? AND id <> ?")
    .get(nameOfPart(name, part), own);
  return nameOfPart(taken ? path : name, part);
}
