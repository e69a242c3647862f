// Every error a user can meet: one code and one template each, so that wording, documentation and tests
// share a source. An error says what happened, where (file, game, byte, ply) and what to do about it.

import { plainText } from "./plain-text.js";

/** What to do about a fault of files and disks, by what the operating system or SQLite says of it; the first that fits. */
const DISK_HINTS: readonly (readonly [RegExp, string])[] = [
  [/ENOSPC|EDQUOT|disk is full/i, "the disk is full: make room, or write to another one"],
  [/EISDIR/, "it is a folder: name a file"],
  [/it is no file/, "name a file, or a folder"],
  [/ENOTDIR|EEXIST/, "a part of the path is a file and no folder: check the path"],
  [/EACCES|EPERM|unable to open/i, "check the permissions of the file and its folder"],
  [/EROFS|read-?only/i, "it can only be read there: write to another place"],
  [/ENAMETOOLONG/, "the name is too long: choose a shorter one"],
  [/ERR_INVALID_ARG_VALUE|null bytes/, "no path holds such a sign: check the path"],
  [/malformed|corrupt|not a database/i, "the file is damaged: index the games again into a new one"],
  [/SQLITE_BUSY|locked/i, "another program has it open: wait for it to end, then try again"],
];
const diskHint = (cause: string): string =>
  DISK_HINTS.find(([says]) => says.test(cause))?.[1] ??
  "check that the path leads to a file that can be used";

/** Templates by code; `{name}` is filled from the values given. The second line of each is the hint. */
export const ERRORS = {
  "no-such-path": [
    "there is no file or folder {path}",
    "check the spelling, or quote a path that holds spaces",
  ],
  "not-held": ["{path} holds no games of {name}", "its files are listed on the page, under Games"],
  "not-readable": ["cannot read {path}: {cause}", "{hint}"],
  "no-games-found": ["no PGN files in {path}", "give a .pgn file, or a folder that holds some"],
  "packed-input": [
    "{path} is packed ({kind})",
    "unpack it first; plain, gzip, zstd, bzip2 and zip files are read as they are",
  ],
  "large-window": [
    "cannot unpack {path}: it asks for more than 128 MB of memory",
    "if the file is trusted, give --large-windows, which allows 2 GB",
  ],
  "damaged-input": [
    "{path} is damaged: {cause}",
    "what stands before the damage has been read; get the file again for the rest",
  ],
  "no-database": ["there is no database {path}", "make one with: longside index GAMES… --db {path}"],
  "not-a-database": [
    "{path} is not a longside database: {cause}",
    "give the file that `longside index` wrote",
  ],
  "database-damaged": [
    "{path} is damaged: {what} is not what was written",
    "see what is hurt, and mend it from the games: longside check {path} --mend",
  ],
  "database-changed": ["{path} was changed by another run in the meantime", "ask again"],
  "database-file-damaged": [
    "the file {path} itself is damaged: {cause}",
    "index the games again into a new file",
  ],
  "newer-database": [
    "{path} was written by a newer longside (schema {found}, this one knows {known})",
    "update longside; nothing was changed",
  ],
  "older-database": [
    "{path} was written by an older longside (schema {found}, this one needs {known})",
    "bring it up to date, losing nothing: longside check {path} --mend",
  ],
  "much-older-database": [
    "{path} was written by a much older longside (schema {found}, this one needs {known})",
    "index the games again into a new file; nothing was changed",
  ],
  "other-target": [
    "{path} holds {found}, not {wanted}",
    "use another --db for {wanted}, or leave --target out",
  ],
  "database-busy": ["{path} is being written by another run", "wait for it to finish, then try again"],
  "cannot-write": ["cannot write {path}: {cause}", "{hint}"],
  "bad-material": [
    "cannot read the material {text}: {cause}",
    'write it like "R+B v R", "KRBvKR" or "B+N v K" (queens, rooks, bishops, knights; five pieces at most with the kings)',
  ],
  "bad-fen": ["not a position: {fen}: {cause}", 'a FEN looks like "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1"'],
  "no-such-move": ["{move} cannot be played in {fen}: {cause}", "take one of the legal moves"],
  "outside-tables": [
    "outside the tables: {cause}",
    "the tables hold positions without pawns, five pieces at most with the kings",
  ],
  "tables-missing": [
    "the tables for {material} have not been built",
    'build them with: longside solve "{material}"',
  ],
  "table-damaged": [
    "the table file {path} is damaged: {cause}",
    'build it again with: longside solve "{material}"',
  ],
  "question-fault": ["{message}", "{hint}"],
  "bad-set-up": [
    "the set-ups in {path} cannot be used: {cause}",
    "each needs a name and what it means, a question about one position; for examples see: longside help set-ups",
  ],
  "bad-outline": [
    "the outline {path} cannot be used: {cause}",
    "write one to begin with: longside lesson QUESTION --write-outline {path}",
  ],
  "bad-block": [
    'the block "{block}" cannot be filled in: {cause}',
    "see: longside help blocks; --write-outline writes an outline to begin with",
  ],
  "bad-drawing": ["{what}: {cause}", "arrows: e2e4,f1f8; squares: e4,d5"],
  "no-browser": [
    "no browser to print with: {cause}",
    "install Chromium, or say where one is in LONGSIDE_BROWSER; or open the page and print it yourself",
  ],
  "no-such-ending": [
    "there is no ending {id} in this database",
    "take the number from the first column of `longside find`",
  ],
  "bad-option": ["{option}: {cause}", "see: longside {command} --help"],
  "skipped-games": ["{count} games or files could not be read, and --strict was given", "see the list above"],
  "time-limit": [
    "this took longer than {seconds} s and was given up",
    "ask for something narrower, or give more time: longside serve --seconds {more}",
  ],
  "too-busy": ["{waiting} calls are waiting already", "try again in a moment"],
  "nobody-waits": ["nobody waits for this answer any more", "ask again"],
  "server-ends": ["the server is ending", "start it again with: longside serve"],
  "no-such-call": ["there is nothing at {path}", "begin at the first page"],
  "bad-input": [
    "this cannot be taken: {cause}",
    "reload the page; if it happens again, it is a fault of longside",
  ],
  "not-allowed": ["not allowed: {cause}", "{hint}"],
  "already-indexing": ["games are being read already", "wait for it to finish, or stop it"],
  "bad-address": ["cannot listen on {host}, port {port}: {cause}", "choose another with --port or --host"],
  "bad-usage": ["{message}", "{hint}"],
  "database-failed": ["the database {path} could not be used: {cause}", "{hint}"],
  unexpected: ["something went wrong: {cause}", "run again with LONGSIDE_DEBUG=1 to see where"],
} as const satisfies Record<string, readonly [string, string]>;

export type ErrorCode = keyof typeof ERRORS;

/** Where in the input an error lies; offsets count bytes from the start of the file, games from 1. */
export interface Where {
  file?: string;
  /** Line of standard input, from 1. */
  line?: number;
  game?: number;
  byte?: number;
  ply?: number;
}

type Values = Record<string, string | number>;

const fill = (template: string, values: Values) =>
  template.replace(/\{(\w+)\}/g, (_, name: string) => plainText(String(values[name] ?? `{${name}}`)));

/**
 * An error with a code, the values of its templates, a place and a hint. `message` is one line; `toJSON` is the one JSON
 * error shape, from which a reader decides by code and values and never by the words of the message.
 */
export class LongsideError extends Error {
  readonly hint: string;

  constructor(
    readonly code: ErrorCode,
    readonly values: Values = {},
    readonly where: Where = {},
  ) {
    super(fill(ERRORS[code][0], values));
    this.name = "LongsideError";
    this.hint = fill(ERRORS[code][1], { hint: diskHint(String(values.cause)), ...values });
  }

  /** The same error with more said of its place. */
  placed(where: Where): LongsideError {
    return new LongsideError(this.code, this.values, { ...this.where, ...where });
  }

  toJSON() {
    const { code, message, hint, values, where } = this;
    return { error: { code, message, hint, values, ...where } };
  }
}

/** A result on its way from a worker thread, where an error by itself would lose all but its message. */
export type Crossing<T> =
  | { readonly value: T }
  | { readonly fault: { readonly code: ErrorCode; readonly values: Values; readonly where: Where } };

/** Does the work in a worker thread; what a user must be told of crosses with its code, values and place. */
export function crossing<T>(work: () => T): Crossing<T> {
  try {
    return { value: work() };
  } catch (thrown) {
    return faultOf(thrown);
  }
}

/** The same for work that takes its time. */
export async function crossingLater<T>(work: () => Promise<T>): Promise<Crossing<T>> {
  try {
    return { value: await work() };
  } catch (thrown) {
    return faultOf(thrown);
  }
}

function faultOf(thrown: unknown): { fault: { code: ErrorCode; values: Values; where: Where } } {
  if (!(thrown instanceof LongsideError)) throw thrown;
  const { code, values, where } = thrown;
  return { fault: { code, values, where } };
}

/** The value of a crossing on the other side; throws its fault as the error it was. */
export function landed<T>(crossed: Crossing<T>): T {
  if ("value" in crossed) return crossed.value;
  const { code, values, where } = crossed.fault;
  throw new LongsideError(code, values, where);
}

/** Anything that was thrown as an error of ours; SQLite's are about the database at `path`. */
export function errorOf(thrown: unknown, path: string): LongsideError {
  if (thrown instanceof LongsideError) return thrown;
  const { code } = (thrown ?? {}) as { code?: unknown };
  const ofDatabase = typeof code === "string" && code.startsWith("SQLITE");
  return ofDatabase
    ? new LongsideError("database-failed", { path, cause: causeOf(thrown) })
    : new LongsideError("unexpected", { cause: causeOf(thrown) });
}

/** The message of anything that was thrown. */
export const causeOf = (thrown: unknown): string =>
  thrown instanceof Error ? thrown.message : String(thrown);

/** That a file cannot be read, or not from byte `byte` on. */
export const notReadable = (path: string, thrown: unknown, byte?: number): LongsideError =>
  new LongsideError("not-readable", { path, cause: causeOf(thrown) }, { file: path, byte });
