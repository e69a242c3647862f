// How often something happens, all told or in a row.

import { type Phrase, say } from "./phrase.js";

export const OFTEN: readonly Phrase[] = [
  {
    say: [
      "(make|commit) (no|not [a] [single]|not any|never [a]) @mistake (for|over|during) {least} move [@inarow]",
      "(no|not [a] [single]|not any|without [a|any]|never) (@mistake|@err) (for|over|during) {least} move [@inarow]",
      "(nobody|no one|neither [side|player]) @err (for|over|during) {least} move [@inarow]",
      "(go|play|survive|manage) [for] {least} [@onend] move without [a|any] (@mistake|@err)",
    ],
    means: {
      side: "streak (to-move = {side} and error = none) {least}",
      white: "streak (turn = white and error = none) {least}",
      black: "streak (turn = black and error = none) {least}",
      name: "streak (mover ~ {name} and error = none) {least}",
    },
    refusedUnsaid: [
      "so many moves of both sides on end without a mistake are no fact",
      'those of one side are: "defender made no mistake for 30 moves"; and so is a whole ending: "without a mistake, at least 30 moves"',
    ],
    example: "defender made no mistake for 30 moves",
  },
  {
    say: [
      "{least} {kind} @inarow",
      "{least} @onend {kind}",
      "(give|play|make|deliver) {least} {kind} @inarow",
      "(give|play|make|deliver) {least} @onend {kind}",
      "[give|play|make|deliver] {kind} {least} (time|move) @inarow",
      "{kind} [on|for] {least} @onend move",
      "(series|run|row|string|sequence) of {least} {kind}",
    ],
    means: "streak ({mover}kind = {kind}) {least}",
    example: "ten checks in a row",
  },
  {
    say: ["(give|play|make|deliver) {least} {kind}", "{kind} {least} time"],
    means: "count ({mover}kind = {kind}) {least}",
    example: "gave ten checks",
  },
  say("count ({thing}) {least}", "{least} {thing}", "[with|have] {least} {thing}"),
  say("never ({thing})", "(no|never a|not a single|without [a|any]) {thing} [at all]"),
  { say: ["{rel} {kind}"], means: "count ({mover}kind = {kind}) {rel}", example: "more than ten checks" },
  {
    say: [
      "(find|play|make|see) {least} only move @inarow",
      "(find|play|make|see) {least} @onend only move",
      "(find|play|make|see) [the|an] only move {least} (time|move|turn) @inarow",
      "{least} (only move @inarow|@onend only move) [,] [and] (all|each|every one|every single one) [of (them|which)] (found|played)",
      "only move found [on|for] {least} @onend move",
      "{least} only move found @inarow",
      "{least} only move @inarow found",
    ],
    means: {
      nobody: "streak (only-move and error = none) {least}",
      side: "streak (to-move = {side} and only-move and error = none) {least}",
      white: "streak (turn = white and only-move and error = none) {least}",
      black: "streak (turn = black and only-move and error = none) {least}",
      name: "streak (mover ~ {name} and only-move and error = none) {least}",
    },
  },
  {
    say: [
      "(find|play|make|see) {least} only move",
      "{least} only move (found|played)",
      "{least} only move [,] [and] (all|each|every one|every single one) [of (them|which)] (found|played)",
    ],
    means: {
      nobody: "count (only-move and error = none) {least}",
      side: "count (to-move = {side} and only-move and error = none) {least}",
      white: "count (turn = white and only-move and error = none) {least}",
      black: "count (turn = black and only-move and error = none) {least}",
      name: "count (mover ~ {name} and only-move and error = none) {least}",
    },
  },
  {
    say: ["only move (found|played) {tallied}", "(found|find|played) [the] only move {tallied}"],
    means: {
      nobody: "count (only-move and error = none) {tallied}",
      side: "count (to-move = {side} and only-move and error = none) {tallied}",
      name: "count (mover ~ {name} and only-move and error = none) {tallied}",
    },
  },
  {
    say: [
      "(need|require|must find|have to find|had to find|must play|have to play) {least} (only|precise|exact|accurate|perfect) move @inarow",
      "(need|require|must find|have to find|had to find|must play|have to play) {least} @onend (only|precise|exact|accurate|perfect) move",
      "[face|have] {least} only move @inarow",
      "[face|have] {least} @onend only move",
      "only move {least} (time|move|turn) @inarow",
      "only move [on|for] {least} @onend move",
      "(series|run|row|string|sequence) of {least} only move",
    ],
    means: {
      nobody: "streak (only-move) {least}",
      defender: "streak (to-move = defender and verdict = drawn and only-move) {least}",
      attacker: "streak (to-move = attacker and verdict = won and only-move) {least}",
      white: "streak (turn = white and only-move) {least}",
      black: "streak (turn = black and only-move) {least}",
    },
    example: "attacker needs three precise moves in a row",
  },
  {
    say: ["{least} only move", "(face|have|had to find|have to find|need) {least} only move"],
    means: {
      nobody: "count (only-move) {least}",
      defender: "count (to-move = defender and verdict = drawn and only-move) {least}",
      attacker: "count (to-move = attacker and verdict = won and only-move) {least}",
      white: "count (turn = white and only-move) {least}",
      black: "count (turn = black and only-move) {least}",
      name: "count (mover ~ {name} and only-move) {least}",
    },
  },
  {
    say: ["(miss|overlook|fail to find) {least} only move"],
    means: {
      nobody: "count (only-move and error != none) {least}",
      side: "count (to-move = {side} and only-move and error != none) {least}",
      name: "count (mover ~ {name} and only-move and error != none) {least}",
    },
  },
  {
    say: [
      "{least} @mistake @inarow",
      "{least} @onend @mistake",
      "(make|commit) {least} @mistake @inarow",
      "@err on {least} @onend move",
      "@err {least} (time|move) @inarow",
    ],
    means: "streak ({mover}error != none) {least}",
  },
  say(
    "streak ({mover}error != none) >= 2",
    "@err twice @inarow",
    "@err again [immediately|at once|on [the] next move]",
  ),
  say("streak ({mover}kind = {kind}) {tallied}", "{kind} {tallied} @inarow"),
  say("streak ({mover}waiting-move) {least}", "{least} waiting move @inarow", "{least} @onend waiting move"),
  say("count ({mover}waiting-move) {least}", "(make|play) {least} waiting move"),
  say("count ({mover}waiting-move) {rel}", "{rel} waiting move"),
  {
    say: [
      "(miss|throw away|give away|spoil|squander|blow) {least} win",
      "(miss|overlook) {least} win move",
      "(miss|waste|squander) {least} (chance|opportunity)",
      "{least} (missed|spoiled|blown) win",
    ],
    means: {
      nobody: "count (to-move = attacker and verdict = won and error != none) {least}",
      attacker: "count (to-move = attacker and verdict = won and error != none) {least}",
      name: "count (mover ~ {name} and to-move = attacker and verdict = won and error != none) {least}",
    },
  },
  say("never ({mover}kind = {kind})", "never (give|play|make) [a] {kind}", "(not a|not one) single {kind}"),
  say(
    "never ({mover}kind = {kind})",
    "(no|without [a|any|one]) [single] {kind} [given|played|made] (by|from) {who}",
  ),
  say("never ({mover}kind = check)", "without checking"),
  {
    say: [
      "without [ever|once] being (check|checked|in check)",
      "without [ever|once] (stand|standing) in check",
      "without [ever|once] having been (checked|in check|put in check)",
    ],
    means: {
      nobody: "never (to-move = defender and in-check)",
      side: "never (to-move = {side} and in-check)",
    },
    example: "without being checked",
  },
  say(
    "never ({mover}kind = {kind})",
    "(without|not|no) [a|any|one] [single] {kind} [given|played|made] [at all|whatsoever] (by|from|of) {who} [at all|whatsoever] [(in|during|throughout) [the] [whole|entire] (ending|game)]",
  ),
  // "held without a single check": nobody is said to have given none
  {
    say: ["without !checking !being [a|any|one] [single] {kind}", "no {kind} (given|played|made|at all)"],
    means: "never (kind = {kind})",
    or: [["never ({mover}kind = {kind})", "the moves of the side spoken of before"]],
    example: "without a single check",
  },
  {
    say: [
      "check (endlessly|forever|for ever|incessantly|non stop|continuously|continually|on and on|again and again|over and over)",
      "(endless|long|continuous|long series of|endless series of|barrage of|hail of|volley of) check",
      "(keep|go on|carry on) [on] (checking|check)",
    ],
    means: "streak ({mover}kind = check) >= 5",
  },
  say(
    "streak ({mover}kind = check) {least}",
    "(keep|go on|carry on) [on] (checking|check|give check) for {least} move",
    "[give] check for {least} move [@inarow]",
  ),
  {
    say: [
      "check (endlessly|forever|for ever|incessantly|non stop|continuously|continually|on and on|again and again|over and over) from [the] (side|flank)",
      "(endless|long|continuous|long series of|endless series of|barrage of) check from [the] (side|flank)",
      "(keep|go on|carry on) [on] checking from [the] (side|flank)",
      "(endless|long series of) (side|lateral|flank) check",
    ],
    means: "streak (to-move = defender and kind = check) >= 5 and somewhere (side-checks)",
    of: "defender",
  },
  {
    say: [
      "(keep|go on|carry on) [on] checking from [the] (side|flank) for {least} move [@inarow]",
      "{least} check from [the] (side|flank) @inarow",
    ],
    means: "streak (to-move = defender and kind = check) {least} and somewhere (side-checks)",
    of: "defender",
    example: "kept checking from the side for ten moves",
  },
  say(
    "streak ({mover}kind = check) >= 5 and end (in-check)",
    "(keep|go on|carry on|continue) [on] (checking|check|give check) (until|till|to) [the] [very|bitter] end",
    "check (until|till|to) [the] [very|bitter] end",
  ),
  say("streak ({mover}kind = check) >= 5", "(series|string|barrage|hail|run|storm|salvo|row) of check"),
  say(
    "to-move = defender and not in-check and not possible = check",
    "(run|ran) out of check",
    "(no|not [a]|without [a]) [more|further] check (left|possible|available|any more|to give)",
    "no more check",
  ),
  say(
    'to-move = attacker and in-check and rook-place = "in front"',
    "check from [the|in] front",
    "(front|frontal) check",
  ),
  say(
    "to-move = defender and kind = block and kind = rook",
    "[defender] interpose [the|its] rook",
    "(block|parry|answer|meet) [a|the] check (with|by|by interposing) [the|its] rook",
  ),
  say(
    "throughout (to-move = attacker or kind = check)",
    "defender (check|checked|give check) (on every move|every move|with every move|all the time)",
    "[a] check (every|each|on every|with every|at every) (move|turn)",
  ),
];
