// Groups of words that patterns use, and categories whose members are words.

/** One side's men with their squares, one after another in one of the orders that people use. */
const menInOrder = (side: string, orders: readonly string[]): readonly string[] =>
  orders.map((order) =>
    order
      .split(" ")
      .map((piece) => `${piece} [on] {square=${side}-${piece}}`)
      .join(" [,] [and] "),
  );

/** A win that is given away and comes back so many times. */
const swings = (times: number): string =>
  ["(verdict = won)", ...Array.from({ length: times }, () => "(verdict = drawn) then (verdict = won)")].join(
    " then ",
  );

/** Groups of words that patterns use. */
export const GROUPS: Readonly<Record<string, readonly string[]>> = {
  // how answers are asked for, and what is sought
  ask: [
    "(show|find|list|give|get|fetch|bring|pull|name|print|see|have|look|know|hear|learn|study|send|point|explore|check|view|present|collect|use|tell|count|understand|search|display|read) [up|out|at|through|for] [me|us] [a look] [at|to|about|of]",
  ],
  sample: [
    "(game|ending|endgame|position|case|example|instance|moment|diagram|picture|sample|specimen|illustration|fragment|exercise|puzzle|study|encounter|battle)",
  ],
  amount: [
    "(all|any|every|each|some|several|more|one|a few|few|various|a number of|a lot of|lots of|plenty of)",
  ],
  letslip: [
    "let (it|[the] win) (slip|go)",
    "(throw|give) (it|[the] win) away",
    "(throw|give) away [the] win",
    "(miss|spoil|lose|waste|squander) (it|[the] win)",
  ],
  gotback: [
    "(get|got|win|won|regain|regained) (it|[the] win) back",
    "(get|got|given|gave|was given) [the] win back",
  ],
  // "a rook move wins, nothing else does"
  nothingelse: [
    "[,] [and|while|but] (nothing|no other move|none [of the] other) [else] [do|win|work|hold|draw|save|suffice|will] [so|it]",
    "[,] [and|while|but] (everything|anything|all|every other move|all others|all the others|all [the] other move|the rest) [else] [only|merely|just] (draw|lose|fail|not win|not hold|not)",
  ],
  allthrough: [
    "from [the] [very] (start|beginning|first|first position|first move) to [the] [very|bitter] (finish|end|last|last position|last move)",
    "from (start|beginning|first) to (finish|end|last)",
  ],
  mistake: [
    "mistake",
    "error",
    "blunder",
    "slip",
    "faulty move",
    "wrong move",
    "bad move",
    "lapse",
    "mishap",
  ],
  err: [
    "err",
    "blunder",
    "go wrong",
    "go astray",
    "slip up",
    "slipped",
    "misplay",
    "make [a] @mistake",
    "commit [a] @mistake",
    "(play|choose|pick) [a|the] wrong move",
  ],
  begin: ["start", "beginning", "entry", "very beginning", "very start", "outset", "first position"],
  atbegin: [
    "(at|from|in|by|on) [the] @begin [of ending]",
    "when [the] [bishop] ending (begin|arise|start|come about|was reached|was entered)",
    "as soon as [the] ending (begin|arise|start)",
    "at [the] (moment|time) [when] [the] ending (begin|arise|start)",
    "when it (begin|arise|start|come about|come (up|on|onto) [the] [board]|appear|was reached|was entered)",
    "from [the] move one",
    "(from|in|at|on) [the] [very] first (move|position) [on]",
  ],
  infirst: [
    "(in|during|within|inside|over) [the|its|his|their] [very] (first|opening) {n} move [@ofending|of [the] game]",
  ],
  inlast: [
    "(in|during|within|inside|over|on) [the|its|his|their] [very] (last|final|closing) {n} move [@ofending|of [the] game]",
  ],
  ofending: [
    "of [the] ending",
    "of [the] @begin [of [the] ending]",
    "(after|from) [the] (@begin|entry) [of [the] ending]",
    "(after|once) [the] [bishop] ending (begin|arise|start|come about|was reached|is reached)",
    "into [the] ending",
  ],
  finish: ["end", "finish", "last position", "final position", "very end"],
  defence: ["defence", "position", "set-up", "formation", "system", "method", "structure"],
  onlyone: [
    "only",
    "only one",
    "one",
    "one single",
    "a single",
    "single",
    "exactly one",
    "just one",
    "sole",
    "unique",
    "a lone",
    "one lone",
    "one and only one",
  ],
  hold: ["hold", "draw", "save", "hold draw", "hold on", "save draw", "save day", "save game", "keep draw"],
  holding: ["holding", "drawing", "saving", "defending", "defensive"],
  overlook: ["overlook", "miss", "not see", "not find", "fail to (find|play|see)"],
  theory: [
    "theoretically",
    "theoretical",
    "objectively",
    "technically",
    "on paper",
    "in theory",
    "book",
    "dead",
    "tablebase",
  ],
  king: ["king", "(defending|defender|lone|weaker) king"],
  rook: ["rook", "(defending|defender|lone|weaker side) rook", "rook of [the] defender"],
  aking: ["(attacking|attacker|stronger|enemy|stronger side) king", "king of [the] attacker"],
  bishop: ["bishop", "(attacking|attacker|stronger side) bishop"],
  arook: ["(attacking|attacker|enemy|stronger side) rook", "rook of [the] attacker"],
  stronger: [
    "stronger",
    "higher rated",
    "better",
    "better rated",
    "favourite [player|side|one]",
    "rating favourite",
  ],
  weaker: ["weaker", "lower rated", "worse", "inferior", "underdog", "outsider"],
  opponent: [
    "attacker",
    "defender",
    "player",
    "opponent",
    "opposition",
    "one",
    "rival",
    "side",
    "someone",
    "somebody",
  ],
  points: ["point", "rating point", "rated point", "elo"],
  inarow: [
    "in [a] row",
    "running",
    "on end",
    "on [the] trot",
    "in succession",
    "one after (another|the other)",
    "back to back",
    "(consecutively|successively)",
    "on (consecutive|successive) move",
    "without [a] (break|interruption)",
  ],
  onend: ["consecutive", "successive", "straight", "uninterrupted", "running"],
  player: ["player", "grandmaster", "gm", "master", "im", "professional", "amateur", "club player"],
  guards: ["guard", "protect", "defend !by", "cover", "covers", "support", "supports", "supporting"],
  // a move that alone holds, or alone wins, and its being found
  holdmove: [
    "@onlyone @holding move",
    "@onlyone move [that|which] @hold",
    "@onlyone (way|move|defence) to (@hold|draw)",
  ],
  savingmove: [
    "(have|had|with|there (was|is)) @onlyone (move|way|defence|reply) to (@hold|survive|stay alive) [himself|herself|itself|[the] (game|draw|day)]",
    "@onlyone (move|way|defence|reply) to (save|rescue) (himself|herself|itself|[the] (game|draw|day|half point))",
    "@onlyone (move|reply) (that|which) (save|keep|rescue) (him|her|it|[the] (game|draw|day|balance|half point))",
  ],
  winmove: ["@onlyone win move", "@onlyone move [that|which] win", "@onlyone (way|move) to win"],
  findit: [
    "[,] (and|which|that|,) [the] [defender|attacker|he|she|they] !to (find|play|spot|see) [it]",
    "[was|be] (found|played|spotted|seen)",
  ],
  missit: [
    "[,] (and|but|which|that|,) [the] [defender|attacker|he|she|they] (miss|overlook|not find|not see) [it]",
    "[was|be] (missed|overlooked|not found|not played)",
  ],
  // a piece that goes
  dropping: ["lose", "drop", "blunder", "blunder away", "hang", "give away", "let go of", "part with"],
  rooksac: ["rook (sacrifice|offer)", "(sacrifice|sac|offer) of [its|the|a] rook"],
  forstalemate: [
    "[for] [a] stalemate",
    "to (get|reach|force|achieve) [a] stalemate",
    "[that|which] (lead|leads) to [a] stalemate",
    "[that|which] force [a] stalemate",
    "with [a] stalemate (trick|idea|resource|in mind)",
  ],
  // the men of both sides as scores and studies list them, in any order
  attackersmen: menInOrder("attacker", [
    "king rook bishop",
    "king bishop rook",
    "rook king bishop",
    "rook bishop king",
    "bishop king rook",
    "bishop rook king",
  ]),
  defendersmen: menInOrder("defender", ["king rook", "rook king"]),
  giveup: ["@dropping", "give up", "sacrifice", "offer"],
  gone: [
    "lose",
    "(taken|captured|dropped|sacrificed|given up|given away|blundered|picked up|snapped off|gobbled up)",
    "(was|is|got|been|being) won",
    "won by",
    "(fall|fell)",
  ],
  taking: ["take !by", "capture !by", "win !by", "pick up", "grab", "gain", "snap up", "gobble up", "eat"],
  // a piece that another guards, or does not
  guarded: ["guarded", "protected", "defended", "covered", "supported", "backed up"],
  unguarded: [
    "(unguarded|unprotected|undefended|unsupported|loose)",
    "(not|no longer) @guarded",
    "(without|with no|with not|lacks|lacking|have no|not have) [any] (protection|support|cover|guard|defence)",
    "left (unguarded|unprotected|undefended|loose|alone)",
    "left (without|with no|with not) [any] (protection|support|cover|guard|defence)",
  ],
  hanging: [
    "(hang|hanging|hung|en prise|up for grabs|for [the] taking|free for [the] taking|capturable)",
    "left (hanging|en prise)",
    "(can|could) [simply|just] be (taken|captured|won)",
  ],
  // how a move is spoken of that throws something away
  loses: [
    "(lose|err|be @mistake|are @mistake)",
    "(lose|give away|throw away) (half a point|something|[the] (draw|win|game|result))",
    "(give away|throw away)",
    "(spoil|ruin) (it|everything|[the] (draw|win|game|result))",
  ],
  crack: ["crack", "collapse", "crumble", "falter", "fail"],
  fiftylimit: ["fifty move [rule|limit|mark|draw|point|claim]", "fifty move (run out|be up|up|expire)"],
  sameside: ["same (side|half|wing|flank) [of [the] board]"],
  otherside: [
    "(opposite|different) (side|half|wing|flank) [of [the] board]",
    "other (half|wing|flank) [of [the] board]",
    "other side of [the] board",
  ],
  ownking: ["[its|the|his] [own] @king"],
  clock: ["on [the] clock", "left", "left on [the] clock", "remaining", "time left", "in hand", "to go"],
};

/** Categories whose members are words: what is said, and its value in canonical form. */
export const CATEGORIES: Readonly<Record<string, readonly (readonly [say: string, value: string])[]>> = {
  side: [
    ["defender", "defender"],
    ["defending (side|player|king player)", "defender"],
    ["(weaker|weak|lone rook|rook|inferior) side", "defender"],
    ["(side|player|one|guy|man) with [only|just] [the|a] [lone] rook [only|alone]", "defender"],
    ["side (that|which) (defend|have [the] [lone] rook)", "defender"],
    ["lone rook", "defender"],
    ["(side|player|one|guy|man) without [the] bishop", "defender"],
    ["(side|player|one|guy|man) a (piece|bishop) (down|behind)", "defender"],
    ["(whoever|who) (have|had) [only|just] [the] [lone] rook", "defender"],
    ["attacker", "attacker"],
    ["(side|player|one|guy|man) a (piece|bishop) (up|ahead)", "attacker"],
    [
      "(side|player|one|guy|man) (with|having|that has|who has) [the|an] (extra|additional) (bishop|piece)",
      "attacker",
    ],
    ["(whoever|who) (have|had) [the] [extra] bishop", "attacker"],
    ["(attacking|pressing) (side|player)", "attacker"],
    ["side (that|which) (press|attack|have [the] bishop)", "attacker"],
    ["(stronger|strong|superior) side", "attacker"],
    ["(side|player|one|guy|man) with [the|a] bishop", "attacker"],
    ["bishop side", "attacker"],
  ],
  colour: [
    ["white", "white"],
    ["black", "black"],
  ],
  both: [
    ["both [the] (side|player|of them|opponent)", "both"],
    ["(each|either) (side|player)", "both"],
    ["both", "both"],
  ],
  piece: [
    ["[defender] king", "king"],
    ["(defending|defender|lone|weaker) king", "king"],
    ["(attacking|attacker|stronger) king", "attacker-king"],
    ["(attacking|attacker|enemy) rook", "attacker-rook"],
    ["[defender] rook", "rook"],
    ["(defending|defender|lone) rook", "rook"],
    ["[attacker] bishop", "bishop"],
    ["(attacking|attacker) bishop", "bishop"],
  ],
  // pieces of which it matters on which side of the defender's king they stand
  sided: [
    ["@rook", "rook"],
    ["@arook", "attacker-rook"],
    ["@bishop", "bishop"],
    ["@aking", "attacker-king"],
  ],
  // pieces that another may guard
  guardable: [
    ["@rook", "rook"],
    ["@arook", "attacker-rook"],
    ["@bishop", "bishop"],
  ],
  // what can be taken
  prize: [
    ["rook", "rook"],
    ["bishop", "bishop"],
  ],
  // what comes and goes in a position and is counted
  thing: [
    ["stalemate (trick|resource|idea|chance|trap|motif|possibility|defence)", "stalemate-resource"],
    ["(reciprocal|mutual) zugzwang", "reciprocal-zugzwang"],
    ["zugzwang", "zugzwang"],
    ["(mate threat|threat of mate|mating threat)", "mate-threat"],
    ["fork", "fork != none"],
    ["skewer", "skewer != none"],
    ["=win [that (was|were)] (missed|thrown away)", "to-move = attacker and verdict = won and error != none"],
    ["(missed|thrown away) (draw|save|defence)", "to-move = defender and verdict = drawn and error != none"],
    [
      "(draw|save) [that (was|were)] (missed|thrown away)",
      "to-move = defender and verdict = drawn and error != none",
    ],
    ["(missed|overlooked) only move", "only-move and error != none"],
    ["(hanging piece|piece hanging|piece en prise)", "free-piece != none"],
  ],
  verdict: [
    ["win", "won"],
    ["draw", "drawn"],
  ],
  tone: [
    ["light [squared|square|coloured|colour]", "light"],
    ["white (squared|square)", "light"],
    ["dark [squared|square|coloured|colour]", "dark"],
    ["black (squared|square)", "dark"],
  ],
  // a piece that is moved, where moves are spoken of
  moved: [
    ["king", "king"],
    ["rook", "rook"],
    ["bishop", "bishop"],
  ],
  pace: [
    ["blitz", "blitz"],
    ["rapid", "rapid"],
    ["bullet", "bullet"],
    ["(classical|standard)", "standard"],
    ["correspondence", "correspondence"],
  ],
  times: [
    ["(once|one time|exactly once|only once|just once) !or", "= 1"],
    ["(twice|two time|exactly twice) !or", "= 2"],
    ["(three time|thrice) !or", "= 3"],
    ["(more than once|repeatedly|several time|again and again)", "> 1"],
    ["(more than twice)", "> 2"],
    ["at least once", ">= 1"],
    ["at least twice", ">= 2"],
    ["at most once", "<= 1"],
  ],
  // so often in one ending; the numbers themselves are read in categories.ts
  tallied: [
    ["(twice|two time)", ">= 2"],
    ["(twice|two time) or (more|oftener)", ">= 2"],
    ["three time or (more|oftener)", ">= 3"],
    ["once or (more|oftener)", ">= 1"],
    ["(exactly twice|exactly two time|just twice|only twice)", "= 2"],
    ["(three time|thrice)", ">= 3"],
    [
      "(more than once|repeatedly|several time|again and again|time and again|many time|time after time)",
      "> 1",
    ],
    ["(more than twice)", "> 2"],
    ["(at least once)", ">= 1"],
    ["(at least twice)", ">= 2"],
    ["(exactly once|only once|just once)", "= 1"],
    ["(at most once|no more than once)", "<= 1"],
  ],
  // how often a win came back
  swings: [
    ["[at least] (once|one time)", swings(1)],
    ["(twice|two time|at least twice|at least two time|more than once)", swings(2)],
    ["(three time|thrice|at least three time|more than twice)", swings(3)],
    ["(four time|at least four time|more than three time)", swings(4)],
  ],
  inarow: [["(@inarow|@onend|at a stretch)", ""]],
  line: [
    ["rank", "rank"],
    ["file", "file"],
  ],
  kind: [
    ["king (move|step)", "king"],
    ["move of [the] king", "king"],
    ["rook move", "rook"],
    ["move of [the] rook", "rook"],
    ["bishop move", "bishop"],
    ["move of [the] bishop", "bishop"],
    ["capture", "capture"],
    ["(taking|capturing) (something|a piece|[the] (rook|bishop))", "capture"],
    ["(discover|discovered) check", '"discovered check"'],
    ["check", "check"],
    ["attack [on|against] rook", "attack"],
    ["(interposition|interpose|interposing|block [check])", "block"],
    ["pin", "pin"],
    ["king (move|step|go|run) into [the] corner", '"to corner"'],
    ["king (move|step|go|run) [back] (to|towards|into) [the|a] corner", '"to corner"'],
    ["king (move|step|go|run) (out|away|from) [from|of] [the] corner", '"from corner"'],
    ["(run|step|go|move) (away from|out of) [the] corner", '"from corner"'],
    ["[king] (move|step|go|run) into [the] [bishop] wedge", '"into wedge"'],
    ["king (move|step|go|run) into [the] [bishop] wedge", '"into wedge"'],
    ["[king] (move|step|go|run) out of [the] [bishop] wedge", '"out of wedge"'],
    ["king (move|step|go|run) out of [the] [bishop] wedge", '"out of wedge"'],
  ],
  kindOfSetUp: [["@defence", ""]],
  // where a course of set-ups is told, "the third rank" is the defence
  rankOfSetUp: [
    ["first rank", "first-rank-defence"],
    ["second rank", "second-rank-defence"],
    ["third rank", "third-rank-defence"],
  ],
  // beginnings and ends of an ending, and how much of it
  quantifier: [
    ["entry", "entry"],
    ["=end", "end"],
    ["somewhere", "somewhere"],
    ["(always|throughout|permanently|constantly|consistently|invariably)", "throughout"],
    [
      "(all the time|all along|the whole time|from start to finish|[in] every position|all [the] way [through]|[for] the whole ending|(for|through|throughout) whole ending)",
      "throughout",
    ],
    ["(mostly|mainly|usually|chiefly|predominantly|largely)", "mostly"],
    ["(most of the time|most of the ending|[in] most position|[for] [the] most part)", "mostly"],
    ["(never|nowhere|[in] no position|at no (time|point|moment|stage))", "never"],
    [
      "(sometime|somewhere|at (some|one) (point|time|moment|stage)|in some position|once|(along|on) the way)",
      "somewhere",
    ],
    ["ever", "ever"],
    ["(later|afterwards|subsequently|then)", "later"],
    ["(stay|remain)", "mostly"],
    ["[right|immediately|straight|directly] @atbegin", "entry"],
    ["(immediately|straight away|right away|at once)", "atonce"],
    ["((on|from) move one|from the word go)", "entry"],
    ["(initially|originally|at first|to (begin|start) with)", "entry"],
    ["(start|begin|arise|open) [out|off] (with|in|from|as)", "entry"],
    ["[right] (at|by) [the] @finish [of [the] ending]", "end"],
    ["(end|finish|wind up|end up) (with|in|on|at)", "end"],
    ["(final|last) position [with|has|was|is]", "end"],
    ["(in [the] end|ultimately|end up|wind up|finish up)", "finally"],
    ["@allthrough", "throughout"],
    [
      "((until|till|to) [the] [very|bitter] (end|last)|(until|till|to) [the] [very] last (move|position)|right through|all through|start to finish)",
      "throughout",
    ],
  ],
};
