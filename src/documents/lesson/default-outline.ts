// The outline of a lesson on given topics, for teachers who have not written one.

import { hasRoomAlongEdge } from "../../position/slide.js";
import { capital, sentence } from "../../position/wording.js";
import { canonicalName } from "../../query/language/catalogue.js";
import { EVERYTHING, formatQuestion } from "../../query/language/ast.js";
import type { SetUp } from "../../query/language/set-up.js";
import { STARS_NOTE } from "../exercise-words.js";
import { block } from "./outline.js";
import type { LessonTopic } from "./topic.js";

const ALL = formatQuestion(EVERYTHING);

/** What the set-up is, how often it comes and holds, with a board. */
const introduction = (
  { setUp, fen, question, ofPositions, caption }: LessonTopic,
  games: boolean,
): string[] => [
  // the words stand beside it
  ...(fen ? [block("board", { fen, caption })] : []),
  ...(setUp ? [sentence(setUp.picture)] : []),
  ...otherNames(setUp),
  ...(setUp ? [known(setUp)] : []),
  ...(ofPositions || (games && question !== ALL) ? [block("practice", { question })] : []),
];

/** What all the trade knows needs nobody's name. */
const COMMON = "common practice, no source";

/** What is known of a set-up, with whoever says so. */
function known({ known: said, source }: SetUp): string {
  const sources = source.split("; ").filter((one) => one !== COMMON);
  return sources.length === 0 ? sentence(said) : `${sentence(said)} (${sources.join("; ")})`;
}

/** Other names of a set-up, but for those that are only spelt otherwise. */
function otherNames(setUp: LessonTopic["setUp"]): string[] {
  if (!setUp) return [];
  const names = (setUp.also ?? []).filter((name) => canonicalName(name) !== canonicalName(setUp.name));
  return names.length === 0
    ? []
    : [`${names.length === 1 ? "Another name" : "Other names"}: ${names.join(", ")}.`];
}

/** What the table teaches. */
const theory = ({ question, fen, ofTable, isWon }: LessonTopic, heading: string): string[] => [
  ...(ofTable
    ? [`${heading} The rule`, block("rule", { question }), ...(isWon ? [] : [block("memory", { question })])]
    : []),
  ...(fen
    ? [
        `${heading} Key squares`,
        block("key-squares", { fen }),
        ...(isWon
          ? ofTable
            ? [
                `${heading} The win in stages`,
                block("stages", { question: `(${question}) and to-move = attacker` }),
              ]
            : []
          : [
              `${heading} What the attacker tries`,
              block("tries", { fen, question: ofTable ? question : undefined }),
            ]),
        // what reaches from side to side stands nowhere else
        ...(hasRoomAlongEdge(fen) ? [`${heading} One file over`, block("slides", { fen })] : []),
      ]
    : []),
];

/** What happened in games. */
function practice({ question, ofPositions, ofTable, isWon }: LessonTopic, heading: string): string[] {
  if (!ofPositions) {
    const held = block("games", { question: `(${question}) and outcome = held`, size: 2, order: "longest" });
    return [`${heading} Model games`, held];
  }
  const there = `somewhere (${question})`;
  if (isWon) {
    const won = `somewhere ((${question}) and verdict = won) and attacker-errors = 0 and outcome = lost`;
    const let_ = `(${question}) and to-move = attacker and verdict = won and error != none`;
    return [
      `${heading} A model game won`,
      "The attacker gets nearer by threats, and the defender chooses where to give way. Follow this game, and stop at its turning points.",
      block("games", { question: won, else: `${there} and outcome = lost`, size: 1, order: "telling" }),
      `${heading} A win let slip`,
      block("games", {
        question: `somewhere (${let_}) and outcome = held`,
        else: `${there} and outcome = held`,
        size: 1,
      }),
    ];
  }
  const clean = ofTable ? "entry-verdict = drawn and defender-errors = 0 and " : "";
  const missed = `(${question}) and to-move = defender and verdict = drawn and error != none`;
  return [
    `${heading} A game held`,
    block("games", {
      question: `${there} and ${clean}outcome = held`,
      else: `${there} and outcome = held`,
      size: 1,
      order: "telling",
    }),
    `${heading} A game lost`,
    block("games", {
      question: `somewhere (${missed}) and outcome = lost`,
      else: `${there} and outcome = lost`,
      size: 1,
    }),
  ];
}

/** Exercises from easy to hard, then pairs to judge. */
const exercises = ({ question, ofPositions, ofTable, isWon }: LessonTopic, heading: string): string[] => [
  `${heading} Exercises`,
  `${capital(STARS_NOTE)}. The disc beside a board shows whose move it is. Hints and solutions are at the end.`,
  block("exercises", {
    question,
    else: ofPositions || question === ALL ? undefined : ALL,
    task: isWon ? "win" : "hold",
    size: 6,
  }),
  ...(ofTable ? [block("exercises", { question, task: "judge", pairs: "true", size: 4 })] : []),
];

/** A lesson on one topic, its own heading as deep as `heading`. */
function chapter(topic: LessonTopic, heading: string, games: boolean): string {
  const sub = `${heading}#`;
  return [
    `${heading} ${capital(topic.title)}`,
    ...introduction(topic, games),
    ...theory(topic, sub),
    ...(games ? practice(topic, sub) : []),
    ...exercises(topic, sub),
  ].join("\n\n");
}

/** The default outline for one topic, or a chapter for each of several; `games` says whether there are any to show. */
export function defaultOutline(topics: readonly LessonTopic[], games: boolean): string {
  if (topics.length === 1) return `${chapter(topics[0], "#", games)}\n`;
  return `# ${capital(topics.map(({ title }) => title).join(", "))}\n\n${topics.map((one) => chapter(one, "##", games)).join("\n\n")}\n`;
}
