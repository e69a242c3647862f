// Everything that the page can ask of the server, once: each call's name, what it takes, which thread answers it and
// for how long it may work. The server's checks, the threads and the page's own types are made from this table.

import Type, { type Static } from "typebox";

import { OPPONENTS } from "../exercises/opponent.js";
import { PLAYED_TASKS } from "../exercises/tasks.js";

/** Rows that one answer holds at most, and rows of one question that can be had in all. */
const MOST_ROWS = 60;
export const ROW_LIMIT = 2000;
/** Moves of a game that is played against the table. */
const MOST_MOVES = 600;
/** Things in a tray. */
const MOST_GATHERED = 200;

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
const Gathered = fields({
  fen: Type.Optional(Fen),
  ending: Type.Optional(Whole),
  ply: Type.Optional(Whole),
  note: Type.Optional(Type.String({ maxLength: 2000 })),
});
const Path = Type.String({ minLength: 1, maxLength: 4096 });

/** Threads that answer: questions, positions, and what takes its time; `here` is the server's own. */
export type LaneName = "ask" | "look" | "make" | "here";

/** Longest that a thread may work at a call, in seconds. */
export const SECONDS: Readonly<Record<Exclude<LaneName, "here">, number>> = { ask: 5, look: 10, make: 600 };

interface Call {
  readonly lane: LaneName;
  readonly takes: Type.TObject;
  /** Only for who sits at the machine itself. */
  readonly host?: true;
}

export const CALLS = {
  // asking
  words: { lane: "ask", takes: fields({}) },
  ready: { lane: "ask", takes: fields({}) },
  check: { lane: "ask", takes: fields({ question: Question }) },
  ask: {
    lane: "ask",
    takes: fields({
      question: Question,
      each: Unit,
      from: Type.Integer({ minimum: 0, maximum: ROW_LIMIT }),
      size: Type.Integer({ minimum: 1, maximum: MOST_ROWS }),
    }),
  },
  count: {
    lane: "ask",
    takes: fields({
      question: Question,
      by: Type.Array(Type.String({ minLength: 1, maxLength: 100 }), { maxItems: 2 }),
      share: Type.Optional(Question),
    }),
  },
  // looking
  ending: { lane: "look", takes: fields({ id: Whole }) },
  position: { lane: "look", takes: fields({ fen: Fen }) },
  map: { lane: "look", takes: fields({ fen: Fen, man: Type.String({ maxLength: 40 }) }) },
  slides: { lane: "look", takes: fields({ fen: Fen }) },
  drawing: {
    lane: "look",
    takes: fields({
      fen: Fen,
      below: oneOf(["white", "black"]),
      as: oneOf(["svg", "png"]),
    }),
  },
  example: { lane: "look", takes: fields({ setUp: Text }) },
  // playing
  play: {
    lane: "look",
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
    lane: "make",
    takes: fields({
      question: Question,
      task: oneOf(PLAYED_TASKS),
      among: oneOf(["games", "table"]),
      answers: Type.Integer({ minimum: 1, maximum: 20 }),
      size: Type.Integer({ minimum: 1, maximum: 60 }),
      seed: Whole,
    }),
  },
  outline: {
    lane: "look",
    takes: fields({
      title: Text,
      items: Type.Optional(Type.Array(Gathered, { maxItems: MOST_GATHERED })),
      question: Type.Optional(Question),
    }),
  },
  lesson: { lane: "make", takes: fields({ outline: Type.String({ maxLength: 200_000 }) }) },
  practise: {
    lane: "make",
    takes: fields({ items: Type.Array(Gathered, { minItems: 1, maxItems: MOST_GATHERED }) }),
  },
  sheet: {
    lane: "make",
    takes: fields({ title: Text, items: Type.Array(Gathered, { minItems: 1, maxItems: MOST_GATHERED }) }),
  },
  pgn: {
    lane: "look",
    takes: fields({ title: Text, items: Type.Array(Gathered, { minItems: 1, maxItems: MOST_GATHERED }) }),
  },
  // games
  holds: { lane: "ask", takes: fields({}) },
  state: { lane: "here", host: true, takes: fields({}) },
  folders: { lane: "here", host: true, takes: fields({ path: Type.Optional(Path) }) },
  index: {
    lane: "here",
    host: true,
    takes: fields({ paths: Type.Array(Path, { minItems: 1, maxItems: 100 }) }),
  },
  stop: { lane: "here", host: true, takes: fields({}) },
  skipped: {
    lane: "ask",
    host: true,
    takes: fields({ from: Whole, size: Type.Integer({ minimum: 1, maximum: 500 }) }),
  },
  tables: { lane: "here", host: true, takes: fields({ material: Type.String({ maxLength: 40 }) }) },
} as const satisfies Record<string, Call>;

export type CallName = keyof typeof CALLS;
export type Input<Name extends CallName> = Static<(typeof CALLS)[Name]["takes"]>;
/** Calls that a thread answers, and those that the server answers itself. */
export type ThreadCall = {
  [Name in CallName]: (typeof CALLS)[Name]["lane"] extends "here" ? never : Name;
}[CallName];
export type HereCall = Exclude<CallName, ThreadCall>;
