// What joins the conditions of a question in words, and words that say nothing there: everything of that kind that begins at
// a word.

import type { CategoryFinder } from "./categories.js";
import type { Item } from "./items.js";
import { OF_PURPOSES, PURPOSES, REQUESTS, type Request } from "./lexicon/requests.js";
import { CONNECTIONS, type Connection, FILLERS, JOINING_WORDS, LIGHT } from "./lexicon/words.js";
import { subjectOf } from "./meanings.js";
import { PhrasePattern } from "./phrase-pattern.js";
import { DOWNWARDS, UPWARDS, isWord } from "./quantities.js";
import type { SpokenWord } from "./spoken.js";

/** What each thing costs on a way through the words: the cheapest way is the likeliest. */
export const COST = {
  condition: 1,
  weak: 0.6,
  light: 0.05,
  filler: 0.2,
  who: 0.5,
  joint: 0.1,
  quantifier: 0.3,
  request: 0.1,
};

/** Something that begins at a word; undefined where it says nothing. */
export interface FoundItem {
  readonly item: Item | undefined;
  readonly end: number;
  readonly cost: number;
}

/** Before "have", they say that something did not happen. */
const WISHED = new Set(["could", "would", "should", "might", "may"]);
type IndexedConnection = Omit<Connection, "say"> & { readonly pattern: PhrasePattern };
let connectionIndex: ReadonlyMap<string, readonly IndexedConnection[]> | undefined;
/** Connections by the words they can begin with. */
function connections(): ReadonlyMap<string, readonly IndexedConnection[]> {
  if (connectionIndex) return connectionIndex;
  const index = new Map<string, IndexedConnection[]>();
  for (const { say, ...what } of CONNECTIONS)
    for (const text of say) {
      const pattern = new PhrasePattern(text);
      for (const word of pattern.begins) index.set(word, [...(index.get(word) ?? []), { ...what, pattern }]);
    }
  return (connectionIndex = index);
}

type IndexedRequest = Omit<Request, "say"> & { readonly pattern: PhrasePattern };
let requestIndex: ReadonlyMap<string, readonly IndexedRequest[]> | undefined;
/** Requests by the words they can begin with; under "" those that can begin with a number. */
function requests(): ReadonlyMap<string, readonly IndexedRequest[]> {
  if (requestIndex) return requestIndex;
  const index = new Map<string, IndexedRequest[]>();
  for (const { say, ...what } of REQUESTS)
    for (const text of say) {
      const pattern = new PhrasePattern(text);
      for (const begin of pattern.begins) {
        const key = begin.startsWith("{") ? "" : begin;
        index.set(key, [...(index.get(key) ?? []), { ...what, pattern }]);
      }
    }
  return (requestIndex = index);
}

/** Behind these a part of a question begins. */
const BEGINS_BEHIND = new Set([",", "and", "so", "but", "then", "or", "please"]);

/** Where what a question is for ends, "for my next lesson"; where it begins if there is none. */
function purposeAt(words: readonly SpokenWord[], at: number): number {
  if (words[at].word !== "for") return at;
  let end = at + 1;
  while (OF_PURPOSES.has(words[end]?.word ?? "") && !PURPOSES.has(words[end].word)) ++end;
  if (!PURPOSES.has(words[end]?.word ?? "")) return at;
  while (PURPOSES.has(words[end]?.word ?? "")) ++end;
  return end;
}

/**
 * Requests that begin at a word, "I would like to see", which say nothing of games. `requested` holds the places where
 * others end, and is added to.
 */
export function requestsAt(
  words: readonly SpokenWord[],
  at: number,
  finder: CategoryFinder,
  requested: Set<number>,
  text: string,
): FoundItem[] {
  const items: FoundItem[] = [];
  const word = words[at];
  if (word.quoted) return items;
  const begins =
    at === 0 ||
    BEGINS_BEHIND.has(words[at - 1].word) ||
    /[:;.?!–—]|\s-\s/.test(text.slice(words[at - 1].end, word.at));
  let from = at;
  while (from > 0 && !requested.has(from) && LIGHT.has(words[from - 1].word)) --from;
  const isBehind = requested.has(from);
  const span = (end: number) => ({ at: word.at, length: words[end - 1].end - word.at });
  const purpose = begins || isBehind ? purposeAt(words, at) : at;
  if (purpose > at) requested.add(words[purpose]?.word === "," ? purpose + 1 : purpose);
  const candidates = new Set<IndexedRequest>();
  for (const form of word.forms) for (const one of requests().get(form) ?? []) candidates.add(one);
  if (word.number !== undefined) for (const one of requests().get("") ?? []) candidates.add(one);
  for (const { pattern, where, isTold } of candidates) {
    if (where === "behind" ? !isBehind : where === "start" && !begins && !isBehind) continue;
    for (const { end } of pattern.matches(words, at, finder.categories, () => undefined)) {
      if (where === "end" && end < words.length && words[end].word !== ",") continue;
      if (where !== "end") requested.add(end);
      const item: Item | undefined = isTold ? { kind: "idle", ...span(end) } : undefined;
      items.push({ item, end, cost: COST.request });
    }
  }
  return items;
}

/** Connecting words, and words that say nothing. */
export function jointsAt(words: readonly SpokenWord[], at: number, finder: CategoryFinder): FoundItem[] {
  const items: FoundItem[] = [];
  const { word } = words[at];
  const span = (end: number) => ({ at: words[at].at, length: words[end - 1].end - words[at].at });
  for (const { pattern, kind, moves } of connections().get(word) ?? [])
    for (const { end } of pattern.matches(words, at, finder.categories, () => undefined))
      items.push({ item: { kind, moves, ...span(end) }, end, cost: COST.joint });
  // "all draws but stalemates": all except; "all games that were drawn but …" goes on
  const except =
    word === "but" &&
    /^(?:all|any|every)$/.test(words[at - 2]?.word ?? "") &&
    !/ed$/.test(words[at - 1].word);
  const kind = except ? "without" : JOINING_WORDS.get(word);
  if (kind) items.push({ item: { kind, ...span(at + 1) } as Item, end: at + 1, cost: COST.joint });
  if (word === "within" || word === "inside" || word === "in") {
    // "within the next fifteen moves"
    const next = words[at + 1]?.word === "the" && words[at + 2]?.word === "next" ? at + 3 : at + 1;
    for (const { end, value } of finder.quantities.numbers(next)) {
      if (!isWord(words, end, "move")) continue;
      const of = isWord(words, end + 1, "of") || isWord(words, end + 1, "after");
      if (word === "in" && !of) continue;
      const stop = of ? end + 2 : end + 1;
      items.push({
        item: { kind: of ? "within-of" : "within", moves: value, ...span(stop) },
        end: stop,
        cost: COST.joint,
      });
    }
  }
  if (/^(?:by|from|for|of)$/.test(word)) {
    const who = words[at + 1]?.word === "the" ? at + 2 : at + 1;
    for (const { end, value } of finder.categories("who", who))
      items.push({ item: { kind: "by", subject: subjectOf(value), ...span(end) }, end, cost: COST.joint });
  }
  if (word === "for") {
    const least = finder.quantities.literal(at + 1, ["at", "least"]);
    const more = finder.quantities.literal(at + 1, ["more", "than"]);
    for (const { end, value } of finder.quantities.numbers(Math.max(at + 1, least, more)))
      if (isWord(words, end, "move"))
        for (const stop of [end + 1, ...finder.categories("inarow", end + 1).map((one) => one.end)])
          items.push({
            item: { kind: "for", moves: value + (more > 0 ? 1 : 0), ...span(stop) },
            end: stop,
            cost: COST.joint,
          });
  }
  for (const { end, value } of finder.categories("tallied", at))
    items.push({ item: { kind: "times", compared: value, ...span(end) }, end, cost: COST.joint });
  // behind a number that has been read with it
  if (
    word === "or" &&
    finder.quantities.countedBefore(at) &&
    (UPWARDS.has(words[at + 1]?.word ?? "") || DOWNWARDS.has(words[at + 1]?.word ?? ""))
  )
    items.push({ item: undefined, end: at + 2, cost: 0 });
  const purpose = purposeAt(words, at);
  if (purpose > at) items.push({ item: undefined, end: purpose, cost: COST.filler });
  // "first the rook was active, then it was not": what comes first is said by "then"
  if (
    word === "first" &&
    (at === 0 || words[at - 1].word === ",") &&
    /^(?:the|a|an|he|she|it|his|white|black|attacker|defender)$/.test(words[at + 1]?.word ?? "") &&
    words.slice(at).some((one) => one.word === "then")
  )
    items.push({ item: undefined, end: at + 1, cost: COST.filler });
  // "either Philidor or Szén"
  if (word === "either") items.push({ item: undefined, end: at + 1, cost: COST.filler });
  // "how many times": a question of how many, not "many times"
  if (word === "how" && words[at + 1]?.word === "many" && isWord(words, at + 2, "time"))
    items.push({ item: undefined, end: at + 3, cost: 0 });
  // "blitz only", "only games with …"
  const behind = words[at + 1];
  if (word === "only" && (behind === undefined || behind.word === "," || isWord(words, at + 1, "game")))
    items.push({ item: undefined, end: at + 1, cost: COST.filler });
  if (LIGHT.has(word)) items.push({ item: undefined, end: at + 1, cost: COST.light });
  // "could have won" did not
  else if (
    FILLERS.has(word) &&
    !(WISHED.has(word) && isWord(words, at + 1, "have")) &&
    // "check on move one"
    !(word === "one" && isWord(words, at - 1, "move")) &&
    // "draws in May"
    !(word === "may" && /^(?:in|of|during)$/.test(words[at - 1]?.word ?? ""))
  )
    items.push({ item: undefined, end: at + 1, cost: COST.filler });
  return items;
}
