// Mistakes: whose, what they gave away, how many.

import { NO_MISTAKES, type Phrase, say } from "./phrase.js";

/** One side gives something away, and the other gives it back at once. */
const RETURNED =
  "((to-move = attacker and error != none) then within 1 moves (to-move = defender and error != none)) or ((to-move = defender and error != none) then within 1 moves (to-move = attacker and error != none))";

/** Before or after a move, by its number, "move 30", or by its place in the order, "the thirtieth move". */
const byMove = (n: string, move: string): readonly Phrase[] => [
  {
    say: [`before ${move} [of [the] ending]`],
    means: `moves-in < ${n}`,
    atResult: `length < ${n}`,
    or: [[`ply < ${n.replace("}", ".before}")}`, "the number of the move in the game"]],
    weak: true,
    example: n === "{n}" ? "mistake before move 30" : "mistake before the twentieth move",
  },
  {
    say: [`(after|past|beyond) ${move}`],
    means: `moves-in > ${n}`,
    atResult: `length > ${n}`,
    or: [[`ply >= ${n.replace("}", ".double}")}`, "the number of the move in the game"]],
    weak: true,
    example: n === "{n}" ? "mistake after move 30" : "mistake after the twentieth move",
  },
];

/** As many given away as is said, by the named side or by each. */
const SO_MANY_MISTAKES: Phrase["means"] = {
  nobody: "errors {cmp}",
  side: "{side}-errors {cmp}",
  both: "attacker-errors {cmp} and defender-errors {cmp}",
  together: "errors {cmp}",
};

export const MISTAKES: readonly Phrase[] = [
  {
    say: [
      "[the] (only|sole) @mistake [of [the] (game|ending)]",
      "make [the] (only|sole) @mistake [of [the] (game|ending)]",
    ],
    means: {
      nobody: "errors = 1",
      attacker: "attacker-errors = 1 and defender-errors = 0",
      defender: "defender-errors = 1 and attacker-errors = 0",
    },
    example: "the only mistake of the game",
  },
  say("errors = 1 and {mover}error != none and kind = {kind}", "(only|sole) @mistake (was|is|be) [a] {kind}"),
  say(
    "never ({mover}error != none and moves-in < {n})",
    "(no|not [a]|without [a]) @mistake (until|till|before) move {n} [of [the] ending]",
    "(nobody|no one|not|never|neither (side|player)) [make [a]] (@err|@mistake) (until|till|before) move {n} [of [the] ending]",
    "(no|not [a]|without [a]) @mistake in [the] first {n} move [of [the] ending]",
    "(nobody|no one|neither (side|player)) (@err|make [a] @mistake) (in|for|during) [the] first {n} move [of [the] ending]",
  ),
  say("never ({mover}error != none and moves-left <= {n})", "(no|not [a]|without [a]) @mistake @inlast"),
  say(
    "count ({mover}error != none and moves-in < {n}) {tallied}",
    "[make] (@err|@mistake) {tallied} @infirst",
  ),
  say(
    "count ({mover}error != none and moves-left <= {n}) {tallied}",
    "[make] (@err|@mistake) {tallied} @inlast",
  ),
  say("count ({mover}error != none and moves-in < {n}) {cmp}", "[make] {cmp} @mistake @infirst"),
  say("count ({mover}error != none and moves-left <= {n}) {cmp}", "[make] {cmp} @mistake @inlast"),
  {
    say: [
      "@err (out of|in|inside|from|while in|when in) [the] {setup}",
      "(@err|@mistake) (with|while|when) [being] (in|on) [the] {setup}",
    ],
    means: {
      nobody: "{setup} and to-move = defender and error != none",
      side: "{setup} and {mover}error != none",
      white: "{setup} and {mover}error != none",
      black: "{setup} and {mover}error != none",
      name: "{setup} and {mover}error != none",
    },
    example: "blundered out of the Philidor",
  },
  {
    say: [
      "[an] easy win [that|which] [was|somebody|someone|attacker|they] [still] (miss|mess up|blow|spoil|throw away|ruin|squander|waste|botch|slip away)",
      "(miss|mess up|blow|spoil|throw away|ruin|squander|waste|botch) [an] easy win",
    ],
    means: "to-move = attacker and verdict = won and dtm <= 10 and error != none",
    example: "messed up an easy win",
  },
  say("{mover}error != none", "@err", "@mistake"),
  { say: ["@mistake (by|of|from) {who}", "[a] @mistake [that] {who} made"], means: "{mover}error != none" },
  {
    say: [
      "(lose|fatal) @mistake",
      "@mistake (that|which) lose [the] [game|draw]",
      "lose [the] draw",
      "move (that|which) lose",
      "(play|choose|pick|make) [a|the] (losing|fatal) move",
    ],
    means: {
      nobody: "to-move = defender and error != none",
      side: "{mover}error != none",
      white: "{mover}error != none",
      black: "{mover}error != none",
      name: "{mover}error != none",
    },
  },
  say(
    "{mover}decisive-mistake",
    "(decisive|deciding|game losing|game deciding|final|last) @mistake",
    "(at|in) [the] (moment|time) of [the] (decisive|deciding|last|final) @mistake",
    "(at|when) [the] (decisive|deciding) (@mistake|moment)",
    "@mistake (that|which) decide [the] game",
    "@mistake decide [the] game",
    "decide by [a|one] @mistake",
    "last @mistake",
  ),
  say("{mover}first-mistake", "first @mistake [of ending] make by {who}"),
  say("{mover}decisive-mistake", "(decisive|last) @mistake [of ending] make by {who}"),
  {
    say: [
      "(decisive|game losing|final|last) @mistake (by|of|from) {who}",
      "(decisive|last|final) @mistake (is|was|be) [by] {who}",
    ],
    means: "{mover}decisive-mistake",
  },
  {
    say: ["first @mistake (is|was|be) [by] {who}"],
    means: "{mover}first-mistake",
  },
  say(
    "to-move = {x} and decisive-mistake",
    "move (that|which) cost [the] {side=x} [the] (game|draw|win|point)",
    "@mistake (that|which) cost [the] {side=x} [the] (game|draw|win|point)",
  ),
  say("to-move = {x} and first-mistake", "first @mistake [of [the] ending] (was|is) [the] {side=x}"),
  say("{mover}first-mistake", "first @mistake", "@err first", "(was|be) first to @err", "first to @err"),
  {
    say: ["{cmp} @mistake (each|apiece|per side|on (each|either) side|by each side|for each side)"],
    means: "attacker-errors {cmp} and defender-errors {cmp}",
  },
  say(
    "errors {cmp}",
    "[a] total of {cmp} @mistake",
    "{cmp} @mistake by (both|either) [side|player] together",
  ),
  say(
    "to-move = {x} and verdict = drawn and error != none",
    "(turn|transform|convert) [a] draw [position|ending|game] into [a] (loss|lost position|lost one) by [the] {side=x}",
  ),
  say(
    "to-move = defender and verdict = drawn and error != none",
    "(turn|transform) [a] draw [position|ending|game] into [a] (loss|lost position|lost one)",
    "from [a] (draw|drawn|drawing) (to|into) [a] (loss|lost|losing) [position] [in one move]",
    "@err into [a] lose (position|ending)",
  ),
  say(
    "to-move = attacker and verdict = won and error = half",
    "(turn|transform) [a] win [position|ending|game] into [a] draw [position|ending|one]",
    "from [a] (win|won|winning) (to|into) [a] (draw|drawn) [position] [in one move]",
  ),
  {
    say: [
      "unpunished @mistake",
      "@mistake [was|go|went] (unpunished|unnoticed|unexploited|not punished|never punished|not exploited)",
      "(get|got) away with [a|the|its] @mistake",
      "@err (and|but) [was|were|be] (let off|get away|got away with it|not punished|forgiven|not made to pay)",
    ],
    means: {
      nobody: RETURNED,
      defender: "(to-move = defender and error != none) then (to-move = attacker and error != none)",
      attacker: "(to-move = attacker and error != none) then (to-move = defender and error != none)",
    },
    example: "mistake not punished",
  },
  say("{mover}decisive-mistake", "@mistake [was] (punished|exploited|made to pay)", "punished @mistake"),
  say(
    "somewhere (verdict = won) and never (to-move = attacker and verdict = won and error != none)",
    "[attacker] (never|not) @letslip once [he|she|it|they] (had|have|got|reached) (it|one|[the] win)",
  ),
  say(
    RETURNED,
    "reciprocal @mistake",
    "@mistake by both in turn",
    "[two] @mistake @inarow [,] one (by|from|for) each [side|player]",
    "@mistake (by|from) (both|each) [side|player] @inarow",
  ),
  {
    say: [
      "(fatal|lose|lost|losing) @mistake (with|by|of) [moving] [the|its] {moved}",
      "lose move with [the] {moved}",
    ],
    means: {
      nobody: "to-move = defender and error != none and kind = {moved}",
      side: "{mover}error != none and kind = {moved}",
      white: "{mover}error != none and kind = {moved}",
      black: "{mover}error != none and kind = {moved}",
      name: "{mover}error != none and kind = {moved}",
    },
  },
  {
    say: [
      "(fatal|losing) {kind}",
      "lose (by|through|because of) [a|playing a|giving a] {kind}",
      "(lose move|fatal move|move (that|which) lose|@mistake) (was|is|be) [a] {kind}",
      "(lose move|fatal move|move (that|which) lose) (was|is|be) (with|by|of) [the] {moved=kind}",
    ],
    means: {
      nobody: "to-move = defender and error != none and kind = {kind}",
      side: "{mover}error != none and kind = {kind}",
      white: "{mover}error != none and kind = {kind}",
      black: "{mover}error != none and kind = {kind}",
      name: "{mover}error != none and kind = {kind}",
    },
  },
  say(
    "to-move = defender and error != none and kind = king",
    "@king (go|went|step|move|walk|run) (the wrong way|to [the] wrong square|in [the] wrong direction|wrong)",
    "@king (choose|pick|step to|go) [the] wrong (way|side|square|direction)",
  ),
  say(
    "{mover}error != none and kind = {kind}",
    "(throw|gave|give|blow|blew) (it|everything) [all] away (with|by) [a] {kind}",
    "(throw|blow|blew) it (with|by) [a] {kind}",
  ),
  // the kind of move that would have done it
  {
    say: [
      "(miss|overlook) [a|the] {kind} (that|which) [(would|could) [have]] (@hold|draw|win|save) [the] [draw|game|win]",
      "(miss|overlook) [a|the] (save|saving|draw|drawing|win|winning|holding|best|right|correct) {kind}",
      "(should|ought to|could) have [give|play|make] [a|the] {kind} [instead]",
      "(should|could|might) have (held|hold|drawn|draw|saved|save|won|win) [it|the game|the draw] (with|by) [a] {kind} [,] [but (mess up|messed up|@err|not|fail|miss it)]",
      "{kind} [would|could] have (held|saved|drawn|won|been better|done it)",
    ],
    means: "{mover}error != none and holding = {kind} and not kind = {kind}",
    example: "missed a check that would have held",
  },
  {
    say: ["(should|ought to|could) have move [its|the] {moved} [instead]"],
    means: "{mover}error != none and holding = {moved} and not kind = {moved}",
  },
  {
    say: [
      "(should|ought to|could|might|would) have (won|win|been winning|be winning|been won|be won|convert|score)",
      "[a|the] win (should|could|might) have [been|be] (found|possible|forced)",
    ],
    means: {
      nobody: "verdict = won and outcome = held",
      attacker: "verdict = won and outcome = held",
      white: "attacker = white and verdict = won and outcome = held",
      black: "attacker = black and verdict = won and outcome = held",
      name: "attacker-name ~ {name} and verdict = won and outcome = held",
    },
    unsaid: "attacker",
    example: "attacker could have won",
  },
  {
    say: [
      "(should|ought to|could|might|would) have (held|hold|drawn|draw|saved|save|survive|been drawn|be drawn|been held|been saved|be saved|held on) [the|a] [draw|game|half point]",
      "[the|a] draw (should|could|might) have [been|be] (saved|held|possible|found)",
    ],
    means: {
      nobody: "to-move = defender and verdict = drawn and error != none and outcome = lost",
      defender: "to-move = defender and verdict = drawn and error != none and outcome = lost",
      white: "attacker = black and verdict = drawn and outcome = lost",
      black: "attacker = white and verdict = drawn and outcome = lost",
      name: "defender-name ~ {name} and verdict = drawn and outcome = lost",
    },
    unsaid: "defender",
    example: "defender could have held",
  },
  say(
    "verdict = won and outcome = held",
    "(should|ought to) have (lost|lose|been lost|be lost) [but (held|drew|survived|was saved)]",
  ),
  {
    say: [
      "(could|should|might) have (forced|reached|got|force|reach|get|played for|saved itself by|saved himself by|been saved by) [a] stalemate [,] [but [did] not [do so|see it|find it]]",
      "stalemate (was|is) (possible|available|there|on) [,] (but|and) [was] (miss|overlook|not (found|seen|played|taken)|not [seen|found])",
      "stalemate [trick|resource|idea|chance|trap|defence|motif] [,] [but|and] (missed|overlooked|not (found|seen|played|used|taken)|unnoticed)",
      "(miss|overlook|not see|not find) [a|the] [forced] stalemate",
      "@overlook [a|the] @rooksac @forstalemate",
      "@rooksac @forstalemate [,] [but] (was|be) (miss|overlook|not (found|seen|played)|unnoticed)",
    ],
    means: "to-move = defender and stalemate-resource and error != none",
    or: [
      [
        "to-move = defender and stalemate-resource and not ended-by = stalemate",
        "the trick was there, and no stalemate came of it, whether that was a mistake or not",
      ],
    ],
    of: "defender",
    example: "could have forced stalemate but did not",
  },
  say("stalemate-resource", "stalemate (possible|available|there|in [the] position)"),
  { say: ["first @mistake [make] (by|of|from) {who}"], means: "{mover}first-mistake" },
  {
    say: ["first @mistake [come|occur|happen] after {n} move"],
    means: "{mover}first-mistake and moves-in > {n}",
  },
  { say: ["first @mistake after {rel} [move]"], means: "{mover}first-mistake and moves-in {rel}" },
  say("{mover}error != none", "half [a] point [was] (throw away|given away|thrown away|lost|dropped)"),
  say("{mover}error = half", "half point (@mistake|@err)", "(throw|give) away half [a] point"),
  say(
    "{mover}error = full",
    "full point (@mistake|@err)",
    "(throw|give) away [a] full point",
    "@err from [a] win (to|into) [a] loss",
  ),
  {
    say: ["(one|a single) full point @mistake"],
    means: { nobody: "full-point-errors = 1", side: "{mover}error = full" },
  },
  say("full-point-errors {cmp}", "{cmp} full point @mistake"),
  say(
    "full-point-errors > 0",
    "turn [a] win into [a] loss [in one move]",
    "(move|win) turn [a] [win] into [a] loss [in one move]",
  ),
  {
    say: ["only {colour} @err"],
    means: {
      nobody: "somewhere (turn = {colour} and error != none) and never (turn != {colour} and error != none)",
    },
    example: "only White erred",
  },
  {
    say: [
      "only {side=one} @err",
      "{side=one} @err [,] but (not|never) [the] {side}",
      "{side=one} @err [,] but [the] {side} not",
    ],
    means: "{one}-errors > 0 and {one.other}-errors = 0",
  },
  {
    say: [
      "(@err|@mistake) (within|in) {n} move after [the] {setup}",
      "(@err|@mistake) {n} move or less after [the] {setup}",
    ],
    means: "{setup} then within {n} moves ({mover}error != none)",
    or: [["first ({mover}error != none) within {n} moves of {setup}", "the first mistake of the ending"]],
  },
  {
    say: [
      "first [@err|@mistake] (within|in) [the] [first] {n} move (of|after) [enter|reach|entering|reaching] [the] {setup}",
      "(@err|@mistake) (within|in) {n} move of [enter|reach|entering|reaching|getting into|setting up] [the] {setup}",
      "(@err|@mistake) (within|in) {n} move after (enter|reach|entering|reaching|getting into|setting up) [the] {setup}",
      "[make] [a] lose @mistake (within|in) {n} move (of|after) [enter|reach|entering|reaching] [the] {setup}",
    ],
    means: "first ({mover}error != none) within {n} moves of {setup}",
    or: [
      ["{setup} then within {n} moves ({mover}error != none)", "any mistake, not the first of the ending"],
    ],
  },
  {
    say: [
      "first [@err|@mistake] (within|in) [the] [first] {n} move [@ofending]",
      "(@err|@mistake) (within|in) [the] [first] {n} move [@ofending]",
    ],
    means: "first ({mover}error != none) within {n} moves of entry",
  },
  say("{mover}error != none and moves-in < 3", "@err (right|immediately|straight|directly|already) @atbegin"),
  ...byMove("{n}", "move {n}"),
  ...byMove("{nth}", "[the] {nth} move"),
  {
    say: [
      "@err (right|immediately|directly|at once) after [a] check",
      "@err (in reply|in answer|in response) to [a] check",
      "[answer|meet|reply to] [a] check (with|by) [a] @mistake",
    ],
    means: "{mover}error != none and in-check",
  },
  { say: ["(@err|@mistake) after {n} move"], means: "{mover}error != none and moves-in > {n}" },
  { say: ["(@err|@mistake) after {rel} [move]"], means: "{mover}error != none and moves-in {rel}" },
  {
    say: ["(@err|@mistake) after move {n} [of [the] ending]"],
    means: "{mover}error != none and moves-in > {n}",
  },
  {
    say: ["(@err|@mistake) (after|past|beyond) move {n} of [the] [whole] game"],
    means: "{mover}error != none and ply >= {n.double}",
  },
  say("ply >= {n.double}", "(after|past|beyond) move {n} of [the] [whole] game"),
  say("ply < {n.before}", "before move {n} of [the] [whole] game"),
  {
    say: ["(@err|@mistake) (on|at|in) move {n}"],
    means: "{mover}error != none and moves-in = {n}",
    or: [
      [
        "{mover}error != none and ply >= {n.before} and ply < {n.double}",
        "the number of the move in the game",
      ],
    ],
    example: "mistake on move 30",
  },
  {
    say: ["(until|till|up to) move {n}"],
    means: "moves-in >= {n}",
    atResult: "length >= {n}",
    refusedAlone: [
      "that something is so up to a move is no fact, other than of the whole ending",
      'ask how long it lasted, "king in the open for 20 moves", or what was so at some moment: "king in the open in the first 20 moves"; or of a result: "held until move 60"',
    ],
    or: [["ply >= {n.before}", "the number of the move in the game"]],
    weak: true,
    example: "held until move 60",
  },
  say(
    "halfmoves >= 90",
    "[only] (just|shortly|right) before [reach] [the] @fiftylimit",
    "[only] (just|barely) in time (before|for) [the] @fiftylimit",
    "(close to|near|on [the] brink of|on [the] verge of) [the] @fiftylimit",
  ),
  {
    say: ["@crack (with|under|in|at|having) {time} [@clock]"],
    means: "{mover}error != none and clock {time}",
    or: [["outcome = lost and {mover}clock {time}", "the game, not the move"]],
    example: "defender failed with less than ten seconds left",
  },
  {
    say: [
      "(@crack|@err) (just|shortly|right) before [reach] [the] @fiftylimit",
      "(@crack|@err) (close to|near|short of|on [the] brink of|on [the] verge of) [the] @fiftylimit",
    ],
    means: "{mover}error != none and halfmoves >= 90",
  },
  {
    say: ["(@crack|@err) {n} move (before|from|short of|away from) [the] @fiftylimit"],
    means: "{mover}error != none and halfmoves >= {n.fifty}",
  },
  say(
    "halfmoves >= {n.fifty}",
    "(in|within|during) [its|the] last {n} move before [the] @fiftylimit",
    "{n} move [or less] (before|from|short of|away from) [the] @fiftylimit",
    "{n} move [left] (to|until|till) [the] @fiftylimit",
  ),
  say(
    "halfmoves >= 90",
    "(just|shortly|right) before [reach] [the] @fiftylimit",
    "(close to|near|short of|on [the] brink of|on [the] verge of) [the] @fiftylimit",
  ),
  {
    say: [
      "[@king] (walk|run|step|blunder|fall|go|stumble) [straight|right] into [a] [forced] mate [net]",
      "(allow|let) [a] [forced] mate",
    ],
    means: {
      nobody: "to-move = defender and verdict = drawn and error != none",
      defender: "to-move = defender and verdict = drawn and error != none",
      white: "turn = white and error != none",
      black: "turn = black and error != none",
      name: "mover ~ {name} and error != none",
    },
    unsaid: "defender",
  },
  {
    say: [
      "(walk|run|step|blunder|fall|go|stumble) [straight|right] into [a] mate in {n} [move]",
      "allow [a] mate in {n} [move]",
    ],
    means:
      "(to-move = defender and error != none) then within 1 moves (to-move = attacker and verdict = won and dtm = {n})",
  },
  say("to-move = defender and verdict = drawn and only-move and error = none", "@holdmove @findit"),
  say("to-move = defender and verdict = drawn and only-move and error != none", "@holdmove @missit"),
  say("to-move = attacker and verdict = won and only-move and error = none", "@winmove @findit"),
  say("to-move = attacker and verdict = won and only-move and error != none", "@winmove @missit"),
  {
    say: [
      "(result|verdict|evaluation|outcome|score|advantage|assessment) (change|swing|switch|flip|turn|shift|go back and forth) [hands|sides|over] {tallied}",
      "{tallied=tallied} [a] (change|swing|turnaround) (of|in) [the] (result|verdict|evaluation)",
    ],
    means: "errors {tallied}",
    example: "result changed hands at least four times",
  },
  say(
    "count (to-move = defender and verdict = drawn and error != none) {tallied}",
    "[position|result|verdict|evaluation|it] (change|swing|switch|flip|turn|shift|go) from [a] (drawn|draw) to [a] (won|win|winning|lost|losing|loss) {tallied}",
    "[the] draw [was|is] throw away {tallied}",
  ),
  say(
    "count (to-move = attacker and verdict = won and error != none) {tallied}",
    "[position|result|verdict|evaluation|it] (change|swing|switch|flip|turn|shift|go) from [a] (won|win|winning) to [a] (drawn|draw) {tallied}",
    "[the] win [was|is] throw away {tallied}",
  ),
  say(
    "errors {times}",
    "(result|verdict|evaluation|outcome|assessment) (change|swing|switch|flip|turn|shift) [hands|sides|over] {times}",
  ),
  say(
    "errors = 0",
    "(result|verdict|evaluation|outcome|assessment) (never|not) (change|swing|switch|flip|turn|shift)",
    "(nothing|no verdict) (change|happen)",
    "[the] (right|correct|proper|just) (result|outcome) (throughout|all along|from start to finish)",
  ),
  say("errors {cmp}", "{cmp} (change|swing|turnaround) (of|in) [the] (result|verdict|evaluation|assessment)"),
  say(
    RETURNED,
    "(both|each) [side|player|of them] @err (@inarow|on (consecutive|successive) move|one move after (another|the other))",
    "(both|each) [side|player] (miss|miss the win and the draw|miss the draw and the win|throw it away|@err) on (consecutive|successive) move",
    "@mistake [immediately|at once|directly|promptly|straight away] (answered|followed|met|returned|repaid) (by|with) [a|another] @mistake",
    "@mistake [was] [immediately|at once|directly|promptly] returned",
    "@mistake on both side in succession",
    "exchange of @mistake",
  ),
  {
    say: ["mate in {n} [move] [was|be] (miss|overlook|not found)"],
    means: "to-move = attacker and verdict = won and dtm = {n} and error != none",
    unsaid: "attacker",
  },
  say(
    "to-move = attacker and verdict = won and error = none and waiting-move",
    "win waiting move",
    "waiting move (that|which) (win|keep [the] win)",
  ),
  say(
    "to-move = attacker and verdict = won and error = none and waiting-move and kind = {moved}",
    "win waiting move (with|by|of) [the] {moved}",
    "win {moved} waiting move",
  ),
  say(
    'ended-by = "fifty moves" and somewhere (verdict = won)',
    "win position (save|saved|rescue|draw|drawn) by [the] fifty move [rule]",
    "fifty move [rule] (save|rescue) [the] (defender|game|draw) [in [a] (won|lost) position]",
  ),
  // counted over the ending
  {
    say: [
      "(no|zero|without|without any|without [a] single|free of) @mistake",
      "(not|without|with not) (one|a single|even one|one single) @mistake",
      "(error free|errorless|faultless|flawless|perfect [play]|without fault|@mistake free|play perfect)",
      "not @err",
      "(no|without) [a] (error|blunder|slip) [at all]",
    ],
    means: NO_MISTAKES,
  },
  {
    say: [
      "(no|zero|without|not one|without one|not a single) @mistake (by|of|from) {who}",
      "none (by|of|from) {who}",
      "{who} (none|not a single one)",
      "without {who} @err",
      "without {who} (make|making) [a] @mistake",
    ],
    means: { side: "{side}-errors = 0", both: "errors = 0" },
  },
  {
    say: ["never @err", "(make|commit) no @mistake", "(play|played) (perfect|flawless|faultless)"],
    means: NO_MISTAKES,
  },
  say(
    "errors = 0",
    "(neither|no) (side|player) @err",
    "(never|no|not) [a] @mistake (by|from|on) (either|both|any) (side|player)",
    "neither [of them] @err",
  ),
  {
    say: ["@err {times}"],
    means: {
      nobody: "errors {times}",
      side: "{side}-errors {times}",
      both: "attacker-errors {times} and defender-errors {times}",
    },
  },
  {
    say: ["{cmp} @mistake", "(make|commit) {cmp} @mistake", "@err {cmp} time"],
    means: SO_MANY_MISTAKES,
  },
  {
    say: ["[make] more @mistake than {n}"],
    means: {
      nobody: "errors > {n}",
      side: "{side}-errors > {n}",
      both: "attacker-errors > {n} and defender-errors > {n}",
    },
  },
  say("{whose}-errors {cmp}", "{cmp} {side=whose} @mistake"),
  say("defender-errors {cmp}", "{cmp} (defensive|defending) @mistake"),
  say("attacker-errors {cmp}", "{cmp} attacking @mistake"),
  {
    say: ["{cmp} @mistake [make] (by|of|from) {who}"],
    means: { side: "{side}-errors {cmp}", both: "attacker-errors {cmp} and defender-errors {cmp}" },
  },
  say(
    "errors {cmp}",
    "{cmp} @mistake (altogether|in total|in all|overall|combined|together) [[,] [by|from|of] both side]",
  ),
  say(
    "errors {cmp} and full-point-errors = 0",
    "{cmp} half point @mistake and (no|never|not) [a] full point [@mistake]",
  ),
  {
    say: ["{cmp} half point @mistake"],
    means: SO_MANY_MISTAKES,
  },
  say(
    "attacker-errors > 0 and defender-errors > 0",
    "both [side|player] (@err|@mistake|make @mistake)",
    "@mistake (by|from|on) both (side|player)",
  ),
  say(
    "attacker-errors = defender-errors",
    "[both [side]] [make] [the] same number of @mistake",
    "equal [number of] @mistake",
    "as many @mistake as each other",
  ),
  {
    say: [
      "[make] more @mistake than [the] {side=other}",
      "make more @mistake [than [the|its] (opponent|other|other side|rival)]",
      "@err more [often] [than [the] ({side=other}|opponent|other)]",
    ],
    means: {
      defender: "defender-errors > attacker-errors",
      attacker: "attacker-errors > defender-errors",
      nobody: "attacker-errors > defender-errors",
    },
  },
  {
    say: [
      "[make] (fewer|less) @mistake than [the] {side=other}",
      "make (fewer|less) @mistake [than [the|its] (opponent|other|other side|rival)]",
      "@err less [often] [than [the] {side=other}]",
    ],
    means: { defender: "defender-errors < attacker-errors", attacker: "attacker-errors < defender-errors" },
  },
  {
    say: ["thrown away", "throw [it] away [the] [result|game]"],
    means: {
      nobody: "errors > 0",
      side: "to-move = {side} and error != none",
      white: "turn = white and error != none",
      black: "turn = black and error != none",
      name: "mover ~ {name} and error != none",
    },
  },
  {
    say: [
      "miss [a|the] [forced] win",
      "let [the|a] (won|winning) (position|game|ending|one) (slip|go) [away]",
      "let [the|a] win (slip|go) [away]",
      "(throw away|throw|give away|spoil|squander|let slip|fail to see|overlook|waste) [the|a] win [away]",
      "(miss|overlook) [the] (win|winning) move",
      "=win [was|is] throw away",
      "=win (was|is|be) gone",
      "=win slip (away|through|from [the] attacker [hand|finger])",
      "[the] win slipped",
      "[forced] =win [was|is] (missed|overlooked|not found)",
      "win (position|game|ending) [was|is] (throw away|spoil|squander|blow|let slip|wasted)",
      "let [the] (win|attacker) slip",
      "give [the] win (back|away)",
      "give it [all|straight] back",
      "let [the] win go",
    ],
    means: {
      nobody: "to-move = attacker and verdict = won and error != none",
      attacker: "to-move = attacker and verdict = won and error != none",
      defender: "to-move = defender and verdict = lost and error != none",
      white:
        "turn = white and ((to-move = attacker and verdict = won) or (to-move = defender and verdict = lost)) and error != none",
      black:
        "turn = black and ((to-move = attacker and verdict = won) or (to-move = defender and verdict = lost)) and error != none",
      name: "mover ~ {name} and to-move = attacker and verdict = won and error != none",
    },
  },
  {
    say: [
      "let it (slip|go) [away]",
      "let [the] (half point|full point|point|game|result|chance) (slip|go) [away]",
      "it slip (away|through [its] (hand|finger))",
    ],
    means: {
      nobody: "error != none",
      attacker: "to-move = attacker and verdict = won and error != none",
      defender: "to-move = defender and verdict = drawn and error != none",
      white: "turn = white and error != none",
      black: "turn = black and error != none",
      name: "mover ~ {name} and error != none",
    },
    example: "attacker let it slip",
  },
  {
    say: [
      "miss [a|the] draw",
      "(throw away|throw|give away|spoil|let slip|lose|overlook) [the|a] draw [away]",
      "(miss|overlook) [a|the] [@holding] (draw|defence|save)",
      "draw was throw away",
      "=draw slip (away|through)",
      "[the] draw slipped",
      "let [the|a] draw (slip|go) [away]",
      "let [the|a] (drawn|drawing) (position|game|ending|one) (slip|go) [away]",
    ],
    means: {
      nobody: "to-move = defender and verdict = drawn and error != none",
      defender: "to-move = defender and verdict = drawn and error != none",
      attacker: "to-move = attacker and verdict = drawn and error != none",
      name: "mover ~ {name} and verdict = drawn and error != none",
      white: "turn = white and verdict = drawn and error != none",
      black: "turn = black and verdict = drawn and error != none",
    },
  },
  say(
    "to-move = attacker and verdict = won and dtm = {n} and error != none",
    "miss [a] mate in {n}",
    "overlook [a] mate in {n}",
  ),
  say(
    "to-move = attacker and verdict = won and dtm {rel} and error != none",
    "(miss|overlook) [a] mate in {rel} [move]",
  ),
  say(
    "to-move = attacker and verdict = won and dtm = {n} and error != none",
    "let [a] mate in {n} [move] (slip|go) [and [the] win with it]",
  ),
];
