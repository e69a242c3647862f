// What happened, as people tell it in whole sentences: "still got his half point", "within ten moves of that".

import { ATTACKER_WON, DREW, HELD, LOST, NO_MISTAKES, type Phrase, RESIGNED, ends, say } from "./phrase.js";

const ONLY_HOLD = "to-move = defender and verdict = drawn and only-move";
const ONLY_WIN = "to-move = attacker and verdict = won and only-move";

const GAVE_WIN_AWAY = "(to-move = attacker and verdict = won and error = half)";
/** A win given away, and back, and away again. */
const swung = (then: string, again: boolean): string =>
  `${GAVE_WIN_AWAY} ${then} (to-move = defender and verdict = drawn and error != none)${again ? ` then ${GAVE_WIN_AWAY}` : ""}`;

export const SENTENCES: readonly Phrase[] = [
  // how the game came out
  {
    say: ["(have|had) to (defend|@hold) [,] (and|but) [he|she|they|it] did [so|defend|hold|survive]"],
    means: HELD,
    of: "defender",
    result: true,
    example: "had to defend, and did",
  },
  {
    say: [
      "(get|save|secure|earn|claim|take|keep) (his|her|its|their) half [a] point",
      "all [the] way to [a|the] draw",
      "(come|get|walk|got) away with [a|the] (draw|half [a] point)",
      "(end|finish|turn out|come out) [up] (as|in) (draws|[a] draw)",
      "(peace|points shared|half a point each)",
    ],
    means: DREW,
    result: true,
    example: "still got his half point",
  },
  {
    say: [
      "(save|rescue) (it|himself|herself|themselves|everything)",
      "(saved|rescued) [by] [the] [defender]",
      "(make|made) it [through]",
      "(keep|kept) [the] (draw|half point|balance) to [the] (end|finish|last)",
      "(get|got) out alive",
    ],
    means: HELD,
    of: "defender",
    result: true,
    example: "saved it anyway",
  },
  // a side that was lost stood badly; a game that was lost is over
  {
    say: ["(was|were) [now|already|soon|suddenly|then] [@theory] lost"],
    means: {
      nobody: "outcome = lost",
      defender: "verdict = won",
      attacker: "verdict = lost",
      white: "result = 0-1",
      black: "result = 1-0",
      name: "loser ~ {name}",
    },
    example: "defender reached the Philidor and was lost",
  },
  {
    say: ["game [that|which] (was|were|is|are) lost"],
    means: LOST,
    result: true,
    example: "defender erred and the game was lost",
  },
  {
    say: [
      "(end|finish|turn out|come out) [up] (as|in) (losses|[a] loss|defeat|[a] defeat)",
      "(go|went) on to lose",
    ],
    means: LOST,
    result: true,
    example: "went on to lose",
  },
  {
    say: [
      "(end|finish|turn out|come out) [up] (as|in) (wins|[a] win|victory|[a] victory)",
      "(go|went) on to win",
      "[still|nevertheless] win (it|[the] game) [anyway|all the same|nonetheless]",
      "(get|take|score|bring home) [the] (full|whole) point",
      "(bring|brought|carry|carried|drive|drove) [it|the (win|point|game)] home",
    ],
    means: ATTACKER_WON,
    unsaid: "attacker",
    result: true,
    example: "went on to win",
  },
  {
    say: ["[so] badly that (he|she|it|they) (end up|went on to|even|actually) (lose|losing|lost)"],
    means: {
      nobody: "defender-result = won",
      attacker: "defender-result = won",
      defender: "outcome = lost",
      white: "result = 0-1",
      black: "result = 1-0",
      name: "loser ~ {name}",
    },
    result: true,
    example: "attacker blundered so badly that he ended up losing",
  },
  {
    say: ["(surrender|capitulate|stop the clock|turn down [the] king)"],
    means: RESIGNED,
    end: true,
    weak: true,
    example: "defender capitulated",
  },
  {
    say: [
      "[the] game (was|is|be) over (within|in|inside|no more than) {n} move (after that|of that|later|from there|afterwards|from then on)",
      "(within|in|inside|no more than|at most|less than) {n} move (after that|of that|later|afterwards|from (there|then on|that point|that moment))",
      "(after|of) that (within|in|inside|no more than|at most) {n} move",
    ],
    means: "moves-left <= {n}",
    example: "king in the corner, lost within ten moves of that",
  },
  {
    say: [
      "[still] (need|take|require|want) [at least|over|more than] (another|further) {n} [move] [to (win|mate|finish|convert)]",
    ],
    means: {
      nobody: "moves-left >= {n}",
      attacker: "moves-left >= {n} and outcome = lost",
      defender: "moves-left >= {n} and outcome = held",
    },
    example: "mate in five, attacker needed another twenty moves",
  },
  // nothing given away
  {
    say: [
      "(without|never|not) [{who}] [ever|once] put [a] foot wrong",
      "(without|never|not) [ever|once] (@err|slip|falter|stumble) [even] once",
      "(never|not) [ever|once] (@err|slip|falter|stumble)",
      "(without|never) [once] (@err|slip|falter|stumble|going wrong)",
    ],
    means: NO_MISTAKES,
    example: "never slipped once",
  },
  say(
    "errors = 0",
    "(neither|without either|without any) (player|side|of them) [ever|once] put [a] foot wrong",
  ),
  // what the position was when the ending arose, and at its end
  {
    say: [
      "from [a] position (that|which) (was|is) [a] [@theory] {verdict} @atbegin",
      "[the] {verdict} (starting|start|initial|opening|first) (position|ending|game)",
    ],
    means: "entry-verdict = {verdict}",
    example: "lost from a drawn starting position",
  },
  {
    say: [
      "(although|though|while|when|but|even though|with) [the] (board|position|table|tables|tablebase|theory|book) (said|say|saying|called it|gives|gave|show|showed) [it] [was] [a] [@theory] {verdict}",
      "(although|though|while|when|but|even though) [the] position (was|is) [still] [@theory] {verdict} [for [the] (other side|opponent|attacker|stronger side)] [at [the] [very] @finish]",
    ],
    means: "verdict = {verdict}",
    atEnd: "final-verdict = {verdict}",
    example: "lost on time although the board said draw",
  },
  {
    say: [
      "(in|from) [a] position (that|which) (was|is|were) [still] [@theory] (drawn|draw)",
      "(in|from) [a] position [he|she|they|it] (could|should) [have|still] (draw|drawn|held|hold|saved|save)",
    ],
    means: "verdict = drawn",
    atEnd: "final-verdict = drawn",
    example: "resigned in a position that was objectively drawn",
  },
  ends(
    'ended-by = "fifty moves"',
    "claim [,] [or] [was] (given|granted|awarded) [,] [the|a] fifty move draw",
    "(claim|given|granted|awarded|get|got) [the|a] fifty move draw",
    "fifty move draw [was] (claim|given|granted|awarded)",
  ),
  say(
    "verdict = won and beyond-fifty",
    "(=win|=mate) [would|will|could] [have] (take|taken|need|needed|require|required) (so|too) (long|many move) [that|for] [the] fifty move [rule|count|counter|clock] [would] [have] [run out|expire|come|be up] [first|before]",
    "fifty move [rule|count|counter|clock] (would|will) [have] (run out|expire|be up|come) (first|before [the] mate)",
    "(=win|=mate) (that|which) [the] fifty move [rule] (would|will) [have] (stop|cancel|spoil|prevent|rob)",
  ),
  say(
    "verdict = won and dtm {rel}",
    "=mate (was|is|were|be|lie|lay) [still] {rel} move (off|away|distant|ahead|further on)",
    "=mate [still] {rel} move (off|away|distant|ahead)",
  ),
  say(
    "throughout (verdict = {verdict})",
    "(stay|remain|be|is|was) [@theory] {verdict} (@allthrough|throughout|all [the] way [through]|all along)",
  ),
  say(
    "verdict = won and dtm <= {n}",
    "=mate (was|is|be) {n} move (away|off|distant) (at [the] most|or (less|fewer))",
  ),
  say(
    "never ({mover}kind = check)",
    "(give|play|make) (no|not [a] [single]|never [a]) check [at all] [(in|during|throughout) [the] [whole|entire] (ending|game)]",
    "(never|not [once]) give [a|any] [single] check [(in|during|throughout) [the] [whole|entire] (ending|game)]",
  ),
  // what was given away and came back
  say(
    "{swings}",
    "[the] (win|verdict|position|game|evaluation) (change|turn|switch|swing|go|move) [from [a] win] (to|into) [a] draw and back [again] [(to|into) [a] win] {swings}",
    "(swing|switch|change|go) between [a] win and [a] draw {swings}",
    "[the] win (thrown away|lost|gone) and (regained|back|got back|won back) {swings}",
  ),
  say(
    swung("then within 1 move", true),
    "@letslip [,] [and|but] @gotback (on|with) [the] [very] next move [because [the] (other|opponent|defender) [one|side|player|man] [@err|err] [too|as well]] [,] [and|but] [then] @letslip [once] again",
  ),
  say(
    swung("then", true),
    "@letslip [,] [and|but] @gotback [,] [and|but|only to] [then] @letslip [once] again",
  ),
  say(swung("then within 1 move", false), "@letslip [,] [and|but] @gotback (on|with) [the] [very] next move"),
  say(swung("then", false), "@letslip [,] [and|but] [then|later] @gotback"),
  say(
    "held (verdict = won) for {n} moves",
    "(was|were|be|been|is|stand|stood) [already] [@theory] (lost|losing|busted|winning) for [at least|more than|over|some] {n} move [or more]",
  ),
  say(
    "held (verdict = drawn) for {n} moves",
    "(was|were|be|been|is|stay|stayed) [still] [@theory] (drawn|[a] draw) for [at least|more than|over|some] {n} move [or more]",
  ),
  say(
    "to-move = attacker and verdict = won and error != none",
    "[the] win (was|is|be|were) (lost|gone|dropped|let slip|frittered away)",
  ),
  say(
    "to-move = defender and verdict = drawn and error != none",
    "[the] draw (was|is|be|were) (lost|gone|dropped|let slip|frittered away)",
  ),
  say(
    "count ({mover}only-move) {least}",
    "{least} [of [the|his|its|her]] move (was|were|be) [all] only move",
  ),
  // one move alone
  say(
    `${ONLY_HOLD} and needed = {kind}`,
    "@savingmove [,] [and] (that|it|which|this) [move] (was|is|be) [a] {kind}",
  ),
  say(
    `${ONLY_HOLD} and needed = {first} and needed = {next}`,
    "@savingmove [,] [and] (that|it|which|this) [move] (was|is|be) [a] {moved=first} {kind=next}",
  ),
  say(ONLY_HOLD, "@savingmove"),
  say(
    `${ONLY_WIN} and needed = {kind}`,
    "[@onlyone] {kind} [that|which] win @nothingelse",
    "@winmove [,] [and] (that|it|which|this) [move] (was|is|be) [a] {kind}",
    "[a] lone {kind} (that|which) win",
  ),
  say(
    `${ONLY_WIN} and needed = {kind} and not (needed = check or needed = capture)`,
    "[a] quiet {kind} [that|which] win @nothingelse",
  ),
  say(`${ONLY_HOLD} and needed = {kind}`, "[@onlyone] {kind} [that|which] @hold @nothingelse"),
  say(
    "holding = {kind}",
    "[,] [with|and] (one|at least one) of (them|these|which) [be|is|was|being] [a] {kind}",
  ),
  say(
    "{mover}legal {cmp} and keeping = 1",
    "@onlyone [move] [out] of {cmp} [possible|legal|available] move (keep|hold|preserve|save) [the] (win|draw|result|game|balance)",
    "@onlyone of [the] {cmp} [possible|legal|available] move (keep|hold|preserve|save) [the] (win|draw|result|game|balance)",
    "@onlyone [move] [out] of {cmp} [possible|legal|available] move (win|hold|draw|work)",
  ),
  say("error != none", "(it|this|that move) (was|were|be) (missed|overlooked|not found|not seen|not played)"),
  say(
    "{mover}error = none and spent {time}",
    "[the] [player|he|she|they|defender|attacker] (find|play|make|choose) (it|the move|that move) (in|within|after) [only|just] {time}",
  ),
  // pieces that keep others away
  say(
    "kings-files-apart = 0 and lines-between-kings {cmp}",
    "[both] king [stand|be] [on] [the] same file [,] [with] {cmp} (rank|square|line) between [them]",
  ),
  say("rook-side = short", "@rook [was|is] cut off (on|at) [the] short side"),
  {
    say: ["[the] enemy king [stand|be] {spot}"],
    means: { attacker: "{spot.king}", defender: "{spot.attacker-king}" },
    ofNext: true,
    example: "the only winning move is a check, enemy king on the h-file",
  },
  {
    say: [
      "@aking [not] [can] [get] (through|across|past|over) because [the] @rook (hold|keep|cut|shut|bar) (him|it) (off|out|back|away) (along|on|by) [a|the] {line}",
      "[attacker] [own] king (could|can) not (get|come|go|step) (through|across|past|over) [because] [the] rook (hold|keep|cut|shut|bar) (him|it) (off|out|back|away) (along|on|by) [a|the] {line}",
      "@rook (hold|keep|cut|shut|bar) (him|it|@aking) (off|out|back|away) (along|on|by) [a|the] {line}",
    ],
    means: "attacker-king-barred = {line}",
    example: "attacking king barred by the rook along a rank",
  },
];
