// Everything that can be written in a question, as a list to complete from.

import type { Catalogue } from "./catalogue.js";
import type { Suggestable } from "./completion.js";
import { PHRASES } from "./lexicon/phrases.js";
import { exampleOf, meaningOf } from "./phrase-examples.js";
import { COURSES, FACTS, QUANTIFIERS } from "./vocabulary.js";

/** Set-ups first, then what people say, facts, and the words for positions and courses. */
export const wordList = (catalogue: Catalogue): Suggestable[] => [
  ...catalogue.setUps.flatMap(({ name, also = [], picture, means }) =>
    [name, ...also].map((say) => ({ say, sort: "set-up" as const, meaning: picture || means })),
  ),
  ...PHRASES.map((phrase) => ({
    say: exampleOf(phrase),
    sort: "phrase" as const,
    meaning: meaningOf(phrase),
  })),
  ...FACTS.map(({ name, meaning, values, type }) => ({
    say: name,
    sort: "fact" as const,
    meaning,
    takes: values?.map((value) => value.name) ?? (type === "flag" ? ["yes", "no"] : undefined),
  })),
  ...Object.entries(QUANTIFIERS).map(([name, { meaning }]) => ({
    say: `${name} (…)`,
    sort: "course" as const,
    meaning,
  })),
  ...COURSES.map(({ write, meaning }) => ({ say: write, sort: "course" as const, meaning })),
];
