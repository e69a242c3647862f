// The lexicon: what people say, and what it means in canonical form. This file is data; the patterns' notation is told in
// phrase-pattern.ts, how conditions are put together in reading.ts. A synonym is one more word in a line here.

import type { Order } from "./orders.js";

/** British spelling is the one used; these are read as it. Names of set-ups as people misspell them stand here too. */
export const SPELLINGS: Readonly<Record<string, string>> = {
  defense: "defence",
  defenses: "defences",
  color: "colour",
  colors: "colours",
  colored: "coloured",
  center: "centre",
  cochran: "cochrane",
  cochranes: "cochrane",
  cockrane: "cochrane",
  philidors: "philidor",
  philador: "philidor",
  phillidor: "philidor",
  szens: "szen",
  lollis: "lolli",
  wk: "white",
  setup: "set-up",
  checkmate: "mate",
  checkmated: "mated",
  checkmates: "mate",
  mutual: "reciprocal",
  "½": "half",
  "&": "and",
  "w/": "with",
  "w/o": "without",
  vs: "against",
  v: "against",
  versus: "against",
  "50": "fifty",
  elo: "rated",
  cannot: "not",
  "can't": "not",
  "didn't": "not",
  "doesn't": "not",
  "couldn't": "not",
  "wasn't": "not",
  "isn't": "not",
  "don't": "not",
  "won't": "not",
};

/** Forms of words that no rule gives. */
export const FORMS: Readonly<Record<string, string>> = {
  agree: "agreed agreeing agrees",
  arise: "arose arises arisen",
  attack: "attacked attacking attacks",
  bar: "barred barring bars",
  begin: "began begun begins beginning",
  blunder: "blundered blundering blunders",
  capture: "captured capturing captures",
  check: "checked checking checks",
  cut: "cuts cutting",
  decide: "decided decides deciding",
  defend: "defended defending defends",
  defender: "def",
  deliver: "delivered delivers delivering delivery",
  discover: "discovered discovers discovery discoveries",
  draw: "drew drawn draws drawing",
  end: "ended ending ends",
  enter: "entered enters entering",
  escape: "escaped escapes escaping",
  err: "erred errs erring",
  exchange: "exchanged exchanges exchanging traded trades trade swapped swap swaps",
  fail: "failed fails failing",
  find: "found finds finding",
  flag: "flagged flags flagging",
  fork: "forked forks forking",
  get: "got gets getting gotten",
  give: "gave gives given giving",
  go: "went goes gone going",
  hold: "held holds holding",
  keep: "kept keeps keeping",
  last: "lasted lasts lasting",
  leave: "left leaves leaving",
  lose: "lost loses losing loss losses",
  make: "made makes making",
  mate: "mated mates mating",
  miss: "missed misses missing",
  move: "moved moves moving",
  outrate: "outrated outrates outrating outranked",
  pass: "passed passes",
  pin: "pinned pins pinning",
  play: "played plays playing",
  rank: "row rows",
  rate: "rated rates rating ratings",
  reach: "reached reaches reaching",
  resign: "resigned resigns resigning resignation resignations",
  save: "saved saves saving",
  skewer: "skewered skewers skewering",
  spend: "spent spends spending",
  sacrifice: "sacrificed sacrifices sacrificing sac sacs sacked",
  offer: "offered offers offering",
  mishandle: "mishandled mishandles",
  misplay: "misplayed misplays misplaying",
  occupy: "occupied occupies",
  flee: "fled flees",
  occur: "occurred occurs",
  happen: "happened happens",
  spoil: "spoiled spoilt spoils spoiling",
  stalemate: "stalemated stalemates",
  stand: "stood stands standing",
  start: "started starts starting",
  stay: "stayed stays staying remained remains remain",
  triangulate: "triangulated triangulates triangulating",
  mess: "messed messes messing",
  step: "stepped steps stepping",
  switch: "switched switches switching",
  survive: "survived survives surviving",
  take: "took takes taken taking",
  threaten: "threatened threatens threatening threat threats",
  throw: "threw throws thrown throwing",
  turn: "turned turns turning",
  win: "won wins winning",
  overlook: "overlooked overlooks overlooking",
  slip: "slipped slips slipping",
  need: "needed needs needing",
  require: "required requires requiring",
  claim: "claimed claims claiming",
  follow: "followed follows following",
  press: "pressed presses pressing",
  try: "tried tries trying",
  hang: "hung hangs hanging",
  break: "broke broken breaks breaking",
  blow: "blew blown blows blowing",
  let: "lets letting",
  see: "saw seen sees",
  come: "came comes coming",
  run: "ran runs running",
  fall: "fell falls falling fallen",
  continue: "continued continues continuing",
  walk: "walked walks walking",
  ruin: "ruined ruins",
  squander: "squandered squanders",
  waste: "wasted wastes",
  convert: "converted converts",
  succeed: "succeeded succeeds",
  collapse: "collapsed collapses",
  crack: "cracked cracks",
  crumble: "crumbled",
  defeat: "defeated defeats",
  repeat: "repeated repeats repeating",
  finish: "finished finishes",
  choose: "chose chosen chooses",
  use: "used uses using",
  adopt: "adopted adopts",
  answer: "answered",
  guard: "guarded guards guarding",
  change: "changed changes changing",
  have: "had has having",
  slide: "slid slides sliding",
  allow: "allowed allows allowing",
  prevent: "prevented prevents preventing",
  beat: "beats beaten beating",
  drive: "drove driven drives driving",
  release: "released releases releasing",
  protect: "protected protects protecting",
  trap: "trapped traps",
  face: "faced faces facing",
  oppose: "opposed",
  prevail: "prevailed",
  triumph: "triumphed",
  rescue: "rescued",
  grind: "ground",
  suffer: "suffered",
  abandon: "abandoned abandons abandoning",
  within: "inside",
  swing: "swung swings swinging",
  shift: "shifted shifts",
  flip: "flipped flips",
  stumble: "stumbled stumbles stumbling",
  shield: "shielded shields shielding screened screens screening sheltered shelters covered covers",
  interpose: "interposed interposes interposing",
  pick: "picked picks picking",
  net: "netted nets",
  permit: "permitted permits",
  accept: "accepted accepts",
  falter: "faltered falters",
  return: "returned returns",
  punish: "punished punishes",
  spot: "spotted spots",
  quit: "quits",
};

export const ORDINALS = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];
export const NUMBER_WORDS: Readonly<Record<string, number>> = {
  zero: 0,
  one: 1,
  single: 1,
  two: 2,
  couple: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  eleven: 11,
  twelve: 12,
  dozen: 12,
  thirteen: 13,
  fourteen: 14,
  fifteen: 15,
  sixteen: 16,
  seventeen: 17,
  eighteen: 18,
  nineteen: 19,
  twenty: 20,
  thirty: 30,
  forty: 40,
  fifty: 50,
  sixty: 60,
  seventy: 70,
  eighty: 80,
  ninety: 90,
  hundred: 100,
};

/** Words that may stand between any two others and say nothing there. */
export const LIGHT: ReadonlySet<string> = new Set(
  "already own finally eventually simply somehow the a an this that these those there it its his her their is was are were be been being has have had having do does did to of in on at for by from as actually really stands stand standing stood placed posted sits sit sat sitting".split(
    " ",
  ),
);

/** Words that may stand between conditions and say nothing of their own. */
export const FILLERS: ReadonlySet<string> = new Set(
  (
    "game games ending endings endgame endgames position positions case cases example examples instance instances one ones " +
    "exercise exercises puzzle puzzles study studies forced must people person anybody anyone me us tell am looking old who which whose where when what how often many all any some every find show" +
    " list search look please i want we need see still nevertheless nonetheless anyway yet though although even just " +
    "also so they he she him them you about someone somebody himself itself seen happened " +
    "occurred occur came come comes could would should may might can theoretically actually really eventually finally " +
    "however managed manage able happens happen again if give play plays because while theory practice there's board made played got player players anything everything something whole sort show showed shown appear appeared appears all successfully comfortably easily safely clearly somehow together percentage percent proportion number frequency attempt attempts share"
  ).split(" "),
);

/**
 * Words that judge and say nothing that could be looked up. Where a question is not understood with them, it is read
 * without, and they are told. Only words that take nothing away from the meaning: not "rare", not "quick", not "good".
 */
export const PASSED_OVER: ReadonlySet<string> = new Set(
  (
    "actual amazing astonishing astounding authentic awful beautiful boring brave brilliant celebrated certain clear " +
    "clever complicated concrete cruel cunning curious cute decent desperate didactic difficult dramatic dreadful dull " +
    "educational elegant enjoyable entertaining entire epic exciting fabulous famous fantastic fascinating fine funny " +
    "clean genuine gorgeous great heroic historic horrible horrific illustrative important impressive incredible indeed " +
    "informative ingenious instructive interesting legendary lovely lucky magnificent marvellous memorable " +
    "miraculous model neat nice notable notorious obvious odd outright outstanding painful particular plain pretty " +
    "proper practical quite rather real relevant remarkable sad sensational sharp shocking silly simple specific " +
    "spectacular splendid straightforward strange striking stupid subtle suitable superb surprising tense terrible " +
    "terrific textbook thematic thrilling tragic tricky trivial typical ugly unbelievable unfortunate unforgettable " +
    "unlucky useful very weird wonderful worthwhile classic"
  ).split(" "),
);

/** Words that are passed over only before some others: a forced win is a win. */
export const PASSED_BEFORE: Readonly<Record<string, readonly string[]>> = {
  forced: ["win", "mate", "draw", "loss"],
  complete: ["draw", "game", "ending"],
  textbook: ["example", "game", "defence", "win", "draw"],
};

/** Words in -ly that say something, or are no adverbs: a question with one that is not known is refused. */
export const ADVERBS_THAT_MATTER: ReadonlySet<string> = new Set(
  (
    "hardly barely scarcely nearly rarely only early equally partly partially frequently regularly occasionally quickly " +
    "slowly rapidly swiftly promptly instantly immediately shortly briefly recently lately newly formerly previously " +
    "simultaneously diagonally vertically horizontally laterally frontally centrally remotely distantly closely directly " +
    "actively passively correctly accurately precisely exactly rightly wrongly falsely poorly badly optimally legally " +
    "needlessly voluntarily quietly likely possibly probably allegedly supposedly apparently exclusively solely purely " +
    "respectively jointly individually separately doubly wholly nominally virtually narrowly vainly prematurely " +
    "belatedly firstly secondly thirdly lastly daily weekly monthly yearly annually reply rely apply supply multiply " +
    "assembly family ally july italy fly bully jelly belly elderly friendly mostly mainly usually chiefly largely " +
    "differently similarly reciprocally mutually symmetrically continually repeatedly alternately randomly " +
    "voluntarily forcibly necessarily decisively suddenly gradually consistently steadily temporarily constantly"
  ).split(" "),
);

/** What a word between conditions does. */
export type JoiningKind =
  "comma" | "and" | "or" | "then" | "before" | "after" | "with" | "not" | "without" | "open" | "close";
/** Words that join conditions, and what each does. */
export const JOINING_WORDS: ReadonlyMap<string, JoiningKind> = new Map([
  [",", "comma"],
  [";", "comma"],
  ["and", "and"],
  ["or", "or"],
  ["but", "and"],
  ["because", "and"],
  ["despite", "and"],
  ["thanks", "and"],
  ["due", "and"],
  ["owing", "and"],
  ["plus", "and"],
  ["whereas", "and"],
  ["followed", "then"],
  ["until", "before"],
  ["till", "before"],
  ["then", "then"],
  ["afterwards", "then"],
  ["later", "then"],
  ["subsequently", "then"],
  ["before", "before"],
  ["after", "after"],
  ["with", "with"],
  ["without", "without"],
  ["except", "without"],
  ["not", "not"],
  ["no", "not"],
  ["neither", "not"],
  ["nor", "or"],
  ["(", "open"],
  [")", "close"],
]);

/** Groups of words that patterns use. */
export const GROUPS: Readonly<Record<string, readonly string[]>> = {
  mistake: ["mistake", "error", "blunder", "slip", "faulty move", "wrong move", "bad move", "lapse"],
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
  ],
  begin: ["start", "beginning", "entry", "very beginning", "very start", "outset", "first position"],
  atbegin: [
    "(at|from|in|by|on) [the] @begin [of ending]",
    "when [the] [bishop] ending (begin|arise|start|come about|was reached|was entered)",
    "as soon as [the] ending (begin|arise|start)",
    "at [the] (moment|time) [when] [the] ending (begin|arise|start)",
    "when it (begin|arise|start)",
    "from [the] move one",
    "(from|in|at|on) [the] [very] first (move|position) [on]",
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
  winmove: ["@onlyone win move", "@onlyone move [that|which] win", "@onlyone (way|move) to win"],
  findit: [
    "[,] (and|which|that|,) [the] [defender|attacker|white|black|he|she|they] (find|play|spot|see) [it]",
    "[was|be] (found|played|spotted|seen)",
  ],
  missit: [
    "[,] (and|but|which|that|,) [the] [defender|attacker|white|black|he|she|they] (miss|overlook|not find|not see) [it]",
    "[was|be] (missed|overlooked|not found|not played)",
  ],
  // a piece that goes
  dropping: ["lose", "drop", "blunder", "blunder away", "hang", "give away", "let go of", "part with"],
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
    ["(once|one time|exactly once|only once|just once)", "= 1"],
    ["(twice|two time|exactly twice)", "= 2"],
    ["(three time|thrice)", "= 3"],
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
    ["(at least twice)", ">= 2"],
    ["(exactly once|only once|just once)", "= 1"],
    ["(at most once|no more than once)", "<= 1"],
  ],
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
    ["king (move|step|go|run) to [the] corner", '"to corner"'],
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
      "(all the time|all along|the whole time|from start to finish|[in] every position|all [the] way [through]|[for] the whole ending)",
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
    ["(immediately|straight away|right away|at once|(on|from) move one|from the word go)", "entry"],
    ["(initially|originally|at first|to (begin|start) with)", "entry"],
    ["(start|begin|arise|open) [out|off] (with|in|from|as)", "entry"],
    ["[right] (at|by) [the] @finish [of [the] ending]", "end"],
    ["(end|finish|wind up|end up) (with|in|on|at)", "end"],
    ["(final|last) position [with|has|was|is]", "end"],
    ["(in [the] end|ultimately|end up|wind up|finish up)", "finally"],
    [
      "(from (start|beginning|first) to (finish|end|last)|(until|till|to) [the] [very|bitter] end|right through|all through|start to finish)",
      "throughout",
    ],
  ],
};

/** What something means, by whom it is about; a text is for everybody. */
export interface BySubject {
  /** For the attacker and the defender alike: `{side}` stands for which. */
  readonly side?: string;
  readonly attacker?: string;
  readonly defender?: string;
  readonly white?: string;
  readonly black?: string;
  /** A player's name: `{name}` stands for it, in quotes. */
  readonly name?: string;
  readonly both?: string;
  /** For both where they were named farther back: "both over 2500 and three blunders" counts them together. */
  readonly together?: string;
  /** Where nobody has been spoken of. */
  readonly nobody?: string;
}

/** Something that people say, as a condition. */
export interface Phrase {
  /** Patterns, each another way to say it; the first is the one that is shown and completed. */
  readonly say: readonly string[];
  /**
   * Canonical form. `{x}` is what the category x found (`{rank.mirror}` the rank from the other side, `{rel.negative}` the
   * comparison for the other player, `{square.rank}` a part of it); `{mover}` says who made the move or is to move, with an "and"
   * behind it, or nothing where nobody has been spoken of.
   */
  readonly means: string | BySubject;
  /** Other things it could mean, each with what it would then be about. */
  readonly or?: readonly (readonly [means: string, about: string])[];
  /** Who is spoken of afterwards, whoever was before: only a defender holds. */
  readonly of?: "attacker" | "defender";
  /** Who is spoken of afterwards where nobody was before: "lost with one mistake" is about the defender. */
  readonly unsaid?: "attacker" | "defender";
  /** Of nobody that is named, it is about whom the next words are about: "players under 2000 held". */
  readonly ofNext?: boolean;
  /** It says by whom something was done that stands before it: under this name is the side. */
  readonly by?: string;
  /** It says how the game came out: "drew with X" means that most positions are X. */
  readonly result?: boolean;
  /** It says how the ending was ended, so that "in a won position" is about its last position. */
  readonly end?: boolean;
  /** What it means behind a phrase with `end`. */
  readonly atEnd?: string;
  /** What it means behind a phrase with `result` or `end`. */
  readonly atResult?: string;
  /** The order of the answers that it asks for: "the longest". */
  readonly order?: Order;
  /** Why it can't be asked, and what can: of what people say and no fact tells. */
  readonly refused?: readonly [message: string, hint: string];
  /** It begins to count only where nothing better is found. */
  readonly weak?: boolean;
  /** A question that shows it, where its first pattern does not. */
  readonly example?: string;
}

const say = (means: Phrase["means"], ...patterns: string[]): Phrase => ({ say: patterns, means });
/** Says how the ending was ended. */
const ends = (means: Phrase["means"], ...patterns: string[]): Phrase => ({ say: patterns, means, end: true });

// What is said in several ways below, once.

/** Half a point for both. */
const DREW: Phrase["means"] = {
  nobody: "defender-result = drew",
  side: "defender-result = drew",
  both: "defender-result = drew",
  white: "result = 1/2-1/2",
  black: "result = 1/2-1/2",
  name: "player ~ {name} and result = 1/2-1/2",
};
/** The whole point, for the attacker where nobody is named. */
const ATTACKER_WON: Phrase["means"] = {
  nobody: "outcome = lost",
  attacker: "outcome = lost",
  defender: "defender-result = won",
  white: "result = 1-0",
  black: "result = 0-1",
  name: "winner ~ {name}",
};
/** The named side's time ran out. */
const LOST_ON_TIME: Phrase["means"] = {
  nobody: "ended-by = time",
  defender: "ended-by = time and outcome = lost",
  attacker: "ended-by = time and defender-result = won",
  white: "ended-by = time and result = 0-1",
  black: "ended-by = time and result = 1-0",
  name: "ended-by = time and loser ~ {name}",
};
/** The named side gave up. */
const RESIGNED: Phrase["means"] = {
  nobody: "ended-by = resignation",
  defender: "ended-by = resignation and outcome = lost",
  attacker: "ended-by = resignation and defender-result = won",
  white: "ended-by = resignation and result = 0-1",
  black: "ended-by = resignation and result = 1-0",
  name: "ended-by = resignation and loser ~ {name}",
};
/** Nothing given away, by the named side or by both. */
const NO_MISTAKES: Phrase["means"] = { nobody: "errors = 0", side: "{side}-errors = 0", both: "errors = 0" };
/** One side gives something away, and the other gives it back at once. */
const RETURNED =
  "((to-move = attacker and error != none) then within 1 moves (to-move = defender and error != none)) or ((to-move = defender and error != none) then within 1 moves (to-move = attacker and error != none))";
/** As many given away as is said, by the named side or by each. */
const SO_MANY_MISTAKES: Phrase["means"] = {
  nobody: "errors {cmp}",
  side: "{side}-errors {cmp}",
  both: "attacker-errors {cmp} and defender-errors {cmp}",
  together: "errors {cmp}",
};
/** The one named had the lone rook. */
const DEFENDED: Phrase["means"] = {
  defender: "everything",
  name: "defender-name ~ {name}",
  white: "attacker = black",
  black: "attacker = white",
};
/** The one named had the bishop as well. */
const ATTACKED: Phrase["means"] = {
  attacker: "everything",
  name: "attacker-name ~ {name}",
  white: "attacker = white",
  black: "attacker = black",
};

/** So many of the five men on the edge of the board: some of them, in every choice. */
function onTheEdge(n: 4 | 5): Phrase {
  const men = ["king", "attacker-king", "rook", "attacker-rook", "bishop"];
  const onEdge = (man: string) =>
    `(${man}-board-file = a or ${man}-board-file = h or ${man}-board-rank = 1 or ${man}-board-rank = 8)`;
  const all = (some: readonly string[]) => some.map(onEdge).join(" and ");
  return n === 5
    ? say(all(men), "(all|five) [five] (piece|men) on [the] edge [of [the] board]")
    : say(
        men.map((left) => `(${all(men.filter((man) => man !== left))})`).join(" or "),
        "[at least] four [or more] (piece|men) on [the] edge [of [the] board]",
      );
}

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

/** How the game came out. */
const RESULTS: readonly Phrase[] = [
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
      "[was|were|be] (lost|losing) [,] [and] then (saved|held|drawn)",
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
    "[have] [a] winner",
    "(decisively|decided)",
  ),
  {
    say: [
      "(still|nevertheless|nonetheless|even so|yet|already) =winning",
      "=winning (all the same|nonetheless|nevertheless|anyway|even so)",
    ],
    means: "verdict = won",
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
      "(hold|held) (to|till|until) the end",
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
    means: {
      nobody: "outcome = lost",
      defender: "outcome = lost",
      attacker: "defender-result = won",
      white: "result = 0-1",
      black: "result = 1-0",
      name: "loser ~ {name}",
    },
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
  withPiece("attacker", "(with|having) [the|an] [extra|additional] (bishop|piece)", "win"),
  withPiece("attacker", "(with|having) [the|an] [extra|additional] (bishop|piece)", "lose"),
  withPiece("defender", "(with|having) [only|just] [the|a] [lone] rook [only|alone]", "win"),
  withPiece("defender", "(with|having) [only|just] [the|a] [lone] rook [only|alone]", "lose"),
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
  say("outcome = held and entry-verdict = won", "(save|rescue|hold) [a] lose (position|ending|game)"),
  {
    say: ["win (within|inside) {n} move"],
    means: "outcome = lost and length <= {n}",
    unsaid: "attacker",
    result: true,
  },
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
  { say: ["1-0"], means: "result = 1-0", result: true },
  { say: ["0-1"], means: "result = 0-1", result: true },
  { say: ["(1/2-1/2|1/2|½-½|½)"], means: "result = 1/2-1/2", result: true },
  say("outcome = open", "(unfinished|no result|without [a] result|undecided)"),
];

/** How the ending was ended. */
const ENDS: readonly Phrase[] = [
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
    "[attacker] bishop (lose|win|fall|drop) (to|by|through) [a] [rook] fork",
    "(lose|drop|blunder) [its|the|a] bishop (to|by|through) [a] [rook] fork",
    "fork [that|which] (win|won|gain|pick up|cost) [the] bishop",
  ),
  ends(
    'captured = "attacker\'s bishop" and somewhere (skewer = defender)',
    "[attacker] bishop (lose|win|fall|drop) (to|by|through) [a] [rook] skewer",
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
    say: ["(end|finish) (in|by|with) mate", "by mate", "mate on [the] board", "mate at [the] @finish"],
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
      "stalemate (save|rescue) [the] (defender|game|draw|day)",
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
    say: ["win on time"],
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
  { say: ["[decide|end|finish|decided|finished] (on|by) time"], means: "ended-by = time", end: true },
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
    "@dropping [its|the|a] rook",
    "[attacker] (win|loss of|pick up|gain) [the] [defender] rook",
  ),
  ends(
    'captured = "defender\'s rook" and final-verdict = won and somewhere (skewer = attacker)',
    "[defender] (lose|drop|blunder) [its|a] rook (to|by|through) [a] skewer",
    "[defender] rook (lose|win|fall) (to|by|through) [a] skewer",
    "skewer [that] (win|won|gain) [the] rook",
  ),
  ends(
    'captured = "defender\'s rook" and final-verdict = won and somewhere (fork = attacker)',
    "[defender] (lose|drop|blunder) [its|a] rook (to|by|through) [a] fork",
    "[defender] rook (lose|win|fall) (to|by|through) [a] fork",
    "fork [that] (win|won|gain) [the] rook",
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

/** The verdict of positions, and how far the mate is. */
const VERDICTS: readonly Phrase[] = [
  say(
    "halfmoves >= 100",
    "(can|could) [have] claim [a|the] draw",
    "[a] draw (can|could) [have|be] [been] claim",
    "fifty move [rule] (could|can) [have] [be|been] claim",
  ),
  say("verdict = won and dtm <= 10", "(easy|simple) =win"),
  say("entry-verdict = {verdict}", "{verdict} already @atbegin"),
  say("entry-verdict = won", "lose already @atbegin"),
  {
    say: [
      "(from|after|in|with) [a] [@theory] {verdict} (start|beginning|entry)",
      "{verdict} (at|from) [the] [very] first (position|move)",
    ],
    means: "entry-verdict = {verdict}",
  },
  say(
    "entry-verdict = won",
    "[already] lose @atbegin [,] [through] no fault of (defender|its own|his own)",
    "[already] lose @atbegin [,] (not|no) [the] defender fault",
  ),
  say(
    "entry-verdict = won",
    "[already] won (at|from|in) [the] @begin",
    "(win|won) for [the] {side=winner} (at|from|in) [the] @begin",
    "[already] (win|win for [the] attacker) @atbegin",
    "@theory win @atbegin",
    "[already] lose [for [the] defender] @atbegin",
    "start [out] (win|lose)",
    "(begin|arise|enter [the] ending) [out] (as|in|with|from) [a] [@theory] (win|lose) [position|game|ending]",
    "(begin|arise) [out] [@theory] (won|lost|winning|losing)",
    "(won|lost|winning|losing) to (begin|start) with",
    "(won|lost|winning|losing) at first",
    "(start|begin) [out] as [a] [@theory] win",
    "@atbegin (win|lose)",
    "entry (win|lose)",
    "lose ^ending",
  ),
  say(
    "entry-verdict = drawn",
    "drawn (at|from|in) [the] @begin",
    "[@theory] draw @atbegin",
    "start [out] [as] [a] draw",
    "(begin|arise|enter [the] ending) [out] (as|in|with|from) [a] [@theory] draw [position|game|ending]",
    "(begin|arise) [out] [@theory] =drawn",
    "drawn to (begin|start) with",
    "drawn at first",
    "(start|begin) [out] as [a] [@theory] draw",
    "@atbegin [a] draw",
    "entry draw",
    "(draw|drawn) ^ending",
  ),
  say("final-verdict = {verdict}", "final verdict [of|is|was] {verdict}"),
  say("entry-verdict = {verdict}", "(entry|first) verdict [of|is|was] {verdict}"),
  say(
    "final-verdict = won",
    "(final|last) position [a] win",
    "win in [the] final position",
    "win at [the] @finish",
  ),
  say("final-verdict = drawn", "(final|last) position [a] draw", "draw in [the] final position"),
  say(
    "verdict = won",
    "(theoretical|objective|book) win",
    "attacker (stood|stands|is standing) (winning|won)",
    "defender (is|was|stood) (@theory) lose",
    "defender (is|was) (lost|losing|busted) (at some point|at one point|at some time|at some stage|once|for a while)",
    "won at (some|one) (point|time|stage)",
    "win position",
    "(reach|get|have|obtain) [a] win position",
    "@theory win",
    "win for [the] attacker",
    "@theory win for [the] attacker",
    "lose for [the] defender",
    "lose position",
    "@theory lose",
    "position win",
    "table win",
    "attacker (is|was) win",
  ),
  {
    say: [
      "[@theory|still|already] (win|won|winning) for {colour}",
      "[although|though|while|when|but|even though] (it|position|ending|this|that) [was|is] [still|already] [@theory] (win|won|winning) for {colour}",
    ],
    means: "verdict = won and attacker = {colour}",
    atEnd: "final-verdict = won and attacker = {colour}",
    example: "winning for Black",
  },
  say(
    "verdict = drawn",
    "(theoretical|objective|book|dead) draw",
    "draw position",
    "@theory draw",
    "position draw",
    "table draw",
  ),
  say(
    "verdict = won and dtm = {n}",
    "=mate in [exactly] {n} [move]",
    "distance to mate [of|is] [exactly] {n} [move]",
    "=win in [exactly] {n} [move]",
    "=win (take|need|require) [exactly] {n} [move]",
  ),
  say(
    "verdict = won and dtc {cmp}",
    "(conversion|convert) [possible] (in|within) {cmp} [move]",
    "distance to conversion [of|is] {cmp} [move]",
    "conversion {cmp} move away",
  ),
  say("verdict = won and dtc <= {n}", "(conversion|convert) within {n} [move]"),
  say(
    "verdict = won and dtm <= {n}",
    "=mate within {n} [move]",
    "=mate in {n} [move] or (less|fewer|quicker|sooner|faster|earlier|better|shorter) [move]",
    "=mate in {n} [move] at [the] (most|latest)",
  ),
  say("verdict = won and dtm = {range}", "distance to mate [of|is] {range}", "mate in {range} [move]"),
  say(
    "verdict = won and dtm {rel}",
    "long win [,] mate in {rel}",
    "(long|distant|deep|far) =mate [,] {rel} [move]",
    "[@theory] =win (of|in) {rel} move",
    "{rel} move [to|from|until|before|till] =mate",
    "{rel} move away from mate",
    "attacker need {rel} move to mate",
    "mate (need|take|require) {rel} [move]",
    "need {rel} move to mate",
    "=mate in {rel} [move]",
    "mate {rel} [move] away",
    "distance to mate [of|is] {rel} [move]",
    "=win (that|which) (take|need|require|last) {rel} [move]",
    "=win (take|need|require) {rel} [move]",
    "(take|need|require) {rel} move to (mate|win)",
    "=win in {rel} [move]",
  ),
  say(
    "beyond-fifty",
    "beyond [the] fifty [move] [rule]",
    "(too late|too long|too slow|too far|too far away|not in time) [for|under|because|because of|due to|thanks to|by] [the] fifty [move] [rule|limit]",
    "(win|mate) [that|which] come too late [for|under] [the] [fifty move rule]",
    "[a] draw (could|can) [be] claim (under|by|with) [the] fifty move rule",
    "fifty move [rule] come first",
    "fifty move rule (save|rescue) [the] [defender]",
    "outside [the] fifty [move] [rule]",
    "(win|won) [but] (spoil|ruined|prevented|stopped|barred) by [the] fifty move [rule]",
  ),
  say(
    "fifty-verdict = {verdict}",
    "{verdict} (under|by|with) [the] fifty move rule",
    "{verdict} even (under|with) [the] fifty move rule",
  ),
  say(
    "{mover}error != none and fifty-error = none",
    "@mistake on paper only",
    "@mistake only on paper",
    "@mistake [that|which] cost nothing under [the] fifty move rule",
  ),
  say(
    "{mover}fifty-error != none",
    "@mistake (under|by|with) [the] fifty move rule",
    "@err under [the] fifty move rule",
    "@mistake [that] (lose|cost something) even (with|under|by) [the] fifty move rule [taken into account]",
    "@err even (with|under|by) [the] fifty move rule",
    "(gave|give) (something|half a point) away under [the] fifty move rule",
  ),
  say(
    "beyond-fifty and verdict = won",
    "win on paper [only] [but] beyond [the] fifty [move] [rule]",
    "(win|won) [on paper] [only] [,] [but|yet|though] [coming] (too late|too slow|not in time) [for|under|because|because of|due to] [the] fifty move [rule]",
    "(win|won) [,] [but|yet|though] (too late|too slow|too long|too far|too far away|too far off|not in time) for [the] fifty move [rule|limit]",
    "(win|won) on paper [,] [but|yet|though] [the] fifty move [rule] (come|comes) (first|too early)",
    "(win|won) [on paper] [only] [,] [but|yet|though] [the] fifty move rule (save|saves|rescue) [the] [defender]",
    "(win|won) position [but] [the] fifty move [rule] come first",
  ),
  say(
    "halfmoves {rel}",
    "{rel} half move [on [the] counter]",
    "half move (counter|clock) {rel}",
    "fifty move counter {rel}",
  ),
  say(
    "halfmoves {rel.double}",
    "{rel} move (on|of) [the] fifty move (count|counter|clock)",
    "{rel} move without [a] capture",
  ),
  say("beyond-fifty and verdict = won", "cursed win", "blessed loss"),
  say(
    "halfmoves > 100",
    "(go|went|continue|carry on|play on|played) [on] (past|beyond|over|after) [the] fifty [move] [mark|limit] [without [a] [draw] claim|(and|but|with) [nobody|no one|neither side|not] claim [a] [draw]]",
    "(not|no|never|nobody|without [a]|no one|neither (side|player)) [a] [draw] claim [a] [draw] (after|despite|in spite of) [the] [more than] fifty move [rule]",
    "fifty move (passed|up|were over|were up|had passed) [,] [but|and] [the] [game] (go|went) on",
    "(more than|over) fifty move (without [a] capture|) [,] (and|but) [nobody|no one|neither side|not] claim [a] [draw]",
    "(could|might|should) have claim [a|the] draw [,] [but [did] not [do so]]",
    "draw [could|might] [have] [been] claim [,] but (was not|not)",
  ),
  say("zugzwang", "zugzwang"),
  {
    say: [
      "(in|under) zugzwang",
      "zugzwang",
      "(fall|come|get|run|be squeezed|squeezed|forced|put|driven) into zugzwang",
      "(fall|come|get) in zugzwang",
    ],
    means: {
      nobody: "zugzwang",
      side: "zugzwang and to-move = {side}",
      white: "zugzwang and turn = white",
      black: "zugzwang and turn = black",
      name: "zugzwang and mover ~ {name}",
    },
  },
  say(
    "zugzwang and to-move = {x}",
    "(put|squeeze|squeezed|drive|force|get|bring) [the] {side=x} (in|into) zugzwang",
  ),
  say("reciprocal-zugzwang", "reciprocal zugzwang", "zugzwang for both [side]", "full point zugzwang"),
  say(
    "zugzwang and to-move = defender",
    "(would|could) @hold if (he|it|she|they|defender) (could|can) pass",
    "(would|could) (@hold|draw) if (it|this) (was|were|be) [the] (other side|attacker|opponent) (turn|move)",
    "would (@hold|draw) without having to move",
  ),
];

/** Mistakes, and moves that were the only ones. */
const MISTAKES: readonly Phrase[] = [
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
    "(no|not [a]|without [a]) @mistake in [the] first {n} move [of [the] ending]",
  ),
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
  { say: ["(decisive|game losing|final) @mistake (by|of|from) {who}"], means: "{mover}decisive-mistake" },
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
  say(RETURNED, "reciprocal @mistake", "@mistake by both in turn"),
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
    "@king (on|choose) [the] wrong (way|side|square|direction)",
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
    say: ["only {side=one} @err"],
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
      "first [@err|@mistake] (within|in) [the] [first] {n} move [of [the] (@begin|ending)]",
      "(@err|@mistake) (within|in) [the] [first] {n} move [of [the] (@begin|ending)]",
    ],
    means: "first ({mover}error != none) within {n} moves of entry",
  },
  say("{mover}error != none and moves-in < 3", "@err (right|immediately|straight|directly|already) @atbegin"),
  {
    say: ["before move {n} [of [the] ending]"],
    means: "moves-in < {n}",
    atEnd: "length < {n}",
    or: [["ply < {n.before}", "the number of the move in the game"]],
    weak: true,
    example: "mistake before move 30",
  },
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
    say: ["(after|past|beyond) move {n}"],
    means: "moves-in > {n}",
    atEnd: "length > {n}",
    or: [["ply >= {n.double}", "the number of the move in the game"]],
    weak: true,
    example: "mistake after move 30",
  },
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
      "(error free|errorless|faultless|flawless|perfect [play]|without fault|@mistake free|play perfect)",
      "not @err",
      "(no|without) [a] (error|blunder|slip) [at all]",
    ],
    means: NO_MISTAKES,
  },
  {
    say: [
      "(no|zero|without) @mistake (by|of|from) {who}",
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
  say("{whose}-errors {cmp}", "{cmp} {side=whose} @mistake"),
  say("defender-errors {cmp}", "{cmp} (defensive|defending) @mistake"),
  say("attacker-errors {cmp}", "{cmp} attacking @mistake"),
  {
    say: ["{cmp} @mistake [make] (by|of|from) {who}"],
    means: { side: "{side}-errors {cmp}", both: "attacker-errors {cmp} and defender-errors {cmp}" },
  },
  say("errors {cmp}", "{cmp} @mistake (altogether|in total|in all|overall|combined|together)"),
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
  // only moves
  {
    say: ["only move"],
    means: {
      nobody: "only-move",
      defender: "to-move = defender and verdict = drawn and only-move",
      attacker: "to-move = attacker and verdict = won and only-move",
      white: "turn = white and only-move",
      black: "turn = black and only-move",
      name: "mover ~ {name} and only-move",
    },
  },
  {
    say: ["only move (for|by|of) {who}"],
    means: {
      defender: "to-move = defender and verdict = drawn and only-move",
      attacker: "to-move = attacker and verdict = won and only-move",
      white: "turn = white and only-move",
      black: "turn = black and only-move",
    },
  },
  say(
    "to-move = defender and verdict = drawn and only-move",
    "@onlyone move [that] (@hold|be enough)",
    "@onlyone @holding move [for [the] defender]",
    "@onlyone (way|defence) to (@hold|draw)",
    "@onlyone move to (@hold|draw)",
    "only @onlyone @holding move",
  ),
  say(
    "to-move = attacker and verdict = won and only-move",
    "@onlyone move [that] win",
    "@onlyone win move [for [the] attacker]",
    "@onlyone (way|move) to win",
    "@onlyone win",
  ),
  {
    say: ["@overlook [an|the] only move", "only move [was|be] (miss|overlook|not found|not played|not seen)"],
    means: {
      nobody: "only-move and error != none",
      defender: "to-move = defender and verdict = drawn and only-move and error != none",
      attacker: "to-move = attacker and verdict = won and only-move and error != none",
      name: "mover ~ {name} and only-move and error != none",
    },
  },
  {
    say: [
      "(find|play|see|spot) [an|the] only move [(for|to) [a] draw]",
      "only move [was|be] (found|played|seen|spotted)",
    ],
    means: {
      nobody: "only-move and error = none",
      defender: "to-move = defender and verdict = drawn and only-move and error = none",
      attacker: "to-move = attacker and verdict = won and only-move and error = none",
      name: "mover ~ {name} and only-move and error = none",
    },
  },
  say(
    "to-move = attacker and verdict = won and only-move and error != none",
    "@overlook [the] @onlyone win move",
    "@onlyone win move [was|be] (miss|overlook|not found|not played)",
    "(miss|overlook) [the] @onlyone win",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and error = none",
    "(find|play|see) [the] @onlyone win move",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and error != none",
    "@overlook [the] @onlyone @holding move",
    "@onlyone @holding move [was|be] (miss|overlook|not found)",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and error = none",
    "(find|play|see) [the] @onlyone @holding move",
    "@onlyone @holding move [was|be] find",
    "@onlyone move to (@hold|draw) [was|be] find",
  ),
  say(
    "to-move = defender and verdict = drawn and keeping {cmp}",
    "[have] [only|exactly] {cmp} move (that|which) @hold [the] [draw]",
    "[have] [only|exactly] {cmp} move (hold|save|keep) [the] [draw|game|balance]",
    "(only|exactly|just) {cmp} move draw",
    "[only] {cmp} @holding move",
    "(had|have|with) [only] {cmp} @holding move",
    "[only] {cmp} (way|move) to (@hold|draw)",
  ),
  say(
    "to-move = attacker and verdict = won and keeping {cmp}",
    "[have] [only|exactly] {cmp} move [that|which] win",
    "[only] {cmp} win move",
  ),
  say(
    "to-move = defender and verdict = drawn and needed = {kind}",
    "only [a] {kind} @hold [the] [draw] [for [the] defender]",
    "(nothing|no move) but [a] {kind} @hold",
    "where only [a] {kind} @hold",
    "(must|has to|need to|have to) [give|play|make] [a] {kind} to @hold",
    "only [a] {kind} (save|keep) [the] (draw|game|defender)",
  ),
  say(
    "to-move = attacker and verdict = won and needed = {kind}",
    "only [a] {kind} win [for [the] attacker]",
    "(must|has to|need to|have to) [give|play|make] [a] {kind} to win",
  ),
  say(
    "to-move = defender and verdict = drawn and needed = {kind}",
    "(can|could) only [be] @hold (with|by) [a] {kind}",
    "[could] [be] (@hold|held|draw|saved) only (with|by) [a] {kind}",
    "only way to (@hold|draw) (was|is) [a|with a] {kind}",
  ),
  say(
    "to-move = attacker and verdict = won and needed = {kind}",
    "(can|could) only [be] win (with|by) [a] {kind}",
    "only way to win (was|is) [a|with a] {kind}",
  ),
  {
    say: ["only move (is|was) (with|by|of) [the] {moved}", "only {moved} move"],
    means: {
      nobody: "only-move and needed = {moved}",
      defender: "to-move = defender and verdict = drawn and only-move and needed = {moved}",
      attacker: "to-move = attacker and verdict = won and only-move and needed = {moved}",
    },
  },
  {
    say: [
      "(every|all) [legal|other|the other] move @loses",
      "(every|all) [legal] move [but|except] one @loses",
      "(every|all) [legal] move @loses (but|except) [for] one",
      "(one|only one) (move|reply) not lose",
      "(only|only one|one and only|sole) (defence|salvation|saving move|save)",
      "[only] (need|require|demand|call for) [a] (precise|exact|accurate|perfect) (play|move|defence|technique|reply)",
    ],
    means: {
      nobody: "to-move = defender and verdict = drawn and only-move",
      defender: "to-move = defender and verdict = drawn and only-move",
      attacker: "to-move = attacker and verdict = won and only-move",
    },
    example: "all other moves lose",
  },
  {
    say: ["(any|every|all) [legal] move (@hold|draw|keep [the] draw)", "(nothing|no move) @loses"],
    means: "to-move = defender and verdict = drawn and blunder-potential = 0",
    example: "every move holds",
  },
  say(
    "{mover}blunder-potential >= 0.5",
    "[at least] half [of] [the] [legal] (move|reply|replies) @loses",
    "half [of] [the] [legal] (move|reply|replies) or more @loses",
  ),
  say(
    "{mover}blunder-potential >= 0.75",
    "(nearly|almost) (all|every) [of] [the] [legal] (move|reply|replies) @loses",
    "three quarters of [the] [legal] (move|reply|replies) @loses",
  ),
  say(
    "{mover}possible = {kind} and not holding = {kind}",
    "(every|all|any|each) [possible] {kind} @loses",
    "no {kind} (hold|holds|save|saves|work|works|help|helps|keep [the] draw)",
  ),
  say("{mover}needed = {kind}", "(must|has to|need to|have to) (give|play|make) [a] {kind}"),
  say(
    "{mover}needed = {kind} and error != none",
    "(must|has to|need to|have to) [give|play|make] [a] {kind} [,] (and|but) not",
  ),
  say(
    "to-move = defender and verdict = drawn and needed = {moved}",
    "(must|has to|need to|have to) move [its] {moved} to @hold",
  ),
  say("{mover}needed = {moved}", "(must|has to|need to|have to) move [its] {moved}"),
  {
    say: ["only move (is|was|be) [a] {kind}"],
    means: {
      nobody: "only-move and needed = {kind}",
      defender: "to-move = defender and verdict = drawn and only-move and needed = {kind}",
      attacker: "to-move = attacker and verdict = won and only-move and needed = {kind}",
    },
  },
  say(
    "to-move = defender and verdict = drawn and only-move and needed = {kind}",
    "(one|a single) {kind} (@hold|draw) [,] (all|every) (others|other|other move) lose",
    "@onlyone @holding {kind}",
    "{kind} (is|was|be) [the] only (draw|defence|save|way to draw|way to hold)",
    "@holdmove (is|was|be) [a] {kind}",
    "@onlyone move [that] @hold (is|was|be) [a] {kind}",
    "[a] {kind} (is|was|be) [the] @onlyone @holding move",
    "@onlyone {kind} @hold",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and needed = {moved}",
    "@holdmove (is|was|be) (with|by|of) [the] {moved}",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and needed = {moved}",
    "@winmove (is|was|be) (with|by|of) [the] {moved}",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and needed = {kind}",
    "@onlyone win {kind}",
    "{kind} (is|was|be) [the] only (win|way to win)",
    "@winmove (is|was|be) [a] {kind}",
    "@onlyone move [that] win (is|was|be) [a] {kind}",
    "[a] {kind} (is|was|be) [the] @onlyone win move",
    "@onlyone {kind} win",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and not (needed = check or needed = capture or needed = attack or needed = block or needed = pin)",
    "@winmove (is|was|be) [a] [quiet|pure|simple] (waiting|tempo) [move|one]",
    "only [a] [quiet] (waiting|tempo) move win",
    "[a] [quiet] (waiting|tempo) move (is|was|be) [the] only (win|way to win|winning move)",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and not (needed = check or needed = capture or needed = attack or needed = block or needed = pin)",
    "@holdmove (is|was|be) [a] [quiet|pure|simple] (waiting|tempo) [move|one]",
    "only [a] [quiet] (waiting|tempo) move @hold",
    "[a] [quiet] (waiting|tempo) move (is|was|be) [the] only (draw|defence|way to draw|way to hold|holding move|drawing move)",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and not (needed = check or needed = capture)",
    "@winmove (is|was|be) [a] quiet [one|move] [,] [(neither|not|no) [a] check (nor|or|and) [no] [a] capture]",
    "quiet [move] [that] (is|was) [the] @onlyone win [move]",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and not (needed = check or needed = capture)",
    "@holdmove (is|was|be) [a] quiet [one|move] [,] [(neither|not|no) [a] check (nor|or|and) [no] [a] capture]",
  ),
  say(
    "to-move = defender and verdict = drawn and blunder-potential > 0.5",
    "(more than half|most) of [the] [defender] (legal move|move|reply|replies) (lose|err)",
  ),
  say(
    "blunder-potential > 0.5",
    "(more than half|most) [of] [the] [legal] (move|reply|replies) (@loses|give away|throw away)",
  ),
  say(
    "blunder-potential {rel.share}",
    "blunder potential [of] {rel} [%|percent]",
    "{rel} [%|percent] of [the] [legal] move [that] @loses",
  ),
];

/** How often something happened, all told or turn after turn. */
const OFTEN: readonly Phrase[] = [
  {
    say: [
      "{least} {kind} @inarow",
      "{least} @onend {kind}",
      "(give|play|make|deliver) {least} {kind} @inarow",
      "(give|play|make|deliver) {least} @onend {kind}",
      "{kind} {least} (time|move) @inarow",
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
  say(
    "never ({mover}kind = {kind})",
    "never (give|play|make) [a] {kind}",
    "(not a|not one|without [a]) single {kind}",
    "no {kind} (given|played|made|at all)",
  ),
  {
    say: [
      "check (endlessly|forever|for ever|incessantly|non stop|continuously|continually|on and on|again and again|over and over)",
      "(endless|long|continuous|long series of|endless series of|barrage of|hail of|volley of) check",
      "(keep|go on|carry on) [on] (checking|check)",
    ],
    means: "streak ({mover}kind = check) >= 5",
  },
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

/** In what order answers are wanted. */
const SORTS: readonly Phrase[] = [
  {
    say: [
      "(longest|lengthiest) [ever]",
      "(last|hold out|survive|take|go on) [the] longest",
      "(longest|toughest|most stubborn) (resistance|defence|fight)",
    ],
    means: "everything",
    order: "longest",
    example: "the longest wins",
  },
  {
    say: ["shortest [ever]", "(quickest|fastest|briefest) [ever]"],
    means: "everything",
    order: "shortest",
    example: "the shortest wins",
  },
  {
    say: ["(short|quick|fast|brief|swift|speedy|rapid) (win|victory)"],
    means: ATTACKER_WON,
    or: [
      ["outcome = lost and length < 20", "under twenty moves"],
      ["verdict = won and dtm <= 10", "the position: mate in ten or less"],
    ],
    order: "shortest",
    unsaid: "attacker",
    result: true,
  },
  {
    say: ["(long|lengthy|drawn out|extended|prolonged|marathon|slow) (win|victory)"],
    means: ATTACKER_WON,
    or: [
      ["outcome = lost and length >= 50", "fifty moves or more"],
      ["verdict = won and dtm >= 30", "the position: mate in thirty or more"],
    ],
    order: "longest",
    unsaid: "attacker",
    result: true,
  },
  {
    say: ["(short|quick|fast|brief|swift) =draw"],
    means: DREW,
    or: [["defender-result = drew and length < 20", "under twenty moves"]],
    order: "shortest",
    result: true,
  },
  {
    say: ["(long|lengthy|drawn out|extended|prolonged|marathon) =draw"],
    means: DREW,
    or: [["defender-result = drew and length >= 50", "fifty moves or more"]],
    order: "longest",
    result: true,
  },
  {
    say: ["(short|quick|fast|brief|swift) (loss|defeat|collapse)"],
    means: "outcome = lost",
    or: [["outcome = lost and length < 20", "under twenty moves"]],
    order: "shortest",
    result: true,
  },
  {
    say: ["(long|lengthy|extended|prolonged|marathon) [ending|game|endgame|fight|struggle|defence]"],
    means: "everything",
    or: [["length >= 50", "fifty moves or more"]],
    order: "longest",
    weak: true,
  },
  {
    say: [
      "(short|brief) [ending|game|endgame|fight|struggle]",
      "(go|end|finish|be over|was over) (quickly|fast|in [a] hurry)",
    ],
    means: "everything",
    or: [["length < 20", "under twenty moves"]],
    order: "shortest",
    weak: true,
  },
  {
    say: ["(newest|latest|most recent|recent first) [first]"],
    means: "everything",
    order: "newest",
    example: "the newest draws",
  },
  { say: ["(oldest|earliest) [first]"], means: "everything", order: "oldest", example: "the oldest draws" },
  {
    say: ["(strongest|best|highest rated|top) player [first]", "strongest (game|ending) [first]"],
    means: "everything",
    order: "strongest",
    example: "draws of the strongest players",
  },
  {
    say: ["(most|with [the] most) @mistake [first]", "(worst|most error strewn) (game|ending|play)"],
    means: "everything",
    order: "mistakes",
    example: "draws with the most mistakes",
  },
];

/** One holding or winning move that is of two kinds at once. */
const TWO_KINDS: readonly Phrase[] = [
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

/** Moves: what the move played was, or could be. */
const MOVES: readonly Phrase[] = [
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
  say("kind = {kind}", "(parry|parried|met|meet|answer|answered) (by|with) [a|an] {kind}"),
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

/** Whose move it is, and what threatens. */
const TURNS: readonly Phrase[] = [
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
    ],
    means: "to-move = {whose}",
    example: "defender to move",
  },
  { say: ["defence (on|to) move"], means: "to-move = defender" },
  {
    say: ["white to (move|play) and win"],
    means: "attacker = white and to-move = attacker and verdict = won",
  },
  {
    say: ["black to (move|play) and win"],
    means: "attacker = black and to-move = attacker and verdict = won",
  },
  say("to-move = attacker and verdict = won", "attacker to (move|play) and win"),
  say("to-move = defender and verdict = drawn", "defender to (move|play) and (draw|hold)"),
  {
    say: ["white to (move|play) and draw"],
    means: "attacker = black and to-move = defender and verdict = drawn",
  },
  {
    say: ["black to (move|play) and draw"],
    means: "attacker = white and to-move = defender and verdict = drawn",
  },
  { say: ["(attack) (on|to) move"], means: "to-move = attacker", example: "attack to move" },
  { say: ["white to move", "white to play", "white (on|to) move", "white turn"], means: "turn = white" },
  { say: ["black to move", "black to play", "black (on|to) move", "black turn"], means: "turn = black" },
  { say: ["[it] defender move"], means: "to-move = defender" },
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
    "(offer|sacrifice|give up|throw) [its|a|the] rook [for|to (get|reach|force|achieve)] [a] stalemate",
    "rook (sacrifice|offer) [for|to (get|reach|force|achieve)] [a] stalemate",
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

/** Two pieces on one rank, file or line: as the fact for these two has it, else by the squares of the board. */
function sameLine(
  [one, saysOne]: readonly [piece: string, pattern: string],
  [two, saysTwo]: readonly [piece: string, pattern: string],
  facts: { readonly rank?: string; readonly file?: string; readonly line?: string } = {},
  ...both: string[]
): readonly Phrase[] {
  const on = (line: "rank" | "file") => facts[line] ?? `${one}-board-${line} = ${two}-board-${line}`;
  const ways = (line: string) => [
    `(${saysOne} and [the] ${saysTwo}|${saysTwo} and [the] ${saysOne}) [both] on [the] (same|one|one and the same) ${line}`,
    `${saysOne} on [the] (same|one) ${line} (as|with) ${saysTwo}`,
    `${saysTwo} on [the] (same|one) ${line} (as|with) ${saysOne}`,
    `(${saysOne} and [the] ${saysTwo}|${saysTwo} and [the] ${saysOne}) share [a|the] [same] ${line}`,
    ...both.flatMap((pair) => [
      `[both|two] ${pair} [both] on [the] (same|one|one and the same) ${line}`,
      `${pair} share [a|the] [same] ${line}`,
    ]),
  ];
  return [
    say(on("rank"), ...ways("rank")),
    say(on("file"), ...ways("file")),
    say(facts.line ?? `${on("rank")} or ${on("file")}`, ...ways("line")),
  ];
}
const OF_DEFENDER_KING = ["king", "@king"] as const;
const OF_ATTACKER_KING = ["attacker-king", "@aking"] as const;
const OF_ROOK = ["rook", "@rook"] as const;
const OF_ATTACKER_ROOK = ["attacker-rook", "@arook"] as const;
const OF_BISHOP = ["bishop", "@bishop"] as const;

/** Which pieces stand on one line. */
const LINES: readonly Phrase[] = [
  ...sameLine(OF_ROOK, ["king", "[own] @king"], {
    rank: "rook-line = rank",
    file: "rook-line = file",
    line: "rook-line != none",
  }),
  ...sameLine(OF_DEFENDER_KING, OF_ATTACKER_KING, { file: "kings-files-apart = 0" }, "=kings"),
  ...sameLine(OF_BISHOP, OF_DEFENDER_KING, { file: "bishop-files-apart = 0" }),
  ...sameLine(OF_ATTACKER_ROOK, OF_DEFENDER_KING, { rank: "attacker-rook-place = beside" }),
  ...sameLine(OF_ROOK, OF_ATTACKER_KING, { rank: "rook-place = beside" }),
  ...sameLine(OF_ROOK, OF_ATTACKER_ROOK, {}, "=rooks"),
  ...sameLine(OF_ROOK, OF_BISHOP),
  ...sameLine(OF_ATTACKER_ROOK, OF_BISHOP),
  ...sameLine(OF_ATTACKER_ROOK, ["attacker-king", "(@aking|(its|his) [own] king)"]),
  ...sameLine(OF_BISHOP, ["attacker-king", "(@aking|(its|his) [own] king)"]),
];

/** Where pieces stand. */
const PLACES: readonly Phrase[] = [
  say(
    "held ({spot.piece}) for {n} moves",
    "{piece} (stay|keep|stand|sit|live) {spot} [for] [at least] {n} move [or (more|longer)]",
    "{piece} {spot} for [at least] {n} move [or (more|longer)]",
  ),
  say(
    "held ({spot.piece}) for {n} moves",
    "{piece} (stay|keep|stand|sit|live) {spot} [for] (more than|longer than|over) {successor=n} move",
    "{piece} {spot} for (more than|longer than|over) {successor=n} move",
  ),
  say(
    "throughout ({piece}-board-rank = {rank})",
    "{piece} (never|not) (leave|quit|abandon|stray from|move off|go off|step off|budge from|give up) [its|the] {rank} rank",
  ),
  {
    say: ["{piece} (never|not) (leave|quit|abandon|stray from|move off|budge from|give up) {spot}"],
    means: "throughout ({spot.piece})",
    // of the edge the set-up says it better
    weak: true,
    example: "king never left the centre",
  },
  say(
    "(king-board-file = a..d and attacker-king-board-file = a..d) or (king-board-file = e..h and attacker-king-board-file = e..h)",
    "[both|two] king [both] on [the] @sameside",
  ),
  say(
    "(king-board-file = a..d and attacker-king-board-file = e..h) or (king-board-file = e..h and attacker-king-board-file = a..d)",
    "[both|two] king on @otherside",
  ),
  say(
    "(rook-board-file = a..d and king-board-file = a..d) or (rook-board-file = e..h and king-board-file = e..h)",
    "@rook on [the] @sameside (as|of) @ownking",
    "(@rook and [the] @king|@king and [the] @rook) on [the] @sameside",
  ),
  say(
    "(rook-board-file = a..d and king-board-file = e..h) or (rook-board-file = e..h and king-board-file = a..d)",
    "@rook on [the] @otherside (from|of|to|as|than) @ownking",
    "(@rook and [the] @king|@king and [the] @rook) on @otherside",
    "(@rook and [the] @king|@king and [the] @rook) on (opposite|different) (side|wing|half|flank)",
  ),
  say(
    "king-rank = 1 and rook-rank = 1 and rook-guarded",
    "[passive] @rook on [the] (back|first|last) rank [right] (next to|beside|alongside|adjacent to) @ownking",
    "[passive] @rook (next to|beside|alongside|adjacent to) @ownking on [the] (back|first|last) rank",
  ),
  say(
    "king-rank = 1 and king-cut-off = rank",
    "@king [is] (shut in|shut|boxed in|hemmed in|locked in|walled in|imprisoned|confined|trapped|held|kept|cut off) (on|along|at|to) [the] (edge|back rank|first rank|last rank) by [the] [attacking|attacker] rook",
    "@king [is] (shut in|boxed in|hemmed in|locked in|walled in|imprisoned) (on|along|at) [the] (edge|back rank|first rank|last rank)",
    "rook (shut|box|hem|lock|wall|confine|imprison) [in] [the] @king [in] (on|along|at|to) [the] (edge|back rank|first rank|last rank)",
  ),
  say(
    "bishop-pin != none",
    "bishop [is] pin [by [the] rook] (against|to|on) [its|the] [own] (king|@aking) [by [the] rook]",
  ),
  say(
    "rook-pin = diagonal",
    "@rook [is] pin by [the] bishop (against|to|on) [its|the] [own] king",
    "@rook [is] pin (against|to|on) [its|the] [own] king by [the] bishop",
  ),
  say("rook-pin != none", "@rook [is] pin (against|to|on) [its|the] [own] king"),
  say(
    "side-checks",
    "@rook (defend|check|hold|attack) from [the] (side|flank)",
    "(defend|defence) from [the] (side|flank)",
    "(lateral|sideways|flank) (check|defence)",
    "(lateral|sideways|flank|side) check (available|possible|at hand|at [its|his|the] disposal|ready|in hand)",
    "check from [the] (side|flank) (available|possible|at hand|at [its|his|the] disposal|ready|in hand)",
  ),
  onTheEdge(4),
  onTheEdge(5),
  say(
    "{sided}-side = long",
    "{sided} on [the] long side [of [the] [defending|defender] king]",
    "{sided} long side",
    "long side {sided}",
    "long side rook",
  ),
  say(
    "{sided}-side = short",
    "{sided} on [the] short side [of [the] [defending|defender] king]",
    "{sided} short side",
    "short side {sided}",
  ),
  say("{sided}-side != long", "{sided} not on [the] long side"),
  say("{sided}-side != short", "{sided} not on [the] short side"),
  {
    say: ["@rook on [the] (right|good|correct|better) side [of [the] [defending|defender] king]"],
    means: "rook-side = long",
    or: [["rook-place = behind", "behind the attacking king, not in front of it"]],
  },
  {
    say: ["@rook on [the] (wrong|bad|worse) side [of [the] [defending|defender] king]"],
    means: "rook-side = short",
    or: [['rook-place = "in front"', "in front of the attacking king, not behind it"]],
  },
  say("rook-side = long and attacker-rook-side = long", "both rook on [the] long side"),
  say("rook-side = short and attacker-rook-side = short", "both rook on [the] short side"),
  say(
    "rook-side = king's file",
    "@rook on [the] (king|its king) [own] file",
    "@rook on [the] [same] file as [its] king",
    "@rook on king file",
  ),
  say(
    "rook-place = behind",
    "@rook behind [the] [attacking|attacker|enemy] king",
    "active rook behind",
    "@rook from behind",
  ),
  say("attacker-rook-place = behind", "@arook behind [the] [defending|defender] king"),
  say('attacker-rook-place = "in front"', "@arook in front of [the] [defending|defender] king"),
  say(
    "attacker-rook-place = beside",
    "@arook (beside|next to|alongside) [the] [defending|defender] king",
    "@arook on [the] same rank as [the] @king",
  ),
  say("rook-place = beside", "@rook (beside|next to|alongside) [the] [attacking|attacker|enemy] king"),
  say(
    'rook-place = "in front"',
    "@rook in front [of [the] [attacking|attacker|enemy] king]",
    "passive rook in front",
  ),
  say(
    "checking-distance {cmp}",
    "@rook with check distance [of] {cmp} [file|square]",
    "check distance {cmp} [file|square]",
    "checking distance [of] {cmp} [file|square]",
    "{cmp} (file|square|rank) between (them|it and [the] [attacking|attacker|enemy] king|rook and king|[the] rook and [the] king)",
    "{cmp} (file|square) away",
  ),
  say(
    "checking-distance >= 3",
    "[@rook] [with|have] (enough|good|sufficient|full|long|plenty of|ample|proper) (check|checking) (distance|room|space)",
    "[@rook] [with|have] (room|space|distance) (for|to) (check|checking)",
    "[with|have] (enough|sufficient|plenty of) (room|space|distance) (for|to) (check|checking)",
    "@rook (far|far away|distant|well away|a long way) from [the] @aking",
  ),
  say(
    "checking-distance < 3",
    "[@rook] [with|have] (short|insufficient|not enough|too little|little|no|not) (check|checking) (distance|room|space)",
    "[with|have] (not|no|too little|not enough) (room|space|distance) (for|to) (check|checking)",
    "@rook [too] (close|near) [to] [the] @aking",
    "@rook too (close|near)",
  ),
  say(
    "rook-files-apart {cmp}",
    "@rook {cmp} file [or more] [away|apart|distant|off] from @ownking",
    "{cmp} file between [the] @rook and @ownking",
  ),
  say("rook-files-apart >= {n}", "@rook {n} file or more [away|apart|distant|off] from @ownking"),
  {
    say: ["@rook (far|far away|distant|well away|a long way|separated) from [its|the] [own] king"],
    means: "rook-files-apart >= 4",
    or: [["not rook-guarded", "not next to it"]],
  },
  say(
    "bishop-from-king >= 3",
    "bishop (far|far away|distant|well away|a long way) from [its|the] [own] (king|@aking)",
  ),
  say("bishop-from-king = 1", "(@aking|king) and bishop (side by side|next to each other|together|adjacent)"),
  say(
    "kings-apart <= 3",
    "king (close|near|close together|near each other|close to each other|close to one another)",
  ),
  say("kings-apart >= 4", "king (far apart|far from each other|well apart|a long way apart|not close)"),
  say(
    "king-in-the-open",
    "@king (leave|left) [the] edge",
    "@king (has|have) leave [the] edge",
    "@king out in [the] open",
    "@king in [the] open",
    "@king (go|went|come|came|get|escape) into [the] open",
    "@king (draw|drive|pull) (into|out into) [the] open",
  ),
  say(
    "king-in-the-open",
    "[@king] (escape|break out|get out|get away|break free|step off|freed|free) [itself] (from|off|of) [the] (edge|back rank|rim)",
    "@king (got|get|run) (free|out|away)",
    "@king (free|freed|escape) [itself]",
    "@king (get|got|run|break|escape|come|go|walk) away (from|off) [the] (edge|back rank|rim)",
  ),
  say(
    "king-rank > 1",
    "@king (leave|left) [the] (back|first) rank",
    "@king (off|away from|out of) [the] edge",
    "@king not on [the] edge",
  ),
  say("king-rank = {successor}", "@king {successor} rank (off|from|away from) [the] edge"),
  say("{piece}-rank = 1", "{piece} on [the] (back|last|edge) rank"),
  say(
    "king-rank = 1 and rook-rank = 1",
    "(king and rook|rook and king) [both] on [the] (back|first|last) rank",
    "[both] (king and rook|rook and king) on [the] edge",
  ),
  { say: ["in [the|a] corner"], means: "corner-steps = 0", weak: true, example: "drew in the corner" },
  {
    say: ["{n} (step|square) (from|away from) [the] corner"],
    means: "corner-steps = {n}",
    weak: true,
    example: "one square from the corner",
  },
  {
    say: ["on [a|the] rook file"],
    means: "king-file = 1",
    weak: true,
    example: "Philidor on the rook's file",
  },
  {
    say: ["on [a|the] knight file"],
    means: "king-file = 2",
    weak: true,
    example: "Philidor on the knight's file",
  },
  {
    say: ["on [a|the] bishop file"],
    means: "king-file = 3",
    weak: true,
    example: "Philidor on the bishop's file",
  },
  say("kings-files-apart = 1", "king on (neighbouring|adjacent|next) file"),
  say(
    "bishop-files-apart = 0",
    "bishop on [the] [same] file [as|of] [the] @king",
    "bishop on [the] king file",
  ),
  say(
    "{guardable}-guarded",
    "{guardable} [is] @guarded",
    "(guarded|protected|defended|covered|supported) {guardable}",
    "(something|another piece) @guards [its|the] {guardable}",
  ),
  say("rook-guarded", "@rook [is] @guarded by [its] [own] king", "@king @guards [its|the] [own] @rook"),
  say("bishop-guarded", "bishop [is] @guarded by [its|the] [own] (side|piece|king or rook)"),
  say(
    "bishop-guarded and bishop-from-king = 1",
    "bishop [is] @guarded by [its|the] [own] (king|@aking)",
    "(king|@aking) @guards [its|the] [own] bishop",
  ),
  say("{guardable}-guarded = no", "(unguarded|unprotected|undefended|unsupported|loose) {guardable}"),
  say(
    "{guardable}-guarded = no",
    "{guardable} [is] @unguarded [by [its|the] [own] (king|piece|side)]",
    "(nothing|nobody|no piece) @guards [its|the] {guardable}",
  ),
  say(
    "{guardable}-attacked",
    "{guardable} [is] (attacked|under attack|under fire|hit)",
    "attacked {guardable}",
  ),
  say(
    "{guardable}-attacked and not {guardable}-guarded",
    "{guardable} [is] (attacked|under attack|under fire|hit) (and|but) @unguarded",
    "@unguarded {guardable} [is] (attacked|under attack|under fire|hit)",
  ),
  say(
    "(to-move = defender and free-piece = rook) or (to-move = attacker and loss-threat = rook)",
    "@arook [is] @hanging",
  ),
  {
    say: ["(leave|let) [its|the] rook (hanging|hang|en prise|unprotected|loose|undefended)"],
    means: {
      nobody: "to-move = attacker and free-piece = rook",
      defender: "to-move = attacker and free-piece = rook",
      attacker: "to-move = defender and free-piece = rook",
    },
  },
  say(
    "to-move = defender and free-piece = bishop",
    "[attacker] (leave|let) [its|the] bishop (hanging|hang|en prise)",
  ),
  say(
    "(to-move = defender and free-piece = bishop) or (to-move = attacker and loss-threat = bishop)",
    "bishop [is] @hanging",
  ),
  say(
    "(to-move = attacker and free-piece = rook) or (to-move = defender and loss-threat = rook)",
    "@rook [is] @hanging",
  ),
  {
    say: [
      "(fail to|not|forget to|neglect to) (take|capture|win|grab) [the] [free|hanging|loose] {prize}",
      "(overlook|miss) [that] [the] {prize} (hang|hanging|en prise|(can|could) be taken)",
    ],
    means: "{mover}free-piece = {prize} and error != none",
    example: "failed to take the bishop",
  },
  ...LINES,
  say(
    "rook-attacks = both",
    "@rook attack [the] (bishop and [the] rook|rook and [the] bishop) [at [the] same time|at once]",
  ),
  say(
    "king-escapes = 0",
    "@king (have|has|had) (no|not a) (square|escape|way out|flight square) [to (move|go|run|flee) [to]]",
    "(no|without a) (square|flight square) for [the] @king",
    "@king cannot move",
  ),
  say(
    "king-escapes = 0",
    "@king [have|with] (no|without) (escape|flight) [square]",
    "(no|without) (escape|flight) square",
  ),
  say(
    "king-escapes {cmp}",
    "@king [have|with] [only|just] {cmp} (escape|flight) [square]",
    "@king [have|with] [only|just] {cmp} square [to (go|move|flee|run) [to]]",
    "[only] {cmp} (escape|flight) square [for [the] @king]",
  ),
  say(
    "rook-safe-squares = 0",
    "@rook [have|with] no safe square",
    "no safe square for [the] @rook",
    "@rook has nowhere [safe] to go",
  ),
  say(
    "rook-safe-squares {cmp}",
    "@rook [have|with] [only|just] {cmp} safe square",
    "[only] {cmp} safe square for [the] @rook",
  ),
  say(
    "bishop-from-king {cmp}",
    "bishop {cmp} (square|step) [away] from [its|the] [own] [attacking|attacker] king",
  ),
  say("king-cut-off = none", "@king not cut off"),
  say("king-cut-off = {line}", "cut off (on|along|by) [the|a] {line}"),
  say(
    "king-rank = 1 and king-cut-off = rank",
    "cut off (on|along|at) [the] (back rank|first rank|last rank|edge)",
  ),
  say(
    "king-rank = 1",
    "@king on [the] edge [of [the] board]",
    "@king (on|at) [the] (back|first|last) rank",
    "@king (stay|stand|keep) (on|at) [the] (back rank|first rank|edge)",
    "@king on [the] (side|rim) [of [the] board]",
    "@king at [the] edge",
  ),
  say(
    "king-in-the-open then king-rank = 1",
    "@king (drive|push|force) [from [the] (centre|middle|open)] (to|onto|back to) [the] edge",
    "@king (drive|push|force) back [to [the] edge]",
  ),
  say(
    "corner-steps = 0",
    "@king (trapped|stuck) in [the] corner",
    "@king in [the|a] corner",
    "@king cornered",
    "cornered king",
  ),
  say("corner-steps = {n}", "@king {n} (step|square) (from|away from|off) [the] [nearest] corner"),
  say(
    "corner-steps {rel}",
    "@king {rel} (step|square) (from|away from) [the] [nearest] corner",
    "@king (near|close to) [the] corner {rel}",
  ),
  say(
    "corner-steps <= 1",
    "@king (at most|no more than) (a|one) (step|square) from [the|a] corner",
    "@king (near|close to|by) [the|a] corner",
  ),
  say(
    "corner-steps = 0 and bishop-colour = corner's",
    "(right corner|right coloured corner|right colour corner|corner of [the] bishop [own] colour|bishop corner)",
    "@king in [the] corner of [the] bishop colour",
    "@king in [the|a] [bishop] corner [that|which] [the] bishop (control|cover|guard|attack|can reach|colour)",
    "@king in [the] bishop corner",
    "@king (drive|driven|force|forced|go|run|in) [to|into] [a|the] bishop coloured corner",
    "(in|into) [a|the] bishop coloured corner",
    "@king in [the] right corner [for [the] bishop]",
  ),
  say(
    "corner-steps = 0 and bishop-colour = other",
    "@king in [the] wrong [coloured|colour] corner [for [the] bishop]",
    "wrong [coloured|colour] corner [for [the] bishop]",
    "@king (trapped|stuck|caught) in [the] wrong [coloured|colour] corner",
    "corner of [the] wrong colour",
    "@king in [the] wrong corner bishop not of [the] corner colour",
    "@king in [the|a] corner [of] opposite colour (to|of|from) [the] bishop",
  ),
  say(
    "bishop-colour = corner's",
    "bishop (of|on|has|have) [the] [same] colour [of|as] [the] corner",
    "bishop of [the] corner colour",
    "(right|correct|good) [coloured] bishop",
    "bishop of [the] (right|correct|good|same) colour [for|as] [the] [corner]",
    "bishop [that] (control|cover|guard) [the] corner [square]",
  ),
  say(
    "bishop-colour = other",
    "bishop not (of|on) [the] corner colour",
    "not [the] colour of [the] corner",
    "bishop [that] not (control|cover|guard) [the] corner [square]",
    "wrong [coloured] bishop",
    "bishop of [the] (wrong|other) colour [for [the] corner]",
  ),
  say(
    "opposition = direct",
    "[king] (in|have|with|take) [the] [direct] opposition",
    "direct opposition",
    "opposition",
    "king face each other",
  ),
  say("opposition = diagonal", "[king] [in] diagonal opposition"),
  say("opposition = distant", "[king] [in] distant opposition"),
  say(
    'opposition = "knight\'s move"',
    "@king [a] knight move apart",
    "knight move opposition",
    "king (at|in) [a] knight [move] [distance]",
    "king [a] knight [move] (away|apart)",
  ),
  say("kings-files-apart = 0", "king on [the] same file"),
  say("kings-files-apart = {n}", "king {n} file apart"),
  say(
    "bishop-pin != none",
    "bishop [is] pin",
    "bishop [is] pin [to its king] by [the|a] @rook",
    "pinned bishop",
    "pin bishop",
    "pin on [the] bishop",
    "bishop in [a] pin",
  ),
  say(
    "bishop-pin = {line}",
    "bishop pin (along|on|down|by) [the|a] {line}",
    "pin [on|of] [the] bishop (along|on) [a] {line}",
  ),
  say("rook-pin != none", "@rook [is] pin [to its king]", "pinned rook", "pin on [the] @rook"),
  {
    say: ["pin [the] @rook"],
    means: {
      nobody: "rook-pin != none",
      attacker: "to-move = attacker and kind = pin",
      white: "rook-pin != none and attacker = white",
      black: "rook-pin != none and attacker = black",
    },
  },
  say(
    "rook-pin = diagonal",
    "bishop pin [the] @rook",
    "@rook pin (along|on|by|down) [a|the] (diagonal|bishop)",
    "@rook pin (along|on|down) [a|the] diagonal by [the] bishop",
    "@rook pin against [the|its] king by [the] bishop",
  ),
  say(
    "rook-pin = {line}",
    "pin (by [the] attacker|) on [the] @rook (along|on|down) [a|the] {line}",
    "@rook pin (along|on|down) [a|the] {line}",
  ),
  say("rook-pin = rank and king-rank = 1", "@rook pin (along|on) [the] (back|first|last) rank"),
  say("attacker-rook-pin != none", "@arook [is] pin [to its king]"),
  say("bishop-pin != none and to-move = attacker", "@rook pin [the] bishop"),
  say(
    "king-cut-off != none",
    "@king confined",
    "@king [is] cut off [by [the] (rook|@arook)]",
    "cut off king",
    "(@arook|rook|attacker) cut off [the] @king",
    "(@arook|rook|attacker) cut [the] (@king|defender|him) off",
  ),
  say(
    "king-cut-off = {line}",
    "@king [is] cut off (on|along|by|at) [the|a] {line}",
    "(@arook|rook|attacker) cut off [the] (@king|defender) (on|along|by|with) [the|a] {line}",
    "(@arook|rook|attacker) cut [the] (@king|defender|him) off (on|along|by|with) [the|a] {line}",
  ),
  say(
    "king-rank = 1 and king-cut-off = rank",
    "@king [is] cut off (on|along|at) [the] (back|first|edge|last) rank",
    "@king [is] cut off on [the] edge",
    "@king confined to [the] back rank",
  ),
  {
    say: [
      "@king [is] cut off (on|along|at|by) [the] {rank} rank",
      "(rook|@arook) cut off [the] @king (on|along|at|by) [the] {rank} rank",
    ],
    means: "king-cut-off = rank and attacker-rook-board-rank = {rank}",
  },
  say(
    "attacker-king-barred = {line}",
    "@rook (bar|stop|hold off|keep off|cut off) [the] @aking (along|on|by) [a|the] {line}",
    "@rook (keep|hold|cut|shut) [the] @aking (off|out|away) (along|on|by) [a|the] {line}",
    "@aking [is] (bar|cut off) [by [the] rook] (along|on|by) [a|the] {line}",
  ),
  say(
    "attacker-king-barred != none",
    "@aking [is] bar",
    "@rook bar [the] @aking",
    "@rook (keep|hold) [the] [attacking|attacker] king (off|out|away)",
  ),
  {
    say: [
      "@aking [is] bar on [the] {rank} rank",
      "@aking [is] (bar|cut off|kept off|kept out|held off|held|shut out) [by [the] rook] (on|along|at|from|by|off) [the] {rank} rank",
      "rook (bar|cut off|keep|hold|shut) [off|out] [the] @aking (on|along|at|from|by|off) [the] {rank} rank",
      "@aking (kept|held|keep|hold|barred|bar|stay) off [the] {rank} rank",
    ],
    means: "attacker-king-barred = rank and rook-board-rank = {rank}",
  },
  say("wedge-depth >= 1", "@king (in|inside) [the] [bishop] wedge"),
  say(
    "wedge-depth = {n}",
    "@king (in|inside) [the] [bishop] wedge {n} file (from|deep) [the] [foot]",
    "@king {n} (deep|file deep) in [the] [bishop] wedge",
    "(at depth|depth) {n}",
    "{n} file from [the] foot",
  ),
  say("rook-holds-intersection", "@rook (hold|guard|control) [the] intersection"),
  say(
    "fork = defender and rook-attacks = bishop",
    "[defender] fork [the] king and [the] bishop",
    "fork of king and bishop",
  ),
  say("fork = attacker", "[attacker] fork [the] king and [the] rook", "fork of king and rook"),
  say(
    "rook-attacked and not rook-guarded",
    "(unprotected|unguarded|undefended) @rook [is] (attacked|under attack)",
    "@rook [is] (attacked|under attack) and (unprotected|unguarded|not guard|not protect|undefended|nothing guard it|nothing protect it)",
  ),
  say(
    "bishop-attacked and not bishop-guarded",
    "(unprotected|unguarded|undefended) bishop [is] (attacked|under attack)",
    "bishop [is] (attacked|under attack) and (unprotected|unguarded|not guard|not protect|undefended|nothing guard it|nothing protect it)",
  ),
  say(
    "(rook-board-file = 1 or rook-board-file = 8) and (rook-board-rank = 1 or rook-board-rank = 8)",
    "@rook in [the|a] corner",
  ),
  say(
    "attacker-king-foot = towards",
    "@aking (towards|on [the] side of|near) [the] [nearer] foot",
    "@aking on [the] foot side",
  ),
  say("attacker-king-foot = away", "@aking (away from|on [the] other side from) [the] foot"),
  say(
    "attacker-king-rook = towards",
    "@aking on [the] [same] side (of|as|on) [the|its] [defending|defender] rook",
    "@aking (towards|on [the] rook side)",
  ),
  say("attacker-king-rook = away", "@aking away from [the] [defending|defender] rook"),
  say(
    "edge-check = met",
    "@rook ready to interpose",
    "(interposition|block) [is] (ready|made ready|prepared)",
    "@rook (cover|meet|answer) [every|the] check (along|on) [the] (edge|back rank|first rank|last rank)",
  ),
  say("edge-check = denied", "(blocking|interposing) square [is] denied", "interposition [is] denied"),
  say(
    'edge-check = "not met"',
    "check (along|on) [the] (edge|back rank|first rank|last rank) [that] not (met|answer)",
    "no interposition",
  ),
  say("spare-moves-on-rank {cmp}", "{cmp} (spare|waiting|safe) move on [its|the] rank", "{cmp} spare move"),
  say(
    "side-check {cmp}",
    "[a] check from [the] side [with] {cmp} file between",
    "side check with {cmp} file [between]",
  ),
  say("spare-moves-on-file {cmp}", "{cmp} (spare|waiting|safe) move on [its|the] file"),
  say("equal-edges", "two [equal] edge", "[two] edge (equally|as) near"),
  say('{mover}kind = "edge switch"', "(switch|change) [of|the] edge", "edge switch"),
  say(
    "bishop-from-king = 1",
    "@aking [right] (next to|beside) [its|the] bishop",
    "bishop [right] (next to|beside) [its|the] [own] (king|@aking)",
  ),
  say("rook-attacks = bishop", "@rook attack only [the] bishop"),
  // ranks and files as the board has them, unless the frame is named
  {
    say: ["@king in [the] (centre|middle) [of [the] board]"],
    means: "king-rank >= 3 and king-file >= 3",
    or: [
      [
        "(king-board-file = d or king-board-file = e) and (king-board-rank = 4 or king-board-rank = 5)",
        "the four squares in the middle",
      ],
    ],
  },
  say(
    "{spot.piece} then {second.piece}",
    "{piece} (walk|run|go|march|travel|move|come|get|wander|drive|driven|flee|chased) [all the way] from [the] {spot} (to|into|towards|onto) [the] {spot=second}",
  ),
  say(
    "{sided}-side = long then {sided}-side = short",
    "{sided} (move|go|switch|swing|transfer|come|get|cross) [over] from [the] long side to [the] short [side]",
  ),
  say(
    "{sided}-side = short then {sided}-side = long",
    "{sided} (move|go|switch|swing|transfer|come|get|cross) [over] from [the] short side to [the] long [side]",
  ),
  say(
    "not {sided}-side = long then {sided}-side = long",
    "{sided} (move|go|switch|swing|transfer|come|get|cross) [over|across] to [the] long side",
  ),
  say(
    "not {sided}-side = short then {sided}-side = short",
    "{sided} (move|go|switch|swing|transfer|come|get|cross) [over|across] to [the] short side",
  ),
  say(
    '{mover}kind = "leaves rank" and rook-board-rank = {rank}',
    "@rook (leave|abandon|give up|move off|come off|step off) [its|the] {rank} rank",
  ),
  {
    say: [
      "{piece} on {spot}",
      "{piece} {spot}",
      "{piece} (get|go|come|run|walk|march|head|arrive|land|end up|flee|retreat) {spot}",
      "{piece} (reach|occupy|enter|hit) {spot}",
      "{piece} (trapped|stuck|caught|confined|cornered|locked|shut|driven|drive|forced|force|pushed|push|chased|herded|pinned down) [in|into|back] {spot}",
    ],
    means: "{spot.piece}",
    example: "defender's king on a8 or the h file",
  },
  say(
    "(attacker = white and {spot.attacker-king} and {second.king}) or (attacker = black and {spot.king} and {second.attacker-king})",
    "white king {spot} [,] [and] black king {spot=second}",
  ),
  say(
    "(attacker = black and {spot.attacker-king} and {second.king}) or (attacker = white and {spot.king} and {second.attacker-king})",
    "black king {spot} [,] [and] white king {spot=second}",
  ),
  say(
    "rook-guarded",
    "@rook (next to|beside|adjacent to) (its|his|her|own|the defending|the defender) [own] king",
  ),
  say(
    "{spot.king} and {second.attacker-king}",
    "@king {spot} [,] [and] attacker [one|king] {spot=second}",
    "@king {spot} [,] [and] @aking {spot=second}",
  ),
  say("{spot.attacker-king} and {second.king}", "@aking {spot} [,] [and] defender [one|king] {spot=second}"),
  {
    say: ["bishop {spot} [,] [and] rook {spot=second}", "rook {spot=second} [,] [and] bishop {spot}"],
    means: "{spot.bishop} and {second.attacker-rook}",
    or: [["{spot.bishop} and {second.rook}", "the defender's rook"]],
  },
  say(
    "(king-board-file = a and king-board-rank = 1) or (king-board-file = h and king-board-rank = 8)",
    "@king in [a|the] dark [squared|coloured] corner",
  ),
  say(
    "(king-board-file = a and king-board-rank = 8) or (king-board-file = h and king-board-rank = 1)",
    "@king in [a|the] light [squared|coloured] corner",
  ),
  say("{spot.piece} and {second.piece}", "{piece} {spot} [,] (on|at|in) {spot=second}"),
  say(
    "not ({spot.piece})",
    "{piece} (not|neither|anywhere but|off|away from|outside|other than) [neither] [on] {spot}",
    "{piece} (not|never) (get|go|come|reach) {spot}",
  ),
  say(
    "throughout ({spot.piece})",
    "{piece} (stay|keep|kept|glued|tied|live) {spot} [throughout|always|all the time|the whole time|to the end]",
  ),
  {
    say: ["(in|on|at|into) [the] {spot}"],
    means: "{spot.king}",
    weak: true,
    example: "Philidor on the d or e file",
  },
  {
    say: ["(not|but not|anywhere but|other than|except) (in|on|at) [the] {spot}", "not {spot}"],
    means: "not ({spot.king})",
    weak: true,
    example: "Philidor but not on the d file",
  },
  say(
    "ended-by = mate and outcome = lost and end ({spot.king})",
    "(mate|mated) {spot}",
    "(mate|mated) [with] @king {spot}",
    "@king (mated|mate) {spot}",
    "mated @king {spot}",
    "mate [against|of] [the] @king {spot}",
  ),
  say("ended-by = stalemate and end ({spot.king})", "stalemate {spot}", "stalemate [with] @king {spot}"),
  say(
    "opposition = direct and {spot.king}",
    "[king] [in] [the] [direct] opposition {spot}",
    "king (oppose|opposed|facing each other|face each other) {spot}",
  ),
  say(
    "king-rank {rel.next}",
    "@king {rel} (square|step|rank) [away] (from|off) [the] [nearest] edge",
    "@king {rel} (square|step|rank) away from [the] [nearest] edge",
  ),
  say(
    "bishop-squares = {tone}",
    "{tone} bishop",
    "[is|be] [a] {tone} one",
    "bishop [is|be] {tone}",
    "bishop (of|on) [the] {tone} [square]",
    "bishop (run|move|travel|work) on {tone} [square]",
  ),
  say("bishop-squares = light", "(light|white) squared"),
  say("bishop-squares = dark", "(dark|black) squared"),
  {
    say: ["white bishop"],
    means: "attacker = white",
    or: [["bishop-squares = light", "the colour of its squares"]],
    weak: true,
  },
  {
    say: ["black bishop"],
    means: "attacker = black",
    or: [["bishop-squares = dark", "the colour of its squares"]],
    weak: true,
  },
  say(
    "rook-board-file = attacker-rook-board-file",
    "rook [both] [facing each other] [on] [the] (same|one) file",
    "(both|two) rook [stand|both] [on] [the] (same|one) file",
    "rook (share|oppose each other on) [a] file",
  ),
  say(
    "rook-board-rank = attacker-rook-board-rank",
    "rook [both] [facing each other] [on] [the] (same|one) rank",
    "(both|two) rook [stand|both] [on] [the] (same|one) rank",
    "rook (share|oppose each other on) [a] rank",
  ),
  say(
    "rook-board-file = attacker-rook-board-file or rook-board-rank = attacker-rook-board-rank",
    "rook (face|facing|oppose|opposing|opposed to) [each other|one another]",
    "rook on [the] (same|one) line",
  ),
  {
    say: [
      "{piece} on [the] {rank} rank",
      "{piece} on rank {n=rank}",
      "{piece} on {rank} rank of [the] board",
      "{piece} on [the] {rank}",
    ],
    means: "{piece}-board-rank = {rank}",
    or: [
      ["{piece}-rank = {rank.own}", "ranks counted from the edge at which the defender's king is held"],
      [
        "(attacker = {piece.white} and {piece}-board-rank = {rank}) or (attacker = {piece.black} and {piece}-board-rank = {rank.mirror})",
        "ranks counted from that side of the board",
      ],
    ],
  },
  say(
    "{piece}-rank = {rank}",
    "{piece} on [the] {rank} rank (of|in) [the] frame",
    "{piece} on [the] {rank} rank from [the] edge",
  ),
  say(
    "{piece}-rank >= {rank}",
    "{piece} on [the] {rank} rank or (higher|above|beyond|farther|further|more|better)",
  ),
  say("{piece}-rank <= {rank}", "{piece} on [the] {rank} rank or (lower|below|nearer|less)"),
  say("attacker-king-rank = {rank.mirror}", "@aking [only] on (its|his|their) [own] {rank} rank"),
  say("attacker-rook-rank = {rank.mirror}", "@arook on (its|his|their) [own] {rank} rank"),
  say("bishop-rank = {rank.mirror}", "bishop on (its|his|their) [own] {rank} rank"),
  say("king-rank = {rank}", "@king on (its|his|their) [own] {rank} rank"),
  say("rook-rank = {rank}", "@rook on (its|his|their) [own] {rank} rank"),
];

/** A player of some rating, whoever it is. */
const rated = (rating: string): Phrase["means"] => ({
  nobody: `(white-rating ${rating} or black-rating ${rating})`,
  side: `{side}-rating ${rating}`,
  white: `white-rating ${rating}`,
  black: `black-rating ${rating}`,
  both: `white-rating ${rating} and black-rating ${rating}`,
});

/** Players: ratings and names. */
const PLAYERS: readonly Phrase[] = [
  {
    say: [
      "@player [rated] {rating}",
      "(somebody|someone|anybody|anyone) [rated] {rating}",
      "@player rated {level=rating}",
      "{level=rating} [rated] @player",
      "{rating} [rated] @player",
      "{rating} rated @player",
    ],
    means: rated("{rating}"),
    ofNext: true,
    example: "players under 2000 held",
  },
  say(
    "white-rating {rating} and black-rating {rating}",
    "(between|among) [two] @player [rated] {rating}",
    "(between|among) [two] @player rated {level=rating}",
    "(between|among) [two] {level=rating} [rated] @player",
    "(between|among) [two] {rating} [rated] @player",
    "two @player [rated] {rating}",
    "two {rating} [rated] @player",
    "both @player [rated] {rating}",
    "both @player rated {level=rating}",
  ),
  {
    say: ["[by] [a] (grandmaster|gm)"],
    ofNext: true,
    means: {
      nobody: "(white-rating >= 2500 or black-rating >= 2500)",
      side: "{side}-rating >= 2500",
      both: "white-rating >= 2500 and black-rating >= 2500",
    },
    example: "mate in three missed by a grandmaster",
  },
  {
    say: ["against [a] (grandmaster|gm)"],
    means: {
      nobody: "attacker-rating >= 2500",
      defender: "attacker-rating >= 2500",
      attacker: "defender-rating >= 2500",
      white: "black-rating >= 2500",
      black: "white-rating >= 2500",
    },
  },
  {
    ofNext: true,
    say: [
      "[is|was] [rated|rating] {rating}",
      "(rated|rating|with rating) [of] {rating}",
      "rated {rating}",
      "with [a] rating {rating}",
    ],
    means: rated("{rating}"),
  },
  say(
    "defender-rating {one} and attacker-rating {two}",
    "[a] player {rating=one} [had to] defend against [a] (someone|somebody|player|opponent) {rating=two}",
  ),
  say(
    "white-rating {rating} and black-rating {rating}",
    "(between|among) [two] player [rated] {rating}",
    "(between|among|by|of) {rating} [rated] player",
    "both player {rating}",
    "{rating} against {rating}",
  ),
  {
    say: [
      "against [a|an] {rating} [rated] [@player|opponent|opposition|attacker|defender]",
      "against (someone|somebody|anyone|one) [rated] {rating}",
      "against [a|an] {level=rating} [rated] [@player|opponent|attacker|defender]",
      "against [a|an] [@player|opponent] [rated] {rating}",
      "against [a|an] (opponent|@player) {rating}",
    ],
    means: {
      nobody: "attacker-rating {rating}",
      defender: "attacker-rating {rating}",
      attacker: "defender-rating {rating}",
      white: "black-rating {rating}",
      black: "white-rating {rating}",
    },
  },
  {
    say: ["(against|to) [a] @stronger @opponent", "(against|to) [a] @stronger"],
    means: {
      nobody: "rating-difference > 0",
      defender: "rating-difference > 0",
      attacker: "rating-difference < 0",
      white: "black-rating > white-rating",
      black: "white-rating > black-rating",
    },
  },
  {
    say: ["(against|to) [a] @weaker @opponent", "(against|to) [a] @weaker"],
    means: {
      nobody: "rating-difference < 0",
      defender: "rating-difference < 0",
      attacker: "rating-difference > 0",
      white: "black-rating < white-rating",
      black: "white-rating < black-rating",
    },
  },
  {
    say: [
      "against (somebody|someone|player|opponent|opposition) [rated] {least} [@points] (higher|stronger|better)",
      "against [a] (player|opponent) {least} [@points] (higher|stronger|better)",
    ],
    means: {
      nobody: "rating-difference {least}",
      defender: "rating-difference {least}",
      attacker: "rating-difference {least.negative}",
    },
  },
  {
    say: ["against (somebody|someone|player|opponent) [rated] {least} [@points] (lower|weaker|worse)"],
    means: {
      nobody: "rating-difference {least.negative}",
      defender: "rating-difference {least.negative}",
      attacker: "rating-difference {least}",
    },
  },
  {
    say: [
      "(is|was|be) [the] @stronger [player|one]",
      "(have|with) [the|a] (higher|better) rating [than [the] (opponent|attacker|defender|other)]",
      "[is|was] (stronger|higher rated|rated higher|rated above) [than [the] (opponent|attacker|defender|other)]",
      "rated (higher|above) [than [the] (opponent|attacker|defender|other)]",
      "favourite",
    ],
    means: {
      defender: "rating-difference < 0",
      attacker: "rating-difference > 0",
      white: "white-rating > black-rating",
      black: "black-rating > white-rating",
    },
  },
  {
    say: [
      "(is|was|be) [the] @weaker [player|one]",
      "(have|with) [the|a] (lower|worse) rating [than [the] (opponent|attacker|defender|other)]",
      "[is|was] (weaker|lower rated|rated lower|rated below) [than [the] (opponent|attacker|defender|other)]",
      "rated (lower|below) [than [the] (opponent|attacker|defender|other)]",
      "underdog",
    ],
    means: {
      defender: "rating-difference > 0",
      attacker: "rating-difference < 0",
      white: "white-rating < black-rating",
      black: "black-rating < white-rating",
    },
  },
  say(
    "rating-difference < 0",
    "@weaker [player] have [the] bishop",
    "@stronger player (defend|have [the] rook)",
    "@weaker [player] attack",
  ),
  say(
    "rating-difference > 0",
    "@stronger [player] have [the] bishop",
    "@weaker player (defend|have [the] rook)",
    "@stronger [player] attack",
  ),
  say(
    "(rating-difference > 0 and outcome = lost) or (rating-difference < 0 and defender-result = won)",
    "@stronger [player] win",
  ),
  say(
    "(rating-difference < 0 and outcome = lost) or (rating-difference > 0 and defender-result = won)",
    "@weaker [player] win",
  ),
  {
    say: ["outrate [the] (opponent|defender|attacker|other)"],
    means: {
      nobody: "rating-difference > 0",
      attacker: "rating-difference > 0",
      defender: "rating-difference < 0",
    },
  },
  {
    say: [
      "outrate [the] (opponent|defender|attacker|other) by {least} [@points]",
      "{least} [@points] (stronger|higher rated|higher|better) [than] [the] [opponent|defender|attacker|other]",
      "(higher rated|stronger|rated higher) by {least} [@points]",
      "[the] favourite by {least} [@points]",
    ],
    means: {
      attacker: "rating-difference {least}",
      defender: "rating-difference {least.negative}",
      nobody: "rating-difference {least}",
    },
  },
  {
    say: ["(is|was|be) outrate [by [the] (opponent|attacker|defender)]"],
    means: {
      defender: "rating-difference > 0",
      attacker: "rating-difference < 0",
      nobody: "rating-difference > 0",
    },
  },
  {
    say: [
      "(is|was|be) outrate by {least} [@points]",
      "outrate by {least} [@points]",
      "{least} [@points] (weaker|lower rated|lower|worse) [than] [the] [opponent|defender|attacker|other]",
      "(lower rated|weaker|rated lower) by {least} [@points]",
    ],
    means: {
      defender: "rating-difference {least}",
      attacker: "rating-difference {least.negative}",
      nobody: "rating-difference {least}",
    },
  },
  say(
    "rating-difference > -{n} and rating-difference < {n}",
    "player (less than|under|within|fewer than) {n} [@points] apart",
    "(less than|under|within|fewer than) {n} [@points] apart",
    "rating (difference|gap) (under|below|less than|within) {n}",
    "[player] within {n} [@points] [of each other]",
    "player rated within {n} [@points] [of each other]",
    "evenly matched within {n}",
  ),
  say(
    "rating-difference >= 200 or rating-difference <= -200",
    "(big|large|huge|great|wide|significant) rating (difference|gap)",
    "big (favourite|underdog)",
  ),
  say("{rel.apart}", "rating (difference|gap) [of] {rel} [@points]", "{rel} [@points] apart"),
  say(
    "entry-verdict = drawn and outcome = lost and defender-rating {rating}",
    "(theoretical|objective|book) draw lose by [a] player [rated] {rating}",
  ),
  say(
    "outcome = lost and defender-rating {rating}",
    "(beat|defeat) [a|the] (defender|weaker side) [rated] {rating}",
  ),
  {
    say: ["(lose|beaten|defeat) by [a] player [rated] {rating}"],
    means: "outcome = lost and defender-rating {rating}",
  },
  say(
    "white-rating >= 2500 and black-rating >= 2500",
    "(grandmaster|gm) (level|game)",
    "(between|by|of) [two] (grandmaster|gm)",
    "two (grandmaster|gm)",
    "(grandmaster|gm) against (grandmaster|gm)",
  ),
  say(
    "white-rating >= 2700 and black-rating >= 2700",
    "[between|among|by|of] [two] (super grandmaster|elite player|elite grandmaster)",
    "(elite|top level) (game|level|chess)",
  ),
  say(
    "white-rating >= 2500 and black-rating >= 2500",
    "[between|among|by|of] [two] strong player",
    "strong players only",
  ),
  say(
    "white-rating < 2000 and black-rating < 2000",
    "[between|among|by|of] [two] (amateur|club player|weak player)",
    "(amateur|club|club level) (game|level|chess)",
  ),
  say("white-rating < 1500 and black-rating < 1500", "[between|among|by|of] [two] (beginner|novice)"),
  say(
    "white-rating {rating} or black-rating {rating}",
    "[at least|with] one [of the|of them] [@player] [rated] {rating}",
    "either player [rated] {rating}",
    "at least one {rating} [rated] @player",
  ),
  say(
    "(white-rating >= 2500 and black-rating < 2000) or (black-rating >= 2500 and white-rating < 2000)",
    "(grandmaster|gm|master) (against|and) [a|an] (amateur|club player|weak player)",
    "(amateur|club player) (against|and) [a|an] (grandmaster|gm|master)",
  ),
  say(
    "rating-difference > -50 and rating-difference < 50",
    "(evenly|equally|well) matched",
    "(roughly|about|nearly|almost) (equal|equally|the same|evenly) (rated|rating|strong|strength|matched|level)",
    "(player|opponent) of (equal|the same|similar) (strength|rating|level)",
    "of (equal|the same|similar) (strength|rating|level)",
    "(similar|close) rating",
  ),
  {
    say: [
      "(rated|rating) {least} [@points] (more|above|higher|better) [than] [the] [opponent|defender|attacker|other]",
      "{least} [@points] (more|above|ahead of) [than] [the] [opponent|defender|attacker|other]",
    ],
    means: {
      attacker: "rating-difference {least}",
      defender: "rating-difference {least.negative}",
      nobody: "rating-difference {least}",
    },
  },
  {
    say: [
      "(rated|rating) {least} [@points] (less|below|lower|worse|under) [than] [the] [opponent|defender|attacker|other]",
      "{least} [@points] (less|below|under|behind) [than] [the] [opponent|defender|attacker|other]",
    ],
    means: {
      defender: "rating-difference {least}",
      attacker: "rating-difference {least.negative}",
      nobody: "rating-difference {least}",
    },
  },
  {
    say: [
      "(against|to) [a] (much|far|considerably|significantly|clearly|vastly|a lot) @stronger [@opponent]",
    ],
    means: {
      nobody: "rating-difference >= 200",
      defender: "rating-difference >= 200",
      attacker: "rating-difference <= -200",
      white: "black-rating > white-rating and (rating-difference >= 200 or rating-difference <= -200)",
      black: "white-rating > black-rating and (rating-difference >= 200 or rating-difference <= -200)",
    },
    or: [["rating-difference > 0", "stronger by any difference"]],
  },
  {
    say: ["(against|to) [a] (much|far|considerably|significantly|clearly|vastly|a lot) @weaker [@opponent]"],
    means: {
      nobody: "rating-difference <= -200",
      defender: "rating-difference <= -200",
      attacker: "rating-difference >= 200",
      white: "black-rating < white-rating and (rating-difference >= 200 or rating-difference <= -200)",
      black: "white-rating < black-rating and (rating-difference >= 200 or rating-difference <= -200)",
    },
    or: [["rating-difference < 0", "weaker by any difference"]],
  },
  say(
    "(rating-difference < 0 and outcome = lost) or (rating-difference > 0 and defender-result = won)",
    "upset",
    "(giant killing|surprise win|surprise result)",
  ),
  say(
    "(rating-difference > 0 and outcome = held) or (rating-difference < 0 and defender-result != won)",
    "@stronger [player] (not|fail to|never|could not) win",
  ),
  say(
    "(rating-difference > 0 and defender-result = won) or (rating-difference < 0 and outcome = lost)",
    "@stronger [player] (lose|beaten|defeated)",
  ),
  say(
    "(rating-difference > 0 and outcome = lost) or (rating-difference < 0 and defender-result = won)",
    "@weaker [player] (lose|beaten|defeated)",
  ),
  say(
    "rating-difference != 0 and defender-result = drew",
    "(@stronger|@weaker) player (drew|(only|just) drew)",
  ),
  // names
  { say: ["{name=one} (play|meet|face|met) {name=two}"], means: "player ~ {one} and player ~ {two}" },
  { say: ["{side=role} {name}"], means: "{role}-name ~ {name}" },
  { say: ["{name} (as|was|is|be) [the] {side=role}"], means: "{role}-name ~ {name}" },
  {
    say: ["{name} (defend|have [the] [lone] rook|with [the] rook|in defence)"],
    means: "defender-name ~ {name}",
    of: "defender",
  },
  {
    say: ["{name} (attack|have [the] bishop|with [the] bishop|in attack|press)"],
    means: "attacker-name ~ {name}",
    of: "attacker",
  },
  {
    say: ["(as|be) [the] {side=role}", "(defend) [as] {side=role}"],
    means: { name: "{role}-name ~ {name}" },
  },
  {
    say: [
      "(defend|have [the] [lone] rook)",
      "(defend|play) [against] this ending (as [the] defender|with [the] rook)",
      "defend (this|the|such an) (ending|position|material)",
      "defend [against] {material}",
      "defend against (rook and bishop|bishop and rook)",
    ],
    means: DEFENDED,
  },
  {
    say: ["(attack|have [the] bishop)"],
    means: ATTACKED,
  },
  {
    say: ["against {name=other}", "(facing|opposed by) {name=other}"],
    means: {
      nobody: "player ~ {other}",
      name: "player ~ {other}",
      defender: "attacker-name ~ {other}",
      attacker: "defender-name ~ {other}",
      white: "black ~ {other}",
      black: "white ~ {other}",
    },
  },
  say(
    "player ~ {one} and player ~ {two}",
    "between {name=one} and {name=two}",
    "{name=one} against {name=two}",
    "{name=one} and {name=two}",
  ),
  say("player ~ {name}", "(game of|game by|played by|with) {name}"),
  say("player ~ {one} or player ~ {two}", "{name=one} or {name=two} [on either side]"),
  {
    say: ["[on|for|from] (either|any|whichever) side [of [the] board]", "(with|of) (either|any) colour"],
    means: "everything",
    weak: true,
    example: "Carlsen drew, either side",
  },
  {
    say: ["(with|as|playing|had) [the] white [piece]"],
    means: {
      name: "white ~ {name}",
      nobody: "attacker = black",
      defender: "attacker = black",
      attacker: "attacker = white",
    },
  },
  {
    say: ["(with|as|playing|had) [the] black [piece]"],
    means: {
      name: "black ~ {name}",
      nobody: "attacker = white",
      defender: "attacker = white",
      attacker: "attacker = black",
    },
  },
  say("attacker = white", "attacker [is|was] white", "defender [is|was] black"),
  say("attacker = black", "attacker [is|was] black", "defender [is|was] white"),
  { say: ["{colour} attacker", "{colour} attacking side"], means: "attacker = {colour}", of: "attacker" },
  { say: ["black (defender|defending side)"], means: "attacker = white", of: "defender" },
  { say: ["white (defender|defending side)"], means: "attacker = black", of: "defender" },
  { say: ["{rating} [rated] attacker"], means: "attacker-rating {rating}", of: "attacker" },
  { say: ["{rating} [rated] defender"], means: "defender-rating {rating}", of: "defender" },
  {
    say: ["by [a|an] {rating} [rated] {side=whose}", "by [a|an] {side=whose} [rated] {rating}"],
    means: "{whose}-rating {rating}",
    by: "whose",
    example: "only move missed by a defender rated over 2500",
  },
  { say: ["{name} , {side=role} ,"], means: "{role}-name ~ {name}" },
  { say: ["{name} , white ,"], means: "white ~ {name}" },
  { say: ["{name} , black ,"], means: "black ~ {name}" },
];

/** When, where, how fast, how long. */
const CIRCUMSTANCES: readonly Phrase[] = [
  say(
    'site ~ ".com" or site ~ ".org" or site ~ ".net" or site ~ "internet" or site ~ "online" or event ~ "online" or event ~ "internet"',
    "[play|played] online",
    "(on|over) [the] internet",
    "internet [game|chess]",
  ),
  say(
    "year = {year}",
    "(in|of|during|from) [the] year {year}",
    "(in|of|during) {year}",
    "(play|played) in {year}",
    "{year}",
  ),
  say("year >= 2000", "(this|21|twenty first|present) century"),
  say("year = 1900..1999", "(last|20|twentieth|previous) century"),
  say("year = 1800..1899", "(nineteenth|19) century"),
  say("year < 1945", "before [the] war"),
  {
    say: [
      "(recent|modern|newer|contemporary) [game|ending|example|practice]",
      "(recently|lately|nowadays|in recent year)",
    ],
    means: "everything",
    order: "newest",
    or: [["year >= 2015", "2015 and later"]],
    example: "recent draws",
  },
  say(
    "year >= {year}",
    "since {year}",
    "since [the] year {year}",
    "from {year} (on|onwards|onward)",
    "{year} (or|and) later",
    "(as of|starting) {year}",
  ),
  say("year > {year}", "after {year}", "after [the] year {year}", "later than {year}"),
  say(
    "year < {year}",
    "before {year}",
    "before [the] year {year}",
    "earlier than {year}",
    "prior to {year}",
    "(older than|up to but not) {year}",
  ),
  say("year <= {year}", "(until|till|up to|through|by) {year}", "{year} (or|and) earlier"),
  say(
    "year = {years}",
    "{years}",
    "(in|from|during|of) [the] {years}",
    "(play|played) {years}",
    "years {years}",
  ),
  say("pace = blitz", "[at] blitz [game|tempo|chess]", "in [a] blitz"),
  say("pace = rapid", "[at] rapid [game|chess|play]", "in [a] rapid"),
  say("pace = bullet", "[at] bullet [game|chess]"),
  say(
    "pace = standard",
    "(classical|standard|slow) [time] [control|game|chess|play]",
    "(at|in) [a] (classical|standard|slow) [time] [control|game|chess|play]",
    "long time control",
  ),
  say("pace = correspondence", "correspondence [game|chess]", "(postal|by post|by mail|email) [game|chess]"),
  say(
    "engine-game",
    "(engine|computer|program) game [only]",
    "(between|by|with) (engine|computer|program)",
    "engine against engine",
    "(engine|computer)",
  ),
  say("doubtful-engine-game", "(doubtful|possible|suspected|likely) (engine|computer|program) game"),
  say(
    "not engine-game",
    "(human|people|over the board) game [only]",
    "over the board [only]",
    "(no|without|not|exclude|excluding|except|leave out) (engine|computer|program) [game]",
    "(between|by|among) (human|people)",
    "human player",
    "human [only]",
  ),
  say("fischer-random", "(fischer random|fischerandom|chess960|chess 960|freestyle)"),
  say("not fischer-random", "(no|without|not) (fischer random|fischerandom|chess960|chess 960)"),
  say(
    "not engine-game and not duplicate",
    "(no|without|exclude|excluding|except|leave out) (engine|computer|program) [game] (and|or) (duplicate|copy|copies)",
    "(no|without|exclude|excluding|except|leave out) (duplicate|copy|copies) (and|or) (engine|computer|program) [game]",
  ),
  say(
    "not duplicate",
    "(no|without|not|exclude|excluding|except|leave out) (duplicate|copy|copies)",
    "unique game",
  ),
  say("duplicate", "duplicate"),
  say(
    "duplicate-differs",
    "(copy|copies|duplicate) [game] with [a|an] (another|different|other|differing|conflicting) result",
    "(copy|copies|duplicate) [game] (that|which) (differ|disagree) [in|about|on] [the] result",
    "(copy|copies|duplicate) whose result (differ|not match|disagree)",
  ),
  say("passing", "(passing ending|passing)"),
  say('round = "{n}"', "round {n}"),
  say("event ~ {text}", "event [called|named] {text}", "tournament [called|named] {text}"),
  say(
    'event ~ "women" or event ~ "ladies" or event ~ "girls"',
    "(woman|women|female|lady|ladies|girl) (event|tournament)",
  ),
  say(
    'event ~ "junior" or event ~ "youth" or event ~ "U20" or event ~ "U18" or event ~ "U16"',
    "(junior|youth|boy) (event|tournament)",
  ),
  say("site ~ {text}", "site [called] {text}"),
  say(
    "{place}",
    "(in|at|from|of) [the] {place}",
    "(play|played|held) (in|at) [the] {place}",
    "{place} [game|ending|event|tournament]",
  ),
  // length
  say(
    "length {rel}",
    "{rel} move [long]",
    "(for|of|in|after|last|within|only) {rel} move",
    "(ending|last|lasted|game) {rel} move [long]",
    "end (lasted|last) {rel} move",
    "(go|run|drag|continue|take|need|require) [on] [for] {rel} move",
    "(go|run|drag) (past|beyond|over) {rel} move",
    "(over|finished|done) (in|after|within) {rel} move",
    "length {rel} [move]",
    "long ending {rel} move",
    "(longer|shorter) {rel} move",
  ),
  say("length {rel}", "(after|in) {rel} move of [the] ending"),
  say(
    "length = {n}",
    "(exactly|of exactly|last exactly|take exactly|took exactly) {n} move [long]",
    "{n} move long",
  ),
  say("length >= {n}", "{n} move or (longer|more)", "last {n} move", "for {n} move"),
  say(
    "length <= {n}",
    "{n} move (at [the] most|or (less|fewer|shorter)|maximum|max)",
    "last {n} move at [the] most",
  ),
  {
    say: ["after [only|just|about|some|exactly] {n} move"],
    means: "moves-in > {n}",
    atResult: "length = {n}",
    or: [
      ["length >= {n}", "the length of the ending: so many moves or more"],
      ["length <= {n}", "the length of the ending: so many moves or fewer"],
    ],
    weak: true,
    example: "drawn after five moves",
  },
  say(
    "length {range}",
    "(last|of|in|long|for) {range} move [long]",
    "{range} move [long]",
    "end {range} move long",
  ),
  say(
    "entry-move {rel}",
    "(arise|begin|start|come|came|reach) {rel}",
    "(arise|begin|start) (at|on) move {rel}",
    "arise after move {rel}",
    "(arise|begin|start) move {rel}",
  ),
  say("entry-move > {n}", "(arise|begin|start|come about) after move {n}", "ending arise after move {n}"),
  say("entry-move > {n}", "(arise|begin|start|come about) [later|only] (later than|past|beyond) move {n}"),
  say("entry-move < {n}", "(arise|begin|start|come about) (earlier than|by) move {n}"),
  say("entry-move < {n}", "(arise|begin|start|come about) before move {n}"),
  say("moves-in {rel}", "{rel} move into [the] ending", "{rel} move after [the] ending (begin|arise|start)"),
  say("moves-in > {n}", "after move {n} of [the] ending", "{n} move into [the] ending"),
  {
    say: ["(in|within|inside|during) [the] (first|opening) {n} move [of [the] ending]"],
    means: "moves-in < {n}",
    weak: true,
    example: "decisive mistake in the first ten moves",
  },
  say(
    "game-moves > {n}",
    "[whole] game (go|run|last) [on] (past|beyond|over) move {n}",
    "(go|run|last|continue) [on] (past|beyond) move {n}",
  ),
  say("game-moves {rel}", "game (of|last|lasted) {rel} move", "whole game [last|take] {rel} move"),
  // clocks
  {
    say: [
      "(have|had) {time} [@clock] [@atbegin]",
      "{time} [@clock] @atbegin",
      "with {time} [@clock] @atbegin",
      "(come|go|get) into [the] ending with {time} [@clock]",
    ],
    means: { side: "{side}-clock {time}", both: "attacker-clock {time} and defender-clock {time}" },
  },
  { say: ["(with|under|in) {time} [@clock]", "{time} @clock", "{time}"], means: "{mover}clock {time}" },
  say(
    "{mover}clock < 10",
    "(with|only|just|having) [only|just|mere] =second (left|remaining|to go|on [the] clock)",
  ),
  say(
    "{mover}clock {remaining}",
    "(with|have|had|only|just) [only|just] {remaining} @clock",
    "{remaining} @clock",
    "down to [its|the] [last] {remaining}",
  ),
  {
    say: ["@err (with|at|having|have|had) [only|just] {remaining} @clock"],
    means: "{mover}error != none and clock {remaining}",
  },
  {
    say: [
      "(have|had) more time [left] [than [the] ({side=other}|opponent|other side)]",
      "more time [on [the] clock] [than [the] ({side=other}|opponent|other side)]",
      "ahead on [the] (clock|time)",
    ],
    means: { defender: "defender-clock > attacker-clock", attacker: "attacker-clock > defender-clock" },
  },
  {
    say: [
      "(have|had) less time [left] [than [the] ({side=other}|opponent|other side)]",
      "less time [on [the] clock] [than [the] ({side=other}|opponent|other side)]",
      "behind on [the] (clock|time)",
    ],
    means: { defender: "defender-clock < attacker-clock", attacker: "attacker-clock < defender-clock" },
  },
  say(
    "{mover}spent {time}",
    "after (thinking [for]|spending|using|[a] thought of) {time} [on [the] move]",
    "(thought|think) [for] {time} [on [the] move]",
    "(in|within) {time} (of thought|thinking)",
  ),
  say("spent {time}", "(thought|spent|took) {time} (on|over|for) [the] move", "[the] move took {time}"),
  {
    say: [
      "(spend|spent|take|took|use|think [for]|thought [for]) {time} [on [the|a] move] [and|but] [still] @err",
      "(spend|spent|take|took|use|think [for]|thought [for]) {time} (on|over|for) [a|the] [lose|bad|wrong] (@mistake|move that lose|lose move)",
      "@err (in|within|after only|after just) {time}",
      "@err after {time} [of] (thought|thinking)",
    ],
    means: "{mover}spent {time} and error != none",
  },
  {
    say: [
      "(have|had) {time} [@clock] (when|as) [he|she|it|they] @err",
      "@err (with|at|having) {time} [@clock]",
    ],
    means: "{mover}error != none and clock {time}",
  },
  say("{mover}spent {time}", "(move|reply|answer|play) (in|within|after) {time}"),
  {
    say: [
      "(after|with) [a] (long|deep) (think|thought)",
      "(think|thought) [for] [a] long [time]",
      "long think",
    ],
    means: "{mover}spent >= 300",
    or: [["{mover}spent >= 60", "a minute or more"]],
    example: "blundered after a long think",
  },
  {
    say: [
      "(instant|quick|fast|hasty|rushed|snap) @mistake",
      "@err (instantly|immediately|at once|quickly|in a hurry|without thinking|hastily)",
    ],
    means: "{mover}error != none and spent <= 5",
    example: "instant blunder",
  },
  say("clock-before {time}", "{time} [@clock] before [the] move"),
  {
    say: [
      "(in time trouble|in zeitnot|short of time|low on time|time trouble|time scramble|in [a] scramble|time pressure|under time pressure)",
    ],
    means: { nobody: "clock < 60", side: "{mover}clock < 60" },
  },
];

/** Set-ups: being in one, and what becomes of it. */
const SET_UPS: readonly Phrase[] = [
  say(
    "{setup}",
    "{setup}",
    "(reach|get|enter|obtain|have|had|adopt|use|choose|set up|arrive at) [into|to] [the|a] {setup}",
    "(run|fall|walk|stumble|slip) into [the|a] {setup}",
    "{setup} (reach|arise|occur|on [the] board|appear|come about|was reached)",
    "(go|come|get|drift|steer|head|make|move) (into|for|to) [the|a] {setup}",
    "with {setup} (reach|on [the] board)",
  ),
  say(
    "{setup}",
    "(against|facing) [the] {setup}",
    "(defend|sit|stand) (on|from|along) [the] {rankOfSetUp=setup}",
  ),
  say("never ({setup})", "never (on|in) [the] {rankOfSetUp=setup}"),
  say(
    "never ({setup})",
    "{setup} never (show up|showed up|appear|arise|occur|happen|come about|came about|reach)",
  ),
  say(
    "never (verdict = won)",
    "attacker never =winning [at any (point|time|stage|moment)]",
    "never =winning [at any (point|time|stage|moment)]",
    "attacker never (have|had) [a] (won|winning) position",
  ),
  {
    say: ["(defend|play|answer|respond) (with|by|in) [the] {setup}", "(play|use|choose|adopt) [the] {setup}"],
    means: {
      nobody: "{setup}",
      side: "{setup}",
      white: "{setup} and attacker = black",
      black: "{setup} and attacker = white",
      name: "defender-name ~ {name} and {setup}",
    },
    of: "defender",
  },
  { say: ["see [the] {setup} hold"], means: "{setup} and outcome = held", of: "defender", result: true },
  say("end ({setup})", "end (in|with) [the] {setup}", "(final|last) position (was|is) [a|the] {setup}"),
  say(
    "somewhere ({a}) and somewhere ({b})",
    "{setup=a} and {setup=b} [,] [both] [in] [the] (same|one) (game|ending)",
  ),
  say(
    "reached {setup} by (to-move = attacker and error != none)",
    "[attacker] @mistake (let|allow) [the] defender [get|come] (into|reach) [the] {setup}",
  ),
  say(
    "stays {setup} {tallied}",
    "(come|go|get|step) back (to|into) [the] {setup} {tallied}",
    "return (to|into) [the] {setup} {tallied}",
    "{setup} (arise|occur|recur|appear|happen) {tallied}",
  ),
  say(
    "stays {setup} >= 2",
    "(come|go|get|step|switch) back (to|into) [the] {setup}",
    "(return|retreat) (to|into) [the] {setup}",
    "(come|go|get|step|switch) back (to|into) [the] {setup} after (leaving|giving up|abandoning) it",
    "(return|retreat) (to|into) [the] {setup} after (leaving|giving up|abandoning) it",
    "(regain|restore|rebuild) [the] {setup}",
    "{setup} (again|once more|restored|regained|rebuilt)",
  ),
  say(
    "throughout ({setup})",
    "(stay|keep|remain|hold on|stick|sit) (in|to|with|on) [the] {setup} (throughout|all the time|the whole time|always|(to|until|till) [the] [very] end)",
    "(keep|keep up|hold|maintain) [up] [the] {setup} [up] (throughout|all the time|the whole time|always)",
  ),
  {
    say: [
      "(keep|keep up|hold|maintain|stay in|stick to) [up] [the] {setup} [up] (to|until|till) [the] [very|bitter] end",
      "{setup} (to|until|till) [the] [very|bitter] end",
    ],
    means: "end ({setup})",
    or: [["throughout ({setup})", "from the start to the end"]],
  },
  say(
    "held {setup} for {n} moves",
    "(hold|keep|keep up|maintain|stay in|stand in|sit in|keep to|stick to|stay with|last in|defend) [up] [the] {setup} [up] (for|over) [at least] {n} move",
    "{setup} (hold|keep|keep up|maintain|last) [up] [for] [at least] {n} move",
    "(hold|keep|keep up|maintain|stay in|stick to) [the] {setup} [for] {n} move or (more|longer)",
    "{setup} for [at least] {n} move [or more|or longer|and more|and longer]",
    "{n} move (in|of) [the] {setup}",
    "{setup} [that] last {n} move",
    "(@hold|defend|last|survive|hold out) [for] [at least] {n} move (with|in|using|by|thanks to) [the] {setup}",
  ),
  say(
    "held {setup} for {n} moves",
    "(@hold|defend|last|survive|hold out) [for] (more than|over) {successor=n} move (with|in|using|by|thanks to) [the] {setup}",
  ),
  say(
    "held {setup} for {n} moves",
    "(hold|keep|keep up|maintain|stay in|stick to) [up] [the] {setup} [up] [for] (more than|longer than|over) {successor=n} move",
    "{setup} (hold|keep|last|maintain) [up] [for] (more than|longer than|over) {successor=n} move",
    "{setup} for (more than|longer than|over) {successor=n} move",
  ),
  say(
    "{a} then within {n} moves {b}",
    "(reach|enter|get) [the] {setup=b} from [the] {setup=a} (within|in) {n} move",
    "(switch|go|change|turn|move|get) [over] [from] [the] {setup=a} (to|into) [the] {setup=b} (within|in) {n} move",
  ),
  say(
    "{setup} then (not {setup} and {mover}error != none)",
    "(first|next) @mistake after (leaving|giving up|abandoning|having left|stepping out of) [the] {setup}",
    "@err (after|once|when) [having] (leaving|left|given up|giving up|abandoned|abandoning|out of) [the] {setup}",
  ),
  say(
    "reached {b} from {a}",
    "(switch|go|change|turn|move|get|transpose|cross|pass|slip|slide) [over] [from] [the] {setup=a} (to|into) [the] {setup=b}",
    "(reach|enter|get|come to) [the] {setup=b} from [the] {setup=a}",
    "[from] [the] {setup=a} (to|into) [the] {setup=b}",
    "[the] {setup=a} (become|became|turn into|slip into|change into|transpose to|transpose into|lead to|switch to) [the] {setup=b}",
    "{setup=b} (reach|arise|come) from [the] {setup=a}",
    "[switch|go|change|turn|move|get|transpose] from [the] {rankOfSetUp=a} (to|into) [the] {setup=b}",
    "(reach|enter|get) [the] {setup=b} from [the] {rankOfSetUp=a}",
    "[switch|go|change|turn|move|get|transpose] from [the] {setup=a} to [the] {rankOfSetUp=b}",
  ),
  say(
    "{a} then {b}",
    "(switch|go|change|turn|move|get|transpose|pass) [over] [from] [the] {setup=a} (to|into) [the] {setup=b} in [the] (same|one|single) (game|ending)",
    "[from] [the] {setup=a} (to|into) [the] {setup=b} in [the] (same|one|single) (game|ending)",
    "{setup=a} (then|followed by|and then|and later|and afterwards|later|before) [the] {setup=b}",
    "{setup=b} after [the] {setup=a}",
    "{setup=b} (preceded by) [the] {setup=a}",
    "first [the] {setup=a} [,] (then|later|afterwards|after that) [the] {setup=b}",
    "{setup=a} [,] [but] later [come to|reach] [the] {setup=b}",
    "{setup=a} first [,] {setup=b} (later|afterwards|after that)",
    "{setup=a} first [,] [and] then [the] {setup=b}",
    "from [the] {rankOfSetUp=a} (to|into) [the] {setup=b} [,] (any number of move later|at some point|sooner or later|eventually|some time later|later)",
  ),
  say(
    "{a} then within {n} moves {b}",
    "{setup=a} (and|then) within {n} move [the] {setup=b}",
    "{setup=a} then within {n} move [the] {setup=b}",
    "{setup=a} [and] {n} move later [the] {setup=b}",
    "{setup=b} within {n} move (of|after) [the] {setup=a}",
  ),
  say(
    "first ({setup}) within {n} moves of entry",
    "{setup} [on [the] board|reach|arise] (within|in) [the] [first] {n} move [of [the] (@begin|ending|@begin of [the] ending)]",
    "(reach|get|enter) [the] {setup} (within|in) [the] [first] {n} move [of [the] (@begin|ending)]",
  ),
  say(
    "left {setup} by ({mover}kind = {kind})",
    "(leave|give up|abandon|step out of|break|break up) [the] {setup} (with|by) [a] {kind}",
  ),
  say(
    "left {setup} by ({mover}kind = {kind} and error != none)",
    "(leave|give up|abandon|break) [the] {setup} (with|by) [a] (lose|bad|wrong) {kind}",
    "(leave|give up|abandon|break) [the] {setup} (with|by) [a] {kind} (that|which) (lose|was [a] @mistake)",
  ),
  say(
    "left {setup} by ({mover}error != none)",
    "(leave|give up|abandon|break) [the] {setup} (with|by|through) [a] @mistake",
    "(leave|give up|abandon|break) [the] {setup} (too early|too soon|prematurely|wrongly)",
    "{setup} [was] (leave|left|give up|abandon|broken) (too early|too soon|prematurely|wrongly)",
  ),
  {
    say: [
      "[be] (save|rescue) [itself|himself|herself|themselves|[the] (draw|game|day|half point)] (by|with|through|thanks to) [a] stalemate (trick|resource|idea|trap)",
    ],
    means: "outcome = held and somewhere (stalemate-resource)",
    of: "defender",
    result: true,
  },
  say(
    "{setup} and not left {setup}",
    "never (leave|left|give up|abandon|break|step out of|get out of) [the] {setup}",
    "{setup} never (left|given up|abandoned|broken)",
  ),
  {
    say: ["{setup} [was] (broken|break|break down|breached)"],
    means: "left {setup}",
    or: [["{setup} and outcome = lost", "the game: it was lost"]],
    example: "Szén broken",
  },
  say(
    "left {setup}",
    "(leave|give up|abandon|step out of|get out of|come out of|go out of|escape from|escape|get away from|break|break up|dissolve|drop) [the|a] {setup}",
    "{setup} [was] (break up|give up|abandon|left|leave|dissolved)",
  ),
  say(
    "{a} then {b}",
    "{setup=a} [was] (broken|break|break down|break up|collapse|give up|abandon|left|leave) [,] [and] (then|later|afterwards) [the] {setup=b}",
    "(leave|give up|abandon) [the] {setup=a} [,] [and] (then|for|in favour of) [the] {setup=b}",
  ),
  {
    say: [
      "(misplay|mishandle|mishandled|botch|bungle|spoil|play badly) [the|a] {setup}",
      "let [the] {setup} (slip|go) [away]",
      "{setup} (misplay|mishandled|botched|bungled|spoil)",
    ],
    means: "{setup} and {mover}error != none",
  },
  {
    say: [
      "(save|rescue|hold) (itself|himself|herself|themselves|[the] draw|[the] game|[the] day|[the] half point) (with|by|through|thanks to) [the|a] {setup}",
    ],
    means: "{setup} and outcome = held",
    of: "defender",
    result: true,
  },
  {
    say: [
      "{setup} reach (by|through|with|after) [a] @mistake [by|of|from] [{who}]",
      "reach [the] {setup} (by|through|after) [a] @mistake [by|of|from] [{who}]",
    ],
    means: "reached {setup} by ({mover}error != none)",
  },
  {
    say: ["@err [straight|right] into [the|a] {setup}"],
    means: {
      nobody: "reached {setup} by (to-move = defender and error != none)",
      side: "reached {setup} by ({mover}error != none)",
      white: "reached {setup} by ({mover}error != none)",
      black: "reached {setup} by ({mover}error != none)",
      name: "reached {setup} by ({mover}error != none)",
    },
    example: "blundered into the Philidor",
  },
  say("reached {setup} by (kind = {kind})", "(reach|enter) [the] {setup} (by|with) [a] {kind}"),
];

/** The same things in looser words, as they are spoken at the board. */
const IDIOMS: readonly Phrase[] = [
  say(
    "never (king-rank = 1)",
    "@king [was|is] never (drive|driven|force|forced|pushed|confined) to [the] (edge|back rank)",
    "@king never reach [the] edge",
    "never (get|come|go|drive|driven) to [the] edge",
  ),
  {
    say: ["end in [a] loss for {who}", "be [a] loss for {who}", "lose by {who}"],
    means: {
      defender: "outcome = lost",
      attacker: "defender-result = won",
      white: "result = 0-1",
      black: "result = 1-0",
    },
    result: true,
  },
  say(
    "defender-errors = 0 and outcome = held",
    "(perfect|flawless|faultless|clean|error free) (hold|=draw|save)",
  ),
  say("attacker-errors = 0 and outcome = lost", "(perfect|flawless|faultless|clean|error free) =win"),
  say("defender-errors = 0", "(perfect|flawless|faultless|precise|accurate|clean) defence"),
  say(
    "attacker-errors = 0",
    "(perfect|flawless|faultless|precise|accurate|clean) (technique|attack|conversion)",
  ),
  {
    say: ["(beaten|defeated) by {name=other}", "(lose|lost) (to|against) {name=other}"],
    means: {
      nobody: "winner ~ {other}",
      name: "winner ~ {other} and loser ~ {name}",
      side: "winner ~ {other}",
      white: "winner ~ {other} and result = 0-1",
      black: "winner ~ {other} and result = 1-0",
    },
  },
  {
    say: ["(beat|beats|beating|win against|defeated) {name=other}"],
    means: {
      nobody: "loser ~ {other}",
      name: "winner ~ {name} and loser ~ {other}",
      side: "loser ~ {other}",
      white: "loser ~ {other} and result = 1-0",
      black: "loser ~ {other} and result = 0-1",
    },
  },
  say("white ~ {other}", "white {name=other}"),
  say("black ~ {other}", "black {name=other}"),
  {
    say: ["have [a|the] =win", "(position|ending) (was|is) lose", "[still] have [a|the] =win"],
    means: "verdict = won",
    atEnd: "final-verdict = won",
  },
  say("{a} then within {n} moves {b}", "[the] {setup=a} to [the] {setup=b} within {n} move"),
  { say: ["from {year}"], means: "year = {year}", or: [["year >= {year}", "that year and later"]] },
  { say: ["(lower rated|outrated|weaker rated) attacker"], means: "rating-difference < 0", of: "attacker" },
  { say: ["(higher rated|stronger rated) attacker"], means: "rating-difference > 0", of: "attacker" },
  { say: ["(lower rated|outrated|weaker rated) defender"], means: "rating-difference > 0", of: "defender" },
  { say: ["(higher rated|stronger rated) defender"], means: "rating-difference < 0", of: "defender" },
  say(
    "entry ({setup})",
    "(begin|start|arise) (in|with|as|from) [the|a] {setup}",
    "{setup} (at|from) [the] @begin",
  ),
  say("length {rel}", "(short|brief|quick|long) ending {rel} move"),
  {
    say: ["(on|along|of) [the] (back|first|last) rank", "(on|at) [the] edge [of [the] board]"],
    means: "king-rank = 1",
    weak: true,
  },
  say("to-move = defender and in-check", "@king in check"),
  say("to-move = attacker and in-check", "@aking in check"),
  say("corner-steps = 1", "@king (next to|beside|one step from|one square from) [the|a] corner"),
  say("opposition = none", "no opposition", "without [the] opposition"),
  say("verdict = {verdict}", "verdict [of|is|was] {verdict}", "[a] {verdict} verdict"),
  {
    say: ["(find|play|see) [the] only move (to|that) @hold"],
    means: "to-move = defender and verdict = drawn and only-move and error = none",
  },
  {
    say: ["(find|play|see) [the] only move (to|that) win"],
    means: "to-move = attacker and verdict = won and only-move and error = none",
  },
  say("king-file = 1", "@king on [a|the] rook file"),
  say("king-file = 2", "@king on [a|the] knight file"),
  say("king-file = 3", "@king on [a|the] bishop file"),
  say("king-board-file = 4 or king-board-file = 5", "central @king"),
  {
    say: [
      "[kings|@king] on [a|the] (central|centre|middle) file",
      "@king on [a|the] (central|centre|middle) file",
    ],
    means: "king-file = 4",
    or: [["king-board-file = d or king-board-file = e", "the d or e file of the board"]],
  },
  say("king-rank = 1 and king-file = 1", "@king on [a|the] rook file (of|on) [the] (back rank|edge)"),
  say("king-rank = 1 and king-file = 2", "@king on [a|the] knight file (of|on) [the] (back rank|edge)"),
  say("king-rank = 1 and king-file = 3", "@king on [a|the] bishop file (of|on) [the] (back rank|edge)"),
  {
    say: ["[the] position (is|was) [still] [a] (draw|drawn)", "[still] [a] (draw|drawn) position"],
    means: "verdict = drawn",
    atEnd: "final-verdict = drawn",
  },
  say(
    "verdict = won",
    "[the] attacker [is|was] =winning",
    "=winning for [the] attacker",
    "[a|the] win on [the] board",
  ),
  say("fork = attacker or skewer = attacker", "(fork or skewer|skewer or fork) (by|from|of) [the] attacker"),
  say("fork = defender or skewer = defender", "(fork or skewer|skewer or fork) (by|from|of) [the] defender"),
  say(
    "stalemate-resource and to-move = defender and verdict = drawn and only-move",
    "stalemate (is|was) [the] [defender] @onlyone (way|chance|hope) [to (draw|hold|survive|be saved)]",
  ),
  say("entry-verdict = {verdict}", "(in|from) [a] [@theory] {verdict} ending"),
  {
    say: [
      "(@hold|hold out|survive|last|defend|resist) [for] {n} move [,] [and|but|before] [then|only|only then|finally|eventually] (lose|losing|collapse|collapsing|crack|cracking|crumble|go down|going down|@err|erring|fall apart)",
      "(lose|collapse|crack|crumble|go down) after (holding|defending|surviving|holding out|resisting|lasting) [for] {n} move",
    ],
    means: "outcome = lost and length >= {n}",
    of: "defender",
    result: true,
    // "held the Philidor for ten moves, then lost" is two conditions
    weak: true,
    example: "held for 40 moves and then collapsed",
  },
  {
    say: [
      "(@hold|hold out|survive|last|defend) (until|till|up to) move {n} [,] [and|but|before] [then|only then|finally] (lose|losing|collapse|crack|go down|@err)",
    ],
    means: "outcome = lost and length >= {n}",
    of: "defender",
    result: true,
  },
  {
    say: ["lose later", "(later|afterwards) lose"],
    means: "outcome = lost",
    result: true,
  },
  { say: ["(in|from) [a] drawn game", "drawn game"], means: "defender-result = drew", result: true },
  say(
    "entry-verdict = {verdict}",
    "[already] {verdict} (when|as) [the] (ending|position|it) (arise|arose|begin|began|start|started|came about)",
  ),
  say("first-rank-defence", "(back|last) rank defence"),
  say(
    "{setup} and attacker = black",
    "{setup} (by|for|with|from) white",
    "white (use|play|adopt|choose|try|go for) [the] {setup}",
  ),
  say(
    "{setup} and attacker = white",
    "{setup} (by|for|with|from) black",
    "black (use|play|adopt|choose|try|go for) [the] {setup}",
  ),
  say("{setup}", "defence by {setup}", "defend (by|with) {setup}"),
  say("never (pinned != none)", "no pin [at all]", "without [a|any] pin"),
  {
    say: [
      "@rook ((attack|hit) !by|hitting|bite|bites) [the] bishop",
      "bishop (attacked|under attack|hit) (by|from) [the] @rook",
    ],
    means: "rook-on-the-bishop",
    or: [["(rook-attacks = bishop or rook-attacks = both)", "the rook, whatever the set-up"]],
  },
  say("rook-on-the-bishop", "@rook on [the] bishop"),
  say(
    "king-in-the-open",
    "@king (escape|run|break|get|come|go|walk|march|step|head|return) [out|back|away] [in] (to|into|towards|for) [the] (centre|open|middle)",
    "@king (escape|break) (out|away)",
  ),
  say("attacker-king-rank = {rank.mirror}", "@aking on (its|his) {rank}", "@aking on (its|his) {rank} rank"),
  say("rook-rank <= 2", "passive @rook", "@rook passive", "passive defence", "(defend|play) passively"),
  say("first-rank-defence", "passive @rook (on|along) [the] (first|back|last) rank"),
  say(
    "active-rook-behind-the-king",
    "@rook [is|was] active",
    "with [an] active @rook",
    "(defend|defended|play) actively",
    "active defence",
  ),
  say("kings-apart {cmp}", "king {cmp} (square|step) apart", "{cmp} (square|step) between [the] [two] king"),
  say('rook-place = "in front"', "@rook in front of it"),
  say("rook-place = behind", "@rook behind it"),
  say("rook-place = beside", "@rook beside it"),
  say(
    "opposition = direct",
    "king (oppose|opposed|facing each other|opposite each other) [two square apart]",
    "king (face|facing|opposite|stare at|staring at) (each other|one another) with [only|just] [a|one] [single] (square|rank|file) between [them]",
  ),
  say(
    "never (to-move = defender and verdict = drawn and only-move and error != none)",
    "defender (find|play|see) (every|all) [the] only move",
    "(find|play|see) (every|all) [the] only move",
    "only move [was|were] (all|always|every time) (found|played)",
    "only move [was|were] (found|played) (every time|each time|always|without exception)",
  ),
  say(
    "errors {cmp}",
    "{cmp} @mistake (by|from) both [side|player] (together|combined|altogether|in all|in total)",
  ),
  say("never ({a} or {b})", "neither {setup=a} nor {setup=b}", "(without|no) {setup=a} (or|nor) {setup=b}"),
  {
    say: [
      "(with|having|play with|had) [the] [extra|additional] bishop",
      "(with|having|have|had) [the|an] (extra|additional) (bishop|piece)",
      "[a] (piece|bishop) (up|ahead|more)",
      "on [the] (attacking|stronger) side",
    ],
    means: ATTACKED,
  },
  {
    say: [
      "(with|having|play with) [only|just] [the|a] [lone] rook [only|alone]",
      "without [the] bishop",
      "[a] (piece|bishop) (down|behind|less)",
      "on [the] (defending|weaker) side",
    ],
    means: DEFENDED,
  },
  {
    say: ["(fail|failed|break down|not work|not hold up)"],
    means: { nobody: "outcome = lost", defender: "outcome = lost", attacker: "outcome = held" },
    result: true,
  },
  {
    say: ["(work|works|worked|hold up|held up|do the job)"],
    means: "outcome = held",
    of: "defender",
    result: true,
  },
  say("bishop-colour = other", "bishop on [the] wrong colour [for [the] corner]", "wrong colour bishop"),
  say("bishop-colour = corner's", "bishop [of|on] [the] same colour [as [the] corner]", "same colour bishop"),
  say(
    "bishop-colour = other",
    "bishop [of|on] [the|an] (other|opposite|different) colour [(than|from|as|to) [the] corner]",
    "(other|opposite|different) colour bishop",
  ),
  say("bishop-colour = corner's", "bishop on [the] right colour [for [the] corner]", "right colour bishop"),
  say(
    "attacker-king-barred != none",
    "@aking (shut|kept|held|locked) (out|off) [by [the] rook]",
    "@aking cut off [by [the] rook]",
    "rook (shut|keep|lock) [out] [the] (attacking|attacker|enemy) king [out]",
  ),
  say('opposition = "knight\'s move"', "knight move between [the] king", "king [a] knight jump apart"),
  say("{mover}legal {cmp}", "[only] {cmp} legal move", "with [only] {cmp} legal move"),
  {
    say: [
      "overlooked [a|the] stalemate (trick|resource|idea|chance|defence)",
      "stalemate (trick|resource|idea|chance|defence) (overlook|miss|go unnoticed)",
      "(overlook|miss) [a|the] stalemate [trick|resource|idea|chance|defence]",
    ],
    means: {
      nobody: "stalemate-resource and error != none",
      side: "to-move = {side} and stalemate-resource and error != none",
    },
  },
  say(
    "stalemate-resource and to-move = defender and error != none",
    "stalemate (trick|resource|idea|chance) (overlook|miss) by [the] defender",
  ),
  say(
    "to-move = attacker and verdict = won and only-move and error != none",
    "[have|had] @onlyone win move (and|but) miss it",
  ),
  say(
    "to-move = defender and verdict = drawn and only-move and error != none",
    "[have|had] @onlyone @holding move (and|but) miss it",
  ),
  say(
    "full-point-errors > 0",
    "from (win|winning|won) to (loss|losing|lost) [in one move]",
    "from [a] win to [a] loss [in one move]",
  ),
  {
    say: ["give up"],
    means: RESIGNED,
    end: true,
  },
  say(
    "defender-result = won and verdict = won",
    "attacker lose [a] (won|winning) (position|ending|game|one)",
    "defender win [a] (lost|losing) (position|ending|game|one)",
    "defender win [,] (although|though|despite|after) (he|she|they|it) [was|were|being] (lost|losing)",
  ),
  {
    say: ["(save|rescue|hold|draw) [a] lose (ending|position|game|one)"],
    means: "entry-verdict = won and outcome = held",
    of: "defender",
    result: true,
  },
  {
    say: ["lose [a] (drawn|dead drawn) (one|ending|position|game)"],
    means: "entry-verdict = drawn and outcome = lost",
    of: "defender",
    result: true,
  },
  {
    say: [
      "(press|push|play for [a|the] win|have [the] rook and [the] bishop|with [the] rook and [the] bishop|have [the] extra (bishop|piece))",
    ],
    means: ATTACKED,
  },
  {
    say: [
      "(as|is|was|be) [the] defender",
      "(suffer|on [the] defensive|in defence|have [the] lone rook|with [the] lone rook)",
    ],
    means: DEFENDED,
  },
  {
    say: ["(as|is|was|be) [the] attacker"],
    means: ATTACKED,
  },
  {
    say: ["(grind|ground) [it] (out|down)", "(make|made) it count"],
    means: {
      nobody: "outcome = lost",
      attacker: "outcome = lost",
      white: "result = 1-0",
      black: "result = 0-1",
      name: "winner ~ {name}",
    },
    result: true,
  },
  say(
    "not engine-game",
    "(engine|computer) game (left out|leave out|exclude|excluded|out)",
    "without (engine|computer)",
  ),
  say("bishop-pin = {line}", "bishop pin to [its|the] king (along|on|by|down) [a|the] {line}"),
  say("rook-pin = {line}", "rook pin to [its|the] king (along|on|by|down) [a|the] {line}"),
  say(
    "rear-pin-line = {line}",
    "pin [the] bishop from behind (on|along) [a|the] {line}",
    "rear pin (on|along) [a|the] {line}",
  ),
  say(
    "rear-pin and rear-pin-line = {line}",
    "(cochrane|rear pin) [defence|pin|position] [pin] (on|along|down|by|over) [a|the] {line}",
    "[the] {line} (cochrane|rear pin) [defence]",
  ),
  {
    say: [
      "(fall|walk|run|step|go) into [a|the] stalemate (trick|trap|resource|idea)",
      "allow [a|the] stalemate [trick|trap|resource]",
    ],
    means:
      "(to-move = attacker and error != none) then within 1 moves (stalemate-resource and to-move = defender)",
    of: "attacker",
  },
  say(
    "rating-difference < 0 and outcome = lost",
    "@weaker [player] win (with|having) [the] bishop",
    "[the] bishop [side] win against [a|the] @stronger [player]",
  ),
  say("rating-difference > 0 and outcome = lost", "@stronger [player] win (with|having) [the] bishop"),
  say(
    "rating-difference > 0 and defender-result = drew",
    "@weaker [player] (hold|save|keep|secure|rescue) [the|a] (=draw|half point)",
  ),
  say(
    "rating-difference < 0 and defender-result = drew",
    "@stronger [player] (hold|save|keep|secure|rescue) [the|a] (=draw|half point)",
  ),
  say("rating-difference > 0 and outcome = held", "@weaker [player] @hold [with [the] [lone] rook]"),
  say("rating-difference < 0 and outcome = held", "@stronger [player] @hold [with [the] [lone] rook]"),
  say(
    "rear-pin-line != none",
    "pin [the] bishop from behind",
    "bishop pin from behind",
    "bishop pin to [its|the] king from behind",
    "pin [the] bishop to [its|the] king from behind",
  ),
  {
    say: ["(get|be|getting) stalemate", "stalemated [defender|king]"],
    means: "ended-by = stalemate",
    end: true,
  },
  say('to-move = defender and kind = "into wedge"', "(step|go|move|walk) into [the] [bishop] wedge"),
  say('to-move = defender and kind = "out of wedge"', "(step|go|move|walk) out of [the] [bishop] wedge"),
  say(
    'to-move = defender and error != none and kind = "to corner"',
    "lose by (moving|move) [its] king (to|towards|into) [the] corner",
  ),
  say(
    'to-move = defender and kind = "to corner"',
    "(go|head|run|make) for [the] corner [with [the|its] king]",
    "(go|walk|run|step) (to|into|towards) [the] corner",
  ),
  {
    say: [
      "it (cost|costs) [him|it|them] [the] [game|draw|win]",
      "(and|which) cost [him|it] [the] [game|draw|win]",
      "pay for it",
    ],
    means: "{mover}error != none",
  },
  say("verdict = won", "busted"),
  say("{a} then {b}", "{setup=a} first (then|and|and then) [the] {setup=b} [afterwards|later|after that]"),
  say("{a} then within {n} moves {b}", "{setup=a} [,] then [the] {setup=b} within {n} move"),
  say(
    "left {setup} by ({mover}kind = {moved})",
    "(leave|give up|abandon) [the] {setup} (by moving|by [a] move of|with|by) [the] {moved}",
  ),
  { say: ["(spotless|immaculate|faultless|flawless) (play|defence) by both [side]"], means: "errors = 0" },
  say(
    "{x}-errors > {y}-errors",
    "more @mistake (by|from|of) [the] {side=x} than (by|from|of) [the] {side=y}",
  ),
  say(
    "{x}-errors < {y}-errors",
    "(fewer|less) @mistake (by|from|of) [the] {side=x} than (by|from|of) [the] {side=y}",
  ),
  say(
    "contradicts",
    "result (not|never) (match|fit|agree with|correspond to) [what] [the] [was on] [board|position|verdict|final position|final verdict|table]",
    "wrong result",
  ),
  {
    say: ["(@err|@mistake) (with|by moving) [the] {moved}", "@mistake with [the] {moved}"],
    means: "{mover}error != none and kind = {moved}",
  },
  say("{mover}kind = {moved}", "(move|moves|moving) [the|its] {moved}"),
  {
    say: [
      "(hang on|hold firm|stand firm|dig in|get away with it|get away with [a] draw|wriggle out|bail out|escape [with] [a] draw|hold tight|hold out|survive|keep [the] draw|hold [the] (ending|position|line|fort))",
      "(never|not) (crack|break|collapse|give way)",
      "(let|let off) [the] hook",
    ],
    means: {
      nobody: "outcome = held",
      side: "outcome = held",
      white: "attacker = black and outcome = held",
      black: "attacker = white and outcome = held",
      name: "defender-name ~ {name} and outcome = held",
    },
    of: "defender",
    result: true,
  },
  {
    say: [
      "(not|never) (break|get) through",
      "(not|never) (make|find) [any] (progress|way through|breakthrough)",
      "(not|never) (force|get|find) [the|a] win",
      "get nowhere",
      "come away with nothing [more]",
      "(have to|had to) settle for [a] draw",
      "settle for [a] draw",
    ],
    means: {
      nobody: "outcome = held",
      side: "outcome = held",
      white: "attacker = white and outcome = held",
      black: "attacker = black and outcome = held",
      name: "attacker-name ~ {name} and outcome = held",
    },
    of: "attacker",
    result: true,
  },
  {
    say: [
      "(go down|crumble|crack|collapse|give way|fall apart|get beaten|end up lost|end up losing|succumb|get ground down|be ground down)",
    ],
    means: {
      nobody: "outcome = lost",
      side: "outcome = lost",
      name: "loser ~ {name}",
      white: "result = 0-1",
      black: "result = 1-0",
    },
    result: true,
  },
  {
    say: [
      "(pull off|bring home|get|take|score|grind out|squeeze out|bag) [the] (win|full point|point|whole point)",
      "(prevail|triumph|succeed|get through|break through|come out on top|win through)",
    ],
    means: ATTACKER_WON,
    result: true,
  },
  {
    say: [
      "(blow|ruin|bungle|botch|fluff|mess up|muff|chuck|chuck away|drop|squander|let go of|waste|blunder away|toss away|fritter away) [the|a] win",
      "(blow|ruin|bungle|botch|mess up) [a] (winning|won) (position|game|ending)",
      "(let|let off) (him|defender|black|white) (off|off the hook|escape|get away)",
      "(spoil|miss|throw away|let slip) [a] (winning|won) (position|game|ending)",
      "(blow|throw) it",
      "(miss|overlook) [a] (mate|forced mate)",
      "have [a|the] (mate|forced mate|win) [,] (but|and) (miss|overlook|not see|not find) it",
      "(miss|overlook) it",
      "miss [the|a|its] chance",
    ],
    means: {
      nobody: "to-move = attacker and verdict = won and error != none",
      attacker: "to-move = attacker and verdict = won and error != none",
      defender: "to-move = defender and verdict = drawn and error != none",
      name: "mover ~ {name} and to-move = attacker and verdict = won and error != none",
      white: "turn = white and to-move = attacker and verdict = won and error != none",
      black: "turn = black and to-move = attacker and verdict = won and error != none",
    },
  },
  {
    say: [
      "(blow|ruin|bungle|botch|fluff|mess up|chuck|chuck away|drop|squander|waste) [the|a] (draw|half point)",
      "(throw away|give away|spoil|lose|miss|let slip) [a|the] (drawn position|drawn ending|drawn game|half point)",
      "(lose|spoil|throw away) [the] draw (by|with|through|because of) [a] (wrong|bad|careless) [move]",
    ],
    means: {
      nobody: "to-move = defender and verdict = drawn and error != none",
      attacker: "to-move = attacker and verdict = drawn and error != none",
      defender: "to-move = defender and verdict = drawn and error != none",
      name: "mover ~ {name} and verdict = drawn and error != none",
    },
  },
  say(
    "to-move = defender and verdict = drawn and error != none and kind = {kind}",
    "lose [the] draw (by|with|through) [a] [wrong|bad] {kind}",
    "(throw away|give away) [the] draw (by|with|through) [a] [wrong|bad] {kind}",
  ),
  say(
    "{mover}error != none and kind = {kind}",
    "@err (with|by) [a] {kind}",
    "(wrong|bad|mistaken) {kind}",
    "{kind} (that|which) (was|is) [a] @mistake",
    "@mistake (with|by) [the|a] {kind}",
  ),
  {
    say: [
      "(shake|shook) hands [on [a] draw]",
      "(split|share|halve) [the] point",
      "(peace|truce) [was] (agreed|signed|made)",
      "call it [a] (day|draw)",
    ],
    means: "ended-by = agreed",
    end: true,
  },
  {
    say: [
      "(stop|stopped) [the] clock",
      "tip [over] [its|the] king",
      "call it [a] day and resign",
      "(lay|put) down [its] king",
    ],
    means: {
      nobody: "ended-by = resignation",
      defender: "ended-by = resignation and outcome = lost",
      attacker: "ended-by = resignation and defender-result = won",
      name: "ended-by = resignation and loser ~ {name}",
    },
    end: true,
  },
  {
    say: [
      "(run|ran) out of [the] (time|clock)",
      "time (run|ran) out",
      "flag (fall|fell|drop)",
      "[its] flag (fall|fell|drop)",
      "time out",
      "lose by [the] (flag|clock)",
    ],
    means: LOST_ON_TIME,
    end: true,
  },
  {
    say: [
      "fifty move (were|was) claim",
      "fifty move claim",
      "claim [a|the] fifty move draw",
      "(claim|claimed) fifty move",
      "[end|draw] by [the] fifty",
      "(after|with) fifty move without [a] (capture|pawn move)",
    ],
    means: 'ended-by = "fifty moves"',
    end: true,
  },
  {
    say: [
      "(the same|same) position three time",
      "repeat three time",
      "(draw|drawn) by [three] repetition",
      "perpetual [check]",
    ],
    means: "ended-by = repetition",
    end: true,
  },
  {
    say: [
      "(when|although|though|while|but|yet) [still|really|actually|already|@theory] {verdict}",
      "in [a] [@theory] {verdict} one",
    ],
    means: "verdict = {verdict}",
    atEnd: "final-verdict = {verdict}",
    weak: true,
  },
  {
    say: [
      "(when|although|though|while|but|yet) (really|actually|already|@theory) lost",
      "(when|although|though|while|but|yet) (it|position|ending) (was|is) [@theory] lose",
      "(in|from) [a] [really|actually|already|@theory] lose (position|ending)",
      "in [a] hopeless position",
    ],
    means: "verdict = won",
    atEnd: "final-verdict = won",
  },
  say(
    "verdict = won",
    "(theoretical|objective|book) =win",
    "attacker (stood|stands|standing) (winning|won)",
    "(stood|stands|standing) (winning|won)",
    "won at (some|one) (point|moment|stage)",
    "(was|is) (winning|busted) [at some point|at one point|at some moment|for a while]",
  ),
  {
    say: [
      "(was|is|be) (lost|losing|busted) (at some point|at one point|at some moment|at some stage|once|for a while)",
      "stood (lost|worse|badly)",
    ],
    means: { nobody: "verdict = won", defender: "verdict = won", attacker: "verdict = lost" },
  },
  say(
    "verdict = won and beyond-fifty",
    "(theoretical|objective|book) =win [which|that] [the] fifty move [rule] (spoil|spoils|prevent|prevents)",
    "(win|won) only without [the] fifty move rule",
    "=win (that|which) [the] fifty move [rule] (spoil|stop|prevent|not allow)",
  ),
  say("verdict = drawn", "[a] drawn one"),
  say(
    "entry-verdict = drawn and outcome = lost",
    "(theoretical|objective|book) draw lost",
    "lost (theoretical|objective|book) draw",
    "(theoretical|objective|book) draw (that|which) (was|were) lost",
  ),
  say(
    "verdict = won and dtm {rel}",
    "[attacker] need {rel} move to (mate|win)",
    "mate {rel} move away",
    "(win|mate) takes {rel} move",
    "mate in {rel} move or so",
  ),
  say(
    "to-move = attacker and verdict = won and dtm = 1 and error != none",
    "(miss|overlook) [a|the] mate in one",
  ),
  say(
    "to-move = attacker and verdict = won and dtm <= 5 and error != none",
    "(miss|overlook|blow) [a|the] (short|quick|easy|simple|fast) mate",
  ),
  { say: ["(needs|need) {rel} move to (mate|win)"], means: "verdict = won and dtm {rel}" },
  say(
    "stalemate-resource",
    "stalemate in [the] air",
    "immune rook",
    "rook (can|cannot|may) not be taken [because of stalemate]",
  ),
  say(
    "mate-threat and to-move = defender",
    "mate threat against [the|a] (defender|@king)",
    "mate threat against",
    "@king threaten with mate",
    "threat of mate against [the] (king|defender)",
  ),
  say("corner-steps > 0", "(but|and) not in [the] corner", "@king not in [the] corner"),
  say("corner-steps > 0 and king-rank = 1", "@king on [the] edge [but] not in [the] corner"),
  say(
    "corner-steps = 0",
    "@king (trapped|stuck|locked) in [the|a] corner",
    "cornered @king",
    "@king (stand|stood|sit|sat) in [the] corner",
    "corner king",
  ),
  say(
    "rook-pin = {line}",
    "pin [by [the] attacker] on [the] @rook (along|on|down) [a|the] {line}",
    "@rook pinned by [the] rook [along|on|down] [a|the] {line}",
  ),
  say("bishop-pin != none", "bishop pin to [its] king", "bishop stuck in [a] pin"),
  say(
    "rook-pin = diagonal",
    "bishop pin [the] @rook [to [its|the] king]",
    "@rook pin by [the] bishop",
    "pin by [the] bishop on [the] rook",
  ),
  say(
    "errors = 0",
    "(nobody|no one|neither) @err",
    "both [side] (play|played) (perfect|flawless|faultless|perfectly|flawlessly|faultlessly)",
    "(perfect|flawless|faultless|clean) (play|game) (by|from) both [side]",
    "clean (game|play|ending)",
  ),
  {
    say: ["(make|commit) [a] @mistake {times}", "(slip|slipped) {times}"],
    means: {
      nobody: "errors {times}",
      side: "{side}-errors {times}",
      both: "attacker-errors {times} and defender-errors {times}",
    },
  },
  {
    say: ["more defender @mistake than attacker @mistake"],
    means: "defender-errors > attacker-errors",
  },
  { say: ["more attacker @mistake than defender @mistake"], means: "attacker-errors > defender-errors" },
  {
    say: [
      "(perfect|flawless|faultless|precise|accurate|clean) play",
      "(play|defend|attack|convert) (perfectly|flawlessly|faultlessly|precisely|accurately|without fault)",
      "(not|never) put [a] foot wrong",
      "(not|never) make [a|any] [single] @mistake",
      "make no @mistake",
    ],
    means: NO_MISTAKES,
  },
  {
    say: ["first @mistake [come|occur|happen|was made] after move {n} [of [the] ending]"],
    means: {
      nobody: "first-mistake and moves-in > {n}",
      side: "to-move = {side} and own-first-mistake and moves-in > {n}",
      name: "mover ~ {name} and own-first-mistake and moves-in > {n}",
    },
  },
  {
    say: ["first @mistake [come|occur|happen|was made] before move {n} [of [the] ending]"],
    means: {
      nobody: "first-mistake and moves-in < {n}",
      side: "to-move = {side} and own-first-mistake and moves-in < {n}",
      name: "mover ~ {name} and own-first-mistake and moves-in < {n}",
    },
  },
  {
    say: ["lose mistake [come] after move {n} [of [the] ending]"],
    means: {
      nobody: "to-move = defender and decisive-mistake and moves-in > {n}",
      side: "{mover}decisive-mistake and moves-in > {n}",
    },
  },
  say(
    "{mover}decisive-mistake and moves-in > {n}",
    "decisive mistake [come] after move {n} [of [the] ending]",
  ),
  {
    say: [
      "all [the] same",
      "(in|within|during|over|throughout) [(one|the|a single|a|one and) (same|one|single|whole|course of (a|one|the))] (game|ending)",
      "(in|within|during|over) [the] course of [(a|one|the) [single]] (game|ending)",
      "after all",
      "of play",
      "at [the] board",
      "(and|when) [the] (ending|game|it) was (over|finished)",
      "for all that",
    ],
    means: "everything",
    example: "held all the same",
  },
  say(
    "rating-difference {rel}",
    "rating (gap|difference) [of] {rel} [@points] in favour of [the] attacker",
    "attacker {rel} [@points] (ahead|up|stronger|higher)",
  ),
  say(
    "rating-difference {rel.negative}",
    "rating (gap|difference) [of] {rel} [@points] in favour of [the] defender",
  ),
  say(
    "attacker-rating = defender-rating",
    "(same|equal|identical) rating [on both side]",
    "equally rated [player]",
    "both [player] rated [the] same",
  ),
  say(
    "not (pace = {this} or pace = {that})",
    "neither {pace=this} nor {pace=that}",
    "not {pace=this} or {pace=that}",
  ),
  say(
    "not pace = {pace}",
    "(no|not) {pace} [game]",
    "(exclude|excluding|leave out|leaving out|apart from|other than|minus) {pace} [game]",
    "{pace} [game] (excluded|left out|not included)",
  ),
  say("pace = {pace}", "{pace} [game] only", "only {pace} [game]", "[at] {pace} (pace|speed|tempo)"),
  {
    say: [
      "(start|begin|enter) [the] ending with {time}",
      "(start|begin) with {time}",
      "{time} [@clock] (at|when) [the] (start|beginning|ending)",
    ],
    means: {
      side: "{side}-clock {time}",
      both: "attacker-clock {time} and defender-clock {time}",
      nobody: "defender-clock {time}",
    },
  },
  say("king-rank = {rank} and king-cut-off = rank", "@king cut off on (its|his) [own] {rank} rank"),
  say(
    "{a} then within {n} moves {b}",
    "{setup=a} (followed by|then|and then|before|turning into) [the] {setup=b} within {n} move",
    "(from|after) [the] {setup=a} (to|into) [the] {setup=b} within {n} move",
    "{setup=b} within {n} move of [the] {setup=a}",
  ),
  say(
    "{a} then {b}",
    "from [the] {setup=a} (to|into) [the] {setup=b} (at some point|sooner or later|any number of move later|eventually|some time later|later)",
    "{setup=a} (eventually|sooner or later|later) {setup=b}",
    "[the] {setup=b} (came|comes|arose|follow|followed) after [the] {setup=a}",
    "{setup=a} came before [the] {setup=b}",
  ),
  say(
    "somewhere ({a}) and somewhere ({b})",
    "{setup=a} as well as [the] {setup=b}",
    "both [the] {setup=a} and [the] {setup=b}",
  ),
  say(
    "{setup}",
    "(get|be|find itself|land|end up|sit) (in|into) [the|a] {setup}",
    "[the] {setup} [was|were] (use|used|adopted|tried|chosen|seen|set up|built|reached)",
    "(try|adopt|use|go for|opt for|set up|build|construct) [the] {setup}",
  ),
  say(
    "throughout (king-rank = 1)",
    "keep [its] king on [the] (back|first) rank (all the time|throughout|always)",
    "@king (stay|kept|remained|stuck) on [the] (back rank|first rank|last rank|edge) (all the time|throughout|always|the whole time|to the end)",
    "@king always on [the] (back rank|first rank|last rank|edge)",
  ),
];

/** What people say and no fact tells: refused, so that no word of it is taken for something else. */
export const NO_FACTS: readonly Phrase[] = [
  {
    say: [
      "(draw agree|agree [a] draw|agreed drawn|agreed) (early|immediately|at once|too early|too soon|prematurely|quickly)",
      "(premature|early) (=draw|agreement)",
    ],
    means: "everything",
    refused: [
      "how early is early has to be told",
      'ask "draw agreed in less than 10 moves" or "draw agreed in a won position"',
    ],
  },
  {
    say: ["how long (do|does|did|is|was|to|must|can)", "how many move (do|does|did|are|were|to|must|can)"],
    means: "everything",
    refused: [
      "how long something took is counted or put in order, not found",
      'ask "longest wins" or "held for more than 50 moves"; or count: longside count "attacker won" --by length',
    ],
    example: "how long does it take",
  },
  {
    say: ["double check"],
    means: "everything",
    refused: [
      "a double check is no fact",
      'near it are "discovered check given", "battery", "discovered check that wins the rook"',
    ],
  },
  {
    say: ["(dead position|insufficient material)"],
    means: "everything",
    refused: [
      "a draw for want of material is not told apart",
      'near it are "rooks exchanged", "bishop lost", "draw by stalemate"',
    ],
  },
  {
    say: ["(early|late) (ending|game|endgame)", "(arise|begin|start) (early|late)"],
    means: "everything",
    refused: [
      "what is early or late has to be told",
      'ask by the move at which the ending arose: "ending arose before move 50", "ending arose after move 70"',
    ],
  },
  {
    say: ["comedy of error"],
    means: "everything",
    refused: [
      "how many mistakes make a comedy has to be told",
      'ask "at least four mistakes" or "most mistakes first"',
    ],
  },
  {
    say: [
      "(in|during|within|over|on) [the|its|his|their] [very] last {n} move",
      "[the|its|his|their] last {n} move of [the] (game|ending)",
    ],
    means: "everything",
    refused: [
      "how far it is to the end of the game is no fact",
      'the move that decided can be asked for: "decisive mistake after move 40", or how it stood at the end: "defender lost, drawn in the final position"',
    ],
    example: "in the last ten moves",
  },
  {
    say: [
      "repeat [the] (position|move) [at least|more than] [{n}|{tallied}] [time]",
      "[at least|more than] {n} repetition",
    ],
    means: "everything",
    weak: true,
    refused: [
      "how often a position came back is no fact",
      'how the game ended is one: "draw by repetition", "draw by the fifty-move rule"',
    ],
    example: "repeated the position three times",
  },
  {
    say: ["@rook cut off from [its|the] [own] [defending|defender] king"],
    means: "everything",
    refused: [
      "whether a rook is cut off from its own king is no fact",
      'where it stands is one: "rook on the long side", "rook on the opposite wing from its king", "unprotected rook"',
    ],
  },
  {
    say: [
      "(woman|women|female|girl|lady|ladies|junior|boy|youth) (game|player|chess)",
      "between (women|juniors)",
    ],
    means: "everything",
    refused: [
      "who is a woman or a junior is not in the games",
      'the name of the event often tells it: event ~ "Women", event ~ "U20"',
    ],
  },
  {
    say: ["world champion", "[by] [the] world champion"],
    means: "everything",
    refused: [
      "titles are not in the games",
      'names and ratings are: "Carlsen defended", "attacker rated over 2750", event ~ "World Championship"',
    ],
  },
  {
    say: ["triangulate", "triangulation", "lose a tempo", "lose a move"],
    means: "everything",
    refused: [
      "a manoeuvre of several moves to lose a move is no fact",
      'near it are "waiting move", "zugzwang", "the only winning move is a waiting move"',
    ],
  },
  {
    say: [
      "(most|least) often",
      "most (frequent|common|frequently|commonly)",
      "(miss|make|give|find|win|lose|draw|hold|play|save) [the] most !of",
      "(best|worst|strongest) (defender|attacker)",
      "(defend|attack|play|hold|score) (best|better than anybody|worst)",
    ],
    means: "everything",
    refused: [
      "who or what comes most often is counted, not found",
      'count it: longside count "second-rank defence" --by defender-name',
    ],
  },
];

/** Everything that people say, in the order in which it is shown. */
export const PHRASES: readonly Phrase[] = [
  ...SET_UPS,
  ...RESULTS,
  ...ENDS,
  ...VERDICTS,
  ...MISTAKES,
  ...OFTEN,
  ...SORTS,
  ...TWO_KINDS,
  ...MOVES,
  ...TURNS,
  ...PLACES,
  ...PLAYERS,
  ...CIRCUMSTANCES,
  ...IDIOMS,
];
