// What went wrong with a call, in the server's one shape. What to do about it is said in words of the page, by the
// error's code and values: the server's own hints are written for the terminal as well.

import type { ErrorAnswer } from "../server/answers.js";

type ErrorCode = ErrorAnswer["code"];
type Values = ErrorAnswer["values"];

/** What to do on the page, where the server's hint speaks of the terminal or of files. */
const HINTS: Readonly<Partial<Record<ErrorCode, string>>> = {
  "no-such-path": "check the spelling",
  "no-database": "read some games first, under Games",
  "database-damaged": "have it checked and mended where longside was started",
  "older-database": "have it brought up to date where longside was started",
  "not-a-database": "start longside again with another database",
  "other-target": "start longside again with another database",
  "tables-missing": "look at the position on the board, where they can be built",
  "table-damaged": "remove that file, then build the tables again on the board",
  "large-window": "unpack it first, then read the unpacked file",
  "bad-set-up": "correct that file, then reload the page",
  "bad-outline": "put it right, or draft the lesson anew",
  "bad-block": "put it right, or take this part out",
  "no-browser": "save it as a page, open that, and print it from there",
  "no-such-ending": "go there from an answer under Ask",
  "bad-option": "change it and try again",
  "time-limit": "ask for something narrower",
  "server-ends": "start longside again, then reload this page",
  "bad-input": "reload the page and try again",
  unexpected: "try again; if it happens again, report it with what you did",
};
/** The hint of a question's error that names the list of words. */
const LIST_OF_WORDS = "see: longside words";

function hintFor({ code, values, hint }: ErrorAnswer): string {
  if (code === "question-fault" && values.hint === LIST_OF_WORDS)
    return "see every word that is understood, under Ask";
  return HINTS[code] ?? hint;
}

/** An option and the file of an outline are named for the terminal, and what is wrong with it for everybody. */
const messageFor = ({ code, values, message }: ErrorAnswer): string =>
  code === "bad-option" || code === "bad-outline" ? String(values.cause) : message;

/** Where in a question, or on which line of an outline (from 1), something is wrong. */
type Place = Pick<ErrorAnswer, "question" | "at" | "length" | "line">;

export class CallError extends Error {
  constructor(
    readonly code: ErrorCode | "no-server",
    message: string,
    readonly hint: string,
    readonly values: Values = {},
    readonly place: Place = {},
  ) {
    super(message);
  }
}

/** The error that the server answered with, in words of the page. */
export const answeredError = (answer: ErrorAnswer): CallError =>
  new CallError(answer.code, messageFor(answer), hintFor(answer), answer.values, answer);

/** That the server cannot be reached. */
export const noServer = (): CallError =>
  new CallError("no-server", "the server does not answer", "start longside again, then reload this page");

/** What a call threw, to be shown; anything else that was thrown is a mistake of the page and is thrown on. */
export function callErrorOf(thrown: unknown): CallError {
  if (thrown instanceof CallError) return thrown;
  throw thrown;
}
