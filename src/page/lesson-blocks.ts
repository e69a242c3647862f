// The blocks that a lesson is put together from, in words of the page: what each is called, what it shows, and what can be
// said of it.

import type { Input } from "../server/answers.js";

type Part = NonNullable<Input<"lesson">["parts"]>[number];
export type BlockName = Extract<Part, { kind: "block" }>["name"];

/** How a value is put in. */
export type Way =
  | {
      readonly way: "text" | "question" | "number" | "ending" | "position" | "positions" | "themes" | "yes";
    }
  | { readonly way: "choice"; readonly options: Readonly<Record<string, string>> };
export type Field = Way & { readonly label: string };

const QUESTION: Field = { label: "A set-up, or any question", way: "question" };
const POSITION: Field = { label: "Position", way: "position" };
const SIZE: Field = { label: "How many", way: "number" };
const CAPTION: Field = { label: "Words under it", way: "text" };
const BELOW: Field = {
  label: "At the bottom",
  way: "choice",
  options: { "": "White", black: "Black" },
};

interface BlockWords {
  readonly title: string;
  /** What it shows. */
  readonly shows: string;
  /** What can be said of it, in order; a field that is not named here keeps its value. */
  readonly fields: Readonly<Record<string, Field>>;
  /** What is said of a new one, besides the position or question that the lesson is about. */
  readonly first?: Readonly<Record<string, string>>;
}

/** Every block, in the order in which lessons have them. */
export const BLOCK_WORDS: Readonly<Record<BlockName, BlockWords>> = {
  board: {
    title: "A board",
    shows: "one position",
    fields: { fen: POSITION, caption: CAPTION, below: BELOW },
  },
  practice: {
    title: "How often it comes",
    shows: "how often it comes up and holds, in games and in the whole table",
    fields: { question: QUESTION },
  },
  rule: {
    title: "The rule",
    shows: "when it holds, in a sentence, with boards of the exceptions",
    fields: { question: QUESTION },
  },
  "key-squares": {
    title: "Key squares",
    shows: "maps of where a piece must stand, for both sides to move",
    fields: { fen: POSITION },
  },
  tries: {
    title: "What the attacker tries",
    shows: "tries, and what each turns the set-up into",
    fields: { fen: POSITION, question: QUESTION, size: SIZE },
  },
  stages: {
    title: "The win in stages",
    shows: "how it is won, from picture to picture",
    fields: { fen: POSITION, question: QUESTION },
  },
  memory: {
    title: "Replies to remember",
    shows: "which reply goes with which move",
    fields: { question: QUESTION },
  },
  map: {
    title: "A map",
    shows: "the verdict with one piece on every square",
    fields: { fen: POSITION, piece: { label: "Which piece", way: "text" } },
    first: { piece: "defender's rook" },
  },
  slides: {
    title: "One file over",
    shows: "the formation moved along the edge, and where its result changes",
    fields: { fen: POSITION },
  },
  survey: {
    title: "In the whole table",
    shows: "how every position there is comes out",
    fields: { question: QUESTION, by: { label: "By which fact", way: "text" } },
  },
  games: {
    title: "Model games",
    shows: "games with their story",
    fields: {
      question: QUESTION,
      size: SIZE,
      order: {
        label: "First",
        way: "choice",
        options: {
          "": "the strongest players",
          longest: "where it lasts longest",
          telling: "with the most only moves",
        },
      },
    },
    first: { size: "1" },
  },
  game: {
    title: "One game",
    shows: "a game of the database with its story",
    fields: { ending: { label: "Number of the ending", way: "ending" } },
  },
  errors: {
    title: "What goes wrong",
    shows: "which moves go wrong, with examples",
    fields: { question: QUESTION, size: SIZE },
  },
  exercises: {
    title: "Exercises",
    shows: "exercises; hints and solutions stand at the end of the lesson",
    fields: {
      question: QUESTION,
      fens: { label: "Positions", way: "positions" },
      task: {
        label: "Task",
        way: "choice",
        options: {
          hold: "hold the draw",
          win: "find the win",
          find: "find the move",
          judge: "won or drawn?",
        },
      },
      size: SIZE,
      themes: { label: "Themes", way: "themes" },
      "by-theme": { label: "one theme after another", way: "yes" },
      pairs: { label: "in pairs that look alike", way: "yes" },
    },
    first: { task: "hold", size: "6" },
  },
};

/** A new block; about what the lesson is about already. */
export function newBlock(name: BlockName, parts: readonly Part[]): Extract<Part, { kind: "block" }> {
  const { fields, first = {} } = BLOCK_WORDS[name];
  const values: Record<string, string> = { ...first };
  const known = (field: string) =>
    parts.flatMap((part) => (part.kind === "block" && part.values[field] ? [part.values[field]] : []))[0];
  // a position says more than a question where a block takes either
  for (const field of "fen" in fields ? ["fen"] : "ending" in fields ? ["ending"] : ["question"]) {
    const value = known(field);
    if (field in fields && value !== undefined) values[field] = value;
  }
  return { kind: "block", name, values };
}

/** Fields that are shown of a block: of given positions no question, task or number is asked for. */
export function shownFields(name: BlockName, values: Readonly<Record<string, string>>): [string, Field][] {
  return Object.entries(BLOCK_WORDS[name].fields).filter(([field]) =>
    name !== "exercises" ? true : values.fens === undefined ? field !== "fens" : field === "fens",
  );
}

/** What a part is called. */
export const titleOf = (part: Part): string =>
  part.kind === "block" ? BLOCK_WORDS[part.name].title : part.kind === "heading" ? "Heading" : "Text";
