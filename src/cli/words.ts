// `words`: the vocabulary of questions, printed from the table that the parser reads.

import { standardCatalogue } from "../questions/catalogue.js";
import { FACTS, type Fact, PHRASES, QUANTIFIERS } from "../questions/vocabulary.js";
import type { Command } from "./options.js";
import { bold, note, print, printJson, tableText } from "./terminal.js";

/** What a fact can be compared with. */
const takes = (fact: Fact) =>
  fact.type === "word"
    ? fact.values!.map((value) => value.name).join(", ")
    : fact.type === "flag"
      ? "yes or no"
      : (fact.unit ?? fact.type);

const WRAP = { wrap: true };

const facts = (some: readonly Fact[]) =>
  tableText(
    [
      { head: "fact", cells: some.map((fact) => fact.name) },
      { head: "about", cells: some.map((fact) => fact.scope), optional: 1 },
      { head: "takes", cells: some.map(takes), shrinksTo: 14 },
      { head: "meaning", cells: some.map((fact) => fact.meaning), shrinksTo: 20 },
    ],
    WRAP,
  );

export const run: Command = async (args, options) => {
  const { setUps } = standardCatalogue();
  const wanted = args.join(" ").toLowerCase();
  const has = (...texts: (string | undefined)[]) =>
    texts.some((text) => text?.toLowerCase().includes(wanted));
  const someFacts = FACTS.filter((fact) => has(fact.name, fact.meaning, takes(fact)));
  const somePhrases = PHRASES.filter((phrase) => has(phrase.say, phrase.means));
  const someSetUps = setUps.filter((setUp) =>
    has(setUp.name, setUp.also?.join(" "), setUp.means, setUp.picture),
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
    const names = Object.keys(QUANTIFIERS);
    print(
      `${bold("Which position")}\n${tableText([
        { head: "write", cells: names.map((name) => `${name} (…)`) },
        { head: "meaning", cells: Object.values(QUANTIFIERS).map((one) => one.meaning), shrinksTo: 20 },
      ])}\n`,
    );
    print(
      "Join with a comma or and, or, not and brackets. Compare with = != < <= > >=, ranges like 2200..2500, ~ for part of a name.",
    );
  }
  if (someFacts.length + somePhrases.length + someSetUps.length > 0) return 0;
  note(`Nothing in the vocabulary has to do with "${wanted}".`);
  return 1;
};
