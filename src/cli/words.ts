// `words`: the vocabulary of questions, printed from the table that the parser reads.

import { canonicalName, catalogueWith } from "../query/language/catalogue.js";
import { KINDS_OF_MOVE } from "../geometry/move-kinds.js";
import { COURSES, FACTS, type Fact, PHRASES, QUANTIFIERS } from "../query/language/vocabulary.js";
import { knownValues } from "../tablebase/known-values.js";
import type { Command } from "./options.js";
import { boardText, bold, note, paragraph, print, printJson, tableText, visible } from "./terminal.js";

/** What a fact can be compared with. */
const takes = (fact: Fact) =>
  fact.type === "kinds"
    ? "a kind of move"
    : fact.type === "word"
      ? fact.values!.map((value) => value.name).join(", ")
      : fact.type === "flag"
        ? "yes or no"
        : (fact.unit ?? fact.type);

/** Two boards beside each other: the fact as it is, and as it is not. Undefined for a fact without examples. */
export function factDrawing(name: string): string | undefined {
  const row = knownValues("fact-examples.csv").find(({ fact }) => fact === name);
  if (!row) return undefined;
  const turn = (fen: string) => `${fen.split(" ")[1] === "w" ? "White" : "Black"} to move`;
  const [one, other] = [row.fen, row.other_fen].map((fen) => [...boardText(fen).split("\n"), turn(fen)]);
  const heads = [`${name}: ${row.value}`, `${name}: ${row.other_value}`];
  const right = [heads[1], ...other];
  const lines = [heads[0], ...one].map((line, n) =>
    `${line}${" ".repeat(Math.max(1, 28 - visible(line)))}${right[n]}`.trimEnd(),
  );
  return lines.join("\n");
}

const WRAP = { wrap: true };

const facts = (some: readonly Fact[]) =>
  tableText(
    [
      { head: "fact", cells: some.map((fact) => fact.name) },
      { head: "about", cells: some.map((fact) => fact.scope), optional: 1 },
      { head: "takes", cells: some.map(takes), shrinksTo: 10 },
      { head: "meaning", cells: some.map((fact) => fact.meaning), shrinksTo: 18 },
    ],
    WRAP,
  );

/** A table of what can be written and what it means, under a title. */
function printPairs(title: string, head: string, pairs: readonly (readonly [string, string])[]): void {
  const columns = [
    { head, cells: pairs.map(([said]) => said) },
    { head: "meaning", cells: pairs.map(([, meaning]) => meaning), shrinksTo: 20 },
  ];
  print(`${bold(title)}\n${tableText(columns, WRAP)}\n`);
}

export const run: Command = async (args, options) => {
  const { setUps } = catalogueWith(options.setUps);
  const wanted = args.join(" ").toLowerCase();
  const has = (...texts: (string | undefined)[]) =>
    texts.some((text) => text?.toLowerCase().includes(wanted));
  const someFacts = FACTS.filter((fact) => has(fact.name, fact.meaning, takes(fact)));
  const somePhrases = PHRASES.filter((phrase) => has(phrase.say, phrase.means));
  const someSetUps = setUps.filter((setUp) =>
    has(setUp.name, canonicalName(setUp.name), setUp.also?.join(" "), setUp.means, setUp.picture),
  );
  if (options.json) {
    someFacts.forEach(({ name, scope, type, unit, values, meaning }) =>
      printJson({ fact: name, scope, type, unit, values: values?.map((value) => value.name), meaning }),
    );
    somePhrases.forEach(({ say, means }) => printJson({ phrase: say, means }));
    someSetUps.forEach(({ name, also, means, known, source }) =>
      printJson({ setUp: name, also, means, known, source }),
    );
    return someFacts.length + somePhrases.length + someSetUps.length > 0 ? 0 : 1;
  }
  if (someFacts.length > 0) print(`${bold("Facts")}\n${facts(someFacts)}\n`);
  const drawing = factDrawing(wanted.replaceAll(" ", "-"));
  if (drawing) print(`${drawing}\n`);
  if (somePhrases.length > 0) {
    const say = { head: "people say", cells: somePhrases.map((phrase) => phrase.say) };
    print(
      `${bold("Phrases")}\n${tableText([say, { head: "means", cells: somePhrases.map((phrase) => phrase.means), shrinksTo: 20 }], WRAP)}\n`,
    );
  }
  if (someSetUps.length > 0) {
    const name = {
      head: "name",
      cells: someSetUps.map((one) => [one.name, ...(one.also ?? [])].join(", ")),
      shrinksTo: 20,
    };
    print(
      `${bold("Set-ups")}\n${tableText([name, { head: "means", cells: someSetUps.map((one) => one.means), shrinksTo: 24 }], WRAP)}\n`,
    );
  }
  if (wanted === "") {
    printPairs(
      "Which position",
      "write",
      Object.entries(QUANTIFIERS).map(([name, { meaning }]) => [`${name} (…)`, meaning]),
    );
    printPairs(
      "The course of an ending",
      "write",
      COURSES.map(({ write, meaning }) => [write, meaning]),
    );
    printPairs(
      "Kinds of move",
      "kind",
      KINDS_OF_MOVE.map(({ name, meaning }) => [name, meaning]),
    );
    print(
      paragraph(
        "Join with a comma or and, or, not and brackets. Compare with = != < <= > >=, ranges like 2200..2500, ~ for part of a name.",
      ),
    );
  }
  if (someFacts.length + somePhrases.length + someSetUps.length > 0) return 0;
  note(`Nothing in the vocabulary has to do with "${wanted}".`);
  return 1;
};
