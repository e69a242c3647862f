// How the game came out.

import { ATTACKER_WON, DREW, LOST, type Phrase, say } from "./phrase.js";

/** Won or lost with the pieces of one side, before the verb or behind it: "black with the bishop won". */
function withPiece(side: "attacker" | "defender", pieces: string, verb: "win" | "lose"): Phrase {
  const won = (side === "attacker") === (verb === "win") ? "outcome = lost" : "defender-result = won";
  const of = (colour: "white" | "black") => {
    const attacker = (colour === "white") === (side === "attacker") ? "white" : "black";
    return `attacker = ${attacker} and result = ${(colour === "white") === (verb === "win") ? "1-0" : "0-1"}`;
  };
  return {
    say: [`${pieces} [still|nevertheless] ${verb}`, `${verb} [it|this] [ending|position] ${pieces}`],
    means: {
      nobody: won,
      [side]: won,
      white: of("white"),
      black: of("black"),
      name: `${side}-name ~ {name} and ${verb === "win" ? "winner" : "loser"} ~ {name}`,
    },
    of: side,
    result: true,
  };
}

export const RESULTS: readonly Phrase[] = [
  {
    say: ["(hold|keep|save|rescue|secure|preserve) [the|a] (=draw|half point)"],
    means: {
      nobody: "defender-result = drew",
      side: "defender-result = drew",
      white: "attacker = black and defender-result = drew",
      black: "attacker = white and defender-result = drew",
      name: "defender-name ~ {name} and defender-result = drew",
    },
    of: "defender",
    result: true,
    example: "held the draw",
  },
  {
    say: ["(can|could) [{who}] [still] @hold", "(can|could) [{who}] [still] be (held|saved)"],
    means: {
      nobody: "verdict = drawn",
      defender: "verdict = drawn",
      white: "attacker = black and verdict = drawn",
      black: "attacker = white and verdict = drawn",
    },
    example: "can the defender hold",
  },
  {
    say: ["can [{who}] [still] win"],
    means: {
      nobody: "verdict = won",
      attacker: "verdict = won",
      white: "attacker = white and verdict = won",
      black: "attacker = black and verdict = won",
    },
    example: "can the attacker win",
  },
  {
    say: ["(cannot|can't) [possibly|ever] (win|be won)"],
    means: {
      nobody: "verdict != won",
      attacker: "verdict != won",
      white: "attacker = white and verdict != won",
      black: "attacker = black and verdict != won",
    },
    or: [["outcome = held", "the game, not the position"]],
    example: "attacker cannot win",
  },
  {
    say: ["(cannot|can't) [possibly|ever] (lose|be beaten|be lost)"],
    means: {
      nobody: "verdict != won",
      defender: "verdict != won",
      attacker: "verdict != lost",
      white: "(attacker = white and verdict != lost) or (attacker = black and verdict != won)",
      black: "(attacker = black and verdict != lost) or (attacker = white and verdict != won)",
    },
    example: "attacker cannot lose",
  },
  {
    say: [
      "(cannot|can't) [possibly] (@hold|be held|be saved|survive) [any more|any longer]",
      "(have|has) no defence [left]",
      "no defence left",
      "(hopeless|indefensible) [position]",
    ],
    means: {
      nobody: "verdict = won",
      defender: "verdict = won",
      white: "attacker = black and verdict = won",
      black: "attacker = white and verdict = won",
    },
    or: [["outcome = lost", "the game, not the position"]],
    example: "defender cannot hold",
  },
  {
    say: [
      "[was|were|be] (lost|losing) [,] (but|and|yet) [then|still|nevertheless|somehow] (hold|draw|saved|save itself|survive|escape|get away|get away with it|saved himself)",
    ],
    means: "verdict = won and outcome = held",
    of: "defender",
    result: true,
    example: "was lost but got away with it",
  },
  {
    say: ["successful", "(with|having) success", "effective"],
    means: { nobody: "outcome = held", defender: "outcome = held", attacker: "outcome = lost" },
    result: true,
    example: "second-rank defence successful",
  },
  {
    say: ["(unsuccessful|unsuccessfully|in vain|to no avail|without success)"],
    means: { nobody: "outcome = lost", defender: "outcome = lost", attacker: "outcome = held" },
    result: true,
    example: "tried the second-rank defence in vain",
  },
  {
    say: ["(perfectly|flawlessly|faultlessly|accurately|correctly|precisely|impeccably) defended"],
    means: "defender-errors = 0",
    or: [["defender-errors = 0 and outcome = held", "the defence and its success"]],
  },
  say(
    "result != 1/2-1/2 and result != *",
    "(end|finish) (decisively|with [a] decisive result|in [a] decision)",
    "(have|with|produce|find) [a] winner",
    "a winner",
    "winner !king !rook !have !be !with !rated !under !over !in",
    "(decisively|decided)",
  ),
  {
    say: [
      "(still|nevertheless|nonetheless|even so|yet|already) =winning",
      "=winning (all the same|nonetheless|nevertheless|anyway|even so)",
      "(still|nevertheless|nonetheless|yet) a [forced|clear|theoretical] =win",
    ],
    means: {
      nobody: "verdict = won",
      attacker: "verdict = won",
      defender: "verdict = lost",
      white: "attacker = white and verdict = won",
      black: "attacker = black and verdict = won",
    },
    or: [["outcome = lost", "the game, not the position"]],
  },
  {
    say: ["(still|nevertheless|nonetheless|yet) a =draw"],
    means: "verdict = drawn",
    or: [["defender-result = drew", "the game, not the position"]],
  },
  {
    say: ["it =hold", "it (be|is) enough"],
    means: "verdict = drawn",
    or: [["outcome = held", "the game, not the position"]],
  },
  {
    say: [
      "hold",
      "(survive|escape|hang on|hold out|get away|hold its own)",
      "save [the|a] (game|day|half point|itself|draw|himself|herself|themselves)",
      "(defend|defended) (successfully|to the end)",
      "(hold|held) (to|till|until) the (end|last|last move)",
      "(hold|held) on",
      "(not|avoid) (lose|losing|defeat)",
    ],
    means: {
      nobody: "outcome = held",
      defender: "outcome = held",
      attacker: "outcome = held",
      white: "attacker = black and outcome = held",
      black: "attacker = white and outcome = held",
      name: "defender-name ~ {name} and outcome = held",
    },
    of: "defender",
    result: true,
  },
  {
    say: [
      "drew",
      "(only|merely|just) (draw|get [a] draw)",
      "(draws|drawing)",
      "(get|secure|make|achieve|reach|earn|split|scrape|scraped|salvage|salvaged|snatch|snatched|force|forced) [a|the] (draw|half point|point)",
      "end [up] [in] [a] draw",
      "share [the] point",
    ],
    means: DREW,
    result: true,
  },
  {
    say: ["(drawn|draw) [in [the] end|finally]", "[as] [a] (draw|drawn game)", "[still] [was] drawn anyway"],
    means: DREW,
    or: [["verdict = drawn", "the position, not the game"]],
    result: true,
  },
  {
    say: [
      "win",
      "(convert|win [the] game|score [the] [full] point|beat [the] defender|prevail|break through)",
      "convert [the] (win|advantage)",
      "victory",
    ],
    means: ATTACKER_WON,
    or: [["verdict = won", "the position, not the game"]],
    unsaid: "attacker",
    result: true,
  },
  {
    say: ["win (for|by) {who}", "(victory|success) [for|of] {who}"],
    means: {
      attacker: "outcome = lost",
      defender: "defender-result = won",
      white: "result = 1-0",
      black: "result = 0-1",
      name: "winner ~ {name}",
    },
    result: true,
  },
  {
    say: [
      "lose",
      "(lose [the] game|go down|be beaten|be defeated|collapse|fail to (hold|draw|survive)|not (hold|=draw))",
      "(defeat|defeated|beaten)",
    ],
    means: LOST,
    or: [["verdict = won", "the position, not the game"]],
    unsaid: "defender",
    result: true,
  },
  {
    say: [
      "(@hold|hang on|hold out|survive|resist|defend|last|hang in|suffer) [for] {rel} move [,] (and|but|before|only to|then) [then|finally|eventually] (lose|crack|collapse|crumble|go down|resign|give up|fall|break|losing|cracking|collapsing)",
    ],
    means: {
      nobody: "outcome = lost and length {rel}",
      side: "outcome = lost and length {rel}",
      name: "outcome = lost and length {rel} and loser ~ {name}",
    },
    of: "defender",
    result: true,
    example: "held out for over 40 moves and then cracked",
  },
  {
    say: ["lose [a] draw (ending|position|game)", "lose [a] draw {material} [ending|position|game|endgame]"],
    means: {
      nobody: "outcome = lost and entry-verdict = drawn",
      defender: "outcome = lost and entry-verdict = drawn",
      attacker: "defender-result = won and entry-verdict = drawn",
    },
    unsaid: "defender",
    result: true,
  },
  {
    say: [
      "(fail|failed) to win",
      "not win",
      "(fail to|not|never) beat",
      "without winning",
      "(not|never) (convert|manage to win) [it]",
      "(not|never) convert [the] (win|advantage)",
      "(fail|failed) to convert",
      "(nobody|no one|never|not|fail to) (find|see|spot) [the|a] (win|way (to win|through)|win plan)",
      "(never|not once|at no point) (did|has|had|have) [the] attacker (find|see|spot) [the|a] (win|way (to win|through)|win plan)",
    ],
    means: {
      nobody: "outcome = held",
      attacker: "outcome = held",
      defender: "defender-result != won",
      white: "attacker = white and outcome = held",
      black: "attacker = black and outcome = held",
      name: "attacker-name ~ {name} and outcome = held",
    },
    of: "attacker",
    result: true,
  },
  say("winner ~ {winner} or winner ~ {loser}", "{name=winner} or {name=loser} win"),
  say("loser ~ {winner} or loser ~ {loser}", "{name=winner} or {name=loser} lose"),
  say(
    "result = 1/2-1/2 and (player ~ {winner} or player ~ {loser})",
    "{name=winner} or {name=loser} (draw|drew)",
  ),
  say(
    "outcome = held and (defender-name ~ {winner} or defender-name ~ {loser})",
    "{name=winner} or {name=loser} @hold",
  ),
  say(
    "defender-name ~ {winner} or defender-name ~ {loser}",
    "{name=winner} or {name=loser} (as [the] defender|defend|defending|with [the] [lone] rook|have [the] [lone] rook)",
  ),
  say(
    "attacker-name ~ {winner} or attacker-name ~ {loser}",
    "{name=winner} or {name=loser} (as [the] attacker|attack|attacking|with [the] bishop|have [the] bishop|press)",
  ),
  say(
    "(defender-name ~ {winner} or defender-name ~ {loser}) and {setup}",
    "{name=winner} or {name=loser} (play|playing|use|using|choose|with|in) [the] {setup}",
  ),
  withPiece(
    "attacker",
    "(with|having) [the|an] [extra|additional] (bishop|piece|rook and [a] bishop|bishop side)",
    "win",
  ),
  withPiece(
    "attacker",
    "(with|having) [the|an] [extra|additional] (bishop|piece|rook and [a] bishop|bishop side)",
    "lose",
  ),
  withPiece("defender", "(with|having) [only|just] [the|a] [lone] (rook|rook side) [only|alone]", "win"),
  withPiece("defender", "(with|having) [only|just] [the|a] [lone] (rook|rook side) [only|alone]", "lose"),
  {
    say: ["{name=winner} (beat|beats|defeat|defeated) {name=loser}"],
    means: "winner ~ {winner} and loser ~ {loser}",
  },
  {
    say: ["{name=loser} (beaten|defeated) by {name=winner}"],
    means: "winner ~ {winner} and loser ~ {loser}",
  },
  {
    say: ["(fail to|not) beat {name=other}"],
    means: {
      nobody: "defender-name ~ {other} and outcome = held",
      side: "defender-name ~ {other} and outcome = held",
      name: "attacker-name ~ {name} and defender-name ~ {other} and outcome = held",
    },
    of: "attacker",
    result: true,
  },
  { say: ["[the] game (was|is|be) (draw|drawn)", "game end [in] [a] draw"], means: DREW, result: true },
  { say: ["(save|rescue) [the] {side=saved}"], means: "outcome = held", of: "defender", result: true },
  {
    say: ["not break [through] [the] {setup}", "fail to break [through] [the] {setup}"],
    means: "{setup} and outcome = held",
    of: "attacker",
    result: true,
  },
  say("defender-result = won", "rook (beat|defeat) [the] (rook and bishop|bishop and rook)"),
  say("outcome = held and length >= {n}", "(fail to|not) win (in|within) {n} move"),
  say(
    "attacker-rating {his} and defender-rating {theirs} and outcome = held",
    "[a] {rating=his} [rated] [@player] (fail to|not|unable to) (beat|win against) [a|an] [rated] {rating=theirs} [rated] [@player]",
    "[a] {rating=his} [rated] [@player] (fail to|not|unable to) (beat|win against) [a|an] (someone|somebody|opponent|@player) [rated] {rating=theirs}",
  ),
  {
    say: ["win in {rel} move"],
    means: "outcome = lost and length {rel}",
    unsaid: "attacker",
    result: true,
  },
  {
    say: [
      "[the|an] (extra|additional) (bishop|piece) (not|never|no) [be] (enough [to win]|sufficient|decisive|win|help|matter)",
      "(bishop|piece) not enough [to win]",
    ],
    means: "outcome = held",
    result: true,
  },
  {
    say: ["[the|an] (extra|additional) (bishop|piece) (win|tell|decide|be enough|prevail)"],
    means: "outcome = lost",
    result: true,
  },
  {
    say: ["(draw|drew|not win|fail to win) [a] (won|winning) (position|ending|game|one)"],
    means: "verdict = won and outcome = held",
    or: [["entry-verdict = won and outcome = held", "won when the ending arose"]],
    of: "attacker",
    result: true,
  },
  {
    say: ["(win|won) [a] (drawn|dead drawn) (position|ending|game|one)"],
    means: "outcome = lost and verdict = drawn",
    or: [["entry-verdict = drawn and outcome = lost", "drawn when the ending arose"]],
    of: "attacker",
    result: true,
  },
  say("not defender-result = drew", "not (=drawn|[a] =draw)"),
  say("result != 1/2-1/2 and result != *", "decisive (game|result|ending)"),
  // "decisive mistake" is another thing
  { say: ["decisive !mistake"], means: "result != 1/2-1/2 and result != *", weak: true },
  { say: ["1-0"], means: "result = 1-0", result: true },
  { say: ["0-1"], means: "result = 0-1", result: true },
  { say: ["(1/2-1/2|1/2|½-½|½)"], means: "result = 1/2-1/2", result: true },
  say("outcome = open", "(unfinished|no result|without [a] result|undecided)"),
];
