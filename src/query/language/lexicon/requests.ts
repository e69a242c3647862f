// How people begin a question and what they add to it, without a word about games: "I would like to see", "if you have any".
// It is passed over; what was asked for beside the games, such as how many of them, is told.

/** Words around a question that say nothing of what is sought. */
export interface Request {
  readonly say: readonly string[];
  /**
   * Where it stands: where a part of the question begins, right behind another request, where the question or a part of it
   * ends, or anywhere.
   */
  readonly where: "start" | "behind" | "end" | "anywhere";
  /** It asks for something that the answers do not follow, so that it is told. */
  readonly isTold?: boolean;
}

export const REQUESTS: readonly Request[] = [
  {
    where: "start",
    say: [
      "(i'd|we'd|(i|we) (would|should)) [really|also|just|very much] (like|love|want|prefer|appreciate) [to] [be able to] [@ask]",
      "(i'd|we'd|(i|we) would) be [very|so|most] (glad|grateful|happy|interested|curious|thankful|keen) [if you could] [to] [@ask]",
      "(i'm|we're|(i|we) (am|are|was|were)) [just|currently|also|still|only|mainly|mostly|particularly] (looking|searching|hunting|interested|curious|after|trying|wondering|collecting|gathering|seeking|compiling) [to|in|about|if|whether|out] [@ask]",
      "(i|we) [just|also|only|really] (need|want|seek|collect|wish|wonder|require|gather) [to] [@ask] [if|whether]",
      "(let|allow) (me|us) [to] [@ask]",
      "=let (=see|=look) [at]",
      "(can|could|may|might|would|will|shall) (you|i|we) [please|kindly|perhaps|possibly|also|just] [@ask]",
      "it (would|will) (help|be useful|be nice|be good|be interesting|interest) [me|us] [a lot] [if i could] [to] [@ask]",
      "(please|kindly) @ask",
      "@ask (me|us) [please]",
      "(=show|=list|=give|=name|=print|=find|=get|=quote|=cite) [please]",
      "(=dig|=pick|=pull|=single|=look) (up|out)",
      "(=search|=look|=hunt) for",
      "(have|do|does) (you|anyone|anybody|someone|somebody) (got|have|know|hold|remember) [of] [any]",
      "is it [really|actually] (true|right|correct|so|[the] case) that",
      "(what|how) about",
      "(i|we) (remember|recall) [see|seeing] [@amount] @sample",
      "(so|as) long as",
      "(provided|providing|supposing|given) that",
      "(and|but) (only|just) (those|the ones|ones|the games|games) [where|when|that|which|with|of]",
      "(only|just) (those|the ones|games|endings|positions) (where|when|in which|that|which)",
    ],
  },
  {
    where: "start",
    say: [
      "(all|any|every|each|some) [of] [the|such] @sample (where|when|in which|at which|that|which)",
      "(which|what) [of] [the|these|those] @sample",
      "in (which|what|how many|any|all|some) [of] [the|these|those] @sample [where|when|that|which]",
      "(how many|which) of [the|these|those] @sample",
      "@sample (where|when|in which|at which|that|which)",
      "[(is|was) there] [even|ever] [a single|one single|just one] @sample (where|when|in which|that|which)",
    ],
  },
  {
    where: "start",
    isTold: true,
    say: [
      "who (win|won|lose|lost) (when|whenever|where)",
      "how (did|do|does) (it|they|those|these|[the] game) [usually|mostly] (end|turn out|go|come out) (when|whenever|where|if)",
    ],
  },
  {
    where: "behind",
    isTold: true,
    say: [
      "{n} [or {n}] [more|such|good|clear] [@sample]",
      "(a few|a handful of|a couple of) [more|such] [@sample]",
    ],
  },
  {
    where: "behind",
    say: [
      "[@amount|single] [such|single] @sample [(where|when|in which|at which|that|which)]",
      "[a] (list|look|collection|selection|set|picture|pictures|diagram|diagrams) [at|of] [@amount] [@sample] [(where|when|in which|that|which)]",
      "(please|something|anything|everything) [where|in which|when|that|which]",
    ],
  },
  {
    where: "anywhere",
    isTold: true,
    say: [
      "in (tournament|over the board|serious|practical|actual) (play|practice)",
      "in (real life|master play|master practice)",
      "(counted|measured|expressed|taken) in move",
      "to [my|our|everybody's|everyone's|general] (surprise|amazement|delight|horror)",
    ],
  },
  {
    where: "end",
    say: [
      "(please|pls|plz)",
      "(thx|tnx|ty|cheers)",
      "[(then|so|and|now)] (show|list|give|find|name|print) [me|us] (those|them|these|such [@sample]|it) [please]",
      "(do|have) you [have|got] (any|some|one|anything|something|that|those) [@sample] [(like that|like this|of that kind|of that sort)]",
      "(would|will) (be nice|be fine|be good|be great|interest (me|us)|please (me|us))",
      "(if ever|if at all|if it ever happened)",
      "(i mean|that is|that is to say)",
      "(thank|thanks) [you] [very much|a lot]",
      "if (possible|any|you can|you please|there (is|are) any|such exist)",
      "[are there|is there|do you have|have you got] [any] (more|others|other @sample|another|another one) (like (it|that|this|these)|of (that|this|the same) (sort|kind|type))",
      "(would|will) (do|be fine|be enough|suffice|help)",
      "(is|are) (wanted|needed|sought|welcome)",
      "in (your|this) (database|collection|archive|base)",
    ],
  },
  {
    where: "end",
    isTold: true,
    say: [
      "[and] how (did|do|does|have|has) (it|they|that|those|these|he|she) [@sample] [all|each] (end|turn out|finish|go|come out)",
      "[and] how (long|short|quick) [was|is] [the] shortest",
      "[and] (who|what) (was|were|is|are) (it|they|[the] player|[the] name)",
      "[with|and|showing|including] [the|their|its] (result|results|clock times|names|dates)",
      "[and] (with|by whom|when|where|against whom) (name|names|was it|were they|did it happen)",
    ],
  },
];

/** What a question can be for: "for Thursday's lesson". */
export const PURPOSES: ReadonlySet<string> = new Set(
  (
    "lesson lessons class classes course courses lecture lectures seminar talk article book books magazine column chapter " +
    "training camp homework test exam blog post video stream newsletter paper thesis project workshop session bulletin " +
    "presentation quiz worksheet handout pupils students pupil student beginners kids children juniors group club"
  ).split(" "),
);

/** Words that may stand between "for" and a purpose. */
export const OF_PURPOSES: ReadonlySet<string> = new Set(
  (
    "my our the a an this that next tomorrow tonight today week weekend month evening monday tuesday wednesday thursday " +
    "friday saturday sunday chess club endgame training school new small short little junior adult advanced own first " +
    "second morning afternoon"
  ).split(" "),
);
