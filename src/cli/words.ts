// `words`: the vocabulary of questions, printed from the table that the parser reads.

import { plainText } from "../plain-text.js";
import { canonicalName } from "../query/language/catalogue.js";
import { PHRASES } from "../query/language/lexicon/phrases.js";
import { exampleOf, meaningOf } from "../query/language/phrase-examples.js";
import { FACTS, type Fact } from "../query/language/vocabulary.js";
import { knownValues } from "../tablebase/known-values.js";
import type { Command } from "./command.js";
import { note, print, printJson, programName } from "./messages.js";
import { boardText, bold, padded, paragraph, tableText } from "./terminal.js";

/** What a fact can be compared with. */
export const takes = (fact: Fact) =>
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
  const lines = [heads[0], ...one].map((line, n) => `${padded(`${line} `, 28)}${right[n]}`.trimEnd());
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

export const run: Command = (args, options, workspace) => {
  const { setUps } = workspace.catalogue;
  const wanted = args.join(" ").toLowerCase();
  const has = (...texts: (string | undefined)[]) =>
    texts.some((text) => text?.toLowerCase().includes(wanted));
  const someFacts = FACTS.filter((fact) => has(fact.name, fact.meaning, takes(fact)));
  const somePhrases = PHRASES.map((phrase) => ({
    say: exampleOf(phrase),
    means: meaningOf(phrase),
    patterns: phrase.say.join(" "),
  })).filter(({ say, means, patterns }) => has(say, means, patterns));
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
  if (wanted === "")
    print(
      paragraph(
        `How they are put together: ${programName()} help grammar. Kinds of move: ${programName()} help kinds.`,
      ),
    );
  if (someFacts.length + somePhrases.length + someSetUps.length > 0) return 0;
  note(`Nothing in the vocabulary has to do with "${plainText(wanted)}".`);
  return 1;
};
