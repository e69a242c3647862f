// Groups of words that patterns use.

/** One side's men with their squares, one after another in one of the orders that people use. */
const menInOrder = (side: string, orders: readonly string[]): readonly string[] =>
  orders.map((order) =>
    order
      .split(" ")
      .map((piece) => `${piece} [on] {square=${side}-${piece}}`)
      .join(" [,] [and] "),
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
    "(from|at) [the] move one [of [the] ending]",
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
