// Everything that the page can ask of the server, once: each call's name, what it takes, which queue it waits
// in and for how long it may work. The server's checks, the threads and the page's own types are made from this table.

import Type, { type Static } from "typebox";

import { BLOCKS, type BlockName } from "../documents/lesson/outline.js";
import { PAPERS, type Paper } from "../documents/printed-page.js";
import { OPPONENTS } from "../exercises/opponent.js";
import { PLAYED_TASKS, SOURCES } from "../exercises/tasks.js";
import { THEMES } from "../exercises/themes/theme.js";
import { ORDERS, type Order } from "../query/language/orders.js";

/** Rows that one answer holds at most, and rows of one question that can be had in all. */
const MOST_ROWS = 60;
export const ROW_LIMIT = 2000;
/** Moves of a game that is played against the table. */
const MOST_MOVES = 600;
/** Things in a tray. */
const MOST_COLLECTED = 200;

/** What a lesson can be had as: a page, the page as it will be printed, a PDF, games and positions in PGN. */
export const LESSON_FORMS = ["page", "printed", "pdf", "pgn"] as const;

/** An object of which every field is known. */
const fields = <T extends Type.TProperties>(properties: T) =>
  Type.Object(properties, { additionalProperties: false });

/** One of some words. */
const oneOf = <const Names extends readonly string[]>(names: Names) =>
  Type.Unsafe<Names[number]>({ type: "string", enum: names });

const Question = Type.String({ maxLength: 2000 });
const Fen = Type.String({ minLength: 1, maxLength: 120 });
const Uci = Type.String({ pattern: "^[a-h][1-8][a-h][1-8]$" });
const Whole = Type.Integer({ minimum: 0, maximum: 2 ** 31 });
const Unit = oneOf(["ending", "position"]);
const Text = Type.String({ maxLength: 200 });
const Collection = fields({
  fen: Type.Optional(Fen),
  ending: Type.Optional(Whole),
  ply: Type.Optional(Whole),
  note: Type.Optional(Type.String({ maxLength: 2000 })),
});
const LessonPart = Type.Union([
  fields({
    kind: Type.Literal("heading"),
    depth: Type.Union([Type.Literal(2), Type.Literal(3)]),
    text: Text,
  }),
  fields({ kind: Type.Literal("text"), text: Type.String({ maxLength: 20_000 }) }),
  fields({
    kind: Type.Literal("block"),
    name: oneOf(Object.keys(BLOCKS) as BlockName[]),
    values: Type.Record(Type.String({ maxLength: 40 }), Type.String({ maxLength: 10_000 })),
  }),
]);
const Path = Type.String({ minLength: 1, maxLength: 4096 });

/** Queues: questions, positions, and what takes its time; `here` is answered by the server itself. */
export type QueueName = "ask" | "look" | "make" | "here";

/** Timeout of a call, in seconds. */
export const SECONDS: Readonly<Record<Exclude<QueueName, "here">, number>> = { ask: 5, look: 10, make: 600 };

interface Call {
  readonly queue: QueueName;
  readonly takes: Type.TObject;
  /** Only for the user at the machine itself. */
  readonly host?: true;
}

export const CALLS = {
  // asking
  words: { queue: "ask", takes: fields({}) },
  ready: { queue: "ask", takes: fields({}) },
  check: { queue: "ask", takes: fields({ question: Question }) },
  ask: {
    queue: "ask",
    takes: fields({
      question: Question,
      each: Unit,
      from: Type.Integer({ minimum: 0, maximum: ROW_LIMIT }),
      size: Type.Integer({ minimum: 1, maximum: MOST_ROWS }),
      sort: Type.Optional(oneOf(Object.keys(ORDERS) as Order[])),
      reading: Type.Optional(Type.Integer({ minimum: 1, maximum: 20 })),
      duplicates: Type.Optional(Type.Boolean()),
    }),
  },
  count: {
    queue: "ask",
    takes: fields({
      question: Question,
      by: Type.Array(Type.String({ minLength: 1, maxLength: 100 }), { maxItems: 2 }),
      share: Type.Optional(Question),
    }),
  },
  facets: {
    queue: "ask",
    takes: fields({
      question: Question,
      by: Type.Array(Type.String({ minLength: 1, maxLength: 100 }), { minItems: 1, maxItems: 8 }),
    }),
  },
  table: {
    queue: "make",
    takes: fields({
      question: Question,
      each: Unit,
      sort: Type.Optional(oneOf(Object.keys(ORDERS) as Order[])),
      reading: Type.Optional(Type.Integer({ minimum: 1, maximum: 20 })),
    }),
  },
  setUps: { queue: "look", takes: fields({}) },
  met: { queue: "ask", takes: fields({ setUp: Text }) },
  // looking
  ending: { queue: "look", takes: fields({ id: Whole }) },
  position: { queue: "look", takes: fields({ fen: Fen }) },
  map: { queue: "look", takes: fields({ fen: Fen, piece: Type.String({ maxLength: 40 }) }) },
  slides: { queue: "look", takes: fields({ fen: Fen }) },
  drawing: {
    queue: "look",
    takes: fields({
      fen: Fen,
      below: oneOf(["white", "black"]),
      as: oneOf(["svg", "png"]),
    }),
  },
  example: { queue: "look", takes: fields({ setUp: Text }) },
  // playing
  play: {
    queue: "look",
    takes: fields({
      start: Fen,
      moves: Type.Array(Uci, { maxItems: MOST_MOVES }),
      /** Who answers the last move; nobody where it is left out. */
      opponent: Type.Optional(oneOf(OPPONENTS)),
      seed: Whole,
    }),
  },
  // making
  exercises: {
    queue: "make",
    takes: fields({
      question: Question,
      task: oneOf(PLAYED_TASKS),
      among: oneOf(SOURCES),
      answers: Type.Integer({ minimum: 1, maximum: 20 }),
      size: Type.Integer({ minimum: 1, maximum: 60 }),
      seed: Whole,
      themes: Type.Optional(Type.Array(oneOf(THEMES.map(({ name }) => name)), { maxItems: THEMES.length })),
      byTheme: Type.Optional(Type.Boolean()),
    }),
  },
  outline: {
    queue: "look",
    takes: fields({
      title: Text,
      items: Type.Optional(Type.Array(Collection, { maxItems: MOST_COLLECTED })),
      question: Type.Optional(Question),
      /** An outline that has been written, to be read into its parts. */
      outline: Type.Optional(Type.String({ maxLength: 200_000 })),
    }),
  },
  lesson: {
    queue: "make",
    takes: fields({
      /** The whole outline, or the title and the parts that it is written from. */
      outline: Type.Optional(Type.String({ maxLength: 200_000 })),
      title: Type.Optional(Text),
      parts: Type.Optional(Type.Array(LessonPart, { maxItems: 400 })),
      paper: Type.Optional(oneOf(Object.keys(PAPERS) as Paper[])),
      as: Type.Optional(oneOf(LESSON_FORMS)),
    }),
  },
  practise: {
    queue: "make",
    takes: fields({ items: Type.Array(Collection, { minItems: 1, maxItems: MOST_COLLECTED }) }),
  },
  sheet: {
    queue: "make",
    takes: fields({ title: Text, items: Type.Array(Collection, { minItems: 1, maxItems: MOST_COLLECTED }) }),
  },
  pgn: {
    queue: "look",
    takes: fields({ title: Text, items: Type.Array(Collection, { minItems: 1, maxItems: MOST_COLLECTED }) }),
  },
  // the whole table
  rules: { queue: "make", takes: fields({ question: Question }) },
  changes: { queue: "make", takes: fields({}) },
  learning: { queue: "make", takes: fields({}) },
  plan: { queue: "make", takes: fields({ fen: Fen }) },
  survey: { queue: "make", takes: fields({ question: Question, by: Type.Optional(Text) }) },
  report: { queue: "make", takes: fields({ question: Question }) },
  // games
  holds: { queue: "look", takes: fields({}) },
  state: { queue: "here", host: true, takes: fields({}) },
  folders: { queue: "here", host: true, takes: fields({ path: Type.Optional(Path) }) },
  index: {
    queue: "here",
    host: true,
    takes: fields({ paths: Type.Array(Path, { minItems: 1, maxItems: 100 }) }),
  },
  drop: {
    queue: "here",
    host: true,
    takes: fields({ name: Type.String({ minLength: 1, maxLength: 4096 }) }),
  },
  stop: { queue: "here", host: true, takes: fields({}) },
  files: {
    queue: "ask",
    host: true,
    takes: fields({ from: Whole, size: Type.Integer({ minimum: 1, maximum: 500 }) }),
  },
  skipped: {
    queue: "ask",
    host: true,
    takes: fields({ from: Whole, size: Type.Integer({ minimum: 1, maximum: 500 }) }),
  },
  tables: { queue: "here", host: true, takes: fields({ material: Type.String({ maxLength: 40 }) }) },
} as const satisfies Record<string, Call>;

export type CallName = keyof typeof CALLS;
export type Input<Name extends CallName> = Static<(typeof CALLS)[Name]["takes"]>;
/** Calls that a thread answers, and those that the server answers itself. */
export type ThreadCall = {
  [Name in CallName]: (typeof CALLS)[Name]["queue"] extends "here" ? never : Name;
}[CallName];
export type HereCall = Exclude<CallName, ThreadCall>;
