// The vocabulary: every fact that can be asked about, once. The parser, the SQL, the help, the output's fields
// and the documentation are derived from this table.
//
// Scopes: a fact is about the whole game, about the ending in it, about one position of the ending, or about
// the move played in that position. Facts of games and endings are asked for in SQL, which speaks of `s` sources, `g`
// games, `e` endings and `o`, the game that a copy is one of; facts of positions and moves are columns (endings/position-columns.ts), or are derived from them.

import { ENDED_BY, OUTCOMES } from "../../endings/ending.js";
import { GEOMETRY } from "../../geometry/facts.js";
import { KINDS_OF_MOVE } from "../../geometry/move-kinds.js";
import { PACES } from "../../pgn/game/circumstances.js";
import { RESULTS } from "../../pgn/game/movetext.js";

export type Scope = "game" | "ending" | "position" | "move";
/** `kinds` is a set of kinds of move: a comparison asks whether one is in it. */
export type FactType = "number" | "text" | "word" | "flag" | "kinds";
/** Facts of a position that follow from columns and from its place in the ending: see derived-columns.ts. */
export type Derived =
  | "ply"
  | "moves-in"
  | "moves-left"
  | "halfmoves"
  | "only-move"
  | "blunder-potential"
  | "clock"
  | "clock-before"
  | "spent"
  | "fifty-verdict"
  | "turn"
  | "mover"
  | "first-mistake"
  | "own-first-mistake"
  | "decisive-mistake"
  | "zugzwang"
  | "reciprocal-zugzwang"
  | "board-square"
  | "bishop-squares";
/** Pieces whose squares on the board can be asked for. */
export type BoardPiece = "king" | "attacker-king" | "rook" | "attacker-rook" | "bishop";
export type Stored = number | string;

export interface Fact {
  readonly name: string;
  readonly scope: Scope;
  readonly type: FactType;
  /** For numbers. */
  readonly unit?: string;
  /** For words: what is stored for each, and other ways to say it. */
  readonly values?: readonly {
    readonly name: string;
    readonly stored: Stored;
    readonly also?: readonly string[];
  }[];
  /** For numbers: the least and the greatest there can be, where that is known. */
  readonly least?: number;
  readonly most?: number;
  /** What it means that a position has no value of it, where that is not for want of knowledge. */
  readonly none?: string;
  readonly meaning: string;
  /** Of games and endings. */
  readonly sql?: string;
  /** Of positions and moves: a column of `POSITION_COLUMNS`, or what is derived. */
  readonly column?: string;
  readonly derived?: Derived;
  /** For text that may stand in one of two columns. */
  readonly either?: readonly [string, string];
  /** For text: a player's name, which is found by its words in any order, initials and accents allowed. */
  readonly nameOfPlayer?: boolean;
  /** For "board-square": whose, and which of its coordinates. */
  readonly board?: { readonly piece: BoardPiece; readonly line: "rank" | "file" };
}

const same = (names: readonly string[]) => names.map((name) => ({ name, stored: name }));

const VERDICTS = [
  { name: "won", stored: 1, also: ["win", "winning"] },
  { name: "drawn", stored: 0, also: ["draw"] },
  { name: "lost", stored: -1, also: ["losing"] },
];

const ERRORS = [
  { name: "none", stored: 0 },
  { name: "half", stored: 1, also: ["half-point", "half point"] },
  { name: "full", stored: 2, also: ["full-point", "full point"] },
];

/** A fact of the attacker's or the defender's that stands in White's or Black's column. */
const bySide = (side: "attacker" | "defender", column: string) =>
  side === "attacker"
    ? `CASE e.attacker WHEN 'white' THEN g.white${column} ELSE g.black${column} END`
    : `CASE e.attacker WHEN 'white' THEN g.black${column} ELSE g.white${column} END`;

const text = (scope: Scope, name: string, sql: string, meaning: string): Fact => ({
  name,
  scope,
  type: "text",
  sql,
  meaning,
});
const playerName = (scope: Scope, name: string, sql: string, meaning: string): Fact => ({
  ...text(scope, name, sql, meaning),
  nameOfPlayer: true,
});
const number = (scope: Scope, name: string, sql: string, unit: string, meaning: string): Fact => ({
  name,
  scope,
  type: "number",
  unit,
  sql,
  meaning,
});
const flag = (scope: Scope, name: string, sql: string, meaning: string): Fact => ({
  name,
  scope,
  type: "flag",
  sql,
  meaning,
});

/** A fact of a position or move that stands in a column of its own. */
const column = (
  scope: "position" | "move",
  type: FactType,
  name: string,
  of: string,
  meaning: string,
  unit?: string,
): Fact => ({ name, scope, type, unit, column: of, meaning });
const derived = (
  type: FactType,
  name: Exclude<Derived, "board-square">,
  meaning: string,
  unit?: string,
): Fact => ({
  name,
  scope: "position",
  type,
  unit,
  derived: name,
  meaning,
});
const KIND_VALUES = KINDS_OF_MOVE.map(({ name }, stored) => ({ name, stored }));

const GAME_FACTS: readonly Fact[] = [
  playerName("game", "white", "g.white", "White's name"),
  playerName("game", "black", "g.black", "Black's name"),
  playerName(
    "game",
    "winner",
    "CASE g.result WHEN '1-0' THEN g.white WHEN '0-1' THEN g.black END",
    "the winner's name; empty if drawn",
  ),
  playerName(
    "game",
    "loser",
    "CASE g.result WHEN '1-0' THEN g.black WHEN '0-1' THEN g.white END",
    "the loser's name; empty if drawn",
  ),
  {
    ...playerName(
      "game",
      "player",
      "coalesce(g.white, '') || ' / ' || coalesce(g.black, '')",
      "either player's name",
    ),
    either: ["g.white", "g.black"],
  },
  number("game", "white-rating", "g.white_rating", "rating points", "White's rating"),
  number("game", "black-rating", "g.black_rating", "rating points", "Black's rating"),
  text("game", "event", "g.event", "the event"),
  text("game", "site", "g.site", "where it was played"),
  text("game", "round", "g.round", "the round"),
  text("game", "date", "g.date", "the date as the file has it"),
  number("game", "year", "g.year", "year", "the year of the date"),
  {
    name: "result",
    scope: "game",
    type: "word",
    sql: "g.result",
    meaning: "the game's result",
    values: RESULTS.map((name) => ({
      name,
      stored: name,
      also: { "1-0": ["white won"], "0-1": ["black won"], "1/2-1/2": ["draw", "drawn"], "*": ["open"] }[name],
    })),
  },
  text("game", "time-control", "g.time_control", "the time control as the file has it"),
  text("game", "termination", "g.termination", "how the file says the game ended"),
  {
    name: "pace",
    scope: "game",
    type: "word",
    sql: "g.pace",
    meaning:
      "how fast it was played, by the time for sixty moves (FIDE Laws, Appendices A and B; bullet: under three minutes)",
    values: same(PACES),
  },
  text("game", "event-type", "g.event_type", "the kind of event as the file has it"),
  flag(
    "game",
    "engine-game",
    "g.engine_game = 2",
    "a program plays on one side at least, by tags, names, comments or the event",
  ),
  flag(
    "game",
    "doubtful-engine-game",
    "g.engine_game = 1",
    "a program may play: a name that may be a person's too, or a rating that no person has had",
  ),
  number(
    "game",
    "unread-clocks",
    "g.unread_clocks",
    "comments",
    "comments of clock times that could not be read",
  ),
  number("game", "game-moves", "(g.plies + 1) / 2", "moves", "length of the whole game"),
  flag("game", "fischer-random", "g.fischer_random", "the game is Fischer random chess"),
  flag(
    "game",
    "duplicate",
    "g.duplicate_of IS NOT NULL",
    "a copy of another game of the database, or the beginning of one, which is the one that counts",
  ),
  flag(
    "game",
    "duplicate-differs",
    "coalesce(g.result <> o.result, 0)",
    "a copy with another result than the game that counts",
  ),
  text("game", "encoding", "g.encoding", "how the file encodes names: utf-8, or what they look like"),
  flag("game", "unreadable", "g.stopped_at IS NOT NULL", "the game could not be read to its end"),
  text("game", "file", "s.name", "the file it stands in"),
];

const ENDING_FACTS: readonly Fact[] = [
  {
    name: "attacker",
    scope: "ending",
    type: "word",
    sql: "e.attacker",
    meaning: "the colour of the attacker",
    values: same(["white", "black"]),
  },
  playerName("ending", "attacker-name", bySide("attacker", ""), "the attacker's name"),
  playerName("ending", "defender-name", bySide("defender", ""), "the defender's name"),
  number(
    "ending",
    "attacker-rating",
    bySide("attacker", "_rating"),
    "rating points",
    "the attacker's rating",
  ),
  number(
    "ending",
    "defender-rating",
    bySide("defender", "_rating"),
    "rating points",
    "the defender's rating",
  ),
  number(
    "ending",
    "rating-difference",
    `(${bySide("attacker", "_rating")}) - (${bySide("defender", "_rating")})`,
    "rating points",
    "the attacker's rating less the defender's",
  ),
  {
    name: "outcome",
    scope: "ending",
    type: "word",
    sql: "e.outcome",
    meaning: "whether the defender held (drew or won) or lost the game; open if it has no result",
    values: same(OUTCOMES),
  },
  {
    name: "defender-result",
    scope: "ending",
    type: "word",
    sql: "CASE WHEN e.outcome <> 'held' THEN e.outcome WHEN g.result = '1/2-1/2' THEN 'drew' ELSE 'won' END",
    meaning: "what the defender got from the game",
    values: same(["won", "drew", "lost", "open"]),
  },
  {
    name: "ended-by",
    scope: "ending",
    type: "word",
    sql: "e.ended_by",
    meaning: "how the ending came to its end",
    values: same(ENDED_BY),
  },
  text("ending", "captured", "e.captured", "the piece whose capture ended it, such as: attacker's bishop"),
  {
    name: "entry-verdict",
    scope: "ending",
    type: "word",
    sql: "e.entry_verdict",
    meaning: "verdict of the first position, for the attacker",
    values: VERDICTS,
  },
  {
    name: "final-verdict",
    scope: "ending",
    type: "word",
    sql: "e.final_verdict",
    meaning: "verdict of the last position, for the attacker",
    values: VERDICTS,
  },
  number("ending", "length", "e.positions / 2", "moves", "length of the ending in whole moves"),
  number("ending", "positions", "e.positions", "positions", "positions of the ending"),
  number(
    "ending",
    "entry-move",
    "(e.first_ply + 2) / 2",
    "moves",
    "number of the move at which the ending arises",
  ),
  number(
    "ending",
    "attacker-errors",
    "e.attacker_half_errors + e.attacker_full_errors",
    "errors",
    "the attacker's moves that gave away half a point or more, the fifty-move rule left out",
  ),
  number(
    "ending",
    "defender-errors",
    "e.defender_half_errors + e.defender_full_errors",
    "errors",
    "the defender's moves that gave away half a point or more, the fifty-move rule left out",
  ),
  number(
    "ending",
    "errors",
    "e.attacker_half_errors + e.attacker_full_errors + e.defender_half_errors + e.defender_full_errors",
    "errors",
    "both sides' moves that gave away half a point or more, the fifty-move rule left out",
  ),
  number(
    "ending",
    "full-point-errors",
    "e.attacker_full_errors + e.defender_full_errors",
    "errors",
    "both sides' moves that turned a win into a loss, the fifty-move rule left out",
  ),
  number(
    "ending",
    "attacker-clock",
    "e.attacker_clock / 1000.0",
    "seconds",
    "time left to the attacker at his first move of the ending for which the file gives a clock time",
  ),
  number(
    "ending",
    "defender-clock",
    "e.defender_clock / 1000.0",
    "seconds",
    "time left to the defender at his first move of the ending for which the file gives a clock time",
  ),
  flag("ending", "passing", "e.passing", "shorter than two half-moves after it arises"),
  flag(
    "ending",
    "contradicts",
    "e.contradicts",
    "the result is not what the verdict of the last position says",
  ),
];

const BOARD_PIECES: Readonly<Record<BoardPiece, string>> = {
  king: "defender's king",
  "attacker-king": "attacker's king",
  rook: "defender's rook",
  "attacker-rook": "attacker's rook",
  bishop: "bishop",
};

/** Where pieces stand on the board as the players see it, not in the frame. */
const BOARD_FACTS: readonly Fact[] = Object.entries(BOARD_PIECES).flatMap(([piece, whose]) =>
  (["rank", "file"] as const).map((line): Fact => ({
    name: `${piece}-board-${line}`,
    scope: "position",
    type: "number",
    unit: line,
    least: 1,
    most: 8,
    derived: "board-square",
    board: { piece: piece as BoardPiece, line },
    meaning: `${line} of the ${whose} on the board itself${line === "rank" ? ", 1 to 8 from White's side" : ", a to h"}`,
  })),
);

/** The colour of the squares that the bishop moves on. */
const BISHOP_SQUARES: Fact = {
  ...derived("word", "bishop-squares", "the colour of the squares that the bishop moves on"),
  values: [
    { name: "light", stored: 1 },
    { name: "dark", stored: 0 },
  ],
};

/** Known for any placement of the tables, without a game: these can define set-ups. */
const PLACEMENT_FACTS: readonly Fact[] = [
  {
    ...column(
      "position",
      "word",
      "verdict",
      "verdict",
      "what the position is with best play, for the attacker",
    ),
    values: VERDICTS,
  },
  {
    ...column("position", "number", "dtm", "dtm", "the winner's moves to mate; none when drawn", "moves"),
    none: "drawn",
  },
  {
    ...column(
      "position",
      "number",
      "dtc",
      "dtc",
      "the winner's moves to conversion (mate or a winning capture); none when drawn",
      "moves",
    ),
    none: "drawn",
  },
  {
    ...column("position", "word", "to-move", "attacker-to-move", "the side to move"),
    values: [
      { name: "attacker", stored: 1 },
      { name: "defender", stored: 0 },
    ],
  },
  ...GEOMETRY.map((fact): Fact => ({
    name: fact.name,
    scope: "position",
    type: fact.type,
    unit: fact.unit,
    least: fact.least,
    most: fact.most,
    values: fact.values?.map((name, stored) => ({ name, stored })),
    meaning: fact.meaning,
    column: fact.name,
  })),
];

/** What the legal moves of a placement do: known for any, but only by looking at each move in the table. */
const CHOICE_FACTS: readonly Fact[] = [
  column("position", "number", "legal", "legal", "legal moves", "moves"),
  column("position", "number", "keeping", "keeping", "legal moves that keep the verdict", "moves"),
  derived("flag", "only-move", "one legal move keeps the verdict"),
  derived(
    "number",
    "blunder-potential",
    "share of the legal moves that lose half a point or more (Anderson, Kleinberg & Mullainathan, KDD 2016)",
    "share",
  ),
  derived("flag", "zugzwang", "the side to move would come off better if it could pass"),
  derived(
    "flag",
    "reciprocal-zugzwang",
    "whoever is to move comes off worse for it: the attacker to move does not win, the defender to move loses",
  ),
];

const POSITION_FACTS: readonly Fact[] = [
  {
    ...column("position", "kinds", "possible", "possible", "kinds of move that are legal here"),
    values: KIND_VALUES,
  },
  {
    ...column("position", "kinds", "holding", "holding", "kinds of move among those that keep the verdict"),
    values: KIND_VALUES,
  },
  {
    ...column("position", "kinds", "needed", "needed", "kinds that every move has that keeps the verdict"),
    values: KIND_VALUES,
  },
  {
    ...derived("word", "turn", "the colour of the side to move"),
    values: [
      { name: "white", stored: 1 },
      { name: "black", stored: 0 },
    ],
  },
  ...BOARD_FACTS,
  BISHOP_SQUARES,
  {
    ...derived(
      "word",
      "fifty-verdict",
      "the verdict under the fifty-move rule (FIDE Laws 9.3; the arbiter decides): a win that comes too late is a draw",
    ),
    values: VERDICTS,
  },
  column(
    "position",
    "number",
    "fifty-keeping",
    "fifty-keeping",
    "legal moves that keep the verdict under the fifty-move rule",
    "moves",
  ),
  derived("number", "halfmoves", "half-moves since the last capture or pawn move", "half-moves"),
  column(
    "position",
    "flag",
    "beyond-fifty",
    "beyond-fifty",
    "won or lost on paper, but a draw can be claimed first (FIDE Laws 9.3; the arbiter decides)",
  ),
  derived("number", "ply", "half-moves of the game before the position", "half-moves"),
  derived("number", "moves-in", "whole moves since the ending arose", "moves"),
  derived(
    "number",
    "moves-left",
    "moves until the ending's last position, one that is begun counted whole",
    "moves",
  ),
];

const MOVE_FACTS: readonly Fact[] = [
  { ...column("move", "text", "move", "san", "the move played, in SAN"), none: "no move" },
  {
    ...column("move", "kinds", "kind", "kind", "kinds of the move played; see the kinds of move"),
    values: KIND_VALUES,
    none: "no move",
  },
  {
    ...column("move", "word", "error", "error", "what the move gave away, the fifty-move rule left out"),
    none: "no move",
    values: ERRORS,
  },
  {
    ...column(
      "move",
      "word",
      "fifty-error",
      "fifty-error",
      "what the move gave away under the fifty-move rule",
    ),
    none: "no move",
    values: ERRORS,
  },
  {
    ...derived("flag", "first-mistake", "the first move of the ending that gave away half a point or more"),
    scope: "move",
  },
  {
    ...derived(
      "flag",
      "own-first-mistake",
      "the first move of its side in the ending that gave away half a point or more",
    ),
    scope: "move",
  },
  {
    ...derived(
      "flag",
      "decisive-mistake",
      "the last move of the ending that gave away half a point or more, made by the side that came off worse than it could have: nothing changed the result afterwards",
    ),
    scope: "move",
  },
  {
    ...derived("text", "mover", "the name of the player who made the move"),
    scope: "move",
    nameOfPlayer: true,
  },
  {
    ...derived("number", "clock", "time left on the mover's clock after the move", "seconds"),
    scope: "move",
  },
  {
    ...derived("number", "clock-before", "time left on the mover's clock before the move", "seconds"),
    scope: "move",
  },
  {
    ...derived(
      "number",
      "spent",
      "time the move took: as the file tells ([%emt]), or by the clock before and after and an increment for the whole game",
      "seconds",
    ),
    scope: "move",
  },
];

/** Every fact, in the order of the help. */
export const FACTS: readonly Fact[] = [
  ...GAME_FACTS,
  ...ENDING_FACTS,
  ...PLACEMENT_FACTS,
  ...CHOICE_FACTS,
  ...POSITION_FACTS,
  ...MOVE_FACTS,
];

/** Whether a fact is known of any placement of the tables, without a game. */
export const isPlacementFact = (fact: Fact): boolean => PLACEMENT_FACTS.includes(fact);
/** Whether it takes a look at each legal move to know it. */
export const isChoiceFact = (fact: Fact): boolean => CHOICE_FACTS.includes(fact);

const byName = new Map(FACTS.map((fact) => [fact.name, fact]));
export const factNamed = (name: string): Fact | undefined => byName.get(name);

/** Which positions of an ending a condition in brackets speaks of. */
export const QUANTIFIERS = {
  somewhere: { meaning: "some position of the ending; what a bare condition means" },
  mostly: { meaning: "more than half of the ending's positions" },
  throughout: { meaning: "every position of the ending" },
  never: { meaning: "no position of the ending" },
  entry: { meaning: "the first position of the ending" },
  end: { meaning: "the last position of the ending" },
} as const satisfies Record<string, { meaning: string }>;
export type Quantifier = keyof typeof QUANTIFIERS;

/** Conditions on the course of an ending, and positions like one: how they are written, and what they mean. */
export const COURSES: readonly { readonly write: string; readonly meaning: string }[] = [
  {
    write: "A then within 10 moves B, B within 10 moves of A",
    meaning:
      "a position with A, and at most ten moves after it one with B; without a number, any time after; more may follow",
  },
  {
    write: "held A for 30 moves",
    meaning:
      "a stay in A of thirty moves or more, looked at after each of the defender's moves; a check that is answered, and a step out that is taken back at once, do not end it",
  },
  {
    write: "count A >= 3, streak A >= 3, stays A >= 3",
    meaning:
      "three positions or more of the ending with A; of streak: three turns of one side on end, none left out; of stays: three stays in A, others between them",
  },
  { write: "reached A from B", meaning: "B then within 10 moves A; another number may be said behind it" },
  {
    write: "reached A by C, left A by C",
    meaning:
      "a move after which A holds, or no longer holds; C is asked of that move and the position before it",
  },
  {
    write: "first C within 5 moves of A",
    meaning:
      "the first position of the ending with C comes at most five moves after A was reached; of entry: after the ending arose",
  },
  {
    write: "like FEN within 4",
    meaning:
      "at most four king's steps, of all pieces together, from a position or one of its twins; a different side to move counts as one step; nearest first",
  },
  {
    write: "waiting-move",
    meaning:
      "the move played was no check, capture, attack, block or pin, and changed neither the verdict nor the set-ups",
  },
];
