// Players: names, ratings, colours.

import { ATTACKED, DEFENDED, type Phrase, say } from "./phrase.js";

/** A player of some rating, whoever it is. */
const rated = (rating: string): Phrase["means"] => ({
  nobody: `(white-rating ${rating} or black-rating ${rating})`,
  side: `{side}-rating ${rating}`,
  white: `white-rating ${rating}`,
  black: `black-rating ${rating}`,
  both: `white-rating ${rating} and black-rating ${rating}`,
});

/** Players: ratings and names. */
export const PLAYERS: readonly Phrase[] = [
  {
    say: [
      "@player [rated] {rating}",
      "(somebody|someone|anybody|anyone) [rated] {rating}",
      "@player rated {level=rating}",
      "{level=rating} [rated] @player",
      "{rating} [rated] @player",
      "{rating} rated @player",
    ],
    means: rated("{rating}"),
    ofNext: true,
    example: "players under 2000 held",
  },
  say(
    "white-rating {rating} and black-rating {rating}",
    "(between|among) [two] @player [rated] {rating}",
    "(between|among) [two] @player rated {level=rating}",
    "(between|among) [two] {level=rating} [rated] @player",
    "(between|among) [two] {rating} [rated] @player",
    "(between|among) [the] @player both [rated] {rating}",
    "two @player [rated] {rating}",
    "two {rating} [rated] @player",
    "both @player [rated] {rating}",
    "both @player rated {level=rating}",
    "rating of both [@player|side] {rating}",
    "both rating {rating}",
    "[rated] {rating} both [@player|side]",
  ),
  {
    say: ["[by] [a] (grandmaster|gm)"],
    ofNext: true,
    means: {
      nobody: "(white-rating >= 2500 or black-rating >= 2500)",
      side: "{side}-rating >= 2500",
      both: "white-rating >= 2500 and black-rating >= 2500",
    },
    example: "mate in three missed by a grandmaster",
  },
  {
    say: ["against [a] (grandmaster|gm)"],
    ofNext: true,
    means: {
      nobody: "attacker-rating >= 2500",
      defender: "attacker-rating >= 2500",
      attacker: "defender-rating >= 2500",
      white: "black-rating >= 2500",
      black: "white-rating >= 2500",
    },
  },
  {
    ofNext: true,
    say: [
      "[is|was] [rated|rating] {rating}",
      "(rated|rating|with rating) [of] {rating}",
      "rated {rating}",
      "with [a] rating {rating}",
    ],
    means: rated("{rating}"),
  },
  say(
    "defender-rating {one} and attacker-rating {two}",
    "[a] player {rating=one} [had to] defend against [a] (someone|somebody|player|opponent) {rating=two}",
  ),
  say(
    "white-rating {rating} and black-rating {rating}",
    "(between|among) [two] player [rated] {rating}",
    "(between|among|by|of) {rating} [rated] player",
    "both player {rating}",
    "{rating} against {rating}",
  ),
  {
    say: [
      "against [a|an] {rating} [rated] [@player|opponent|opposition]",
      "against (someone|somebody|anyone|one) [rated] {rating}",
      "against [a|an] {level=rating} [rated] [@player|opponent]",
      "against [a|an] [@player|opponent] [rated] {rating}",
      "against [a|an] (opponent|@player) {rating}",
    ],
    ofNext: true,
    means: {
      nobody: "attacker-rating {rating}",
      defender: "attacker-rating {rating}",
      attacker: "defender-rating {rating}",
      white: "black-rating {rating}",
      black: "white-rating {rating}",
    },
  },
  say(
    "{whose}-rating {rating}",
    "against [a|an] {rating} [rated] {side=whose}",
    "against [a|an] {level=rating} [rated] {side=whose}",
    "against [a|an] {side=whose} [rated] {rating}",
  ),
  {
    say: ["(against|to) [a] @stronger @opponent", "(against|to) [a] @stronger"],
    ofNext: true,
    means: {
      nobody: "rating-difference > 0",
      defender: "rating-difference > 0",
      attacker: "rating-difference < 0",
      white: "black-rating > white-rating",
      black: "white-rating > black-rating",
    },
  },
  {
    say: ["(against|to) [a] @weaker @opponent", "(against|to) [a] @weaker"],
    ofNext: true,
    means: {
      nobody: "rating-difference < 0",
      defender: "rating-difference < 0",
      attacker: "rating-difference > 0",
      white: "black-rating < white-rating",
      black: "white-rating < black-rating",
    },
  },
  {
    say: [
      "against (somebody|someone|player|opponent|opposition) [rated] {least=points} [@points] (higher|stronger|better)",
      "against [a] (player|opponent) {least=points} [@points] (higher|stronger|better)",
    ],
    means: {
      nobody: "rating-difference {points}",
      defender: "rating-difference {points}",
      attacker: "rating-difference {points.negative}",
    },
  },
  {
    say: ["against (somebody|someone|player|opponent) [rated] {least=points} [@points] (lower|weaker|worse)"],
    means: {
      nobody: "rating-difference {points.negative}",
      defender: "rating-difference {points.negative}",
      attacker: "rating-difference {points}",
    },
  },
  {
    say: [
      "(is|was|be) [the] @stronger [player|one]",
      "(have|with) [the|a] (higher|better) rating [than [the] (opponent|attacker|defender|other)]",
      "[is|was] (stronger|higher rated|rated higher|rated above) [than [the] (opponent|attacker|defender|other)]",
      "rated (higher|above) [than [the] (opponent|attacker|defender|other)]",
      "favourite",
    ],
    means: {
      defender: "rating-difference < 0",
      attacker: "rating-difference > 0",
      white: "white-rating > black-rating",
      black: "black-rating > white-rating",
    },
  },
  {
    say: [
      "(is|was|be) [the] @weaker [player|one]",
      "(have|with) [the|a] (lower|worse) rating [than [the] (opponent|attacker|defender|other)]",
      "[is|was] (weaker|lower rated|rated lower|rated below) [than [the] (opponent|attacker|defender|other)]",
      "rated (lower|below) [than [the] (opponent|attacker|defender|other)]",
      "underdog",
    ],
    means: {
      defender: "rating-difference > 0",
      attacker: "rating-difference < 0",
      white: "white-rating < black-rating",
      black: "black-rating < white-rating",
    },
  },
  say(
    "rating-difference < 0",
    "@weaker [player] have [the] bishop",
    "@stronger player (defend|have [the] rook)",
    "@weaker [player] attack",
  ),
  say(
    "rating-difference > 0",
    "@stronger [player] have [the] bishop",
    "@weaker player (defend|have [the] rook)",
    "@stronger [player] attack",
  ),
  say(
    "(rating-difference > 0 and outcome = lost) or (rating-difference < 0 and defender-result = won)",
    "@stronger [player] win",
  ),
  say(
    "(rating-difference < 0 and outcome = lost) or (rating-difference > 0 and defender-result = won)",
    "@weaker [player] win",
  ),
  {
    say: ["outrate [the] (opponent|defender|attacker|other)"],
    means: {
      nobody: "rating-difference > 0",
      attacker: "rating-difference > 0",
      defender: "rating-difference < 0",
    },
  },
  {
    say: [
      "outrate [the] (opponent|defender|attacker|other) by {least=points} [@points]",
      "{least=points} [@points] (stronger|higher rated|higher|better) [than] [the] [opponent|defender|attacker|other]",
      "(higher rated|stronger|rated higher) by {least=points} [@points]",
      "[the] favourite by {least=points} [@points]",
    ],
    means: {
      attacker: "rating-difference {points}",
      defender: "rating-difference {points.negative}",
      nobody: "rating-difference {points}",
    },
  },
  {
    say: ["(is|was|be) outrate [by [the] (opponent|attacker|defender)]"],
    means: {
      defender: "rating-difference > 0",
      attacker: "rating-difference < 0",
      nobody: "rating-difference > 0",
    },
  },
  {
    say: [
      "(is|was|be) outrate by {least=points} [@points]",
      "outrate by {least=points} [@points]",
      "{least=points} [@points] (weaker|lower rated|lower|worse) [than] [the] [opponent|defender|attacker|other]",
      "(lower rated|weaker|rated lower) by {least=points} [@points]",
    ],
    means: {
      defender: "rating-difference {points}",
      attacker: "rating-difference {points.negative}",
      nobody: "rating-difference {points}",
    },
  },
  say(
    "rating-difference > -{n} and rating-difference < {n}",
    "player (less than|under|within|fewer than) {n} [@points] apart",
    "(less than|under|within|fewer than) {n} [@points] apart",
    "(rating|rate) (difference|gap) (under|below|less than|within) {n}",
    "[player] within {n} (@points [of each other]|of each other)",
    "player within {n}",
    "player rated within {n} [@points] [of each other]",
    "evenly matched within {n}",
  ),
  say(
    "rating-difference >= 200 or rating-difference <= -200",
    "(big|large|huge|great|wide|significant) (rating|rate) (difference|gap)",
    "big (favourite|underdog)",
  ),
  say("{rel.apart}", "(rating|rate) (difference|gap) [of] {rel} [@points]", "{rel} [@points] apart"),
  say(
    "entry-verdict = drawn and outcome = lost and defender-rating {rating}",
    "(theoretical|objective|book) draw lose by [a] player [rated] {rating}",
  ),
  say(
    "outcome = lost and defender-rating {rating}",
    "(beat|defeat) [a|the] (defender|weaker side) [rated] {rating}",
  ),
  {
    say: ["(lose|beaten|defeat) by [a] player [rated] {rating}"],
    means: "outcome = lost and defender-rating {rating}",
  },
  say(
    "white-rating >= 2500 and black-rating >= 2500",
    "(grandmaster|gm) (level|game)",
    "(between|by|of) [two] (grandmaster|gm)",
    "two (grandmaster|gm)",
    "(grandmaster|gm) against (grandmaster|gm)",
  ),
  say(
    "white-rating >= 2700 and black-rating >= 2700",
    "[between|among|by|of] [two] (super grandmaster|elite player|elite grandmaster)",
    "(elite|top level) (game|level|chess)",
  ),
  say(
    "white-rating >= 2500 and black-rating >= 2500",
    "[between|among|by|of] [two] strong player",
    "strong players only",
  ),
  say(
    "white-rating < 2000 and black-rating < 2000",
    "[between|among|by|of] [two] (amateur|club player|weak player)",
    "(amateur|club|club level) (game|level|chess)",
  ),
  say(
    "white-rating < 1500 and black-rating < 1500",
    "(between|among|by|of) [two] (beginner|novice)",
    "two (beginner|novice)",
    "(beginner|novice) game",
  ),
  say(
    "white-rating {rating} or black-rating {rating}",
    "[at least|with] one [of the|of them] [@player] [rated] {rating}",
    "either player [rated] {rating}",
    "at least one {rating} [rated] @player",
  ),
  say(
    "(white-rating >= 2500 and black-rating < 2000) or (black-rating >= 2500 and white-rating < 2000)",
    "(grandmaster|gm|master) (against|and) [a|an] (amateur|club player|weak player)",
    "(amateur|club player) (against|and) [a|an] (grandmaster|gm|master)",
  ),
  say(
    "rating-difference > -50 and rating-difference < 50",
    "(evenly|equally|well) matched",
    "(roughly|about|nearly|almost) (equal|equally|the same|evenly) (rated|rating|strong|strength|matched|level)",
    "(player|opponent) of (equal|the same|similar) (strength|rating|level)",
    "of (equal|the same|similar) (strength|rating|level)",
    "(similar|close) rating",
  ),
  {
    say: [
      "(rated|rating) {least=points} [@points] (more|above|higher|better) [than] [the] [opponent|defender|attacker|other]",
      "{least=points} [@points] (more|above|ahead of) [than] [the] [opponent|defender|attacker|other]",
    ],
    means: {
      attacker: "rating-difference {points}",
      defender: "rating-difference {points.negative}",
      nobody: "rating-difference {points}",
    },
  },
  {
    say: [
      "(rated|rating) {least=points} [@points] (less|below|lower|worse|under) [than] [the] [opponent|defender|attacker|other]",
      "{least=points} [@points] (less|below|under|behind) [than] [the] [opponent|defender|attacker|other]",
    ],
    means: {
      defender: "rating-difference {points}",
      attacker: "rating-difference {points.negative}",
      nobody: "rating-difference {points}",
    },
  },
  {
    say: [
      "(against|to) [a] (much|far|considerably|significantly|clearly|vastly|a lot) @stronger [@opponent]",
    ],
    means: {
      nobody: "rating-difference >= 200",
      defender: "rating-difference >= 200",
      attacker: "rating-difference <= -200",
      white: "black-rating > white-rating and (rating-difference >= 200 or rating-difference <= -200)",
      black: "white-rating > black-rating and (rating-difference >= 200 or rating-difference <= -200)",
    },
    or: [["rating-difference > 0", "stronger by any difference"]],
  },
  {
    say: ["(against|to) [a] (much|far|considerably|significantly|clearly|vastly|a lot) @weaker [@opponent]"],
    means: {
      nobody: "rating-difference <= -200",
      defender: "rating-difference <= -200",
      attacker: "rating-difference >= 200",
      white: "black-rating < white-rating and (rating-difference >= 200 or rating-difference <= -200)",
      black: "white-rating < black-rating and (rating-difference >= 200 or rating-difference <= -200)",
    },
    or: [["rating-difference < 0", "weaker by any difference"]],
  },
  say(
    "(rating-difference < 0 and outcome = lost) or (rating-difference > 0 and defender-result = won)",
    "upset",
    "(giant killing|surprise win|surprise result)",
  ),
  say(
    "(rating-difference > 0 and outcome = held) or (rating-difference < 0 and defender-result != won)",
    "@stronger [player] (not|fail to|never|could not) win",
  ),
  say(
    "(rating-difference > 0 and defender-result = won) or (rating-difference < 0 and outcome = lost)",
    "@stronger [player] (lose|beaten|defeated)",
  ),
  say(
    "(rating-difference > 0 and outcome = lost) or (rating-difference < 0 and defender-result = won)",
    "@weaker [player] (lose|beaten|defeated)",
  ),
  say(
    "rating-difference != 0 and defender-result = drew",
    "(@stronger|@weaker) player (drew|(only|just) drew)",
  ),
  // names
  { say: ["{name=one} (play|meet|face|met) {name=two}"], means: "player ~ {one} and player ~ {two}" },
  { say: ["{side=role} {name}"], means: "{role}-name ~ {name}" },
  { say: ["{name} (as|was|is|be) [the] {side=role}"], means: "{role}-name ~ {name}" },
  { say: ["{name} {side=role}"], means: "{role}-name ~ {name}", weak: true, example: "Marlow defender" },
  {
    say: ["{name} (defend|have [the] [lone] rook|with [the] rook|in defence)"],
    means: "defender-name ~ {name}",
    of: "defender",
  },
  {
    say: ["{name} (attack|have [the] bishop|with [the] bishop|in attack|press)"],
    means: "attacker-name ~ {name}",
    of: "attacker",
  },
  {
    say: ["(as|be) [the] {side=role}", "(defend) [as] {side=role}"],
    means: { name: "{role}-name ~ {name}" },
  },
  {
    say: [
      "(defend|have [the] [lone] rook)",
      "(defend|play) [against] this ending (as [the] defender|with [the] rook)",
      "defend (this|the|such an) (ending|position|material)",
      "defend [against] {material}",
      "defend against (rook and bishop|bishop and rook)",
    ],
    means: DEFENDED,
  },
  {
    say: ["(attack|have [the] bishop)"],
    means: ATTACKED,
  },
  {
    say: ["against {name=other}", "(facing|opposed by) {name=other}"],
    means: {
      nobody: "player ~ {other}",
      name: "player ~ {other}",
      defender: "attacker-name ~ {other}",
      attacker: "defender-name ~ {other}",
      white: "black ~ {other}",
      black: "white ~ {other}",
    },
  },
  say(
    "player ~ {one} and player ~ {two}",
    "between {name=one} and {name=two}",
    "{name=one} against {name=two}",
    "{name=one} and {name=two}",
  ),
  say("player ~ {name}", "(game of|game by|played by|with) {name}"),
  say("player ~ {one} or player ~ {two}", "{name=one} or {name=two} [on either side]"),
  {
    say: ["[on|for|from] (either|any|whichever) side [of [the] board]", "(with|of) (either|any) colour"],
    means: "everything",
    weak: true,
    example: "Carlsen drew, either side",
  },
  {
    say: ["(with|as|playing|had) [the] white [piece]"],
    means: {
      name: "white ~ {name}",
      nobody: "attacker = black",
      defender: "attacker = black",
      attacker: "attacker = white",
    },
  },
  {
    say: ["(with|as|playing|had) [the] black [piece]"],
    means: {
      name: "black ~ {name}",
      nobody: "attacker = white",
      defender: "attacker = white",
      attacker: "attacker = black",
    },
  },
  say("attacker = white", "attacker [is|was] white", "defender [is|was] black"),
  say("attacker = black", "attacker [is|was] black", "defender [is|was] white"),
  { say: ["{colour} attacker", "{colour} attacking side"], means: "attacker = {colour}", of: "attacker" },
  { say: ["black (defender|defending side)"], means: "attacker = white", of: "defender" },
  { say: ["white (defender|defending side)"], means: "attacker = black", of: "defender" },
  { say: ["{rating} [rated] attacker"], means: "attacker-rating {rating}", of: "attacker" },
  { say: ["{rating} [rated] defender"], means: "defender-rating {rating}", of: "defender" },
  {
    say: ["by [a|an] {rating} [rated] {side=whose}", "by [a|an] {side=whose} [rated] {rating}"],
    means: "{whose}-rating {rating}",
    by: "whose",
    example: "only move missed by a defender rated over 2500",
  },
  { say: ["{name} , {side=role} ,"], means: "{role}-name ~ {name}" },
  { say: ["{name} , white ,"], means: "white ~ {name}" },
  { say: ["{name} , black ,"], means: "black ~ {name}" },
];
