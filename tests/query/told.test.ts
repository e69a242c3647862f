// What facts say in English.

import { expect, it } from "vitest";

import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { inOneSentence } from "../../src/query/language/describe.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { TOLD } from "../../src/query/language/told.js";
import { FACTS } from "../../src/query/language/vocabulary.js";

const catalogue = standardCatalogue();

it.each(FACTS.map((fact) => [fact.name, fact] as const))(
  "%s has a sentence for every value",
  (name, fact) => {
    const told = TOLD[name];
    if (typeof told === "string") expect(told).toContain("#");
    else {
      const values = fact.type === "flag" ? ["yes", "no"] : fact.values!.map((value) => value.name);
      expect(Object.keys(told)).toEqual(expect.arrayContaining(values));
    }
  },
);

it.each([
  [
    "checking-distance = 0",
    "Endings in which at some moment the defender's rook stands next to the attacker's king",
  ],
  [
    "checking-distance = 1",
    "Endings in which at some moment the defender's rook has 1 file or rank between itself and the attacker's king",
  ],
  ["defender-errors > attacker-errors", "Endings in which the defender made more mistakes than the attacker"],
  ["white-rating < black-rating", "Endings in which White is rated lower than Black"],
  ["free-piece != none", "Endings in which at some moment a piece can be taken for nothing"],
  ["second-rank-defence", "Endings in which at some moment the set-up is the second-rank defence"],
  ["king-in-the-open", "Endings in which at some moment the set-up is a king in the open"],
  ["szen", "Endings in which at some moment the set-up is Szén"],
  ["held szen for 10 moves", "Endings in which the set-up is Szén for 10 moves or more on end"],
  ["rook-line = none", "Endings in which at some moment the defender's rook shares no line with its king"],
])("%s is told in words", (question, sentence) => {
  expect(inOneSentence(parseQuestion(question, catalogue.known), "ending")).toBe(sentence);
});
