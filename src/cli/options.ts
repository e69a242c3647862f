// Every command and option, once, as plain data: the parser and every help text are made from here.

import { PIECE_LETTERS, type PieceLetters } from "../documents/piece-letters.js";
import { SOURCES, TASKS } from "../exercises/tasks.js";
import { THEMES } from "../exercises/themes/theme.js";
import { DEFAULT_ORDER, ORDERS, type Order } from "../query/language/orders.js";
import { EXCLUSIONS, EXCLUDED_BY_DEFAULT } from "../store/exclusions.js";
import { oneOf, readLeaveOut, readPart, readThemes, readToken, whole } from "./option-values.js";

/** The database where none is named. */
export const DEFAULT_DB = "longside.db";

/** An option, keyed by the name under which commands find its value. */
export interface OptionSpec {
  readonly flags: string;
  readonly help: string;
  /** Turns the text given into the value; throws `bad-option`'s cause as a plain message. */
  readonly read?: (text: string) => unknown;
  /** Options that cannot be given beside it. */
  readonly conflicts?: readonly string[];
  /** Its value is a file that is read, or one that is written. */
  readonly file?: "input" | "output";
}

export const OPTIONS = {
  db: { flags: "--db <file>", help: `the database (default: ${DEFAULT_DB})` },
  target: { flags: "--target <material>", help: 'the ending to look for (default: "R+B v R")' },
  threads: {
    flags: "--threads <number>",
    help: "threads to use, no more than there are cores (default: one for each core)",
    read: whole(1),
  },
  skipped: {
    flags: "--skipped <file>",
    file: "output",
    help: "write every skipped game to a file, as JSON Lines",
  },
  part: {
    flags: "--part <which>",
    help: 'read one part of all games, as in "3/8", for several machines to share: merge puts the parts together',
    read: readPart,
  },
  recheck: {
    flags: "--recheck",
    help: "look at the contents of every file, also of those that have the size and time they had",
  },
  largeWindows: {
    flags: "--large-windows",
    help: "take .zst files whose unpacking needs up to 2 GB of memory instead of 128 MB",
  },
  mend: {
    flags: "--mend",
    help: "make again what is derived, and read again the files whose games are hurt",
  },
  strict: { flags: "--strict", help: "fail if any game or file could not be read" },
  reject: { flags: "--no-reject", help: "play every game through, for checking the quick reject" },
  dropMissing: {
    flags: "--drop-missing",
    help: "take out the games of files that are no longer below the paths given",
  },
  each: {
    flags: "--each <unit>",
    help: "answer with each ending or each position (default: ending)",
    read: oneOf("ending", "position"),
  },
  by: {
    flags: "--by <facts>",
    help: "split by one or two facts, as in: --by outcome,year or --by defender-rating:200 or --by clock:10/60,set-up (survey: by one fact of the geometry)",
  },
  limit: {
    flags: "--limit <number>",
    help: "rows or examples to give, 0 for all (default: 20 of a table, all of --json, --csv and --pgn; survey 4)",
    read: whole(0),
  },
  share: {
    flags: "--share <question>",
    help: "say in what share of each group this is true, with its interval",
  },
  leaveOut: {
    flags: "--leave-out <list>",
    help: `what not to count: ${EXCLUSIONS.map(({ name }) => name).join(", ")}, or nothing (default: ${EXCLUDED_BY_DEFAULT.join(",")})`,
    read: readLeaveOut,
  },
  duplicates: {
    flags: "--duplicates",
    help: "list every copy of a game, not only the one that counts",
  },
  sort: {
    flags: "--sort <order>",
    help: `which answers come first: ${Object.keys(ORDERS).join(", ")} (default: ${DEFAULT_ORDER})`,
    read: oneOf(...(Object.keys(ORDERS) as Order[])),
  },
  reading: {
    flags: "--reading <number>",
    help: "take another meaning of the question, by the number that it was offered with",
    read: whole(1),
  },
  ply: {
    flags: "--ply <number>",
    help: "the position to draw (default: the one to look at)",
    read: whole(0),
  },
  piece: {
    flags: "--piece <names>",
    help: 'the piece to move about, or two: rook, bishop, king, "attacker\'s rook", or its square (default: rook)',
  },
  setUps: {
    flags: "--set-ups <file>",
    file: "input",
    help: "your own set-ups, added to the catalogue or in place of its own",
  },
  size: { flags: "--size <number>", help: "exercises wanted (default: 24)", read: whole(1) },
  task: {
    flags: "--task <task>",
    help: `what the student does: ${TASKS.map(({ name }) => name).join(", ")} (default: find)`,
    read: oneOf(...TASKS.map(({ name }) => name)),
  },
  answers: {
    flags: "--answers <number>",
    help: "moves that keep the verdict (default: one where there is one, else a few)",
    read: whole(1),
  },
  themes: {
    flags: "--themes <list>",
    help: `ideas that exercises must have one of, with commas between: ${THEMES.map(({ name }) => name).join(", ")}`,
    read: readThemes,
  },
  byTheme: {
    flags: "--by-theme",
    help: "one theme after another, each from easy to hard, rather than all of them mixed",
  },
  pairs: {
    flags: "--pairs",
    help: "positions to judge in pairs that look alike and come out otherwise",
  },
  course: {
    flags: "--course <number>",
    help: "so many sets in the order in which set-ups are best learnt, each going back to those before it; each on a sheet of its own (with --folder), and all of them as one page (--html, --pdf)",
    read: whole(1, 20),
    conflicts: ["json", "pgn", "epd"],
  },
  folder: {
    flags: "--folder <folder>",
    help: "write the sheets of a course; each diagram of a set by itself, as SVG and PNG, with its captions; or a lesson as Markdown, PGN and EPD with its drawings",
  },
  paper: {
    flags: "--paper <A4|letter>",
    help: "the paper that pages are made for (default: A4)",
    read: oneOf("A4", "letter"),
  },
  letters: {
    flags: "--letters <language>",
    help: `letters of the pieces in moves: ${Object.keys(PIECE_LETTERS).join(", ")} (default: english)`,
    read: oneOf(...(Object.keys(PIECE_LETTERS) as PieceLetters[])),
  },
  seed: {
    flags: "--seed <number>",
    help: "number that the choice is drawn by; another number, another choice (default: 1)",
    read: whole(0),
  },
  among: {
    flags: "--among <games|table>",
    help: "positions that people met, or any there can be (default: games, and the table for what they lack)",
    read: oneOf(...SOURCES),
  },
  from: {
    flags: "--from <set-up>",
    help: "count how long defenders hold from reaching this set-up as well",
  },
  html: { flags: "--html <file>", file: "output", help: "the page to write" },
  tables: {
    flags: "--tables <folder>",
    help: "write every table as CSV and JSON Lines, and every chart as SVG",
  },
  outline: {
    flags: "--outline <file>",
    file: "input",
    help: "the lesson's outline: Markdown with blocks to be filled in",
  },
  writeOutline: {
    flags: "--write-outline <file>",
    file: "output",
    help: "write the outline that would be used, to be changed by hand",
  },
  pdf: {
    flags: "--pdf <file>",
    file: "output",
    help: "print the page to PDF as well, with an installed browser",
  },
  svg: { flags: "--svg <file>", file: "output", help: "draw it as well, as SVG" },
  png: { flags: "--png <file>", file: "output", help: "draw it as well, as PNG" },
  below: {
    flags: "--below <colour>",
    help: "the colour at the bottom of the board (default: white)",
    read: oneOf("white", "black"),
  },
  arrows: { flags: "--arrows <moves>", help: "arrows to draw, as in: --arrows e2e4,f1f8" },
  rings: { flags: "--rings <squares>", help: "squares to point out, as in: --rings e4,d5" },
  caption: { flags: "--caption <text>", help: "a line under the board" },
  coordinates: { flags: "--no-coordinates", help: "leave out the letters and figures at the edge" },
  data: {
    flags: "--data <file>",
    file: "output",
    help: "write every position that answers with every fact, for programs of statistics: Parquet, or CSV where the name ends in .csv; the codebook is written beside it",
  },
  byYear: {
    flags: "--by-year",
    help: "with --data, a folder with a Parquet file for each year: year=2019/positions.parquet",
  },
  onPaper: {
    flags: "--on-paper",
    help: "leave the fifty-move rule out (without this, a win that comes too late counts as a draw)",
  },
  port: {
    flags: "--port <number>",
    help: "the port to listen on, 0 for any (default: 6464)",
    read: whole(0, 65535),
  },
  host: {
    flags: "--host <address>",
    help: "the address to listen on (default: 127.0.0.1, this machine alone)",
  },
  token: {
    flags: "--token <text>",
    help: "the token that everybody must show (default: none on this machine alone, else a new one)",
    read: readToken,
  },
  games: {
    flags: "--games <folders>",
    help: "folders whose games the page may read, with commas between (default: the current one)",
  },
  seconds: {
    flags: "--seconds <number>",
    help: "longest that a question may take (default: 5)",
    read: whole(1, 86_400),
  },
  order: { flags: "--order", help: "in what order set-ups are best learnt, from nothing to everything" },
  fen: {
    flags: "--fen <fen>",
    help: "a position, attacker to move: is it kept, and which set-ups does that need",
  },
  sample: { flags: "--sample <number>", help: "random placements to check (default: 20000)", read: whole(1) },
  every: {
    flags: "--every",
    help: "check every placement, with up to four men (some minutes)",
    conflicts: ["sample"],
  },
  json: { flags: "--json", help: "JSON Lines for programs", conflicts: ["csv", "pgn", "epd"] },
  csv: {
    flags: "--csv",
    help: "CSV; a text that a spreadsheet would run as a formula gets an apostrophe before it",
    conflicts: ["pgn"],
  },
  rawCsv: { flags: "--raw-csv", help: "leave such texts in CSV as they are" },
  pgn: {
    flags: "--pgn",
    help: "games in PGN, verdict changes as comments; exercises with their solutions",
    conflicts: ["epd"],
  },
  epd: { flags: "--epd", help: "positions in EPD, one a line" },
} as const satisfies Record<string, OptionSpec>;
export type OptionName = keyof typeof OPTIONS;

/** What an option's value is: what its `read` gives, else text where it takes some, else true or false. */
type ValueOf<Spec> = Spec extends { readonly read: (text: string) => infer Value }
  ? Value
  : Spec extends { readonly flags: `${string}<${string}` }
    ? string
    : boolean;

/** Values of the options, as the parser leaves them. */
export type Options = { readonly [Name in OptionName]?: ValueOf<(typeof OPTIONS)[Name]> };

export interface CommandSpec {
  readonly name: string;
  /** What the arguments are, where they are files: games, or databases. */
  readonly argumentsAre?: "games" | "databases";
  /** As commander writes arguments. */
  readonly arguments?: string;
  readonly summary: string;
  readonly options: readonly OptionName[];
  readonly examples: readonly string[];
  /** The module of this folder that runs it, where it is not called like the command. */
  readonly module?: string;
}

export const COMMANDS: readonly CommandSpec[] = [
  {
    name: "demo",
    summary: "make the tables, index the sample games that come with it, and answer three questions",
    options: ["db", "threads"],
    examples: ["demo"],
  },
  {
    name: "index",
    module: "index-games",
    arguments: "<path...>",
    argumentsAre: "games",
    summary: "find every ending in PGN files and folders, and store it with its verdicts",
    options: [
      "db",
      "target",
      "threads",
      "skipped",
      "strict",
      "dropMissing",
      "recheck",
      "part",
      "largeWindows",
      "reject",
      "json",
    ],
    examples: ["index games/ --db games.db", "index games/ --part 3/8 --db part-3.db"],
  },
  {
    name: "merge",
    arguments: "<database...>",
    argumentsAre: "databases",
    summary: "put several databases together, as if all had been indexed in one go",
    options: ["db", "json"],
    examples: ["merge league.db cup.db --db all.db"],
  },
  {
    name: "check",
    arguments: "[database]",
    summary: "look at everything in a database, and mend what is damaged",
    options: ["db", "mend", "threads", "json"],
    examples: ["check games.db", "check games.db --mend"],
  },
  {
    name: "find",
    arguments: "[question...]",
    summary: "show examples: who, where, how it went, and the position to look at",
    options: [
      "db",
      "setUps",
      "each",
      "limit",
      "sort",
      "leaveOut",
      "duplicates",
      "reading",
      "json",
      "csv",
      "rawCsv",
      "pgn",
      "data",
      "byYear",
    ],
    examples: [
      'find "defender drew with the rook on the long side"',
      'find "Szén, only move" --each position',
    ],
  },
  {
    name: "count",
    arguments: "[question...]",
    summary: "say how often, out of how many, split by one or two facts",
    options: ["db", "setUps", "by", "share", "each", "leaveOut", "reading", "json", "csv", "rawCsv"],
    examples: [
      "count --by outcome",
      'count "second-rank defence" --by defender-rating:200 --share "defender held"',
    ],
  },
  {
    name: "report",
    arguments: "[question...]",
    summary: "write a one-page report with statistics: who held, how long, where it went wrong",
    options: [
      "db",
      "setUps",
      "by",
      "from",
      "leaveOut",
      "onPaper",
      "html",
      "pdf",
      "tables",
      "rawCsv",
      "threads",
      "json",
    ],
    examples: ["report --html report.html", 'report "second-rank defence" --by defender-rating:100,year:5'],
  },
  {
    name: "exercises",
    arguments: "[question...]",
    summary: "choose positions whose answers are certain, from easy to hard, no two alike",
    options: [
      "db",
      "target",
      "setUps",
      "size",
      "task",
      "answers",
      "themes",
      "byTheme",
      "pairs",
      "course",
      "folder",
      "among",
      "seed",
      "leaveOut",
      "html",
      "pdf",
      "paper",
      "letters",
      "threads",
      "json",
      "pgn",
      "epd",
    ],
    examples: [
      'exercises "second-rank defence" --task hold --size 12 --html sheet.html',
      "exercises Szén --among table --epd",
      "exercises --course 4 --size 12 --folder course",
      'exercises --themes "stalemate, pin, skewer" --by-theme --size 12 --html themes.html',
      'exercises "rear pin" --pairs --size 8 --among table --pdf pairs.pdf',
    ],
  },
  {
    name: "lesson",
    arguments: "[question...]",
    summary: "write a lesson to print: what it is, what the table says, model games, errors, exercises",
    options: [
      "db",
      "setUps",
      "outline",
      "writeOutline",
      "leaveOut",
      "seed",
      "html",
      "pdf",
      "folder",
      "paper",
      "letters",
      "threads",
    ],
    examples: [
      'lesson "second-rank defence" --html lesson.html --pdf lesson.pdf',
      "lesson --outline my-lesson.md --html lesson.html",
    ],
  },
  {
    name: "diagram",
    arguments: "<fen...>",
    summary: "draw a position as in a book, as SVG or PNG, and describe it in words",
    options: ["svg", "png", "below", "arrows", "rings", "caption", "coordinates", "json"],
    examples: ['diagram "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1" --arrows f7b7 --png philidor.png'],
  },
  {
    name: "show",
    arguments: "<number>",
    summary: "go through one ending: board, moves, verdicts, errors",
    options: ["db", "ply", "json", "pgn"],
    examples: ["show 3", "show 3 --ply 152"],
  },
  {
    name: "probe",
    arguments: "<fen...>",
    summary: "tell what a position is and what each move does to it; - reads FENs from standard input",
    options: ["setUps", "threads", "json"],
    examples: ['probe "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1"'],
  },
  {
    name: "map",
    arguments: "<fen...>",
    summary: "show the verdict of a position with one of its pieces on each other square",
    options: ["piece", "threads", "json", "svg", "png"],
    examples: [
      'map "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1" --piece rook',
      'map "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1" --piece rook,bishop',
    ],
  },
  {
    name: "slide",
    arguments: "<fen...>",
    summary: "move a formation over the board as a whole, and tell what changes",
    options: ["setUps", "threads", "json", "svg", "png"],
    examples: ['slide "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1"'],
  },
  {
    name: "survey",
    arguments: "[question...]",
    summary: "say how every placement that fits comes out, over the whole table",
    options: ["target", "setUps", "by", "limit", "threads", "json", "csv", "rawCsv"],
    examples: ["survey Szén --by foot-room", 'survey "second-rank defence, king in corner" --by rook-side'],
  },
  {
    name: "rule",
    arguments: "[question...]",
    summary: "say when placements hold, as a rule to remember, with every exception counted",
    options: ["target", "setUps", "seed", "limit", "threads", "json", "svg", "png"],
    examples: ["rule Szén", 'rule "rear pin" --png rule.png'],
  },
  {
    name: "changes",
    arguments: "[set-ups...]",
    summary: "say what set-ups turn into when the attacker tests them, in the table and in games",
    options: ["db", "target", "setUps", "threads", "json", "svg", "png"],
    examples: ["changes Szén", "changes --db games.db --png changes.png"],
  },
  {
    name: "repertoire",
    arguments: "[set-ups...]",
    summary: "say what can be kept with some set-ups alone, and which to learn next",
    options: ["db", "target", "setUps", "order", "fen", "threads", "json", "svg", "png"],
    examples: ['repertoire "second-rank defence, rear pin"', "repertoire --order --png order.png"],
  },
  {
    name: "plan",
    arguments: "[fen...]",
    summary:
      "tell how a position is won, in stages that can be forced; without one, list the stations of a win",
    options: ["target", "setUps", "threads", "json"],
    examples: ['plan "8/8/8/3r4/1K6/8/R4B2/3k4 w - - 0 1"', "plan"],
  },
  {
    name: "contrast",
    arguments: "<fen...>",
    summary: "show the nearest positions that come out otherwise, and what differs",
    options: ["setUps", "limit", "threads", "json"],
    examples: ['contrast "8/2R5/8/1r6/4b3/4k3/8/3K4 b - - 0 1"'],
  },
  {
    name: "serve",
    summary: "open a local page in which all of this can be done: ask, look, play, collect, index",
    options: ["db", "target", "setUps", "games", "port", "host", "token", "seconds", "threads"],
    examples: ["serve --db games.db", "serve --games ~/chess,/media/archive --port 7000"],
  },
  {
    name: "solve",
    arguments: "<material...>",
    summary: "build the exact tables of a material and of all it leads to",
    options: ["threads", "json"],
    examples: ['solve "R+B v R"'],
  },
  {
    name: "verify",
    arguments: "<material...>",
    summary: "check tables against published values, the rules library and the symmetries of the board",
    options: ["threads", "sample", "every", "json"],
    examples: ['verify "R+B v R"'],
  },
  {
    name: "words",
    arguments: "[word...]",
    summary: "list the vocabulary of questions: facts, phrases and set-ups",
    options: ["setUps", "json"],
    examples: ["words", "words rook"],
  },
  {
    name: "help",
    arguments: "[topic]",
    summary: "explain a topic: options, set-ups, errors, grammar and others; without one, list the topics",
    options: ["setUps"],
    examples: ["help", "help grammar"],
  },
];
