// A question told in one plain English sentence, so that whoever asked can see how it was understood.

import { type Compare, type Question, aboutEndings, levelOf, valueText } from "./ast.js";
import type { Fact, Quantifier } from "./vocabulary.js";

/**
 * Facts in words: `#` stands for the value, or for the comparison with it ("more than 30"). Of flags and of words that want
 * words of their own: each value's. Whoever adds a fact without a line here gets "its name is #".
 */
const TOLD: Readonly<Record<string, string | Readonly<Record<string, string>>>> = {
  white: "White is #",
  black: "Black is #",
  winner: "# won",
  loser: "# lost",
  player: "# plays",
  "white-rating": "White is rated #",
  "black-rating": "Black is rated #",
  event: "the event is #",
  site: "it was played in #",
  year: "it was played in #",
  result: {
    "1-0": "White won",
    "0-1": "Black won",
    "1/2-1/2": "the game was drawn",
    "*": "the game has no result",
  },
  pace: {
    blitz: "it is a blitz game",
    rapid: "it is a rapid game",
    bullet: "it is a bullet game",
    standard: "it was played at a standard time control",
    correspondence: "it is a correspondence game",
  },
  "engine-game": { yes: "a program plays", no: "people play" },
  "game-moves": "the game has # moves",
  "fischer-random": { yes: "it is Fischer random chess", no: "it is not Fischer random chess" },
  duplicate: { yes: "it is a copy of another game", no: "it is no copy of another game" },
  attacker: { white: "White is the attacker", black: "Black is the attacker" },
  "attacker-name": "the attacker is #",
  "defender-name": "the defender is #",
  "attacker-rating": "the attacker is rated #",
  "defender-rating": "the defender is rated #",
  "rating-difference": "the attacker's rating less the defender's is #",
  outcome: { held: "the defender held", lost: "the defender lost", open: "the game has no result" },
  "defender-result": {
    won: "the defender won",
    drew: "the defender drew",
    lost: "the defender lost",
    open: "the game has no result",
  },
  "ended-by": {
    mate: "it ended by mate",
    stalemate: "it ended by stalemate",
    capture: "it ended by a capture",
    agreed: "a draw was agreed",
    "fifty moves": "it ended by the fifty-move rule",
    repetition: "it ended by repetition",
    resignation: "somebody resigned",
    time: "somebody lost on time",
    "cut off": "the score breaks off",
  },
  captured: "it ended by the capture of the #",
  "entry-verdict": {
    won: "it began as a win for the attacker",
    drawn: "it began as a draw",
    lost: "it began as a loss for the attacker",
  },
  "final-verdict": {
    won: "its last position is won for the attacker",
    drawn: "its last position is drawn",
    lost: "its last position is lost for the attacker",
  },
  length: "it lasted # moves",
  positions: "it has # positions",
  "entry-move": "it arose at move #",
  "attacker-errors": "the attacker made # mistakes",
  "defender-errors": "the defender made # mistakes",
  errors: "both sides together made # mistakes",
  "full-point-errors": "# moves turned a win into a loss",
  "attacker-clock": "the attacker had # seconds left when it began",
  "defender-clock": "the defender had # seconds left when it began",
  passing: { yes: "it lasted less than two half-moves", no: "it lasted two half-moves or more" },
  contradicts: {
    yes: "the result contradicts the last position's verdict",
    no: "the result agrees with the last position's verdict",
  },
  verdict: {
    won: "the position is won for the attacker",
    drawn: "the position is drawn",
    lost: "the position is lost for the attacker",
  },
  dtm: "mate is # moves away",
  dtc: "the conversion is # moves away",
  "to-move": { attacker: "the attacker is to move", defender: "the defender is to move" },
  turn: { white: "White is to move", black: "Black is to move" },
  mover: "# is to move",
  "king-rank": "the defender's king is on rank # from its edge",
  "king-file": "the defender's king is on file # from the nearer side",
  "attacker-king-rank": "the attacker's king is on rank # from the defender's edge",
  "rook-rank": "the defender's rook is on rank # from its king's edge",
  "attacker-rook-rank": "the attacker's rook is on rank # from the defender's edge",
  "bishop-rank": "the bishop is on rank # from the defender's edge",
  "king-board-rank": "the defender's king is on the board's rank #",
  "king-board-file": "the defender's king is on the #-file",
  "attacker-king-board-rank": "the attacker's king is on the board's rank #",
  "attacker-king-board-file": "the attacker's king is on the #-file",
  "rook-board-rank": "the defender's rook is on the board's rank #",
  "rook-board-file": "the defender's rook is on the #-file",
  "attacker-rook-board-rank": "the attacker's rook is on the board's rank #",
  "attacker-rook-board-file": "the attacker's rook is on the #-file",
  "bishop-board-rank": "the bishop is on the board's rank #",
  "bishop-board-file": "the bishop is on the #-file",
  "rook-side": {
    short: "the defender's rook is on the short side of its king",
    long: "the defender's rook is on the long side of its king",
    "king's file": "the defender's rook is on its king's file",
  },
  "bishop-side": {
    short: "the bishop is on the short side of the defender's king",
    long: "the bishop is on the long side of the defender's king",
    "king's file": "the bishop is on the defender's king's file",
  },
  "attacker-rook-side": {
    short: "the attacker's rook is on the short side of the defender's king",
    long: "the attacker's rook is on the long side of the defender's king",
    "king's file": "the attacker's rook is on the defender's king's file",
  },
  "rook-place": {
    behind: "the defender's rook is behind the attacker's king",
    beside: "the defender's rook is beside the attacker's king",
    "in front": "the defender's rook is in front of the attacker's king",
  },
  "checking-distance": "the defender's rook checks from # files away",
  opposition: {
    direct: "the kings are in direct opposition",
    diagonal: "the kings are in diagonal opposition",
    distant: "the kings are in distant opposition",
    "knight's move": "the kings are a knight's move apart",
    none: "the kings are in no opposition",
  },
  "kings-files-apart": "the kings are # files apart",
  "kings-apart": "the kings are # steps apart",
  "corner-steps": "the defender's king is # steps from the nearest corner",
  "bishop-colour": {
    "corner's": "the bishop moves on the colour of the nearest corner",
    other: "the bishop does not move on the colour of the nearest corner",
  },
  "wedge-depth": "the defender's king is # files deep in the bishop's wedge",
  "bishop-pin": {
    none: "the bishop is not pinned",
    rank: "the bishop is pinned along a rank",
    file: "the bishop is pinned along a file",
  },
  "rook-pin": {
    none: "the defender's rook is not pinned",
    rank: "the defender's rook is pinned along a rank",
    file: "the defender's rook is pinned along a file",
    diagonal: "the defender's rook is pinned along a diagonal",
  },
  "king-cut-off": {
    none: "the defender's king is not cut off",
    rank: "the defender's king is cut off along a rank",
    file: "the defender's king is cut off along a file",
    both: "the defender's king is cut off along a rank and a file",
  },
  "attacker-king-barred": {
    none: "the attacker's king is not barred",
    rank: "the defender's rook bars the attacker's king along a rank",
    file: "the defender's rook bars the attacker's king along a file",
    both: "the defender's rook bars the attacker's king along a rank and a file",
  },
  "in-check": { yes: "the side to move is in check", no: "the side to move is not in check" },
  "mate-threat": { yes: "mate threatens", no: "no mate threatens" },
  "stalemate-resource": {
    yes: "the defender has a stalemate trick",
    no: "the defender has no stalemate trick",
  },
  capture: { yes: "something can be taken", no: "nothing can be taken" },
  "only-move": { yes: "one move alone keeps the result", no: "more than one move keeps the result" },
  zugzwang: { yes: "the side to move is in zugzwang", no: "the side to move is not in zugzwang" },
  "reciprocal-zugzwang": { yes: "it is a reciprocal zugzwang", no: "it is no reciprocal zugzwang" },
  keeping: "# moves keep the result",
  legal: "# moves are legal",
  "blunder-potential": "the share of moves that give something away is #",
  possible: "# is possible",
  holding: "# keeps the result",
  needed: "only # keeps the result",
  kind: "the move played is #",
  error: {
    none: "the move played gives nothing away",
    half: "the move played gives away half a point",
    full: "the move played gives away a full point",
  },
  "first-mistake": {
    yes: "the move played is the ending's first mistake",
    no: "the move played is not the ending's first mistake",
  },
  "decisive-mistake": {
    yes: "the move played is the mistake that decides the game",
    no: "the move played is not the mistake that decides the game",
  },
  clock: "# seconds are left after the move",
  "beyond-fifty": {
    yes: "the win comes too late for the fifty-move rule",
    no: "the win does not come too late for the fifty-move rule",
  },
  halfmoves: "# half-moves have passed since a capture or pawn move",
  "moves-in": "# moves of the ending have been played",
  ply: "# half-moves of the game have been played",
};

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
    /\b(1) (mistakes|moves|files|steps|seconds|half-moves|positions)\b/g,
    (_, one: string, noun: string) => `${one} ${noun.slice(0, -1)}`,
  );

function valueInWords(fact: Fact, value: Compare["value"]): string {
  const text = valueText(fact, value).replace(/^"|"$/g, "");
  if (fact.type === "kinds") return MEN[text] ?? `the move "${text}"`;
  return text;
}

function factInWords({ fact, operator, value }: Compare): string {
  const told = TOLD[fact.name];
  const text = fact.type === "flag" ? (value === 1 ? "yes" : "no") : valueInWords(fact, value);
  if (fact.name === "rating-difference" && value === 0 && (operator === ">" || operator === "<"))
    return `the ${operator === ">" ? "attacker" : "defender"} is rated higher`;
  if (fact.name === "year") return `it was played ${WHEN[operator]}${text}`;
  if (typeof told === "object") {
    if (operator === "=") return told[text] ?? `${fact.name} is ${text}`;
    if (told.none !== undefined && text === "none") return ANY[fact.name] ?? denied(told.none);
    return `it is not so that ${told[text] ?? `${fact.name} is ${text}`}`;
  }
  // "wedge-depth >= 1" says no more than that the king is in it
  if (fact.name === "wedge-depth" && operator === ">=" && value === 1)
    return "the defender's king is in the bishop's wedge";
  if (fact.name === "corner-steps" && operator === "=" && value === 0)
    return "the defender's king is in the corner";
  if (fact.name === "king-rank" && operator === "=" && value === 1)
    return "the defender's king is on the edge";
  if (fact.name === "full-point-errors" && operator === ">" && value === 0)
    return "a move turned a win into a loss";
  if (/errors$/.test(fact.name) && ((operator === "=" && value === 0) || (operator === ">" && value === 0)))
    return (told ?? "#").replace("# mistakes", value === 0 && operator === "=" ? "no mistake" : "a mistake");
  return inNumber((told ?? `${fact.name} is #`).replace("#", `${COMPARED[operator]}${text}`));
}

/** What it means that a fact is anything but none. */
const ANY: Readonly<Record<string, string>> = {
  error: "the move played is a mistake",
  "bishop-pin": "the bishop is pinned",
  "rook-pin": "the defender's rook is pinned",
  "attacker-rook-pin": "the attacker's rook is pinned",
  "king-cut-off": "the defender's king is cut off",
  "attacker-king-barred": "the defender's rook bars the attacker's king",
  opposition: "the kings are in opposition",
};
const denied = (text: string) => `it is not so that ${text}`;

const QUANTIFIED: Readonly<Record<Quantifier, string>> = {
  somewhere: "at some moment ",
  mostly: "most of the time ",
  throughout: "all the time ",
  never: "never ",
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

function clause(node: Question, inside = false): string {
  switch (node.kind) {
    case "compare":
      return factInWords(node);
    case "range":
      if (node.fact.name === "year") return `it was played from ${node.from} to ${node.to}`;
      return inNumber(
        (typeof TOLD[node.fact.name] === "string"
          ? (TOLD[node.fact.name] as string)
          : `${node.fact.name} is #`
        ).replace("#", `${node.from} to ${node.to}`),
      );
    case "facts":
      return `${node.fact.name.replaceAll("-", " ")} is ${COMPARED[node.operator] || "the same as "}${node.other.name.replaceAll("-", " ")}`;
    case "set-up":
      return `the set-up is ${node.label}`;
    case "not":
      return denied(clause(node.part, true));
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
      return `${clause(node.part, true)} for ${moves(node.moves)} on end`;
    case "change":
      return `${clause(node.part, true)} ${node.how === "left" ? "comes to an end" : "comes about"}${node.by ? ` by a move with which ${clause(node.by, true)}` : ""}`;
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

/** A question in one sentence, without a full stop: "Endings in which the defender drew and …". */
export function inOneSentence(question: Question, unit: "ending" | "position"): string {
  if (question.kind === "and" && question.parts.length === 0)
    return unit === "ending" ? "All endings" : "All positions";
  const scoped = unit === "ending" ? aboutEndings(question) : question;
  const level = levelOf(question);
  // one position is spoken of: "at some moment" goes without saying
  const text = clause(scoped).replace(/^at some moment /, "");
  return `${unit === "ending" ? "Endings" : "Positions"} in which ${level === "position" && unit === "ending" ? "at some moment " : ""}${text}`;
}
