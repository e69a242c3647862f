// In what order answers are wanted.

import { ATTACKER_WON, DREW, type Phrase } from "./phrase.js";

export const SORTS: readonly Phrase[] = [
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
    say: ["how long (was|is|did) [the] longest [last|take|go on] [of (those|these|them|all)]"],
    means: "everything",
    order: "longest",
    example: "how long was the longest draw",
  },
  {
    say: ["how (long|short|quick) (was|is|did) [the] shortest [last|take] [of (those|these|them|all)]"],
    means: "everything",
    order: "shortest",
    example: "how short was the shortest win",
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
  {
    say: [
      "(oldest|earliest) [first]",
      "[the] (first|earliest) (time|occasion) [that|when|in which|on which] (this|the|such an) (ending|endgame) [was|has|had|be] [ever]",
      "[the] very first [known|recorded] (game|ending|example|instance)",
      "(first|earliest) (known|recorded) (game|ending|example|instance)",
    ],
    means: "everything",
    order: "oldest",
    example: "the oldest draws",
  },
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
