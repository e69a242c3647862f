// Moves: what the move played was, or could be.

import { type Phrase, say } from "./phrase.js";

/** One holding or winning move that is of two kinds at once. */
export const TWO_KINDS: readonly Phrase[] = [
  say(
    "to-move = defender and verdict = drawn and only-move and needed = {first} and needed = {next}",
    "@holdmove (is|was|be) [a] {kind=first} {kind=next}",
    "@holdmove (is|was|be) [a] {kind=first} (with|and) {kind=next}",
    "@holdmove (is|was|be) [a] {moved=first} {kind=next}",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and needed = {first} and needed = {next}",
    "@winmove (is|was|be) [a] {kind=first} {kind=next}",
    "@winmove (is|was|be) [a] {kind=first} (with|and) {kind=next}",
    "@winmove (is|was|be) [a] {moved=first} {kind=next}",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and needed = {kind} and not (needed = check or needed = capture)",
    "[a] quiet {kind} (is|was|be) [the] only (win|winning move|way to win)",
    "@winmove (is|was|be) [a] quiet {kind}",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and needed = {kind} and not (needed = check or needed = capture)",
    "[a] quiet {kind} (is|was|be) [the] only (draw|defence|holding move|drawing move|way to draw|way to hold)",
    "@holdmove (is|was|be) [a] quiet {kind}",
  ),
];

export const MOVES: readonly Phrase[] = [
  say(
    "{mover}kind = {first} and kind = {next} and error != none",
    "{moved=first} {kind=next} (that|which) (lose|err|throw away|was [a] @mistake|is [a] @mistake)",
  ),
  say("{mover}kind = {kind} and error != none", "{kind} (that|which) lose"),
  say(
    "to-move = defender and kind = {kind} and verdict = drawn and error != none",
    "{kind} (that|which) (lose|throw away|give away|cost) [the] draw",
  ),
  say(
    "to-move = attacker and kind = {first} and kind = {next} and verdict = won and error = none",
    "{moved=first} {kind=next} (that|which) win",
  ),
  say("to-move = attacker and kind = {kind} and verdict = won and error = none", "{kind} (that|which) win"),
  say(
    "to-move = attacker and in-check and kind = block and kind = bishop",
    "bishop (interpose|block|step in|come between) [against [a|the] check]",
    "interpose [the|its] bishop",
    "(answer|meet|parry|block) [a|the] check (with|by|by interposing) [the|its] bishop",
    "bishop (block|parry|interpose) [a|the] [rook] check",
  ),
  {
    say: ["bishop shield [its|the] [own] king [from [a|the] [rook] check]"],
    means: "to-move = attacker and in-check and kind = block and kind = bishop",
    or: [["bishop-pin != none", "where the bishop stands, not a move"]],
  },
  say("bishop-pin != none", "bishop between [the] [defending|defender] rook and [the|its] (king|@aking)"),
  say(
    "to-move = defender and in-check and attacker-rook-place = behind",
    "@arook [give] check [the] [@king] from (behind|[the] rear) [of] [the|its] [@king]",
    "check (by|from|with) [the] @arook from (behind|[the] rear)",
  ),
  say(
    "to-move = defender and in-check and attacker-rook-place = beside",
    "@arook [give] check [the] [@king] from [the] (side|flank)",
  ),
  say(
    "to-move = attacker and in-check and rook-place = behind",
    "[@rook] [give] check [the] [king|attacker|@aking] from (behind|[the] rear)",
    "check (by|from|with) [the] rook from (behind|[the] rear)",
  ),
  {
    say: [
      "(go|run|walk|step|head|move|flee|drift) (to|into|for|towards) [the] wrong [coloured|colour] corner",
      "king (go|run|walk|step|head|move|flee) (to|into|for|towards) [the] wrong [coloured|colour] corner",
    ],
    means: 'to-move = defender and kind = "to corner" and error != none',
    or: [["corner-steps = 0 and bishop-colour = other", "a corner that is not of the bishop's colour"]],
    of: "defender",
  },
  { say: ["{kind}"], means: "{mover}kind = {kind}", weak: true, example: "a king move" },
  say(
    "{mover}kind = {kind}",
    "(play|make|give|deliver|by|with|choose|through|via) [a|with] {kind} [move]",
    "give [a] {kind}",
    "{kind} (given|played|made)",
  ),
  say(
    "to-move = attacker and in-check and rook-place = beside",
    "check (along|on|over) [a|the] rank",
    "horizontal check",
  ),
  say(
    'to-move = attacker and in-check and (rook-place = behind or rook-place = "in front")',
    "check (along|on|down|over) [a|the] file",
    "vertical check",
  ),
  say("{mover}kind = {moved} and kind = check", "check (with|by|from) [the] {moved}"),
  say("{mover}kind = check and rook-side = long", "check from [the] long side", "long side check"),
  say("{mover}kind = check and rook-side = short", "check from [the] short side", "short side check"),
  say(
    "{mover}kind = {kind}",
    "{kind} by [the] {who}",
    "(play|make|give|deliver|by|with|choose|through|via) [a|with] {kind} [move] by [the] {who}",
  ),
  {
    say: ["(parry|parried|met|meet|answer|answered) (by|with) [a|an] {kind}"],
    means: "kind = {kind}",
    answer: true,
  },
  {
    say: ["(met|answer|answered) (by|with) [a|an] @mistake"],
    means: "error != none",
    answer: true,
    example: "bishop move answered by a mistake",
  },
  say(
    "{mover}possible = {kind}",
    "(can|could|may|able to) [give|play|make] [a] {kind}",
    "[a] {kind} (is|was|be) (possible|available)",
  ),
  say("{mover}holding = {kind}", "[a] {kind} =hold", "{kind} keep [the] (result|verdict|draw)"),
  {
    say: ["(waiting|tempo) move", "(make|play) [a] (waiting|tempo) move", "mark time", "(wait|waits|waited)"],
    means: "{mover}waiting-move",
  },
  { say: ["waiting move (by|of|from) [the] {who}"], means: "{mover}waiting-move" },
  {
    say: [
      "(move|switch|swing|transfer) [its] rook (to|over to|across to) [the] other side [of its king]",
      "rook (move|switch|change|swing) [to] [the] [other] side [of its king]",
      "rook switch",
    ],
    means: { nobody: "kind = switch", side: "{mover}kind = switch" },
  },
  say(
    "to-move = defender and kind = switch",
    "(defending|defender) rook (move|switch|change|swing) [to] [the] [other] side [of its king]",
  ),
  say("{mover}kind = leaves rank", "rook leave [its|the] rank"),
  {
    say: ["king (go|step|move|run|walk) (to|into|towards) [the] corner"],
    means: 'to-move = defender and kind = "to corner"',
    of: "defender",
  },
  {
    say: ["king (go|step|move|run|walk) (out|away|from) [of|from] [the] corner"],
    means: 'to-move = defender and kind = "from corner"',
    of: "defender",
  },
  {
    say: ["king (go|step|move|run|walk) into [the] [bishop] wedge"],
    means: 'to-move = defender and kind = "into wedge"',
    of: "defender",
  },
  {
    say: ["king (go|step|move|run|walk) out of [the] [bishop] wedge"],
    means: 'to-move = defender and kind = "out of wedge"',
    of: "defender",
  },
  say('{mover}kind = "mate block"', "mate block", "(block|blocks|blocked|blocking) [a|the] mate [threat]"),
  {
    say: [
      "@king (leave|left|out of|come out of|get out of|escape|abandon|step out of) [the] corner",
      "@king (escape|get away) from [the] corner",
    ],
    means: 'to-move = defender and kind = "from corner"',
    of: "defender",
  },
  {
    say: ["@king enter [the] [bishop] wedge"],
    means: 'to-move = defender and kind = "into wedge"',
    of: "defender",
  },
  say(
    '{mover}kind = "leaves rank" and error != none',
    "@err (by|with) leaving [its|the] rank",
    "leave [its|the] rank (by|through) [a] @mistake",
  ),
  say("{mover}kind = king and kind = capture", "king (take|capture) [something|a piece]"),
  say("{mover}not (kind = check or kind = capture or kind = attack)", "quiet move"),
  say('{mover}kind = "pin kept"', "keep [the] pin", "keep [the] (bishop|rook|piece) pin"),
  say('{mover}kind = "out of wedge"', "leave [the] [bishop] wedge"),
  say('{mover}kind = "into wedge"', "enter [the] [bishop] wedge"),
  {
    say: ["{moved=first} {kind=next}", "{moved=first} (give|deliver|make) [a] {kind=next}"],
    means: "{mover}kind = {first} and kind = {next}",
    weak: true,
  },
  say(
    "count ({mover}kind = {first} and kind = {next}) {least}",
    "{moved=first} (give|deliver|make) {kind=next} {least} time",
  ),
  say("{mover}kind = attack", "attack [the] rook", "rook attacked by [a] move"),
  say(
    "{mover}kind = block",
    "(block|interpose|answer) [the|a|on] check [with [an] interposition]",
    "interposition",
  ),
  say(
    '{mover}kind = "mate block"',
    "(block|parry|stop|prevent) [the|a] mate [(by|with) (interpose|interposing|interposition)]",
    "interpose against mate",
  ),
];
