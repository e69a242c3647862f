// How the ending was ended.

import { LOST_ON_TIME, type Phrase, RESIGNED, ends, say } from "./phrase.js";

export const ENDS: readonly Phrase[] = [
  {
    say: [
      "[@hold|survive|last] (for|through|over) [the] (full|whole|entire|all) fifty move",
      "[@hold|survive|hang on|last|hold out] (until|till) [the] fifty move [rule|limit|mark] [(save|rescue|come|help|apply) [him|her|them|the defender]]",
      "(reach|get to|make it to|run into) [the] fifty move (rule|limit|mark)",
    ],
    means: 'ended-by = "fifty moves"',
    of: "defender",
    end: true,
    example: "held for the full fifty moves",
  },
  { say: ["=mate [game|ending]"], means: "ended-by = mate", weak: true, end: true, example: "show me mates" },
  {
    say: [
      "(mate|mated) (by|with|from|through) [the|a] {moved}",
      "{moved} (deliver|give) [the] mate",
      "mate [was] (delivered|given) (by|with) [the|a] {moved}",
    ],
    means:
      "(to-move = attacker and kind = {moved} and kind = check) then within 1 moves (legal = 0 and in-check)",
    example: "rook delivered mate",
  },
  {
    say: ["(mate|mated) (by|with|from|through|in) [a] {kind}", "{kind} (deliver|give|was|is) [the] mate"],
    means:
      "(to-move = attacker and kind = {kind} and kind = check) then within 1 moves (legal = 0 and in-check)",
    example: "mated by a discovered check",
  },
  ends(
    'captured = "attacker\'s bishop" and somewhere (fork = defender)',
    "[attacker] bishop (lose|win|fall|drop) (to|by|through) [a] [rook] fork [(by|from|of) [the] (rook|defender)]",
    "(lose|drop|blunder) [its|the|a] bishop (to|by|through) [a] [rook] fork",
    "fork [that|which] (win|won|gain|pick up|cost) [the] bishop",
  ),
  ends(
    'captured = "attacker\'s bishop" and somewhere (skewer = defender)',
    "[attacker] bishop (lose|win|fall|drop) (to|by|through) [a] [rook] skewer [(by|from|of) [the] (rook|defender)]",
    "(lose|drop|blunder) [its|the|a] bishop (to|by|through) [a] [rook] skewer",
    "skewer [that|which] (win|won|gain|pick up|cost) [the] bishop",
  ),
  {
    say: [
      "{kind} [that|which|to] (win|gain|pick up|net|collect|cost|take|capture|catch|grab) [the] [defender|defending] rook",
      "[defender|defending] rook (lose|win|fall|drop) (to|by|through) [a] {kind}",
      "(lose|drop|blunder) [its|the|a] rook (to|by|through) [a] {kind}",
    ],
    means:
      "(to-move = attacker and kind = {kind}) then within 2 moves (to-move = attacker and kind = capture)",
    example: "discovered check that wins the rook",
  },
  {
    say: ["[the] win (was|is|be) [still] (there|on [the] board)"],
    means: "verdict = won",
    atEnd: "final-verdict = won",
  },
  say(
    'ended-by = "fifty moves" and final-verdict = won',
    "[the] win (was|is|be) [still] (there|on [the] board) [,] (but|and|when) [the] fifty move (run out|rule|be up|up|end it|come|intervene)",
    "fifty move (run out|be up|up) (with|when|while) [the] win [was|is] still (there|on [the] board)",
    "fifty move (run out|rule|draw) [came] (in|despite) [a] win position",
  ),
  {
    say: [
      "(play|played|go|went|come|came) [on] to [a|the] mate [on [the] board]",
      "(end|finish) (in|by|with) mate",
      "by mate",
      "mate on [the] board",
      "mate at [the] @finish",
    ],
    means: "ended-by = mate",
    end: true,
  },
  {
    say: ["(get|be|was) mated", "mated"],
    means: {
      nobody: "ended-by = mate and outcome = lost",
      defender: "ended-by = mate and outcome = lost",
      attacker: "ended-by = mate and defender-result = won",
      white: "ended-by = mate and result = 0-1",
      black: "ended-by = mate and result = 1-0",
      name: "ended-by = mate and loser ~ {name}",
    },
    end: true,
  },
  {
    say: [
      "(deliver|give) mate",
      "mate (delivered|given)",
      "mate [be] (played|delivered|given|happen) [on [the] board]",
    ],
    means: {
      nobody: "ended-by = mate",
      attacker: "ended-by = mate and outcome = lost",
      defender: "ended-by = mate and defender-result = won",
      white: "ended-by = mate and result = 1-0",
      black: "ended-by = mate and result = 0-1",
      name: "ended-by = mate and winner ~ {name}",
    },
    end: true,
  },
  {
    say: [
      "draw by stalemate",
      "end (in|by|with) [a] stalemate",
      "(by|through|in) stalemate",
      "stalemate",
      "stalemate (at [the] @finish|on [the] board)",
      "save [itself|himself|game] (by|with|through) [a] stalemate",
      "stalemate (save|rescue) [(him|her|it|[the] (defender|game|draw|day|half point))]",
    ],
    means: "ended-by = stalemate",
    end: true,
  },
  {
    say: [
      "draw by repetition",
      "[end] (by|with|in|through) [a] [threefold|three fold] repetition [of moves|of position]",
      "[threefold|three fold] repetition",
      "(threefold|three fold)",
      "repeat [the] (moves|position)",
    ],
    means: "ended-by = repetition",
    end: true,
  },
  {
    say: [
      "draw by [the] fifty move rule",
      "(save|rescue) by [the] fifty move [rule]",
      "[end|draw|drawn] (by|under|on|with|through) [the] fifty move [rule|claim]",
      "fifty move (draw|claim|rule|up|over|run out|expired|were up|were over)",
      "fifty move rule (draw|claim)",
      "claim [a] draw [under [the] fifty move [rule]]",
      "=draw [was] claim [(under|by|on|with) [the] fifty move [rule]]",
    ],
    means: 'ended-by = "fifty moves"',
    end: true,
  },
  {
    say: [
      "draw agree",
      "(agree|agreed) [to|on] [a] draw",
      "agree draw",
      "[end|draw] by agreement",
      "peace (agreed|was agreed)",
      "agreed",
    ],
    means: "ended-by = agreed",
    end: true,
  },
  {
    say: [
      "lose on time",
      "flag [fall]",
      "(forfeit|lose) [game] on time",
      "(run|ran) out of time",
      "overstep [the] time [limit|control]",
      "time forfeit",
      "exceed [the] time",
    ],
    means: LOST_ON_TIME,
    end: true,
  },
  {
    say: [
      "(lose on time|flag|run out of time|overstep [the] time limit) (with|having) [only|just] [the] [lone] rook [alone|only]",
    ],
    means: "ended-by = time and outcome = lost",
    of: "defender",
    end: true,
    example: "lost on time with the lone rook",
  },
  {
    say: [
      "(lose on time|flag|run out of time|overstep [the] time limit) (with|having) [the|an] [extra] (bishop|rook and bishop)",
    ],
    means: "ended-by = time and defender-result = won",
    of: "attacker",
    end: true,
    example: "lost on time with the extra bishop",
  },
  {
    say: ["win on (time|[the] flag)"],
    means: {
      nobody: "ended-by = time",
      attacker: "ended-by = time and outcome = lost",
      defender: "ended-by = time and defender-result = won",
      white: "ended-by = time and result = 1-0",
      black: "ended-by = time and result = 0-1",
      name: "ended-by = time and winner ~ {name}",
    },
    end: true,
  },
  // "the game ended because the flag fell": what follows says how
  {
    say: [
      "[game|ending|it] (end|finish|was over|was decided|decide) (because|when|since|as|after|by|thanks|through|due)",
    ],
    means: "everything",
    weak: true,
    example: "ended because the flag fell",
  },
  say("ended-by = capture", "end (with|by|in) [a] capture"),
  {
    say: ["end when [the] defender rook (was|be) (take|capture)"],
    means: 'captured = "defender\'s rook"',
  },
  ends(
    "ended-by = stalemate",
    "stalemate (trick|idea|resource|trap|motif|joke|defence) [that|which] (work|worked|works|succeed|come off|came off)",
  ),
  {
    say: ["[decide|end|finish|decided|finished] (on|by) time", "[win] (on|by) [the] flag"],
    means: "ended-by = time",
    end: true,
  },
  {
    say: ["resign", "throw in [the] towel", "give up [the] game"],
    means: RESIGNED,
    end: true,
  },
  {
    say: ["resign (too early|prematurely|too soon)", "(premature|early|needless|unnecessary) resign"],
    means: {
      nobody: "ended-by = resignation and contradicts",
      defender: "ended-by = resignation and outcome = lost and final-verdict = drawn",
      attacker: "ended-by = resignation and defender-result = won and final-verdict != lost",
    },
    end: true,
  },
  { say: ["(by|through|in) resignation"], means: "ended-by = resignation", end: true },
  { say: ["(break|broken|cut) off", "[game] (score|record) stop"], means: 'ended-by = "cut off"', end: true },
  ends(
    'captured = "attacker\'s bishop"',
    "[attacker] @giveup [its|the|a] bishop",
    "[attacker] bishop [was|is|get] @gone [by|to] [the] [defender] [rook|king]",
    "[defender|rook|king] @taking [the] bishop",
    "(loss|sacrifice|sac|capture|win) of [the] bishop",
    "bishop [was|is|get] (exchange|swapped|traded) [off]",
    "bishop [was|is|get] (exchange|swapped|traded) [off] or @gone",
    "bishop [was|is|get] @gone or (exchange|swapped|traded) [off]",
    "bishop (loss|sacrifice|blunder)",
    "end (by|with) [a|the] (loss|capture) of [the] bishop",
    "last piece (take|capture) [was|is] [the] [attacker] bishop",
  ),
  ends(
    'captured = "defender\'s rook"',
    "[defender] rook [was|is|get] (taken|captured|capture|take) (at|in) [the] [very] @finish",
    "defender rook (take|capture)",
    "[defender] rook [was] (taken|captured) [by]",
    "(take|capture) [the] [defender] rook",
  ),
  {
    say: [
      "(sacrifice|offer|give up) [its|the|a] rook",
      "(give away|@giveup) [its|his|the|a] rook (on purpose|deliberately|intentionally|voluntarily)",
      "rook [was] (sacrificed|given up)",
      "rook (sacrifice|sac)",
    ],
    means: {
      nobody: 'captured = "defender\'s rook"',
      defender: 'captured = "defender\'s rook"',
      attacker: 'captured = "attacker\'s rook"',
    },
    or: [["stalemate-resource", "a rook that may not be taken"]],
    end: true,
  },
  ends(
    'captured = "defender\'s rook" and final-verdict = won',
    "rook [was] (lose|dropped|blundered|was won|fell|gobbled up)",
    "defender @dropping [its|the|a] rook",
    "[attacker] (win|loss of|pick up|gain) [the] [defender] rook",
  ),
  ends(
    {
      nobody: 'captured = "defender\'s rook" and final-verdict = won',
      defender: 'captured = "defender\'s rook" and final-verdict = won',
      attacker: 'captured = "attacker\'s rook"',
    },
    "@dropping [its|the|a] rook",
  ),
  ends(
    'captured = "defender\'s rook" and final-verdict = won and somewhere (skewer = attacker)',
    "[defender] (lose|drop|blunder) [its|a] rook (to|by|through) [a] skewer",
    "[defender] rook (lose|win|fall|drop|dropped) (to|by|through) [a] skewer",
    "skewer [that] (win|won|gain) [the] rook",
  ),
  ends(
    'captured = "defender\'s rook" and final-verdict = won and somewhere (fork = attacker)',
    "[defender] (lose|drop|blunder) [its|a] rook (to|by|through) [a] fork",
    "[defender] rook (lose|win|fall|drop|dropped) (to|by|through) [a] fork",
    "fork [that] (win|won|gain) [the] rook",
  ),
  ends(
    'captured = "defender\'s rook" and final-verdict = won and (somewhere (fork = attacker) or somewhere (skewer = attacker))',
    "[defender] (lose|drop|blunder) [its|a] rook (to|by|through) [a] (fork or [a] skewer|skewer or [a] fork)",
    "[defender] rook (lose|win|fall|drop|dropped) (to|by|through) [a] (fork or [a] skewer|skewer or [a] fork)",
  ),
  ends(
    'captured = "attacker\'s bishop" and (somewhere (fork = defender) or somewhere (skewer = defender))',
    "[attacker] bishop (lose|win|fall|drop) (to|by|through) [a] (fork or [a] skewer|skewer or [a] fork)",
    "(lose|drop|blunder) [its|the|a] bishop (to|by|through) [a] (fork or [a] skewer|skewer or [a] fork)",
  ),
  ends(
    'captured = "attacker\'s rook"',
    "@arook [was|is|get] @gone [by|to] [the] [defender] [rook|king]",
    "attacker (@dropping|give up) [its|the|a] rook",
    "(defender|king) @taking [the] @arook",
    "@taking [the] @arook",
  ),
  ends(
    'captured = "attacker\'s rook" or (captured = "defender\'s rook" and final-verdict = drawn)',
    "rook exchange [off]",
    "exchange [off] [of] [the] rook",
    "exchange rook [off]",
    "(offer|agree|decide|force) to exchange [the|a pair of] [pair of] rook",
    "rook (come|came) off",
    "(allow|let|permit|accept|offer|agree to|go for|force) [the|an|a] exchange of [the] [pair of] rook",
    "(allow|let|permit|accept|offer|agree to|go for|force) [the|a] rook exchange",
    "exchange of [the] [last] [pair of] rook",
  ),
  {
    say: [
      "(in|from) [a] [@theory] {verdict} position",
      "(although|though|while|when|but|even though) [the] [attacker|he|she|they|it] [still] (have|had) [a] [@theory] {verdict} (position|game|ending|one) [(at|in) [the] [very] @finish]",
      "(although|though|despite|while|when|even though) [being] [@theory] [a] {verdict} [position|game]",
      "(in|from) [a] position (that|which) (was|is) [@theory] {verdict}",
      "(although|though|while|when|but|even though) (it|position|ending) (was|is) [still] [@theory] [a] {verdict} [position|game]",
    ],
    means: "verdict = {verdict}",
    atEnd: "final-verdict = {verdict}",
    example: "agreed drawn in a won position",
  },
  {
    say: ["(although|though|while|when|even though) [the] attacker (was|is) [@theory] win"],
    means: "verdict = won",
    atEnd: "final-verdict = won",
  },
  {
    say: [
      "contradict [the] [final] verdict",
      "result (contradict|against|not fit|disagree with) [the] [final] (verdict|position|table)",
      "result contradict [the] (final verdict|verdict of [the] (final|last) position)",
      "result (is|was) not what [the] (final|last) position (deserve|say)",
    ],
    means: "contradicts",
  },
];
