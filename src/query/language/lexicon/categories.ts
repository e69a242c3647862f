// Categories whose members are words: sides, pieces, kinds of move, how often, when.

/** A win that is given away and comes back so many times. */
const swings = (times: number): string =>
  ["(verdict = won)", ...Array.from({ length: times }, () => "(verdict = drawn) then (verdict = won)")].join(
    " then ",
  );

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
    ["(@allthrough|throughout|from start to finish) [,] never (abandon|left|given up)", "throughout"],
    [
      "((until|till|to) [the] [very|bitter] (end|last)|(until|till|to) [the] [very] last (move|position)|right through|all through|start to finish)",
      "throughout",
    ],
  ],
};
