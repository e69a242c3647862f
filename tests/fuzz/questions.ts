// Questions made of the words of the language and of others: read or refused, and in time.

import { LongsideError } from "../../src/errors.js";
import { formatQuestion } from "../../src/query/language/ast.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { PHRASES } from "../../src/query/language/lexicon/phrases.js";
import { readingsOf } from "../../src/query/language/parse.js";
import { FACTS } from "../../src/query/language/vocabulary.js";
import { type Campaign, ODD } from "./campaign.js";

/** Longest question, in characters. */
const LONGEST = 2000;
/** Milliseconds of one reading, on a machine that does nothing else. */
export const READING_LIMIT = 50;

const JOINTS =
  "( ) , or and not never always mostly reached held left first then by from within for of entry = != < >= .. 3 10 moves between the a it who".split(
    " ",
  );

export interface Timed {
  /** Milliseconds of the slowest reading, and its question. */
  slowest: number;
  question: string;
  /** Readings above `READING_LIMIT`. */
  over: number;
}

/** `timed` is told the times, which no test may depend on. */
export function questionsCampaign(timed: Timed = { slowest: 0, question: "", over: 0 }): Campaign {
  const catalogue = standardCatalogue();
  const words = [
    ...PHRASES.flatMap(({ say }) => say.map((one) => one.replace(/[[\](){}|]/g, " "))),
    ...FACTS.map(({ name }) => name),
    ...catalogue.known.keys(),
  ];
  return {
    name: "questions",
    make(chance) {
      const parts: string[] = [];
      let length = 0;
      const wanted = chance.once(3) ? LONGEST : 1 + chance.below(200);
      // some repeat a few words, since that is where readers take long
      const few = chance.once(3)
        ? Array.from({ length: 3 }, () => chance.of([...JOINTS, ...words]))
        : undefined;
      while (length < wanted) {
        const word = few
          ? chance.of(few)
          : chance.once(20)
            ? chance.once(2)
              ? chance.of(ODD)
              : `${chance.below(30)}${chance.of(["st", "nd", "th", "s", "x", ".5", "-", "%"])}`
            : chance.once(2)
              ? chance.of(JOINTS)
              : chance.of(words);
        length += word.length + 1;
        if (length > LONGEST) break;
        parts.push(word);
      }
      return parts;
    },
    async attempt(parts) {
      const text = parts.join(" ");
      const begin = performance.now();
      try {
        const [{ question }] = readingsOf(text, catalogue.known);
        const written = formatQuestion(question);
        const again = formatQuestion(readingsOf(written, catalogue.known)[0].question);
        if (again !== written) return `${written} reads again as ${again}`;
      } catch (thrown) {
        if (!(thrown instanceof LongsideError)) return `it throws ${String((thrown as Error).stack)}`;
      } finally {
        const took = performance.now() - begin;
        if (took > READING_LIMIT) ++timed.over;
        if (took > timed.slowest) Object.assign(timed, { slowest: took, question: text });
      }
      return undefined;
    },
  };
}
