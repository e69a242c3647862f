// Whose move it is, and what threatens.

import { type Phrase, say } from "./phrase.js";

export const TURNS: readonly Phrase[] = [
  {
    say: [
      "stalemate (trick|resource|idea|trap|chance) (save|rescue) [the] (defender|game|draw|day|half point)",
    ],
    means: "outcome = held and somewhere (stalemate-resource)",
    or: [["ended-by = stalemate", "how the game ended"]],
    of: "defender",
    result: true,
  },
  say(
    "fork = attacker",
    "(king and [the] rook|rook and [the] king) [both] attacked (at once|at [the] same time|simultaneously|together|by one piece)",
    "attack [the] (king and [the] rook|rook and [the] king) (at once|at [the] same time|simultaneously|together)",
  ),
  say(
    "fork = defender and rook-attacks != none",
    "(king and [the] bishop|bishop and [the] king) [both] attacked (at once|at [the] same time|simultaneously|together)",
  ),
  {
    say: ["(rook and bishop|bishop and rook) fork"],
    means: "fork = attacker",
    or: [["rook-attacks = both", "the defender's rook, which attacks both"]],
  },
  say(
    "to-move = attacker and stalemate-resource",
    "stalemate [trick|resource|idea|defence] (where|in which|with|when|by|through) [the] [defender] (sacrifice|offer|give up) [its|the|a] rook",
    "stalemate [trick|resource|idea|defence] (with|by|through) [a] rook (sacrifice|offer)",
    "(offer|sacrifice|give up) [its|the|a] rook [and|,|when|where|since|because] (taking|take|capturing|capture) [it] (is|be|would be|give|lead to|mean|allow) [a] stalemate",
    "rook (sacrifice|offer) [and|,|when|where|since|because] (taking|take|capturing|capture) [it] (is|be|would be|give|lead to|mean|allow) [a] stalemate",
    "rook (offered|sacrificed) for stalemate",
  ),
  {
    say: [
      "(overlook|miss|allow|walk into|not see|ignore|ignored) [a|the] mate threat",
      "mate threat [was] (overlook|miss|ignored|not seen)",
      "(overlook|not see) [the] threat of mate",
    ],
    means: {
      nobody: "mate-threat and error != none",
      side: "to-move = {side} and mate-threat and error != none",
      name: "mover ~ {name} and mate-threat and error != none",
    },
  },
  {
    say: [
      "defender to move",
      "{side=whose} to (move|play)",
      "{side=whose} (on|to) move",
      "{side=whose} turn",
      "{side=whose} (have|has|had|having|with) [the] move",
    ],
    means: "to-move = {whose}",
    example: "defender to move",
  },
  { say: ["defence (on|to) move"], means: "to-move = defender" },
  {
    say: ["white to (move|play) [,] [and] win"],
    means: "attacker = white and to-move = attacker and verdict = won",
  },
  {
    say: ["black to (move|play) [,] [and] win"],
    means: "attacker = black and to-move = attacker and verdict = won",
  },
  say("to-move = attacker and verdict = won", "attacker to (move|play) and win"),
  say("to-move = defender and verdict = drawn", "defender to (move|play) and @hold"),
  {
    say: ["white to (move|play) [,] [and] @hold"],
    means: "attacker = black and to-move = defender and verdict = drawn",
  },
  {
    say: ["black to (move|play) [,] [and] @hold"],
    means: "attacker = white and to-move = defender and verdict = drawn",
  },
  { say: ["(attack) (on|to) move"], means: "to-move = attacker", example: "attack to move" },
  { say: ["white to move", "white to play", "white (on|to) move", "white turn"], means: "turn = white" },
  { say: ["black to move", "black to play", "black (on|to) move", "black turn"], means: "turn = black" },
  { say: ["[it] defender move"], means: "to-move = defender" },
  { say: ["it {colour} move"], means: "turn = {colour}" },
  {
    say: ["in check"],
    means: {
      nobody: "in-check",
      side: "to-move = {side} and in-check",
      white: "turn = white and in-check",
      black: "turn = black and in-check",
    },
  },
  {
    say: [
      "threaten mate",
      "[with] [a] mate (threat|threaten)",
      "mate threaten",
      "mating threat",
      "[with] mate hanging over (him|her|it|them|[the] defender|@king)",
    ],
    means: {
      nobody: "mate-threat",
      attacker: "to-move = defender and mate-threat",
      defender: "to-move = attacker and mate-threat",
    },
  },
  say("to-move = {x} and mate-threat", "mate threaten against [the] {side=x}"),
  {
    say: [
      "threaten with mate",
      "(face|under) [a] (mate threat|threat of mate)",
      "(be|was|is) threaten with mate",
    ],
    means: {
      nobody: "mate-threat",
      defender: "to-move = defender and mate-threat",
      attacker: "to-move = attacker and mate-threat",
    },
  },
  {
    say: ["threaten mate and [the] rook [at once|together]", "threaten mate and [to win|win] [the] rook"],
    means: "to-move = defender and mate-threat and loss-threat = rook",
  },
  {
    say: ["threaten (to win|win|to take|take) [the] rook", "rook threaten", "threaten [the] rook"],
    means: "to-move = defender and loss-threat = rook",
  },
  {
    say: ["threaten (to win|win|to take|take) [the] bishop", "threaten [the] bishop", "bishop threaten"],
    means: "to-move = attacker and loss-threat = bishop",
  },
  say(
    "(to-move = attacker and free-piece = rook) or (to-move = defender and loss-threat = rook)",
    "rook (hang|hanging|en prise)",
    "rook (leave|left) hanging [by [the] defender]",
    "hanging rook",
    "rook for free",
  ),
  say(
    "(to-move = defender and free-piece = bishop) or (to-move = attacker and loss-threat = bishop)",
    "bishop (hang|hanging|en prise)",
    "hanging bishop",
    "bishop for free",
  ),
  say(
    "{mover}free-piece = {moved}",
    "{moved} (can|could) be (take|capture) for (nothing|free)",
    "(can|could) (take|capture|win|grab|grabbed) [the] {moved} for (nothing|free)",
    "(take|capture|win) [the] {moved} for (nothing|free)",
  ),
  say("{mover}free-piece = {moved} and error != none", "(overlook|miss) [a|the] (free|hanging) {moved}"),
  say(
    "free-piece != none",
    "[a|some] piece (can|could) be (won|taken|captured) [for (nothing|free)]",
    "(hanging piece|piece en prise|piece for free|something hanging)",
  ),
  say("capture", "(capture|something to take) [is] possible"),
  {
    say: [
      "[a] stalemate (trick|resource|idea|chance|motif) [sit|sitting|be|available|left] [on [the] board] [that|which] would (have|of) (save|saved) (him|her|them|it|himself|herself|[the] (game|day|half point))",
    ],
    means: "stalemate-resource",
    atEnd: "end (stalemate-resource)",
    example: "resigned with a stalemate trick that would have saved him",
  },
  say(
    "stalemate-resource",
    "can save [itself|himself] with [a] stalemate [trick]",
    "stalemate (trick|resource|idea|chance|defence|motif|motive|trap|threaten|possibility|joke)",
    "(trick|idea|resource) with stalemate",
    "(play|hope) for stalemate",
    "threaten [a] stalemate",
    "stalemate threat",
    "(use|try|set|find|play|go for|rely on) [a|the] stalemate (trick|resource|idea|chance|defence|trap|motif)",
  ),
  say(
    "to-move = attacker and stalemate-resource",
    "(offer|sacrifice|give up|throw) [its|a|the] rook @forstalemate",
    "@rooksac @forstalemate",
    "desperado [rook]",
    "(mad|crazy|rampant|kamikaze) rook",
  ),
  say("pinned != none", "(something|some piece|a piece|anything) [is] pinned"),
  {
    say: ["pin", "[with] (a pin|pins) [on [the] board]", "pinned"],
    means: {
      nobody: "pinned != none",
      defender: "pinned = attacker or pinned = both",
      attacker: "pinned = defender or pinned = both",
    },
    or: [["kind = pin", "a move that pins"]],
  },
  {
    say: ["[have|with] [a|some] (pinned piece|piece pinned|pinned man)"],
    means: {
      nobody: "pinned != none",
      side: "pinned = {side} or pinned = both",
      both: "pinned = both",
    },
  },
  say("never (pinned != none)", "(nothing|no piece|nobody) [is] pinned"),
  {
    say: [
      "pin [was] (broken|lifted|released|resolved|shaken off)",
      "(break|lift|shake off|get out of|escape from|step out of|wriggle out of) [the] pin",
      "bishop (unpinned|no longer pinned|free of the pin|out of the pin)",
      "(unpin) [the] [bishop]",
    ],
    means: "bishop-pin != none then bishop-pin = none",
    example: "pin broken",
  },
  say('kind = "pin kept"', "pin (kept|kept up|maintained|held)", "(maintain|hold|keep up) [the] pin"),
  say("pinned = both", "both [side] have [a] pinned piece", "pin (for|on) both side"),
  say("discovery = both", "both [side] have [a] (discovered check|battery)"),
  {
    say: ["discover check threaten", "battery", "(discovery|discover check) (in [the] air|possible|set up)"],
    means: { nobody: "discovery = attacker", side: "discovery = {side}" },
  },
  { say: ["discover check threaten by {side=whose}"], means: "discovery = {whose}" },
  {
    say: ["skewer", "give [a] skewer"],
    means: { nobody: "skewer != none", side: "skewer = {side} or skewer = both" },
  },
  {
    say: [
      "skewer (by|from|of) {who}",
      "{who} skewer [with [its|a] rook]",
      "{who} skewer [the] (king and rook|rook and king|attacker|defender)",
    ],
    means: { side: "skewer = {side}" },
  },
  { say: ["fork", "give [a] fork"], means: { nobody: "fork != none", side: "fork = {side} or fork = both" } },
  {
    say: ["[rook|bishop|king] fork (by|from|of) {who}", "{who} rook fork"],
    means: { side: "fork = {side}" },
  },
  { say: ["[rook] skewer (by|from|of) {who}", "{who} rook skewer"], means: { side: "skewer = {side}" } },
  say("fork != none", "rook fork"),
  say("skewer != none", "rook skewer"),
  say(
    "fork = attacker",
    "@king [is] forked [by [the] attacker]",
    "[defending|defender] king and rook [are] forked",
    "@rook [is] forked",
  ),
  say("fork = defender", "@aking [is] forked", "bishop [is] forked"),
  say("fork != none", "double attack"),
  say("skewer = attacker", "[attacker] skewer [the] @rook", "@rook [is] skewered", "@king [is] skewered"),
  say(
    "skewer = defender",
    "defender skewer [the] (king|bishop|@aking)",
    "(bishop|@aking|@arook) [is] skewered",
    "skewer [the] (bishop|@arook|@aking)",
  ),
  say(
    "rook-attacks = both",
    "@rook (=attack|attacking|hit) both [the] (rook and [the] bishop|bishop and [the] rook)",
    "@rook (=attack|attacking|hit) [the] two piece",
  ),
  say(
    "(to-move = attacker and kind = bishop) then within 1 moves (to-move = defender and fork = attacker)",
    "bishop [check] fork [of|on] [the] [defending|defender] (king and [the] rook|rook and [the] king)",
    "bishop fork",
    "fork (by|with) [the|a] bishop",
    "bishop (attack|hit) [the] (king and [the] rook|rook and [the] king) [at [the] same time|at once|simultaneously]",
  ),
  {
    say: [
      "fork [the] [(attacker|defender)] (piece|king and rook|king and bishop) [with [a] check]",
      "fork with [a] check",
    ],
    means: { nobody: "fork != none", side: "fork = {side} or fork = both" },
  },
];
