// `help`: what the program knows of itself, by topic, printed from the tables that it works with.

import type { Workspace } from "../app/workspace.js";
import { BLOCKS } from "../documents/lesson/outline.js";
import { ERRORS, LongsideError } from "../errors.js";
import { KINDS_OF_MOVE } from "../geometry/move-kinds.js";
import { nearest } from "../query/language/tokens.js";
import { COURSES, FACTS, type FactType, QUANTIFIERS } from "../query/language/vocabulary.js";
import type { Command } from "./command.js";
import { COMMANDS, OPTIONS } from "./options.js";
import { print, programName } from "./messages.js";
import { type Definition, bold, definitions, paragraph } from "./terminal.js";
import { takes } from "./words.js";

/** Names of the facts of a type. */
const namesOf = (type: FactType): string =>
  FACTS.filter((fact) => fact.type === type)
    .map(({ name }) => name)
    .join(", ");

interface Section {
  readonly title: string;
  readonly entries: readonly Definition[];
}

interface Topic {
  readonly summary: string;
  readonly sections: (workspace: Workspace) => readonly Section[];
}

/** How conditions are compared and joined. */
const SIGNS: readonly Definition[] = [
  { word: "=, !=", said: ["the fact is this value, or is not; a fact that is yes or no needs no sign"] },
  { word: "<, <=, >, >=", said: ["less than, at most, more than, at least; of numbers"] },
  { word: "2200..2500", said: ["a range of numbers, both ends included: white-rating 2200..2500"] },
  { word: "~", said: ["a part of a name: white ~ vastrel"] },
  { word: '"…"', said: ["a name of several words stands in quotes"] },
  { word: "A, B; A and B", said: ["both are true"] },
  { word: "A or B", said: ["at least one is true"] },
  { word: "not A", said: ["it is not true"] },
  { word: "( … )", said: ["brackets say what belongs together; without them, and binds more than or"] },
];

const SCOPES = { game: "a game", ending: "an ending", position: "a position", move: "a move" } as const;

const TOPICS: Readonly<Record<string, Topic>> = {
  options: {
    summary: "every command and every option",
    sections: () => [
      {
        title: "Commands",
        entries: COMMANDS.map((one) => ({
          word: `${one.name} ${one.arguments ?? ""}`.trim(),
          said: [one.summary, one.options.map((name) => OPTIONS[name].flags.split(" ")[0]).join(" ")],
        })),
      },
      {
        title: "Options",
        entries: Object.values(OPTIONS).map(({ flags, help }) => ({ word: flags, said: [help] })),
      },
    ],
  },
  "set-ups": {
    summary: "the set-ups that questions can name: what each means, and what is known of it",
    sections: ({ catalogue }) => [
      {
        title: "Set-ups",
        entries: catalogue.setUps.map(({ name, also = [], picture, means, known, source }) => ({
          word: name,
          said: [
            also.length > 0 ? `also called: ${also.join(", ")}` : "",
            picture,
            `means: ${means}`,
            known && `${known} (${source})`,
          ].filter((line) => line !== ""),
        })),
      },
    ],
  },
  errors: {
    summary: "every error by its code, and what to do about it",
    sections: () => [
      {
        title: "Errors",
        entries: Object.entries(ERRORS).map(([word, said]) => ({ word, said: [...said] })),
      },
    ],
  },
  kinds: {
    summary: `the kinds of move, which are asked for by ${namesOf("kinds")}`,
    sections: () => [
      {
        title: "Kinds of move",
        entries: KINDS_OF_MOVE.map(({ name, meaning }) => ({ word: name, said: [meaning] })),
      },
    ],
  },
  grammar: {
    summary: "how conditions are combined into a question",
    sections: () => [
      { title: "Comparing and joining", entries: SIGNS },
      {
        title: "Which position",
        entries: Object.entries(QUANTIFIERS).map(([name, { meaning }]) => ({
          word: `${name} (…)`,
          said: [meaning],
        })),
      },
      {
        title: "The course of an ending",
        entries: COURSES.map(({ write, meaning }) => ({ word: write, said: [meaning] })),
      },
    ],
  },
  blocks: {
    summary: "the blocks of a lesson's outline, and the lines that each takes",
    sections: () => [
      {
        title: "Blocks of an outline",
        entries: Object.entries(BLOCKS).map(([word, { meaning, fields }]) => ({
          word,
          said: [meaning, `lines: ${fields.join(", ")}`],
        })),
      },
    ],
  },
  facts: {
    summary: "the facts that questions compare, and what each takes",
    sections: () =>
      Object.entries(SCOPES).map(([scope, of]) => ({
        title: `Facts of ${of}`,
        entries: FACTS.filter((fact) => fact.scope === scope).map((fact) => ({
          word: fact.name,
          said: [fact.meaning, `takes: ${takes(fact)}`],
        })),
      })),
  },
};

function printTopics(): void {
  print(bold("Topics"));
  print(definitions(Object.entries(TOPICS).map(([word, { summary }]) => ({ word, said: [summary] }))));
  print(
    `\n${paragraph(`Print one with: ${programName()} help TOPIC. On one command: ${programName()} COMMAND --help.`)}`,
  );
}

export const run: Command = ([name], _options, workspace) => {
  if (name === undefined) {
    printTopics();
    return 0;
  }
  if (!Object.hasOwn(TOPICS, name)) {
    const near = nearest(name, Object.keys(TOPICS));
    const hint = COMMANDS.some((command) => command.name === name)
      ? `see: longside ${name} --help`
      : near
        ? `did you mean ${near}?`
        : `take one of ${Object.keys(TOPICS).join(", ")}`;
    throw new LongsideError("bad-usage", { message: `there is no topic ${name}`, hint });
  }
  print(
    TOPICS[name]
      .sections(workspace)
      .map(({ title, entries }) => `${bold(title)}\n${definitions(entries)}`)
      .join("\n\n"),
  );
  return 0;
};
