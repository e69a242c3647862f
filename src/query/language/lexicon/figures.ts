// Averages, comparisons, figures by groups and who comes first: what is counted and not found. Refused, with the count that
// answers.

import type { Phrase } from "./phrase.js";

export const FIGURES: readonly Phrase[] = [
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
      'count it: longside count "drawn, defender to move" --by error; or ask "defender made no mistake for 30 moves"',
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
      "(twice|three time|four time|half|ten time) as (many|much|long|often|good)",
      "(twice|three time|four time|half|ten time) as many (@mistake|check|move|win|draw|loss) [(by|from|of|for) {who}] as [(by|from|of|for)] [{who}]",
      "(better|worse|faster|slower|sooner|later|earlier|quicker|easier|harder) than !{n}",
      "(win|mate|convert|err|lose|hold|defend|play|play on|finish) (faster|slower|sooner|quicker|better|worse) than",
      "(who|which side|which) (take|takes|use|uses|spend|spends|need|needs|make|makes|find|finds) (more|less|longer|fewer|most)",
      "how much (sooner|later|faster|slower|longer|more|less|earlier|better|worse)",
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
    say: ["how long (do|does|did|is|was|to|must|can)", "how many move (do|does|did|are|were|to|must|can)"],
    means: "everything",
    refused: [
      "how long something took is counted or put in order, not found",
      'ask "longest wins" or "held for more than 50 moves"; or count: longside count "attacker won" --by length',
    ],
    example: "how long does it take",
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
];
