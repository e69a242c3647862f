// Patterns of what people say, as the lexicon writes them, and matching them against the words of a question.
//
//   word          that word, or a form of it
//   attacker      that side, however it is named: "the stronger side"; defender likewise
//   =word         that word or its plural, and no other form
//   ^word         a form of that word, with no light word before it: a lost ending is not "lost an ending"
//   !word         anything but that word, or the end of the question; it takes no place: "failed" but not "failed to"
//   (a b|c)       one of these
//   [a b]         may be left out
//   {name}        something of a category (see Categories): a number, a side, a set-up; bound to its name
//   {name=label}  the same, bound to another name
//   @name         a group of words of the lexicon
//
// Words that say nothing (the lexicon's LIGHT words) may stand between any two. A quantifier ("always", "never") may
// stand once between two words, and is given beside what was matched.

import { GROUPS } from "./lexicon/groups.js";
import { LIGHT } from "./lexicon/words.js";
import type { SpokenWord } from "./spoken.js";

type Node =
  | { readonly kind: "word"; readonly word: string; readonly near: boolean; readonly side: boolean }
  | { readonly kind: "other"; readonly word: string }
  | { readonly kind: "category"; readonly name: string; readonly label: string }
  | { readonly kind: "choice"; readonly branches: readonly (readonly Node[])[] };

/** What a category found: where it ends, and its value in canonical form. */
export interface Found {
  readonly end: number;
  readonly value: string;
}
/** Gives everything of a category that begins at a word. */
export type Categories = (name: string, at: number) => readonly Found[];

/** A match of a pattern: where it ends, what its categories found, how many light words it passed over. */
export interface Match {
  readonly end: number;
  readonly bound: Readonly<Record<string, string>>;
  readonly skipped: number;
  readonly quantifier: string | undefined;
}

/** Matches that a pattern may have at one place; more would be of no use to anybody. */
const MOST_MATCHES = 24;

const groups = new Map<string, Node>();
/** A group of words, taken apart once. */
function groupOf(name: string): Node {
  let group = groups.get(name);
  if (!group)
    groups.set(name, (group = { kind: "choice", branches: GROUPS[name].map((one) => parseNodes(one)) }));
  return group;
}

function parseNodes(text: string): Node[] {
  let p = 0;
  const sequence = (stop: string): Node[] => {
    const nodes: Node[] = [];
    for (;;) {
      while (text[p] === " ") ++p;
      if (p >= text.length || stop.includes(text[p])) return nodes;
      if (text[p] === "(" || text[p] === "[") {
        const close = text[p] === "(" ? ")" : "]";
        const branches: Node[][] = close === "]" ? [[]] : [];
        ++p;
        for (;;) {
          branches.push(sequence(`|${close}`));
          if (text[p++] !== "|") break;
        }
        nodes.push({ kind: "choice", branches });
        continue;
      }
      const [word] = /^[^\s()[\]|]+/.exec(text.slice(p))!;
      p += word.length;
      if (word.startsWith("@")) nodes.push(groupOf(word.slice(1)));
      else if (word.startsWith("{")) {
        const [name, label = name] = word.slice(1, -1).split("=");
        nodes.push({ kind: "category", name, label });
      } else if (word.startsWith("!")) nodes.push({ kind: "other", word: word.slice(1) });
      else
        nodes.push({
          kind: "word",
          word: word.replace(/^\^/, ""),
          near: word.startsWith("^"),
          side: word === "attacker" || word === "defender",
        });
    }
  };
  return sequence("");
}

const says = ({ word, forms }: SpokenWord, wanted: string): boolean =>
  wanted.startsWith("=") ? word === wanted.slice(1) || word === `${wanted.slice(1)}s` : forms.has(wanted);

/** Words without which there is no match: one of each list has to be there. */
function neededIn(nodes: readonly Node[]): readonly (readonly string[])[] {
  return nodes.flatMap((node) => {
    if (node.kind === "word") return [[node.word.replace(/^=/, "")]];
    if (node.kind !== "choice") return [];
    const branches = node.branches.map((branch) => neededIn(branch)[0]);
    return branches.every((needed) => needed !== undefined) ? [branches.flat()] : [];
  });
}

export class PhrasePattern {
  private readonly nodes: readonly Node[];
  private needed: readonly (readonly string[])[] | undefined;

  constructor(readonly text: string) {
    this.nodes = parseNodes(text);
  }

  /** Words, and categories in braces, that a match can begin with. */
  get begins(): ReadonlySet<string> {
    const found = new Set<string>();
    const collect = (nodes: readonly Node[]): boolean => {
      for (const node of nodes) {
        if (node.kind === "other") continue;
        if (node.kind === "word") {
          found.add(node.word.replace(/^=/, ""));
          return false;
        }
        if (node.kind === "category") {
          found.add(`{${node.name}}`);
          return false;
        }
        if (!node.branches.map(collect).some((empty) => empty)) return false;
      }
      return true;
    };
    collect(this.nodes);
    return found;
  }

  /** Whether it can match words that have these forms; false only where it can't. */
  canMatch(forms: ReadonlySet<string>): boolean {
    this.needed ??= neededIn(this.nodes);
    return this.needed.every((some) => some.some((word) => forms.has(word)));
  }

  /** Everything it matches that begins with the word at a place; `reached` is told of the places it gets to. */
  matches(
    words: readonly SpokenWord[],
    from: number,
    categories: Categories,
    quantifierAt: (at: number) => Found | undefined,
    reached: (at: number) => void = () => undefined,
  ): Match[] {
    const matches: Match[] = [];
    const walk = (
      nodes: readonly Node[],
      n: number,
      at: number,
      bound: Readonly<Record<string, string>>,
      skipped: number,
      quantifier: string | undefined,
      done: (
        at: number,
        bound: Readonly<Record<string, string>>,
        skipped: number,
        q: string | undefined,
      ) => void,
    ): void => {
      if (matches.length >= MOST_MATCHES) return;
      if (n === nodes.length) return done(at, bound, skipped, quantifier);
      const node = nodes[n];
      if (node.kind === "choice") {
        for (const branch of node.branches)
          walk(branch, 0, at, bound, skipped, quantifier, (end, has, light, q) =>
            walk(nodes, n + 1, end, has, light, q, done),
          );
        return;
      }
      const word = words[at];
      if (node.kind === "other") {
        if (!word || !says(word, node.word)) walk(nodes, n + 1, at, bound, skipped, quantifier, done);
        return;
      }
      // how far it fits: behind that stands what is in the way
      if (at > from) reached(at);
      if (word === undefined) return;
      if (node.kind === "word") {
        if (!word.quoted && says(word, node.word))
          walk(nodes, n + 1, at + 1, bound, skipped, quantifier, done);
        // "the weaker side" wherever a pattern has the defender
        else if (node.side)
          for (const { end, value } of categories("side", at))
            if (value === node.word) walk(nodes, n + 1, end, bound, skipped, quantifier, done);
      } else {
        for (const { end, value } of categories(node.name, at))
          walk(nodes, n + 1, end, { ...bound, [node.label]: value }, skipped, quantifier, done);
      }
      if (at === from || (node.kind === "word" && node.near)) return;
      // a light word is passed over where the pattern does not ask for it
      if (LIGHT.has(word.word)) walk(nodes, n, at + 1, bound, skipped + 1, quantifier, done);
      const floating = quantifier === undefined ? quantifierAt(at) : undefined;
      if (floating) walk(nodes, n, floating.end, bound, skipped, floating.value, done);
    };
    walk(this.nodes, 0, from, {}, 0, undefined, (end, bound, skipped, quantifier) => {
      if (end > from) matches.push({ end, bound, skipped, quantifier });
    });
    return matches;
  }
}
