// The outline of a lesson on given topics, for teachers who have not written one.

import { capital, sentence } from "../../position/wording.js";
import { block } from "./outline.js";
import type { LessonTopic } from "./topic.js";

/** What the set-up is and what is known of it, with a board. */
const introduction = ({ setUp, fen }: LessonTopic): string[] => [
  ...(setUp ? [sentence(setUp.picture)] : []),
  ...(setUp?.also?.length ? [`Also called: ${setUp.also.join(", ")}.`] : []),
  ...(fen ? [block("board", { fen, caption: setUp?.name })] : []),
  ...(setUp
    ? [
        `**What is known.** ${sentence(setUp.known)} *(${setUp.source})*`,
        `**As it is meant here:** \`${setUp.means}\``,
      ]
    : []),
];

/** What the table says. */
const theory = ({ question, fen, ofTable }: LessonTopic, heading: string): string[] => [
  ...(ofTable
    ? [
        `${heading} Over every position there is`,
        "The table has the exact verdict of each; here they are counted by the file of the defender's king (1 is the edge, 4 the middle).",
        block("survey", { question, by: "king-file" }),
      ]
    : []),
  ...(fen
    ? [
        `${heading} Where may the rook stand?`,
        "The same position with the defender's rook on every other square.",
        block("map", { fen, piece: "defender's rook" }),
        `${heading} The same picture nearer to the corner`,
        block("slides", { fen }),
      ]
    : []),
];

/** What happened in games. */
function practice({ question, ofPositions, ofTable }: LessonTopic, heading: string): string[] {
  const there = ofPositions ? `somewhere (${question})` : `(${question})`;
  const clean = ofTable ? "entry-verdict = drawn and defender-errors = 0 and " : "";
  const held = block("games", {
    question: `${there} and ${clean}outcome = held`,
    size: 2,
    order: "longest",
  });
  if (!ofPositions) return [`${heading} Games in which it held`, held];
  const missed = `(${question}) and to-move = defender and verdict = drawn and error != none`;
  return [
    `${heading} Games in which it held`,
    held,
    `${heading} Games in which it was lost`,
    block("games", { question: `somewhere (${missed}) and outcome = lost`, size: 2 }),
    `${heading} Where it goes wrong`,
    block("errors", { question, size: 3 }),
  ];
}

/** A lesson on one topic, its own heading as deep as `heading`. */
function chapter(topic: LessonTopic, heading: string, games: boolean): string {
  const { title, question, ofPositions } = topic;
  const sub = `${heading}#`;
  return [
    `${heading} ${capital(title)}`,
    ...introduction(topic),
    ...theory(topic, sub),
    ...(games ? practice(topic, sub) : []),
    `${sub} Exercises`,
    block("exercises", { question: ofPositions ? question : "everything", task: "hold", size: 9 }),
  ].join("\n\n");
}

/** The default outline for one topic, or a chapter for each of several; `games` says whether there are any to show. */
export function defaultOutline(topics: readonly LessonTopic[], games: boolean): string {
  if (topics.length === 1) return `${chapter(topics[0], "#", games)}\n`;
  return `# ${topics.map(({ title }) => title).join(", ")}\n\n${topics.map((one) => chapter(one, "##", games)).join("\n\n")}\n`;
}
