// What people say, as it is shown to them: each phrase of the lexicon as something that can be typed as it stands.

import { moverText } from "./meanings.js";
import { CATEGORIES } from "./lexicon/categories.js";
import { GROUPS } from "./lexicon/groups.js";
import type { Phrase } from "./lexicon/phrase.js";
import { FORMS } from "./lexicon/words.js";

/** What stands for each category in an example. */
const SHOWN: Readonly<Record<string, string>> = {
  n: "30",
  nth: "twentieth",
  successor: "20",
  rel: "more than 30",
  cmp: "two",
  least: "three",
  points: "200",
  rating: "over 2500",
  range: "20 to 40",
  year: "2010",
  years: "2010 to 2015",
  control: "3+2",
  month: "March",
  dated: "March 2014",
  day: "12 March 2014",
  sinceMonth: "since March 2014",
  rank: "second",
  file: "b",
  left: "a",
  right: "h",
  material: "R+B v R",
  spot: "b7",
  man: "Rd7",
  square: "e4",
  second: "b7",
  "attacker-king": "e6",
  "attacker-rook": "a7",
  "attacker-bishop": "d5",
  "defender-king": "e8",
  "defender-rook": "f1",
  time: "less than a minute",
  remaining: "10 seconds",
  level: "2500",
  setup: "Philidor",
  name: "Marlow",
  one: "Marlow",
  two: "Brandt",
  other: "Brandt",
  loser: "Brandt",
  text: "Harbour League",
  place: "Harbour League",
  who: "defender",
  pace: "blitz",
  this: "blitz",
  that: "rapid",
  x: "attacker",
  y: "defender",
  times: "once",
  a: "second-rank defence",
  b: "Philidor",
};

/**
 * A pattern with every choice made: the first of several, and what may be left out left out; but where one holds a certain
 * word, that one.
 */
export function spelled(pattern: string, holding?: string): string {
  const holds = (part: string) => holding !== undefined && part.split(/[\s=]+/).includes(holding);
  const group = (_: string, name: string) => GROUPS[name].find(holds) ?? GROUPS[name][0];
  const chosen = pattern
    .replace(/(^|[\s([|])[=^](\w+)/g, "$1$2")
    .replace(/@(\w+)/g, group)
    .replace(/@(\w+)/g, group)
    .replace(
      /\{([\w-]+)(?:=([\w-]+))?\}/g,
      (_, name: string, label: string = name) => SHOWN[label] ?? SHOWN[name] ?? CATEGORIES[name][0][0],
    )
    .replace(/@(\w+)/g, group);
  // articles stay, whatever else may be left out goes
  let text = chosen.replace(/\[(?:\w+\|)?(the|a)(?:\|\w+)?\]/g, "$1");
  for (;;) {
    const next = text
      .replace(/\[([^[\]()]*)\]/g, (_, inside: string) => inside.split("|").find(holds) ?? "")
      .replace(/\(([^()[\]]*)\)/g, (_, inside: string) => {
        const branches = inside.split("|");
        return branches.find(holds) ?? branches[0];
      });
    if (next === text) return text.replace(/!\w+/g, "").replace(/\s+/g, " ").trim();
    text = next;
  }
}

/** Verbs that examples put into the past. */
const VERBS: ReadonlySet<string> = new Set(
  "abandon find flag give go hold keep leave lose miss outrate overlook reach resign run save switch throw threaten".split(
    " ",
  ),
);
/** Nouns behind a number, with what may stand between; what is called after a number ("the fifty move rule") stays. */
const COUNTED =
  /\b(\d\d+|two|three) ((?:(?:only|waiting|win|winning|holding|legal|spare|safe|quiet|precise|half|faulty|wrong|bad|rating|stalemate) )?(?:move|mistake|error|blunder|slip|file|rank|step|square|point|minute|second|check|trick|time|position|capture))\b(?! (?:rule|count|counter|clock|limit|mark|draw|claim))/g;

/** As people write it: the past of the verb that it begins with, and nouns behind numbers in the plural. */
function inEnglish(text: string): string {
  const [first, ...rest] = text.split(" ");
  const verb = VERBS.has(first) ? FORMS[first].split(" ")[0] : first;
  return [verb, ...rest]
    .join(" ")
    .replace(COUNTED, "$1 $2s")
    .replace(
      /\b(win|discover) (move|position|check)/g,
      (_, one: string, noun: string) => `${one === "win" ? "winning" : "discovered"} ${noun}`,
    );
}

/** A phrase as it can be typed. */
export const exampleOf = ({ say, example }: Phrase): string => example ?? inEnglish(spelled(say[0]));

/** Ways to say a phrase with a certain word in it, as they can be typed; none where it has no such word. */
export const examplesWith = ({ say }: Phrase, word: string): string[] =>
  say
    .map((pattern) => spelled(pattern, word))
    .filter((text) => text.split(" ").includes(word))
    .map(inEnglish);

/** The same in canonical form, where it is written otherwise there. */
const WRITTEN: Readonly<Record<string, string>> = {
  nth: "20",
  "rel.negative": "< -30",
  "points.negative": "<= -200",
  "rank.mirror": "7",
  "spot.piece": "king-board-rank = 7 and king-board-file = b",
  "spot.king": "king-board-rank = 7 and king-board-file = b",
  "rel.next": "> 31",
  rel: "> 30",
  cmp: "= 2",
  least: ">= 3",
  points: ">= 200",
  rating: "> 2500",
  range: "= 20..40",
  years: "2010..2015",
  rank: "2",
  time: "< 60",
  times: "= 1",
  setup: "philidor",
  a: "second-rank-defence",
  b: "philidor",
  name: '"Marlow"',
  one: '"Marlow"',
  two: '"Brandt"',
  other: '"Brandt"',
  winner: '"Marlow"',
  loser: '"Brandt"',
  text: '"Harbour League"',
  place: 'event ~ "Harbour League"',
};

/** What a phrase means, in canonical form, with what stands in for its categories. */
export function meaningOf({ means, say }: Phrase): string {
  const text =
    typeof means === "string"
      ? means
      : (means.nobody ?? means.defender ?? means.side ?? means.name ?? means.attacker ?? "");
  const labels = new Map(
    [...say[0].matchAll(/\{([\w-]+)(?:=([\w-]+))?\}/g)].map(([, name, label = name]) => [label, name]),
  );
  const mover = /\bdefender\b/.test(spelled(say[0])) ? moverText({ kind: "side", side: "defender" }) : "";
  return text
    .replaceAll("{mover}", mover)
    .replaceAll("{side}", "defender")
    .replace(
      /\{([\w-]+)(\.\w+)?\}/g,
      (_, label: string, part: string = "") => WRITTEN[label + part] ?? writtenOf(label, labels.get(label)),
    );
}

const writtenOf = (label: string, name: string = label): string =>
  WRITTEN[label] ?? WRITTEN[name] ?? SHOWN[label] ?? SHOWN[name] ?? CATEGORIES[name]?.[0][1] ?? "…";
