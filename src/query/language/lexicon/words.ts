// Words: their spellings and forms, numbers, and what says nothing, is passed over or joins conditions.

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
  whats: "what",
  whos: "who",
  wheres: "where",
  hows: "how",
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
  cant: "not",
  couldnt: "not",
  didnt: "not",
  doesnt: "not",
  wasnt: "not",
  isnt: "not",
  dont: "not",
  wont: "not",
  "wouldn't": "not",
  wouldnt: "not",
  "didn't": "not",
  "doesn't": "not",
  "couldn't": "not",
  "wasn't": "not",
  "isn't": "not",
  "don't": "not",
  "won't": "not",
  "hadn't": "not",
  "hasn't": "not",
  "haven't": "not",
  "aren't": "not",
  "weren't": "not",
  "shouldn't": "not",
  "needn't": "not",
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
  exchange: "exchanged exchanges exchanging traded trades trade swapped swap swaps swapping trading",
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
  become: "became becomes becoming",
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
  exceed: "exceeded exceeds exceeding",
  hit: "hits hitting",
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

/** Ordinals that name no rank of the board. */
export const HIGHER_ORDINALS: Readonly<Record<string, number>> = {
  ninth: 9,
  tenth: 10,
  eleventh: 11,
  twelfth: 12,
  fifteenth: 15,
  twentieth: 20,
  thirtieth: 30,
  fortieth: 40,
  fiftieth: 50,
  sixtieth: 60,
  seventieth: 70,
  eightieth: 80,
  ninetieth: 90,
  hundredth: 100,
};

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
  "get gets got getting already own finally eventually simply somehow the a an this that these those there it its his her their is was are were be been being has have had having do does did to of in on at for by from as actually really stands stand standing stood placed posted sits sit sat sitting".split(
    " ",
  ),
);

/** Words that may stand between conditions and say nothing of their own. */
export const FILLERS: ReadonlySet<string> = new Set(
  (
    "game games battle battles encounter encounters sample samples moment moments ending endings endgame endgames position positions case cases example examples instance instances one ones " +
    "whenever exercise exercises puzzle puzzles study studies forced must people person anybody anyone me us tell am looking old who which whose where when what how often many all any some every find show" +
    " list search look please i want we need see still nevertheless nonetheless anyway yet though although even just " +
    "also so they he she him them you about someone somebody himself itself seen happened " +
    "occurred occur came come comes could would should may might can theoretically actually really eventually finally " +
    "however managed manage able happens happen again if give play plays because while theory practice there's board made played got player players anything everything something whole sort show showed shown appear appeared appears all successfully comfortably easily safely clearly somehow together percentage percent proportion number frequency attempt attempts share anyway thing things stuff guy guys fellow fellows folk folks chap"
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
    "unlucky useful very weird wonderful worthwhile classic hardest finest nicest clearest prettiest cleanest craziest " +
    "strangest funniest saddest sharpest neatest ugliest loveliest greatest poor favourite good-looking lovely pure " +
    "spirited stubborn tenacious heroic gritty gripping nail-biting"
  ).split(" "),
);

/** Words that are passed over only before some others: a forced win is a win. */
export const PASSED_BEFORE: Readonly<Record<string, readonly string[]>> = {
  forced: ["win", "mate", "draw", "loss"],
  complete: ["draw", "game", "ending"],
  textbook: ["example", "game", "defence", "win", "draw", "hold", "save"],
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
  ["unless", "without"],
  ["not", "not"],
  ["no", "not"],
  ["neither", "not"],
  ["nor", "or"],
  ["(", "open"],
  [")", "close"],
]);

/** Words that say how near one thing is to another. */
export interface Connection {
  readonly say: readonly string[];
  readonly kind: "before" | "after";
  /** At most so many moves lie between them. */
  readonly moves: number;
}

export const CONNECTIONS: readonly Connection[] = [
  {
    say: [
      "(right|immediately|directly|straight|just) after",
      "[very] next move after",
      "(the|one) move after",
    ],
    kind: "after",
    moves: 1,
  },
  {
    say: ["(right|immediately|directly|straight|just) before", "(the|one) move before"],
    kind: "before",
    moves: 1,
  },
];
