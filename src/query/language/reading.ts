// Reading a question in plain words: a chart of everything that its words can be, the cheapest ways through it, and each
// of these put together into a question. All readings that differ are kept, the most likely first.
//
// Three steps. Every condition, connecting word, side and name that begins at each word is found (phrase-pattern.ts). The
// cheapest ways from the first word to the last are kept, word by word, so that the time is proportional to the length: a
// condition costs one, a word that says nothing a little, so that the fewest conditions win. Then the items of a way are
// joined: a comma binds weaker than "or", "or" weaker than "and", conditions of one sort joined by "or" are one; and
// whom a word is about is settled by the nearest one spoken of before it.

import { EVERYTHING, type Question, aboutEndings, sameness } from "./ast.js";
import { CanonicalParser, type KnownSetUps } from "./canonical.js";
import { CategoryFinder, type KnownNames } from "./categories.js";
import { Composer } from "./composer.js";
import { ReadConditions } from "./read-conditions.js";
import { type Guess, type Item, orderIn } from "./items.js";
import { isContradictory } from "./contradictions.js";
import { COST, type FoundItem, jointsAt, requestsAt } from "./joints.js";
import { NO_FACTS } from "./lexicon/no-facts.js";
import type { Phrase } from "./lexicon/phrase.js";
import { PHRASES } from "./lexicon/phrases.js";
import { subjectOf } from "./meanings.js";
import type { Mended } from "./mending.js";
import { type Found, PhrasePattern } from "./phrase-pattern.js";
import type { Order } from "./orders.js";
import { NoFact, QueryError, tooLong } from "./query-error.js";
import { type SpokenWord, spokenWords } from "./spoken.js";
import { tokenize } from "./tokens.js";

/** One way to understand a question. */
export interface Reading {
  readonly question: Question;
  readonly cost: number;
  /** What was taken for one of several things it can mean. */
  readonly guesses: readonly Guess[];
  /** The order of the answers, where one is asked for: "the longest". */
  readonly order: Order | undefined;
  /** Words that say nothing that could be looked up, and were passed over. */
  readonly passed?: readonly string[];
  /** Words that were read as others: slips, and what a verb before it is said of too. */
  readonly mended?: readonly Mended[];
}

/** How far the words were understood, where they were not understood to the end. */
export interface Understood {
  readonly words: readonly SpokenWord[];
  /** The first word that could not be read. */
  readonly at: number;
  /** What was understood before it. */
  readonly before: Question | undefined;
  /** Why, where something was understood and cannot be. */
  readonly error: QueryError | undefined;
}

/** Ways that are kept at each word. */
const MOST_WAYS = 8;
/** Words of the longest question that is read. */
export const MOST_WORDS = 200;
/** Said of a game that is to be drawn and not, or to end in two ways. */
const CONTRADICTION = {
  message:
    "no game can be both: this asks for one that is drawn and that somebody wins, or that ends in two ways",
  hint: 'a position can be won in a drawn game: "draw agreed in a won position"; or ask for one of the two',
};
/** A reading that costs more than the cheapest by this is not offered. */
const NEARLY = 0.35;

interface Way {
  readonly cost: number;
  readonly item: Item | undefined;
  readonly before: Way | undefined;
}

/** Patterns by the words and categories they can begin with. */
interface PatternIndex {
  readonly byWord: ReadonlyMap<string, readonly IndexedPattern[]>;
  readonly byCategory: ReadonlyMap<string, readonly IndexedPattern[]>;
}
interface IndexedPattern {
  readonly pattern: PhrasePattern;
  readonly phrase: Phrase;
}

function indexOf(patterns: readonly IndexedPattern[]): PatternIndex {
  const byWord = new Map<string, IndexedPattern[]>();
  const byCategory = new Map<string, IndexedPattern[]>();
  for (const one of patterns) {
    for (const begin of one.pattern.begins) {
      const [map, key] = begin.startsWith("{") ? [byCategory, begin.slice(1, -1)] : [byWord, begin];
      const known = map.get(key);
      if (known) known.push(one);
      else map.set(key, [one]);
    }
  }
  return { byWord, byCategory };
}

let phraseIndex: PatternIndex | undefined;
const phrases = (): PatternIndex =>
  (phraseIndex ??= indexOf(
    [...PHRASES, ...NO_FACTS].flatMap((phrase) =>
      phrase.say.map((text) => ({ phrase, pattern: new PhrasePattern(text) })),
    ),
  ));

const noFactAt = ({ at, length }: Item, refused: NonNullable<Phrase["refused"]>, text: string): NoFact =>
  new NoFact(text, at, length, ...refused);

/** Throws `NoFact` where something stands among the items that no fact tells. */
function refuseNoFact(items: readonly Item[], text: string): void {
  for (const item of items)
    if (item.kind === "condition" && item.phrase.refused) throw noFactAt(item, item.phrase.refused, text);
}

/** Reads one question. */
class Chart {
  readonly words: readonly SpokenWord[];
  private readonly tokens;
  private readonly canonical: CanonicalParser;
  private readonly finder: CategoryFinder;
  private readonly conditions: ReadConditions;
  /** Every form of every word, and the sides that are spoken of. */
  private readonly forms: ReadonlySet<string>;
  private readonly canMatch = new Map<PhrasePattern, boolean>();
  /** Where words end that ask for answers: "show me". */
  private readonly requested = new Set<number>();
  /** Whether patterns that lack a word are tried too, to see how far they fit. */
  private thorough = false;
  /** How far some pattern fits. */
  private furthest = 0;
  private readonly reached = (at: number): void => {
    this.furthest = Math.max(this.furthest, at);
  };
  /** An error in something that is written like canonical form. */
  private error: QueryError | undefined;

  constructor(
    private readonly text: string,
    setUps: KnownSetUps,
    names: KnownNames | undefined,
  ) {
    this.conditions = new ReadConditions(setUps);
    this.tokens = tokenize(text);
    this.words = spokenWords(this.tokens);
    this.canonical = new CanonicalParser(text, setUps, this.tokens);
    this.finder = new CategoryFinder(text, this.words, setUps, names);
    const forms = new Set<string>();
    this.words.forEach((word, at) => {
      for (const form of word.forms) forms.add(form);
      for (const { value } of this.finder.categories("side", at)) forms.add(value);
    });
    this.forms = forms;
  }

  private readonly quantifierAt = (at: number): Found | undefined => {
    // "king in the corner, then on the edge": two moments, and no place of one
    if (this.words[at].word === "then") return undefined;
    const found = this.finder.categories("quantifier", at);
    return found.length === 0 ? undefined : found.reduce((best, one) => (one.end > best.end ? one : best));
  };

  /** Something written in canonical form: a fact and what it is compared with, or `like` and a position. */
  private written(at: number): { end: number; question: Question } | undefined {
    const { first, token, word } = this.words[at];
    if (!first) return undefined;
    const raw = this.tokens[token];
    const sign = this.tokens[token + 1];
    const like = raw.word === "like" && sign?.text.includes("/");
    const fact = this.canonical.fact(token);
    const compared = sign !== undefined && !sign.quoted && /^(?:[<>]=?|!?=|~)$/.test(sign.text);
    // a fact by its name alone may be a word like another: it needs a value that is its own, unless it is yes or no
    const sure = compared || word !== raw.word;
    if (!like && !(fact && (sure || fact.fact.type !== "text"))) return undefined;
    try {
      const read = like ? this.canonical.likeAt(token) : this.canonical.condition(token);
      if (!read) return undefined;
      const end = this.words.findIndex((one) => one.token >= read.next);
      return { end: end < 0 ? this.words.length : end, question: read.node };
    } catch (thrown) {
      if (!(thrown instanceof QueryError)) throw thrown;
      if (like || sure) this.error ??= thrown;
      return undefined;
    }
  }

  /** Everything that begins at a word. */
  private itemsAt(at: number): FoundItem[] {
    const items: FoundItem[] = [];
    const { words } = this;
    const word = words[at];
    const span = (end: number) => ({ at: word.at, length: words[end - 1].end - word.at });
    const written = this.written(at);
    if (written)
      items.push({
        item: { kind: "question", question: written.question, ...span(written.end) },
        end: written.end,
        cost: COST.condition,
      });
    const material = this.finder.material(at);
    if (material)
      items.push({
        item: { kind: "question", question: EVERYTHING, error: material.error, ...span(material.end) },
        end: material.end,
        cost: COST.condition,
      });
    const { byWord, byCategory } = phrases();
    const candidates = new Set<IndexedPattern>();
    if (!word.quoted) {
      for (const form of word.forms) for (const one of byWord.get(form) ?? []) candidates.add(one);
      // "the weaker side": what begins with the defender begins with it
      for (const { value } of this.finder.categories("side", at))
        if (!word.forms.has(value)) for (const one of byWord.get(value) ?? []) candidates.add(one);
    }
    for (const [name, patterns] of byCategory)
      if (this.finder.categories(name, at).length > 0) for (const one of patterns) candidates.add(one);
    const side = this.finder.categories("side", at)[0]?.value as "attacker" | "defender" | undefined;
    for (const { pattern, phrase } of candidates) {
      if (!this.thorough && !this.isPossible(pattern)) continue;
      for (const { end, bound, skipped, quantifier } of pattern.matches(
        words,
        at,
        this.finder.categories,
        this.quantifierAt,
        this.reached,
      )) {
        const cost =
          // "finds it again" is more than words that say nothing
          (phrase.returns ? COST.filler : COST.condition) +
          skipped * COST.light +
          (phrase.weak ? COST.weak : 0) +
          (quantifier ? COST.quantifier : 0);
        const item: Item = { kind: "condition", phrase, bound, quantifier, side, ...span(end) };
        items.push({ item, end, cost });
        if (phrase.refused) this.error ??= noFactAt(item, phrase.refused, this.text);
      }
    }
    for (const { end, value } of this.finder.categories("who", at))
      items.push({ item: { kind: "who", subject: subjectOf(value), ...span(end) }, end, cost: COST.who });
    for (const { end, value } of this.finder.categories("quantifier", at))
      items.push({
        item: { kind: "quantifier", quantifier: value, ...span(end) },
        end,
        cost: COST.quantifier,
      });
    if (!word.quoted) items.push(...jointsAt(words, at, this.finder));
    items.push(...requestsAt(words, at, this.finder, this.requested, this.text));
    return items;
  }

  /** What no fact tells is told wherever it stands, so that nobody mends the words before it in vain. */
  private lookForNoFact(at: number): void {
    const { furthest, error } = this;
    this.itemsAt(at);
    this.furthest = furthest;
    if (error !== undefined || !(this.error instanceof NoFact)) this.error = error;
  }

  /** Whether all the words are there that a pattern needs. */
  private isPossible(pattern: PhrasePattern): boolean {
    let known = this.canMatch.get(pattern);
    if (known === undefined) this.canMatch.set(pattern, (known = pattern.canMatch(this.forms)));
    return known;
  }

  /** The cheapest ways to each word, and how far they reach. */
  private ways(): readonly Way[][] {
    const { words } = this;
    const best: Way[][] = Array.from({ length: words.length + 1 }, () => []);
    best[0].push({ cost: 0, item: undefined, before: undefined });
    for (let at = 0; at < words.length; ++at) {
      if (best[at].length === 0) {
        if (this.thorough) this.lookForNoFact(at);
        continue;
      }
      best[at].sort((a, b) => a.cost - b.cost).splice(MOST_WAYS);
      for (const { item, end, cost } of this.itemsAt(at))
        for (const way of best[at]) best[end].push({ cost: way.cost + cost, item, before: way });
    }
    best[words.length].sort((a, b) => a.cost - b.cost).splice(MOST_WAYS * 2);
    return best;
  }

  private itemsOf(way: Way): Item[] {
    const items: Item[] = [];
    for (let one: Way | undefined = way; one; one = one.before) if (one.item) items.push(one.item);
    return items.reverse();
  }

  private composer(items: readonly Item[]): Composer {
    return new Composer(items, this.conditions, this.text);
  }

  /** Every reading, the most likely first; or how far it was understood. */
  read(): readonly Reading[] | Understood {
    const read = this.readings();
    if (!("words" in read)) return read;
    this.thorough = true;
    this.error = undefined;
    return this.readings();
  }

  private readings(): readonly Reading[] | Understood {
    const { words } = this;
    if (words.length > MOST_WORDS) throw tooLong(this.text, words[MOST_WORDS].at, `${MOST_WORDS} words`);
    const best = this.ways();
    const readings: (Omit<Reading, "guesses"> & { composer: Composer })[] = [];
    const seen = new Set<string>();
    let error: QueryError | undefined;
    // what no fact tells stands in the cheapest way: its words are not taken for anything else
    let noFact = Infinity;
    for (const way of best[words.length]) {
      try {
        const all = this.itemsOf(way);
        const items = all.filter(({ kind }) => kind !== "idle");
        const passed = all.flatMap(({ kind, at, length }) =>
          kind === "idle" ? [this.text.slice(at, at + length)] : [],
        );
        refuseNoFact(items, this.text);
        const composer = this.composer(items);
        const question = composer.compose();
        if (!question) continue;
        // "won, draw agreed": no game is both, so that another of the words' meanings is meant
        const meant = isContradictory(question)
          ? composer.guesses(question).find(({ other }) => !isContradictory(other))?.other
          : question;
        if (!meant) {
          const { message, hint } = CONTRADICTION;
          error ??= new QueryError(this.text, 0, this.text.length, message, hint);
          continue;
        }
        const key = sameness(aboutEndings(meant));
        if (seen.has(key)) continue;
        seen.add(key);
        readings.push({
          question: meant,
          cost: way.cost,
          composer,
          order: orderIn(items),
          ...(passed.length > 0 ? { passed } : {}),
        });
      } catch (thrown) {
        if (!(thrown instanceof QueryError)) throw thrown;
        if (thrown instanceof NoFact)
          [noFact, error] = way.cost < noFact ? [way.cost, thrown] : [noFact, error];
        error ??= thrown;
      }
    }
    readings.sort((a, b) => a.cost - b.cost);
    if (readings.length > 0 && readings[0].cost <= noFact)
      return readings
        .filter(({ cost }) => cost <= readings[0].cost + NEARLY)
        .map(({ composer, ...read }) => ({ ...read, guesses: composer.guesses(read.question) }));
    let at = words.length;
    while (at > 0 && best[at].length === 0) --at;
    let before: Question | undefined;
    for (const way of best[at].sort((a, b) => a.cost - b.cost)) {
      try {
        before = this.composer(this.itemsOf(way).filter(({ kind }) => kind !== "idle")).compose();
      } catch (thrown) {
        if (!(thrown instanceof QueryError)) throw thrown;
      }
      if (before) break;
    }
    // a pattern that fits farther than what was understood shows the word that is in its way
    return { words, at: Math.max(at, this.furthest), before, error: this.error ?? error };
  }
}

/** Everything a question in plain words can mean, the most likely first; or how far it was understood. */
export function readWords(
  text: string,
  setUps: KnownSetUps,
  names?: KnownNames,
): readonly Reading[] | Understood {
  return new Chart(text, setUps, names).read();
}
