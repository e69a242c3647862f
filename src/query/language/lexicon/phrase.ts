// What an entry of the lexicon is, and what is said in several of its files.

import type { Order } from "../orders.js";

/** What something means, by whom it is about; a text is for everybody. */
export interface BySubject {
  /** For the attacker and the defender alike: `{side}` stands for which. */
  readonly side?: string;
  readonly attacker?: string;
  readonly defender?: string;
  readonly white?: string;
  readonly black?: string;
  /** A player's name: `{name}` stands for it, in quotes. */
  readonly name?: string;
  readonly both?: string;
  /** For both where they were named farther back: "both over 2500 and three blunders" counts them together. */
  readonly together?: string;
  /** Where nobody has been spoken of. */
  readonly nobody?: string;
}

/** Something that people say, as a condition. */
export interface Phrase {
  /** Patterns, each another way to say it; the first is the one that is shown and completed. */
  readonly say: readonly string[];
  /**
   * Canonical form. `{x}` is what the category x found (`{rank.mirror}` the rank from the other side, `{rel.negative}` the
   * comparison for the other player, `{square.rank}` a part of it); `{mover}` says who made the move or is to move, with an "and"
   * behind it, or nothing where nobody has been spoken of.
   */
  readonly means: string | BySubject;
  /** Other things it could mean, each with what it would then be about. */
  readonly or?: readonly (readonly [means: string, about: string])[];
  /** Who is spoken of afterwards, whoever was before: only a defender holds. */
  readonly of?: "attacker" | "defender";
  /** Who is spoken of afterwards where nobody was before: "lost with one mistake" is about the defender. */
  readonly unsaid?: "attacker" | "defender";
  /** Of nobody that is named, it is about whom the next words are about: "players under 2000 held". */
  readonly ofNext?: boolean;
  /** It says by whom something was done that stands before it: under this name is the side. */
  readonly by?: string;
  /** Behind a move it is about the other side's answer: "check answered by a blunder". */
  readonly answer?: boolean;
  /** It says how the game came out: "drew with X" means that most positions are X. */
  readonly result?: boolean;
  /** It says how the ending was ended, so that "in a won position" is about its last position. */
  readonly end?: boolean;
  /** What it means behind a phrase with `end`. */
  readonly atEnd?: string;
  /** What it means behind a phrase with `result` or `end`. */
  readonly atResult?: string;
  /** The order of the answers that it asks for: "the longest". */
  readonly order?: Order;
  /** Why it can't be asked, and what can: of what people say and no fact tells. */
  readonly refused?: readonly [message: string, hint: string];
  /** Why it can't be asked where no side is named, or both are, and what can. */
  readonly refusedUnsaid?: readonly [message: string, hint: string];
  /** Why it can't be asked where it begins a part of the question, and what can. */
  readonly refusedAlone?: readonly [message: string, hint: string];
  /**
   * Behind something that lasts it says that this came to an end, "rook on the third rank, then driven off it": by a move of
   * some side, where one is named.
   */
  readonly leaves?: "defender" | true;
  /** Behind something that was left it says that this came back: "left it, then found it again". */
  readonly returns?: boolean;
  /** It says where the king stands; behind another piece, "bishop attacked on e4", where that one does. */
  readonly place?: boolean;
  /** It begins to count only where nothing better is found. */
  readonly weak?: boolean;
  /** A question that shows it, where its first pattern does not. */
  readonly example?: string;
}

export const say = (means: Phrase["means"], ...patterns: string[]): Phrase => ({ say: patterns, means });

/** Says how the ending was ended. */
export const ends = (means: Phrase["means"], ...patterns: string[]): Phrase => ({
  say: patterns,
  means,
  end: true,
});

// What is said in several ways below, once.

/** Half a point for both. */
export const DREW: Phrase["means"] = {
  nobody: "defender-result = drew",
  side: "defender-result = drew",
  both: "defender-result = drew",
  white: "result = 1/2-1/2",
  black: "result = 1/2-1/2",
  name: "player ~ {name} and result = 1/2-1/2",
};

/** The whole point, for the attacker where nobody is named. */
export const ATTACKER_WON: Phrase["means"] = {
  nobody: "outcome = lost",
  attacker: "outcome = lost",
  defender: "defender-result = won",
  white: "result = 1-0",
  black: "result = 0-1",
  name: "winner ~ {name}",
};

/** Lost by the named side, by the defender where nobody is named. */
export const LOST: Phrase["means"] = {
  nobody: "outcome = lost",
  defender: "outcome = lost",
  attacker: "defender-result = won",
  white: "result = 0-1",
  black: "result = 1-0",
  name: "loser ~ {name}",
};

/** Not lost by the defender, who is whoever is named. */
export const HELD: Phrase["means"] = {
  nobody: "outcome = held",
  defender: "outcome = held",
  white: "attacker = black and outcome = held",
  black: "attacker = white and outcome = held",
  name: "defender-name ~ {name} and outcome = held",
};

/** The named side's time ran out. */
export const LOST_ON_TIME: Phrase["means"] = {
  nobody: "ended-by = time",
  defender: "ended-by = time and outcome = lost",
  attacker: "ended-by = time and defender-result = won",
  white: "ended-by = time and result = 0-1",
  black: "ended-by = time and result = 1-0",
  name: "ended-by = time and loser ~ {name}",
};

/** The named side gave up. */
export const RESIGNED: Phrase["means"] = {
  nobody: "ended-by = resignation",
  defender: "ended-by = resignation and outcome = lost",
  attacker: "ended-by = resignation and defender-result = won",
  white: "ended-by = resignation and result = 0-1",
  black: "ended-by = resignation and result = 1-0",
  name: "ended-by = resignation and loser ~ {name}",
};

/** Nothing given away, by the named side or by both. */
export const NO_MISTAKES: Phrase["means"] = {
  nobody: "errors = 0",
  side: "{side}-errors = 0",
  both: "errors = 0",
};

/** The one named had the lone rook. */
export const DEFENDED: Phrase["means"] = {
  defender: "everything",
  name: "defender-name ~ {name}",
  white: "attacker = black",
  black: "attacker = white",
};

/** The one named had the bishop as well. */
export const ATTACKED: Phrase["means"] = {
  attacker: "everything",
  name: "attacker-name ~ {name}",
  white: "attacker = white",
  black: "attacker = black",
};
