// Completing a question as it is typed. It knows nothing but the list of words it is given, so that a page can do it
// without asking anybody.

import { LITTLE } from "./tokens.js";

/** Something that can be written in a question. */
export interface Suggestable {
  /** As it is written; what stands for something else is in braces: "since {year}". */
  readonly say: string;
  readonly sort: "set-up" | "phrase" | "fact" | "course" | "value" | "name";
  readonly meaning: string;
  /** Of a fact: what may stand behind its sign. */
  readonly takes?: readonly string[];
}

/** A suggestion, and the stretch of the text that it would take the place of. */
export interface Suggestion extends Suggestable {
  readonly from: number;
  readonly to: number;
}

/** Suggestions that are made at a time. */
const MOST = 8;

/** Letters as people type them: without accents. */
const bare = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
/** The words that count, as the parser sees them: little ones may be left out or added. */
const words = (text: string): string[] =>
  bare(text)
    .split(/[\s-]+/)
    .filter((word) => word !== "" && !LITTLE.has(word));

/** How well what was typed begins something: 0 not at all, the more the better. */
function fit(typed: readonly string[], say: readonly string[]): number {
  const last = typed.length - 1;
  const begins = (one: string | undefined, n: number) =>
    one !== undefined && (n < last ? one === typed[n] : one.startsWith(typed[n]));
  if (typed.every((_, n) => begins(say[n], n))) return 2;
  // a later word of it, or its words in any order
  return typed.every((word) => say.some((one) => one.startsWith(word))) ? 1 : 0;
}

interface Prepared {
  readonly one: Suggestable;
  readonly say: readonly string[];
}
const lists = new WeakMap<readonly Suggestable[], readonly Prepared[]>();

/** The words of each, taken apart once for a vocabulary. */
function prepared(known: readonly Suggestable[]): readonly Prepared[] {
  let list = lists.get(known);
  if (!list) lists.set(known, (list = known.map((one) => ({ one, say: words(one.say) }))));
  return list;
}

/** What could be meant by the words before the cursor: the longest stretch that begins something comes first. */
export function complete(text: string, cursor: number, known: readonly Suggestable[]): Suggestion[] {
  const before = text.slice(0, cursor);
  // a fact and its sign: its values
  const comparison = /([a-z][a-z-]*)\s*(?:!?=)\s*([a-z-]*)$/i.exec(before);
  if (comparison) {
    const [, name, typed] = comparison;
    const fact = known.find((one) => one.sort === "fact" && one.say === name.toLowerCase());
    return (fact?.takes ?? [])
      .filter((value) => bare(value).startsWith(bare(typed)) && bare(value) !== bare(typed))
      .slice(0, MOST)
      .map((say) => ({
        say,
        sort: "value",
        meaning: `${name} = ${say}`,
        from: cursor - typed.length,
        to: cursor,
      }));
  }
  // the part of the question that the cursor stands in
  const part = /[^,()"]*$/.exec(before)![0].trimStart();
  const starts = [...part.matchAll(/\S+/g)].map(({ index }) => index);
  const list = prepared(known);
  /** What has the words of a longer stretch, but does not begin with them. */
  let near: Suggestion[] = [];
  let far: Suggestion[] = [];
  for (const start of starts) {
    const typed = words(part.slice(start));
    // nothing but little words, or one letter behind others
    if (typed.length === 0 || (start > 0 && typed.join("").length < 2)) continue;
    // it has been said already
    if (list.some(({ say }) => say.length === typed.length && say.join(" ") === typed.join(" "))) return [];
    const found = list
      .map(({ one, say }, n) => ({ one, n, fit: fit(typed, say) }))
      .filter((each) => each.fit > 0)
      .sort((a, b) => b.fit - a.fit || a.n - b.n)
      // of several ways to say the same the first will do
      .filter(
        ({ one }, at, all) =>
          one.sort === "name" || all.findIndex((other) => other.one.meaning === one.meaning) === at,
      )
      .slice(0, MOST);
    const from = cursor - (part.length - start);
    const offers = found.map(({ one }) => ({ ...one, from, to: cursor }));
    if (found[0]?.fit === 2) return [...near, ...offers, ...far].slice(0, MOST);
    // what says much besides is hardly meant where a shorter stretch begins something
    const isNear = ({ say }: Suggestion) => words(say).length <= typed.length + 1;
    near = [...near, ...offers.filter(isNear)];
    far = [...far, ...offers.filter((one) => !isNear(one))];
  }
  return [...near, ...far].slice(0, MOST);
}
