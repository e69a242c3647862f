// Moves that alone keep the result: found, missed, how many.

import { type Phrase, say } from "./phrase.js";

/** There is but one move that keeps the result, for whoever is named. */
const ONLY_MOVE: Phrase["means"] = {
  nobody: "only-move",
  defender: "to-move = defender and verdict = drawn and only-move",
  attacker: "to-move = attacker and verdict = won and only-move",
  white: "turn = white and only-move",
  black: "turn = black and only-move",
  name: "mover ~ {name} and only-move",
};

export const ONLY_MOVES: readonly Phrase[] = [
  {
    say: ["only move"],
    means: ONLY_MOVE,
  },
  {
    say: [
      "(must|need to|have to|had to) (find|play) (one|the one|a single|the only) [precise|exact|accurate|correct] move",
      "(must|need to|have to|had to) (find|play) [a|the] (precise|exact) move",
    ],
    means: ONLY_MOVE,
    example: "defender must find one precise move",
  },
  {
    say: ["only move (for|by|of) {who}"],
    means: {
      defender: "to-move = defender and verdict = drawn and only-move",
      attacker: "to-move = attacker and verdict = won and only-move",
      white: "turn = white and only-move",
      black: "turn = black and only-move",
    },
  },
  say(
    "to-move = defender and verdict = drawn and only-move",
    "@onlyone move [that] (@hold|be enough)",
    "@onlyone @holding move [for [the] defender]",
    "@onlyone (way|defence) to (@hold|draw)",
    "@onlyone move to (@hold|draw)",
    "only @onlyone @holding move",
  ),
  say(
    "to-move = attacker and verdict = won and only-move",
    "@onlyone move [that] win",
    "@onlyone win move [for [the] attacker]",
    "@onlyone (way|move) to win",
    "@onlyone win",
  ),
  {
    say: ["@overlook [an|the] only move", "only move [was|be] (miss|overlook|not found|not played|not seen)"],
    means: {
      nobody: "only-move and error != none",
      defender: "to-move = defender and verdict = drawn and only-move and error != none",
      attacker: "to-move = attacker and verdict = won and only-move and error != none",
      name: "mover ~ {name} and only-move and error != none",
    },
  },
  {
    say: [
      "(find|play|see|spot) [an|the] only move [(for|to) [a] draw]",
      "only move [was|be] (found|played|seen|spotted)",
    ],
    means: {
      nobody: "only-move and error = none",
      defender: "to-move = defender and verdict = drawn and only-move and error = none",
      attacker: "to-move = attacker and verdict = won and only-move and error = none",
      name: "mover ~ {name} and only-move and error = none",
    },
  },
  say(
    "to-move = attacker and verdict = won and only-move and error != none",
    "@overlook [the] @onlyone win move",
    "@onlyone win move [was|be] (miss|overlook|not found|not played)",
    "(miss|overlook) [the] @onlyone win",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and error = none",
    "(find|play|see) [the] @onlyone win move",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and error != none",
    "@overlook [the] @onlyone @holding move",
    "@onlyone @holding move [was|be] (miss|overlook|not found)",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and error = none",
    "(find|play|see) [the] @onlyone @holding move",
    "@onlyone @holding move [was|be] find",
    "@onlyone move to (@hold|draw) [was|be] find",
  ),
  say(
    "to-move = defender and verdict = drawn and keeping {cmp}",
    // "longer than 60 moves which were drawn" counts the game's moves
    "[have] [only|exactly] {cmp} move (that|which) !were !was @hold [the] [draw]",
    "[have] [only|exactly] {cmp} move (hold|save|keep) [the] [draw|game|balance]",
    "(only|exactly|just) {cmp} move draw",
    "[only] {cmp} @holding move",
    "(had|have|with) [only] {cmp} @holding move",
    "[only] {cmp} (way|move) to (@hold|draw)",
  ),
  say(
    "to-move = attacker and verdict = won and keeping {cmp}",
    "[have] [only|exactly] {cmp} move [that|which] ^win",
    "[have] [only|exactly|just] {cmp} [possible|legal] move [that|which] (keep|hold|preserve|save|maintain|retain) [the] =win",
    "[only] {cmp} win move",
  ),
  say(
    "to-move = defender and verdict = drawn and needed = {kind}",
    "only [a] {kind} @hold [the] [draw] [for [the] defender]",
    "(nothing|no move) but [a] {kind} @hold",
    "where only [a] {kind} @hold",
    "(must|has to|need to|have to) [give|play|make] [a] {kind} to @hold",
    "only [a] {kind} (save|keep) [the] (draw|game|defender)",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and not needed = {kind}",
    "[have] @winmove [,] [and|which|that] [it|this|that] [be] not [a] {kind}",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and not needed = {kind}",
    "[have] @holdmove [,] [and|which|that] [it|this|that] [be] not [a] {kind}",
  ),
  say("only-move and not needed = {kind}", "only move [be] not [a] {kind}"),
  say(
    "not possible = check and not capture",
    "[with|have] neither [a] check (nor|or) [a] capture",
    "[with|have] neither [a] capture (nor|or) [a] check",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and needed = {kind}",
    "[have] @winmove [,] (and|which|that|it|this) [it|this|that] [be] [a] {kind}",
    "[have] @winmove , [a] {kind}",
  ),
  say(
    "to-move = attacker and verdict = won and needed = {kind}",
    "only [a] {kind} win [for [the] attacker]",
    "(must|has to|need to|have to) [give|play|make] [a] {kind} to win",
  ),
  say(
    "to-move = defender and verdict = drawn and needed = {kind}",
    "(can|could) only [be] @hold (with|by) [a] {kind}",
    "[could] [be] (@hold|held|draw|saved) only (with|by) [a] {kind}",
    "only way to (@hold|draw) (was|is) [a|with a] {kind}",
  ),
  say(
    "to-move = attacker and verdict = won and needed = {kind}",
    "(can|could) only [be] win (with|by) [a] {kind}",
    "only way to win (was|is) [a|with a] {kind}",
  ),
  {
    say: ["only move (is|was) (with|by|of) [the] {moved}", "only {moved} move"],
    means: {
      nobody: "only-move and needed = {moved}",
      defender: "to-move = defender and verdict = drawn and only-move and needed = {moved}",
      attacker: "to-move = attacker and verdict = won and only-move and needed = {moved}",
    },
  },
  {
    say: [
      "(every|all) [the] other move @loses",
      "(all|every) (but|except) one [of [the]] [legal|possible] move @loses",
      "(every|all) [legal] move [but|except] one @loses",
      "(every|all) [legal] move @loses (but|except) [for] one",
      "(one|only one) (move|reply) not lose",
      "(only|only one|one and only|sole) (defence|salvation|saving move|save)",
      "[only] (need|require|demand|call for) [a] (precise|exact|accurate|perfect) (play|move|defence|technique|reply)",
    ],
    means: {
      nobody: "to-move = defender and verdict = drawn and only-move",
      defender: "to-move = defender and verdict = drawn and only-move",
      attacker: "to-move = attacker and verdict = won and only-move",
    },
    example: "all other moves lose",
  },
  {
    say: ["(any|every|all|each) [legal|possible] move lose"],
    means: {
      nobody: "to-move = defender and verdict = won",
      defender: "to-move = defender and verdict = won",
      attacker: "to-move = attacker and verdict = lost",
      white:
        "turn = white and ((to-move = defender and verdict = won) or (to-move = attacker and verdict = lost))",
      black:
        "turn = black and ((to-move = defender and verdict = won) or (to-move = attacker and verdict = lost))",
    },
    example: "every move loses",
  },
  {
    say: ["(any|every|all) [legal] move (@hold|draw|keep [the] draw)", "(nothing|no move) @loses"],
    means: "to-move = defender and verdict = drawn and blunder-potential = 0",
    example: "every move holds",
  },
  say(
    "to-move = attacker and verdict = won and blunder-potential = 0",
    "(any|every|all) [legal] move (win|keep [the] win)",
  ),
  say(
    "{mover}blunder-potential >= 0.5",
    "[at least] half [of] [the] [legal] (move|reply|replies) @loses",
    "half [of] [the] [legal] (move|reply|replies) or more @loses",
  ),
  say(
    "{mover}blunder-potential >= 0.75",
    "(nearly|almost) (all|every) [of] [the] [legal] (move|reply|replies) @loses",
    "three quarters of [the] [legal] (move|reply|replies) @loses",
  ),
  say(
    "{mover}possible = {kind} and not holding = {kind}",
    "(every|all|any|each|each and every) [possible] {kind} [(by|from|of) {who}] @loses",
    "no {kind} (hold|holds|save|saves|work|works|help|helps|keep [the] draw)",
  ),
  say(
    "to-move = attacker and verdict = won and not holding = {kind}",
    "no {kind} win [for [the] attacker]",
    "(not one|not a single) {kind} win [for [the] attacker]",
  ),
  say("{mover}needed = {kind}", "(must|has to|need to|have to) (give|play|make) [a] {kind}"),
  say(
    "{mover}needed = {kind} and error != none",
    "(must|has to|need to|have to) [give|play|make] [a] {kind} [,] (and|but) not",
  ),
  say(
    "to-move = defender and verdict = drawn and needed = {moved}",
    "(must|has to|need to|have to) move [its] {moved} to @hold",
  ),
  say("{mover}needed = {moved}", "(must|has to|need to|have to) move [its] {moved}"),
  {
    say: ["only move (is|was|be) [a] {kind}", "[a] {kind} (is|was|be) [the] @onlyone move"],
    means: {
      nobody: "only-move and needed = {kind}",
      defender: "to-move = defender and verdict = drawn and only-move and needed = {kind}",
      attacker: "to-move = attacker and verdict = won and only-move and needed = {kind}",
    },
  },
  say(
    "to-move = defender and verdict = drawn and only-move and needed = {kind}",
    "(one|a single) {kind} (@hold|draw) [,] (all|every) (others|other|other move) lose",
    "@onlyone @holding {kind}",
    "{kind} (is|was|be) [the] only (draw|defence|save|way to draw|way to hold)",
    "@holdmove (is|was|be) [a] {kind}",
    "[have] @holdmove [,] (and|which|that|it|this) [it|this|that] [be] [a] {kind}",
    "[have] @holdmove , [a] {kind}",
    "@onlyone move [that] @hold (is|was|be) [a] {kind}",
    "[a] {kind} (is|was|be) [the] @onlyone @holding move",
    "@onlyone {kind} @hold",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and needed = {moved}",
    "@holdmove (is|was|be) (with|by|of) [the] {moved}",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and needed = {moved}",
    "@winmove (is|was|be) (with|by|of) [the] {moved}",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and needed = {kind}",
    "@onlyone win {kind}",
    "{kind} (is|was|be) [the] only (win|way to win)",
    "@winmove (is|was|be) [a] {kind}",
    "@onlyone move [that] win (is|was|be) [a] {kind}",
    "[a] {kind} (is|was|be) [the] @onlyone win move",
    "@onlyone {kind} win",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and not (needed = check or needed = capture or needed = attack or needed = block or needed = pin)",
    "@winmove (is|was|be) [a] [quiet|pure|simple] (waiting|tempo) [move|one]",
    "only [a] [quiet] (waiting|tempo) move win",
    "[a] [quiet] (waiting|tempo) move (is|was|be) [the] only (win|way to win|winning move)",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and not (needed = check or needed = capture or needed = attack or needed = block or needed = pin)",
    "@holdmove (is|was|be) [a] [quiet|pure|simple] (waiting|tempo) [move|one]",
    "only [a] [quiet] (waiting|tempo) move @hold",
    "[a] [quiet] (waiting|tempo) move (is|was|be) [the] only (draw|defence|way to draw|way to hold|holding move|drawing move)",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and not (needed = check or needed = capture)",
    "@winmove (is|was|be) [a] quiet [one|move] [,] [(neither|not|no) [a] check (nor|or|and) [no] [a] capture]",
    "quiet [move] [that] (is|was) [the] @onlyone win [move]",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and not (needed = check or needed = capture)",
    "@holdmove (is|was|be) [a] quiet [one|move] [,] [(neither|not|no) [a] check (nor|or|and) [no] [a] capture]",
  ),
  say(
    "to-move = defender and verdict = drawn and blunder-potential > 0.5",
    "(more than half|most) of [the] [defender] (legal move|move|reply|replies) (lose|err)",
  ),
  say(
    "blunder-potential > 0.5",
    "(more than half|most) [of] [the] [legal] (move|reply|replies) (@loses|give away|throw away)",
  ),
  say(
    "blunder-potential {rel.share}",
    "blunder potential [of] {rel} [%|percent]",
    "{rel} [%|percent] of [the] [legal] move [that] @loses",
  ),
];
