// A question told in one plain English sentence, so that whoever asked can see how it was understood.

import { entryOf } from "./tokens.js";
import {
  type Compare,
  type Question,
  type Range,
  type Tally,
  aboutEndings,
  isEverything,
  levelOf,
  numberText,
  valueText,
} from "./ast.js";
import { setUpAfterIs } from "./set-up-words.js";
import { TOLD } from "./told.js";
import type { Fact, Quantifier } from "./vocabulary.js";

const COMPARED: Readonly<Record<string, string>> = {
  "=": "",
  "!=": "not ",
  "<": "less than ",
  "<=": "at most ",
  ">": "more than ",
  ">=": "at least ",
  contains: "",
};
/** Of a year. */
const WHEN: Readonly<Record<string, string>> = {
  "=": "in ",
  "!=": "not in ",
  "<": "before ",
  "<=": "until ",
  ">": "after ",
  ">=": "since ",
};

const MEN: Readonly<Record<string, string>> = {
  king: "a king move",
  rook: "a rook move",
  bishop: "a bishop move",
  queen: "a queen move",
  knight: "a knight move",
  check: "a check",
  "discovered check": "a discovered check",
  capture: "a capture",
  pin: "a pin",
  block: "an interposition",
  attack: "an attack on the rook",
};

/** One mistake, not "1 mistakes". */
const inNumber = (text: string): string =>
  text.replace(
    /\b(1) (mistakes|moves|files or ranks|files|steps|seconds|half-moves|positions)\b/g,
    (_, one: string, nouns: string) => `${one} ${nouns.replace(/s\b/g, "")}`,
  );

function valueInWords(fact: Fact, value: Compare["value"]): string {
  const text = valueText(fact, value).replace(/^"|"$/g, "");
  if (fact.type === "kinds") return entryOf(MEN, text) ?? `the move "${text}"`;
  return text;
}

function factInWords({ fact, operator, value }: Compare): string {
  const told = TOLD[fact.name];
  const text = fact.type === "flag" ? (value === 1 ? "yes" : "no") : valueInWords(fact, value);
  if (fact.name === "rating-difference" && value === 0 && (operator === ">" || operator === "<"))
    return `the ${operator === ">" ? "attacker" : "defender"} is rated higher`;
  if (fact.name === "rating-difference" && operator !== "=" && operator !== "!=") {
    const points = Math.abs(Number(value));
    const higher = operator.startsWith(">") === Number(value) > 0;
    const who = Number(value) > 0 ? "attacker" : "defender";
    return higher
      ? `the ${who} is rated ${operator.length > 1 ? "at least" : "more than"} ${points} points higher`
      : `the ${who} is rated ${operator.length > 1 ? "at most" : "less than"} ${points} points higher`;
  }
  if (fact.name === "year") return `it was played ${WHEN[operator]}${text}`;
  if (typeof told === "object") {
    if (operator === "=") return told[text];
    if (told.none !== undefined && text === "none") return ANY[fact.name] ?? denied(told.none, true);
    const said = told[text];
    return denied(said, !/ (?:and|or) /.test(said));
  }
  const plainer = entryOf(PLAINER, `${fact.name} ${operator} ${value}`);
  if (plainer !== undefined) return plainer;
  if (/errors$/.test(fact.name) && value === 0 && (operator === "=" || operator === ">"))
    return told.replace("# mistakes", operator === "=" ? "no mistake" : "a mistake");
  return inNumber(told.replace("#", `${COMPARED[operator]}${text}`));
}

/** Comparisons of numbers for which people have words without a number. */
const PLAINER: Readonly<Record<string, string>> = {
  "wedge-depth >= 1": "the defender's king is in the bishop's wedge",
  "kings-files-apart = 0": "the kings are on one file",
  "corner-steps = 0": "the defender's king is in the corner",
  "king-rank = 1": "the defender's king is on the edge",
  "checking-distance = 0": "the defender's rook stands next to the attacker's king",
  "attacker-checking-distance = 0": "the attacker's rook stands next to the defender's king",
  "full-point-errors > 0": "a move turned a win into a loss",
  "legal = 1": "one move is legal",
  "keeping = 1": "one move alone keeps the result",
};

/** What it means that a fact is anything but none. */
const ANY: Readonly<Record<string, string>> = {
  error: "the move played is a mistake",
  "bishop-pin": "the bishop is pinned",
  "rook-pin": "the defender's rook is pinned",
  "attacker-rook-pin": "the attacker's rook is pinned",
  "king-cut-off": "the defender's king is cut off",
  "attacker-king-barred": "the defender's rook bars the attacker's king",
  opposition: "the kings are in opposition",
  pinned: "a piece is pinned",
  "rear-pin-line": "the bishop is pinned from behind",
  "free-piece": "a piece can be taken for nothing",
  "loss-threat": "the loss of a piece is threatened",
  "rook-attacks": "the defender's rook attacks a piece",
  "rook-line": "the defender's rook shares a line with its king",
  "foot-side": "the defender's king is in the bishop's wedge",
  "edge-check": "the attacker's rook has a check along the edge",
};
/** What is not so: "the rook is not on the long side" where one thing is said, else "it is not so that …". */
function denied(text: string, isOne: boolean): string {
  const said = isOne ? text.replace(/ (is|are|was|were) (?!not )/, " $1 not ") : text;
  return said === text ? `it is not so that ${text}` : said;
}

/** Pieces by the beginnings of the facts that say where they stand. */
export const STANDING: Readonly<Record<string, string>> = {
  king: "the defender's king",
  rook: "the defender's rook",
  bishop: "the bishop",
  "attacker-king": "the attacker's king",
  "attacker-rook": "the attacker's rook",
};

/** What the two sides have more or less of: a fact's name without the side, and the sentence about the first of the two. */
const COMPARED_SIDES: Readonly<
  Record<string, (who: string, how: "more" | "less" | "same", other: string) => string>
> = {
  errors: (who, how, other) =>
    how === "same"
      ? `the ${who} made as many mistakes as the ${other}`
      : `the ${who} made ${how === "more" ? "more" : "fewer"} mistakes than the ${other}`,
  rating: (who, how, other) =>
    how === "same"
      ? "both sides are rated the same"
      : `the ${who} is rated ${how === "more" ? "higher" : "lower"} than the ${other}`,
  clock: (who, how, other) =>
    how === "same"
      ? "both sides had the same time left when it began"
      : `the ${who} had ${how} time left than the ${other} when it began`,
};

const OF_A_SIDE = /^(attacker|defender|white|black)-(errors|rating|clock)$/;

/** The two sides compared by one fact: "the defender made more mistakes than the attacker". */
function sidesCompared({ fact, operator, other }: Extract<Question, { kind: "facts" }>): string | undefined {
  const [[, who, of] = [], [, rival, same] = []] = [fact, other].map(
    ({ name }) => OF_A_SIDE.exec(name) ?? [],
  );
  const how = ({ ">": "more", "<": "less", "=": "same" } as const)[operator as ">" | "<" | "="];
  if (!who || !rival || of !== same || !how) return undefined;
  const named = (side: string) => side.replace(/^[wb]/, (letter) => letter.toUpperCase());
  return COMPARED_SIDES[of](named(who), how, named(rival)).replace(/\bthe (White|Black)\b/g, "$1");
}

/** Where two pieces stand, compared: "the bishop and the attacker's rook are on one rank". */
function linesCompared({ fact, operator, other }: Extract<Question, { kind: "facts" }>): string | undefined {
  const [, one, line] = /^([a-z-]+)-(rank|file)$/.exec(fact.name) ?? [];
  const [, two, same] = /^([a-z-]+)-(rank|file)$/.exec(other.name) ?? [];
  const [first, second] = [entryOf(STANDING, one ?? ""), entryOf(STANDING, two ?? "")];
  if (!first || !second || line !== same) return undefined;
  const edge = line === "rank" ? "the defender's edge" : "the defender's short side";
  switch (operator) {
    case "=":
      return `${first} and ${second} are on one ${line}`;
    case "!=":
      return `${first} and ${second} are not on one ${line}`;
    case "<":
      return `${first} is nearer to ${edge} than ${second}`;
    case ">":
      return `${first} is farther from ${edge} than ${second}`;
    case "<=":
      return `${first} is no farther from ${edge} than ${second}`;
    case ">=":
      return `${first} is no nearer to ${edge} than ${second}`;
    default:
      return undefined;
  }
}

const QUANTIFIED: Readonly<Record<Quantifier, string>> = {
  somewhere: "at some moment ",
  mostly: "most of the time ",
  throughout: "all the time ",
  never: "it is never so that ",
  entry: "at the beginning ",
  end: "at the end ",
};

const list = (parts: readonly string[], word: "and" | "or"): string =>
  parts.length < 3 ? parts.join(` ${word} `) : `${parts.slice(0, -1).join(", ")} ${word} ${parts.at(-1)}`;

const moves = (n: number) => (n === 1 ? "one move" : `${n} moves`);
/** "who made it is the defender": a mistake and whose turn it is are told as one. */
function together(parts: readonly Question[]): string[] {
  const is = (node: Question, fact: string, value?: string) =>
    node.kind === "compare" &&
    node.fact.name === fact &&
    (value === undefined || valueText(node.fact, node.value) === value);
  const turn = parts.find((node) => is(node, "to-move"));
  const error = parts.find(
    (node) => node.kind === "compare" && node.fact.name === "error" && node.operator === "!=",
  );
  if (turn?.kind !== "compare" || !error) return parts.map((node) => clause(node, true));
  const who = valueText(turn.fact, turn.value);
  const verdict = parts.find((node) => is(node, "verdict"));
  const gaveAway =
    verdict && is(verdict, "verdict", who === "attacker" ? "won" : "drawn")
      ? `the ${who} throws away the ${who === "attacker" ? "win" : "draw"}`
      : undefined;
  const rest = parts.filter((node) => node !== turn && node !== error && (!gaveAway || node !== verdict));
  return [gaveAway ?? `the ${who} makes a mistake`, ...rest.map((node) => clause(node, true))];
}

/** "at least 3 times". */
function times({ operator, value }: Tally): string {
  const said: Readonly<Record<string, string>> = { ...COMPARED, "=": "exactly ", "<": "fewer than " };
  return `${said[operator]}${value === 1 ? "once" : value === 2 ? "twice" : `${value} times`}`;
}

/** "mate is 3 to 9 moves away", "the bishop is on files c to f". */
function rangeInWords({ fact, from, to }: Range): string {
  const said = `${numberText(fact, from)} to ${numberText(fact, to)}`;
  const told = TOLD[fact.name] as string;
  return inNumber(told.replace("the #-file", `files ${said}`).replace("#", said));
}

function clause(node: Question, inside = false): string {
  switch (node.kind) {
    case "compare":
      return factInWords(node);
    case "range":
      if (node.fact.name === "year") return `it was played from ${node.from} to ${node.to}`;
      return rangeInWords(node);
    case "facts":
      return (
        linesCompared(node) ??
        sidesCompared(node) ??
        `${node.fact.name.replaceAll("-", " ")} is ${COMPARED[node.operator] || "the same as "}${node.other.name.replaceAll("-", " ")}`
      );
    case "set-up":
      return `the set-up is ${setUpAfterIs(node.label)}`;
    case "not":
      return denied(
        clause(node.part, true),
        node.part.kind === "compare" || node.part.kind === "range" || node.part.kind === "set-up",
      );
    case "and": {
      const text = list(together(node.parts), "and");
      return inside && node.parts.some(({ kind }) => kind === "or") ? `(${text})` : text;
    }
    case "or": {
      const text = list(
        node.parts.map((part) => clause(part, true)),
        "or",
      );
      return inside ? `(either ${text})` : text;
    }
    case "scoped":
      return `${QUANTIFIED[node.quantifier]}${clause(node.part, true)}`;
    case "run":
      return `${clause(node.part, true)} for ${moves(node.moves)} or more on end`;
    case "tally":
      return node.how === "streak"
        ? `${clause(node.part, true)} ${times(node)} in a row`
        : `${times(node)}${node.how === "stays" ? ", at different times," : ""} ${clause(node.part, true)}`;
    case "change":
      return `a time in which ${clause(node.part, true)} ${node.how === "left" ? "ends" : "begins"}${node.by ? ` by a move with which ${clause(node.by, true)}` : ""}`;
    case "first":
      return `the first time that ${clause(node.part, true)} is within ${moves(node.within)} of ${node.of ? `the moment when ${clause(node.of, true)}` : "the beginning"}`;
    case "sequence":
      return [
        clause(node.first, true),
        ...node.then.map(
          ({ part, within }) =>
            `then${within === null ? "" : ` within ${moves(within)}`} ${clause(part, true)}`,
        ),
      ].join(", ");
    case "like":
      return `the position is like ${node.fen} within ${node.within} steps`;
    case "waiting":
      return "the move played is a waiting move";
  }
}

/** A condition about a position as a clause: "the kings are on one file". */
export const clauseInWords = (question: Question): string => clause(question, true);

/** A question in one sentence, without a full stop: "Endings in which the defender drew and …". */
export function inOneSentence(question: Question, unit: "ending" | "position"): string {
  if (isEverything(question)) return unit === "ending" ? "All endings" : "All positions";
  const scoped = unit === "ending" ? aboutEndings(question) : question;
  const level = levelOf(question);
  // one position is spoken of: "at some moment" goes without saying
  const text = clause(scoped).replace(/^at some moment /, "");
  return `${unit === "ending" ? "Endings" : "Positions"} in which ${level === "position" && unit === "ending" ? "at some moment " : ""}${text}`;
}
