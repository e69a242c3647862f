// What people say and no fact tells: refused, so that no word of it is taken for something else.

import type { Phrase } from "./phrase.js";

export const NO_FACTS: readonly Phrase[] = [
  {
    say: [
      "had (been (holding|defending|drawing|winning|surviving)|held|defended|survived|held out) [on] for [at least|over|more than] {n} move [when|before|until]",
    ],
    means: "everything",
    refused: [
      "whether something came after so many moves of defence is no fact",
      'ask at which move it came: "defender erred after move 40 of the ending", or how long a set-up lasted: "held the second-rank defence for 40 moves"',
    ],
    example: "had been holding for 40 moves",
  },
  {
    say: [
      "{kind} [,] [and|which|that] (all|every one|each one|each) [of (them|these|those|which)] (hold|win|draw|lose|save|work)",
      "[rook] (side|rear|frontal|long) check [,] [and] (all|every one|each one) [of (them|these|those|which)] (hold|win|draw|lose|save|work)",
      "[rook] check from [the] (side|rear|back|front|behind) [,] [and] (all|every one|each one) [of (them|these|those|which)] (hold|win|draw|lose|save|work)",
      "(every|each) [@rook|@king] (check|capture) (hold|win|draw|save|work)",
    ],
    means: "everything",
    refused: [
      "whether every move of a kind does something is no fact",
      'whether one does is: "no check holds", "only a check holds", or how many moves do: "at least three drawing moves"',
    ],
    example: "every check holds",
  },
  {
    say: [
      "(win|lose|draw|hold|defend|attack|err|blunder|resign) by [a|an|the] [titled|strong] (engine|program|computer)",
      "(engine|program|computer) (win|lose|draw|hold|defend|attack|err|blunder|resign) [as|with|against]",
    ],
    means: "everything",
    refused: [
      "which side a program played is no fact",
      'games of programs are: "engine games, attacker won", "engine games, defender erred"; names are looked up too',
    ],
    example: "lost by an engine",
  },
  {
    say: ["(last|final|penultimate|decisive|opening) round"],
    means: "everything",
    refused: [
      "which round was the last is not in the games",
      'a round by its number is: "round 9", "round 9, attacker won"',
    ],
    example: "last round",
  },
  {
    say: [
      "(longest|greatest|biggest) (run|series|streak|sequence|row|string|stretch|chain|number) of",
      "most [only move|check|waiting move] in [a] row",
    ],
    means: "everything",
    refused: [
      "answers are not put in order by how many came in a row",
      'ask for so many at least: "defender found five only moves in a row", "ten checks in a row"',
    ],
    example: "longest run of only moves",
  },
  {
    say: [
      "how often [be|is|was|are|were|do|did] [he|they|it|the defender|the attacker|{who}] [play] (correct|correctly|right|wrong|wrongly|accurate|accurately|best)",
    ],
    means: "everything",
    refused: [
      "how often moves were right is counted, not found",
      'count it: longside count "drawn, defender to move" --share "defender erred"; or ask "defender made no mistake for 30 moves"',
    ],
    example: "how often correct",
  },
  {
    say: [
      "(twice|two time|three time|again|once more|both time) in [the] same (tournament|event|match|year)",
      "(two|both|several|all) (ending|game|of them) in [the] same (tournament|event|match)",
      "(same|two) player [again] [later] in another (game|ending|event)",
    ],
    means: "everything",
    refused: [
      "games are not compared with each other",
      'each game by itself is asked for: "defender lost in 2014", event ~ "Tarn Cup"',
    ],
    example: "twice in the same tournament",
  },
  {
    say: [
      "(took|take|spend|spent|use|used) {time} [time] (in all|in total|all told|altogether|together|overall|on [the] [whole] ending) [for [the] ending]",
      "total (time|thinking time)",
      "(time|clock) (used|spent) (in total|altogether|in all|overall)",
    ],
    means: "everything",
    refused: [
      "how much time the whole ending took is no fact",
      'the time of a move and what was left are facts: "spent more than two minutes on a move", "defender had under a minute left"',
    ],
    example: "took over an hour in all",
  },
  {
    say: [
      "[@king] (move|step) (away from|off|from|onto|along) [the] (edge|rim|back rank|side of [the] board)",
    ],
    means: "everything",
    refused: [
      "whether a king's move leaves the edge is no kind of move",
      'what comes one after the other is a question: "king on the edge, then king off the edge"; kinds of move near it are "king move out of the corner", "king move out of the wedge"',
    ],
    example: "king move away from the edge",
  },
  {
    say: [
      "(all|every|any|everything|each) (but|except|save) (one|a single one|a single) [of [the]] [legal|possible] [move]",
      "(one|a single) [legal|possible] move (lose|fail|spoil) [,] [while] (everything|all) [the] (else|others|rest)",
    ],
    means: "everything",
    refused: [
      "that all moves but one do something is no fact",
      'ask by share or number: "blunder potential under 10%, defender erred", "at least ten drawing moves, defender erred"',
    ],
    example: "all but one move draws",
  },
  {
    say: [
      "(on|the|an|in) average",
      "average [number|length|rating|count|share]",
      "(mean|median|expected|typical) (number|length|rating|count|share|value)",
      "as a rule",
      "how many [more] move (pass|go by|elapse|lie|separate|come) [as|between|before|until]",
      "(per|each) ten move",
      "how many @mistake (do|does|did) {who} [usually|normally|typically] make",
    ],
    means: "everything",
    refused: [
      "averages are counted, not found",
      'count by the number itself: longside count "attacker won" --by attacker-errors, longside count everything --by length',
    ],
    example: "average length of draws",
  },
  {
    say: [
      "(compared|compare|comparison|relative) (with|to|against|between) !{name}",
      "(difference|gap) between [the] (two|share|rate|those|them|group|lone|won|drawn)",
      "(have it|be|is|are|do|fare|does|score|hold up) (worse|better|easier|harder) (than|with|against|when|if|in) !{rating}",
      "(different|higher|lower|better|worse) (saving|success|loss|win|draw|error|scoring) (rate|percentage|share|score)",
      "(more|less) (often|frequently|likely|common) [to lose|to win|to draw|to err|to hold|lost|won|drawn] (than|when|if|with|in|at|after|under|against)",
      "(lose|win|draw|hold|save|@err|crack|fail) (mostly|mainly|usually|especially|chiefly|more often|most often) (when|if|because)",
      "(depend|correlate|correlation|correlated) [on|with]",
      "than (the rest|others|the others|average|usual)",
      "{colour} with [the] (bishop|rook) against {colour} with [the] (bishop|rook)",
      "(compare|versus each other|next to each other|side by side|against each other)",
      "(or|and) [the] other way (round|around|about)",
      "which order",
      "(better|worse|faster|slower|sooner|later|earlier|quicker|easier|harder) than !{n}",
      "(win|mate|convert|err|lose|hold|defend|play|play on|finish) (faster|slower|sooner|quicker|better|worse) than",
      "(who|which side|which) (take|takes|use|uses|spend|spends|need|needs|make|makes|find|finds) (more|less|longer|fewer|most)",
      "(how much|much) (sooner|later|faster|slower|longer|more|less|earlier|better|worse)",
      "(get|got|become|became) (better|worse|easier|harder|rarer|commoner) (since|over|with|after|in)",
      "[what|which] (happen|come|was|is) first [in|of|,] [those|these] [lost|won|drawn] [game] [from|,] (the|loss|drop)",
    ],
    means: "everything",
    refused: [
      "a comparison of shares is counted, not found",
      'count it by what is to be compared: longside count "attacker won" --by defender-rating, longside count --by pace --share "defender held"',
    ],
    example: "do defenders lose more often in blitz",
  },
  {
    say: [
      "(broken down|break down|split|grouped|sorted|group|divided|arranged|separated|listed) (by|per|into|according to)",
      "(by|per|for each|for every|in each) [{n}] [hundred] [point] (rating|decade|year|player|event|month|century|elo) [band|bands|bracket|brackets|group|groups|class|classes]",
      "(by|in|into) [hundred|{n}] [point] (band|bands|bracket|brackets|bucket|buckets|decade|decades)",
      "[at] what (point|stage|move number) (do|does|did|is|was)",
      "(distribution|histogram|breakdown|spread|frequency table|statistics) [of|by]",
    ],
    means: "everything",
    refused: [
      "figures by groups are counted, not found",
      'count them: longside count "attacker won" --by defender-rating, longside count "defender erred" --by moves-in, longside count --by year --share "defender held"',
    ],
    example: "draws broken down by rating",
  },
  {
    say: [
      "(which|what) (event|tournament|country|countries|city|cities|club|year|player) (have|has|had|saw|see|contain|produce|produced|yield) [had|seen] (at least|more than|the most|most|{n})",
      "(which|what) [of the] [round by round] (event|tournament|player) (have|has|had) [had] {cmp}",
      "round by round",
    ],
    means: "everything",
    refused: [
      "how many endings an event or a player has is counted, not found",
      "count them: longside count everything --by event, longside count everything --by defender-name",
    ],
    example: "which events had at least three",
  },
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
      "same position (come|occur|arise|appear|stand|happen) [up|about|back] [on [the] board] [at least|more than] [{n}|{tallied}] [time]",
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
    say: ["@arook (behind|in front of|beside|next to) (his|its|her|their) [own] king"],
    means: "everything",
    refused: [
      "where the attacker's rook stands beside its own king is no fact",
      "beside the defender's king it is one: \"attacker's rook behind the defender's king\"",
    ],
    example: "attacker's rook behind its king",
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
    say: ["world champion", "[by] [the] world champion", "titled [player|engine|opponent]"],
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
      "(which|what) (defence|set-up|method|opening|player) (last|hold|score|work|win|draw|lose|do|be) [the] (longest|best|most|worst|least)",
      "(defend|attack|play|hold|score) (best|better than anybody|worst)",
      "[the] most time",
      "(usual|commonest|most usual|typical|normal) (way|reason|cause|mistake|error|outcome|result)",
      "(which|what) (kind|sort|type) of (move|mistake|error) (be|is|are|was|do|lose|cost)",
    ],
    means: "everything",
    refused: [
      "who or what comes most often is counted, not found",
      'count it: longside count "second-rank defence" --by defender-name',
    ],
  },
  {
    say: ["(easy|hard|tough|comfortable|effortless) (=draw|=save|=defence)"],
    means: "everything",
    refused: [
      "how easy a draw was has to be told",
      'ask "drawn in fewer than 20 moves", "drawn without a mistake", "defender found ten only moves", "blunder potential under 10%"',
    ],
    example: "easy draws",
  },
  {
    say: ["[the] (last|final) move (is|was|be|of [the] (game|ending) (is|was|be)) [a]"],
    means: "everything",
    refused: [
      "which move was the last of a game is no fact",
      'the move that decided is one: "decisive mistake by the defender"; and so is how it stood at the end: "drawn in the final position, attacker won"',
    ],
    example: "last move was a blunder",
  },
  {
    say: ["[@king] [stand|sit|be|stuck] (in|to|into|at) [the] (other|opposite) corner"],
    means: "everything",
    refused: [
      "which corner is the other one has to be told",
      'ask "king in the wrong corner", "king in the right corner", "king on a8 or h1", "king ran to the other corner"',
    ],
    example: "king stands in the other corner",
  },
  {
    say: [
      "(=offer|offered|offers|decline|declined|refuse|refused|reject|rejected|accept) [a|the] draw [offer]",
      "draw offer",
    ],
    means: "everything",
    refused: [
      "offers of a draw are not in the games",
      'what came of them is: "draw agreed", "draw agreed in a won position"',
    ],
    example: "defender offered a draw",
  },
  {
    say: ["[a|one|any] [single] (inaccuracy|inaccuracies|imprecision)", "(inaccurate|imprecise) move"],
    means: "everything",
    refused: [
      "a move that leaves the result as it is counts as no mistake here, however slow it is",
      'ask "without a mistake", "mistake by the attacker", or by the way to mate: "mate in more than 30"',
    ],
    example: "not a single inaccuracy",
  },
  {
    say: ["(monday|tuesday|wednesday|thursday|friday|saturday|sunday|weekend)"],
    means: "everything",
    refused: [
      "the day of the week is not in the games",
      'dates are: "in March 2014", "on 12 March 2014", "in 2014"',
    ],
    example: "played on a Sunday",
  },
  {
    say: ["(since|after|before|until|till|from) [the] {day}", "between [the] {day} and [the] {day}"],
    means: "everything",
    refused: [
      "games are not compared by the day, but by month and year",
      'ask "since March 2014", "from March to June 2014", "after 2014"; or for one day: "on 12 March 2014"',
    ],
    example: "since 12 March 2014",
  },
  {
    say: [
      "(play|find|miss|overlook|choose|try|see|after|answer|reply|prefer|consider|refute|need|with the move|the move|blunder|err|go wrong|only move|only draw|only win|only defence|only save|mistake|slip) [was|be|by|with] [move] {man}",
      "{man} [?|!] (lose|win|draw|hold|throw|spoil|give|keep|save|was|be|is|would|could|should|miss|only move|mistake|blunder|play|played|instead|first|next)",
    ],
    means: "everything",
    refused: [
      "where a move goes is asked for by its notation",
      'ask move ~ "Rh8", or where a piece stands: "king on f8, rook on d7"',
    ],
    example: "played Rd7",
  },
  {
    say: ["(plenty of|enough|lot of|lots of|sufficient|a lot of) time [@clock]"],
    means: "everything",
    refused: [
      "how much time is plenty has to be told",
      'ask "with more than five minutes on the clock", "defender had more time", or for the contrary: "in time trouble"',
    ],
    example: "with plenty of time",
  },
  {
    say: ["[@king|@rook|bishop] [stand|be] on [the] (wrong|right|bad|good) side of [the] board"],
    means: "everything",
    refused: [
      "which side of the board is the wrong one has to be told",
      'ask "rook on the short side", "king and rook on the same side", "king in the wrong corner"',
    ],
    example: "king on the wrong side of the board",
  },
];
