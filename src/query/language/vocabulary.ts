// The vocabulary: every fact that can be asked about, once. The parser, the SQL, the help, the output's fields
// and the documentation are derived from this table.
//
// Scopes: a fact is about the whole game, about the ending in it, about one position of the ending, or about
// the move played in that position. Facts of games and endings are asked for in SQL, which speaks of `s` sources, `g`
// games and `e` endings; facts of positions and moves are columns (endings/plies.ts), or are derived from them.

import { ENDED_BY, OUTCOMES } from "../../endings/ending.js";
import { GEOMETRY } from "../../geometry/facts.js";
import { KINDS_OF_MOVE } from "../../geometry/move-kinds.js";
import { PACES } from "../../pgn/game/circumstances.js";
import { RESULTS } from "../../pgn/game/movetext.js";

export type Scope = "game" | "ending" | "position" | "move";
/** `kinds` is a set of kinds of move: a comparison asks whether one is in it. */
export type FactType = "number" | "text" | "word" | "flag" | "kinds";
/** Facts of a position that follow from columns and from its place in the ending: see evaluate.ts. */
export type Derived = "ply" | "moves-in" | "halfmoves" | "only-move" | "blunder-potential" | "clock";
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
}

/** A way people say something: words, with slots, and what they mean in canonical form. */
export interface Phrase {
  readonly say: string;
  readonly means: string;
  /** What it means where the words before it spoke of the attacker. */
  readonly ofAttacker?: string;
}

const same = (names: readonly string[]) => names.map((name) => ({ name, stored: name }));

const VERDICTS = [
  { name: "won", stored: 1, also: ["win", "winning"] },
  { name: "drawn", stored: 0, also: ["draw"] },
  { name: "lost", stored: -1, also: ["losing"] },
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
const derived = (type: FactType, name: Derived, meaning: string, unit?: string): Fact => ({
  name,
  scope: "position",
  type,
  unit,
  derived: name,
  meaning,
});
const KIND_VALUES = KINDS_OF_MOVE.map(({ name }, stored) => ({ name, stored }));

const GAME_FACTS: readonly Fact[] = [
  text("game", "white", "g.white", "White's name"),
  text("game", "black", "g.black", "Black's name"),
  {
    ...text(
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
    "g.engine_game",
    "a program plays on one side at least, as the tags or the event's name say",
  ),
  number("game", "game-moves", "(g.plies + 1) / 2", "moves", "length of the whole game"),
  flag("game", "fischer-random", "g.fischer_random", "the game is Fischer random chess"),
  flag(
    "game",
    "duplicate",
    "g.duplicate_of IS NOT NULL",
    "a copy of another game of the database, or the beginning of one, which is the one that counts",
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
  text("ending", "attacker-name", bySide("attacker", ""), "the attacker's name"),
  text("ending", "defender-name", bySide("defender", ""), "the defender's name"),
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
    meaning: "whether the defender held (drew or better) or lost the game; open if it has no result",
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
    "the attacker's moves that gave away half a point or more",
  ),
  number(
    "ending",
    "defender-errors",
    "e.defender_half_errors + e.defender_full_errors",
    "errors",
    "the defender's moves that gave away half a point or more",
  ),
  number(
    "ending",
    "errors",
    "e.attacker_half_errors + e.attacker_full_errors + e.defender_half_errors + e.defender_full_errors",
    "errors",
    "both sides' moves that gave away half a point or more",
  ),
  number(
    "ending",
    "full-point-errors",
    "e.attacker_full_errors + e.defender_full_errors",
    "errors",
    "both sides' moves that turned a win into a loss",
  ),
  number(
    "ending",
    "attacker-clock",
    "e.attacker_clock / 1000.0",
    "seconds",
    "time left to the attacker at his first move of the ending whose clock is told",
  ),
  number(
    "ending",
    "defender-clock",
    "e.defender_clock / 1000.0",
    "seconds",
    "time left to the defender at his first move of the ending whose clock is told",
  ),
  flag("ending", "passing", "e.passing", "shorter than two half-moves after it arises"),
  flag(
    "ending",
    "contradicts",
    "e.contradicts",
    "the result is not what the verdict of the last position says",
  ),
];

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
];

const MOVE_FACTS: readonly Fact[] = [
  { ...column("move", "text", "move", "san", "the move played, in SAN"), none: "no move" },
  {
    ...column("move", "kinds", "kind", "kind", "kinds of the move played; see the kinds of move"),
    values: KIND_VALUES,
    none: "no move",
  },
  {
    ...column("move", "word", "error", "error", "what the move gave away"),
    none: "no move",
    values: [
      { name: "none", stored: 0 },
      { name: "half", stored: 1, also: ["half-point", "half point"] },
      { name: "full", stored: 2, also: ["full-point", "full point"] },
    ],
  },
  {
    ...derived("number", "clock", "time left on the mover's clock after the move", "seconds"),
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

/**
 * What people say. `{n}` stands for a number, `{year}` for a year, `{file}` for a file letter or number, `{rank}` for a number or
 * "first" to "eighth". Articles and little words between the others may be left out or added.
 */
export const PHRASES: readonly Phrase[] = [
  { say: "defender held", means: "outcome = held" },
  { say: "held", means: "outcome = held" },
  { say: "drew", means: "result = 1/2-1/2" },
  { say: "defender holds", means: "outcome = held" },
  { say: "defender drew", means: "defender-result = drew" },
  { say: "defender draws", means: "defender-result = drew" },
  { say: "defender won", means: "defender-result = won" },
  { say: "defender lost", means: "outcome = lost" },
  { say: "defender loses", means: "outcome = lost" },
  { say: "attacker won", means: "outcome = lost" },
  { say: "attacker wins", means: "outcome = lost" },
  { say: "attacker failed", means: "outcome = held" },
  { say: "defender resigned", means: "ended-by = resignation and outcome = lost" },
  { say: "defender lost on time", means: "ended-by = time and outcome = lost" },
  { say: "white won", means: "result = 1-0" },
  { say: "black won", means: "result = 0-1" },
  { say: "since {year}", means: "year >= {year}" },
  { say: "after {year}", means: "year > {year}" },
  { say: "before {year}", means: "year < {year}" },
  { say: "until {year}", means: "year <= {year}" },
  { say: "in {year}", means: "year = {year}" },
  { say: "defender over {n}", means: "defender-rating > {n}" },
  { say: "defender under {n}", means: "defender-rating < {n}" },
  { say: "attacker over {n}", means: "attacker-rating > {n}" },
  { say: "attacker under {n}", means: "attacker-rating < {n}" },
  { say: "both over {n}", means: "attacker-rating > {n} and defender-rating > {n}" },
  { say: "attacker white", means: "attacker = white" },
  { say: "attacker black", means: "attacker = black" },
  { say: "against a stronger player", means: "rating-difference > 0", ofAttacker: "rating-difference < 0" },
  { say: "against a stronger opponent", means: "rating-difference > 0", ofAttacker: "rating-difference < 0" },
  { say: "against a weaker player", means: "rating-difference < 0", ofAttacker: "rating-difference > 0" },
  { say: "against a weaker opponent", means: "rating-difference < 0", ofAttacker: "rating-difference > 0" },
  { say: "thrown away", means: "errors > 0" },
  { say: "without errors", means: "errors = 0" },
  { say: "without error", means: "errors = 0" },
  { say: "for {n} moves", means: "length >= {n}" },
  { say: "at least {n} moves", means: "length >= {n}" },
  { say: "longer than {n} moves", means: "length > {n}" },
  { say: "more than {n} moves", means: "length > {n}" },
  { say: "shorter than {n} moves", means: "length < {n}" },
  { say: "less than {n} moves", means: "length < {n}" },
  { say: "ended by mate", means: "ended-by = mate" },
  { say: "ended in mate", means: "ended-by = mate" },
  { say: "ended in stalemate", means: "ended-by = stalemate" },
  { say: "on time", means: "ended-by = time" },
  { say: "by resignation", means: "ended-by = resignation" },
  { say: "by repetition", means: "ended-by = repetition" },
  { say: "draw by repetition", means: "ended-by = repetition" },
  { say: "lost on time", means: "ended-by = time" },
  { say: "stalemate", means: "ended-by = stalemate" },
  { say: "draw under fifty-move rule", means: "ended-by = fifty moves" },
  { say: "draw agreed", means: "ended-by = agreed" },
  { say: "agreed draw", means: "ended-by = agreed" },
  { say: "agreed drawn", means: "ended-by = agreed" },
  { say: "fifty-move claim", means: "ended-by = fifty moves" },
  { say: "rook on long side", means: "rook-side = long" },
  { say: "rook on short side", means: "rook-side = short" },
  { say: "rook on king's file", means: "rook-side = king's file" },
  { say: "bishop on long side", means: "bishop-side = long" },
  { say: "bishop on short side", means: "bishop-side = short" },
  { say: "rook on {rank} rank", means: "rook-rank = {rank}" },
  { say: "rook on rank {n}", means: "rook-rank = {n}" },
  { say: "rook on back rank", means: "rook-rank = 1" },
  { say: "rook on {file}-file", means: "rook-file = {file}" },
  { say: "bishop on rank {n}", means: "bishop-rank = {n}" },
  { say: "bishop on {rank} rank", means: "bishop-rank = {rank}" },
  { say: "bishop pinned", means: "pinned = attacker or pinned = both" },
  { say: "pinned bishop", means: "pinned = attacker or pinned = both" },
  { say: "king on rank {n}", means: "king-rank = {n}" },
  { say: "king in centre", means: "king-rank >= 3 and king-file >= 3" },
  { say: "king off edge", means: "king-rank > 1" },
  { say: "king on {rank} rank", means: "king-rank = {rank}" },
  { say: "king on {file}-file", means: "king-file = {file}" },
  { say: "king on edge", means: "king-rank = 1" },
  { say: "king in corner", means: "king-rank = 1 and king-file = 1" },
  { say: "attacker's king on {rank} rank", means: "attacker-king-rank = {rank}" },
  { say: "king in wedge", means: "wedge-depth >= 1" },
  { say: "at depth {n}", means: "wedge-depth = {n}" },
  { say: "in check", means: "in-check" },
  { say: "in opposition", means: "opposition = direct" },
  { say: "direct opposition", means: "opposition = direct" },
  { say: "diagonal opposition", means: "opposition = diagonal" },
  { say: "distant opposition", means: "opposition = distant" },
  { say: "defender to move", means: "to-move = defender" },
  { say: "attacker to move", means: "to-move = attacker" },
  { say: "mate in {n}", means: "verdict = won and dtm = {n}" },
  { say: "only move", means: "only-move" },
  { say: "only winning move", means: "only-move and to-move = attacker and verdict = won" },
  { say: "one move wins", means: "only-move and to-move = attacker and verdict = won" },
  { say: "one move draws", means: "only-move and to-move = defender and verdict = drawn" },
  { say: "one move holds", means: "only-move and to-move = defender and verdict = drawn" },
  { say: "half-point error", means: "error = half" },
  { say: "full-point error", means: "error = full" },
  { say: "an error", means: "error != none" },
  { say: "defender errs", means: "error != none and to-move = defender" },
  { say: "attacker errs", means: "error != none and to-move = attacker" },
  { say: "defender erred", means: "error != none and to-move = defender" },
  { say: "attacker erred", means: "error != none and to-move = attacker" },
  { say: "defender blundered", means: "error != none and to-move = defender" },
  { say: "attacker blundered", means: "error != none and to-move = attacker" },
  { say: "erred", means: "error != none" },
  { say: "blundered", means: "error != none" },
  { say: "a mistake", means: "error != none" },
  { say: "a blunder", means: "error != none" },
  { say: "missed a win", means: "error != none and to-move = attacker and verdict = won" },
  { say: "missed the draw", means: "error != none and to-move = defender and verdict = drawn" },
  { say: "attacker missed the win", means: "error != none and to-move = attacker and verdict = won" },
  { say: "defender missed the draw", means: "error != none and to-move = defender and verdict = drawn" },
  { say: "beyond fifty moves", means: "beyond-fifty" },
  { say: "king's move", means: "kind = king" },
  { say: "king move", means: "kind = king" },
  { say: "rook's move", means: "kind = rook" },
  { say: "rook move", means: "kind = rook" },
  { say: "bishop's move", means: "kind = bishop" },
  { say: "bishop move", means: "kind = bishop" },
  { say: "gives check", means: "kind = check" },
  { say: "check", means: "kind = check" },
  { say: "attacker gives check", means: "kind = check and to-move = attacker" },
  { say: "defender gives check", means: "kind = check and to-move = defender" },
  { say: "bishop pins rook", means: "kind = pin and kind = bishop" },
  { say: "rook pins bishop", means: "kind = pin and kind = rook and to-move = defender" },
  { say: "with check", means: "kind = check" },
  { say: "attacks rook", means: "kind = attack" },
  { say: "blocks check", means: "kind = block" },
  { say: "blocks mate", means: "kind = mate block" },
  { say: "keeps pin", means: "kind = pin kept" },
  { say: "pins", means: "kind = pin" },
  { say: "rook switches sides", means: "kind = switch" },
  { say: "rook leaves rank", means: "kind = leaves rank" },
  { say: "king steps to corner", means: "kind = to corner" },
  { say: "king steps from corner", means: "kind = from corner" },
  { say: "king steps into wedge", means: "kind = into wedge" },
  { say: "king steps out of wedge", means: "kind = out of wedge" },
  { say: "can give check", means: "possible = check" },
  { say: "a check holds", means: "holding = check" },
  { say: "only a check holds", means: "needed = check" },
  { say: "must give check", means: "needed = check" },
  { say: "rook behind attacker's king", means: "rook-place = behind" },
  { say: "rook beside attacker's king", means: "rook-place = beside" },
  { say: "rook in front of attacker's king", means: "rook-place = in front" },
  { say: "mate threatens", means: "mate-threat" },
  { say: "threat of mate", means: "mate-threat" },
  { say: "king cut off", means: "king-cut-off != none" },
  { say: "king cut off on {rank} rank", means: "king-cut-off = rank and attacker-rook-rank = {rank}" },
  {
    say: "attacker's king barred on {rank} rank",
    means: "attacker-king-barred = rank and rook-rank = {rank}",
  },
  { say: "attacker's king barred", means: "attacker-king-barred != none" },
  { say: "bishop on colour of corner", means: "bishop-colour = corner's" },
  { say: "rook pinned", means: "rook-pin != none" },
];

/** Which positions of an ending a condition in brackets speaks of. */
export const QUANTIFIERS = {
  somewhere: {
    meaning: "some position of the ending; what a bare condition means",
    say: ["some position", "sometime"],
  },
  mostly: { meaning: "more than half of the ending's positions", say: ["most positions", "mainly"] },
  throughout: { meaning: "every position of the ending", say: ["every position", "always"] },
  never: { meaning: "no position of the ending", say: ["no position", "nowhere"] },
  entry: { meaning: "the first position of the ending", say: ["at entry", "at first", "from entry"] },
  end: { meaning: "the last position of the ending", say: ["at end", "at last", "finally"] },
} as const satisfies Record<string, { meaning: string; say: readonly string[] }>;
export type Quantifier = keyof typeof QUANTIFIERS;

/** Conditions on the course of an ending, and positions like one: how they are written, and what they mean. */
export const COURSES: readonly { readonly write: string; readonly meaning: string }[] = [
  {
    write: "A then within 10 moves B, B within 10 moves of A",
    meaning:
      "a position with A, and at most ten moves after it one with B; without a number, any time after; more may follow",
  },
  { write: "held A for 30 moves", meaning: "positions on end with A, over thirty moves or more" },
  { write: "reached A from B", meaning: "B then within 10 moves A; another number may be said behind it" },
  {
    write: "reached A by C, left A by C",
    meaning:
      "a move after which A holds, or holds no more; C is asked of that move and the position before it",
  },
  {
    write: "first C within 5 moves of A",
    meaning:
      "the first position of the ending with C comes at most five moves after A was reached; of entry: after the ending arose",
  },
  {
    write: "like FEN within 4",
    meaning:
      "at most four king's steps, of all pieces together, from a position or one of its twins; another turn counts for one; nearest first",
  },
  {
    write: "waiting-move",
    meaning:
      "the move played was no check, capture, attack, block or pin, and changed neither the verdict nor the set-ups",
  },
];
