// Completing a question as it is typed. It knows nothing but the list of words it is given, so that a page can do it
// without asking anybody.

/** Something that can be written in a question. */
export interface Suggestable {
  /** As it is written; what stands for something else is in braces: "since {year}". */
  readonly say: string;
  readonly sort: "set-up" | "phrase" | "fact" | "course" | "value";
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

const words = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[\s-]+/)
    .filter((word) => word !== "");
/** Letters as people type them: without accents. */
const bare = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/** How well what was typed begins something: 0 not at all, more the better. */
function fit(typed: string, say: string): number {
  const [a, b] = [bare(typed), bare(say)];
  if (b.startsWith(a)) return 3;
  const [typedWords, sayWords] = [words(a), words(b)];
  // a later word of it, or its words in any order
  if (typedWords.every((word) => sayWords.some((one) => one.startsWith(word))))
    return typedWords.length > 1 ? 2 : 1;
  return 0;
}

/** Whether everything of a suggestion has been typed already. */
const isWhole = (typed: string, say: string) => words(bare(typed)).join(" ") === words(bare(say)).join(" ");

/** What could be meant by the words before the cursor: the longest stretch that begins something comes first. */
export function complete(text: string, cursor: number, known: readonly Suggestable[]): Suggestion[] {
  const before = text.slice(0, cursor);
  // a fact and its sign: its values
  const comparison = /([a-z][a-z-]*)\s*(?:!?=)\s*([a-z-]*)$/i.exec(before);
  if (comparison) {
    const [, name, typed] = comparison;
    const fact = known.find((one) => one.sort === "fact" && one.say === name.toLowerCase());
    return (fact?.takes ?? [])
      .filter((value) => bare(value).startsWith(bare(typed)) && !isWhole(typed, value))
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
  for (const start of starts) {
    const typed = part.slice(start);
    if (typed.trim().length < 2 && starts.length > 1) continue;
    const found = known
      .map((one, n) => ({ one, n, fit: isWhole(typed, one.say) ? 0 : fit(typed.trim(), one.say) }))
      .filter((each) => each.fit > 0)
      .sort((a, b) => b.fit - a.fit || a.n - b.n)
      .slice(0, MOST);
    if (found.length > 0)
      return found.map(({ one }) => ({ ...one, from: cursor - typed.length, to: cursor }));
  }
  return [];
}
