// Asking the server: one call and its answer or error, and files handed over.

import type { AnswerTo, CallName, ErrorAnswer, Input } from "../server/answers.js";
import { type CallError, answeredError, noServer } from "./call-error.js";

export type { AnswerTo, Input };

/** A verdict for the attacker. */
export type Verdict = AnswerTo<"position">["verdict"];

/** A name for this page, by which it is told how far its own calls have come. */
export const PAGE = Math.random().toString(36).slice(2);

let toldUnreachable = () => {};
/** Has somebody told whenever a call does not reach the server. */
export const whenUnreachable = (tell: () => void): void => void (toldUnreachable = tell);
let toldGames: (games: string) => void = () => {};
/** Has somebody told to which games an answer belongs: another database may have come to lie where the last one lay. */
export const whenGames = (tell: (games: string) => void): void => void (toldGames = tell);

function unreachable(): CallError {
  toldUnreachable();
  return noServer();
}

async function request(path: string, init: RequestInit): Promise<unknown> {
  const response = await fetch(path, { method: "POST", ...init }).catch((thrown: unknown) => {
    throw init.signal?.aborted ? thrown : unreachable();
  });
  const answer = (await response.json().catch((thrown: unknown) => {
    throw init.signal?.aborted ? thrown : unreachable();
  })) as { error?: ErrorAnswer; games?: unknown };
  if (answer.error?.code === "server-ends") throw unreachable();
  if (answer.error) throw answeredError(answer.error);
  if (typeof answer.games === "string") toldGames(answer.games);
  return answer;
}

/** What was asked before anything was drawn, by the call and its input; taken once. */
const early = new Map<string, Promise<unknown>>();

/** Asks for what the page will call for as soon as it is drawn, so that the answer is on its way while it is. */
export function callEarly<Name extends CallName>(name: Name, input: Input<Name>): void {
  const asked = call(name, input);
  // it will be told where it is taken
  asked.catch(() => {});
  early.set(`${name} ${JSON.stringify(input)}`, asked);
}

/** Calls the server. Throws `CallError`; an abort is thrown as it is. */
export async function call<Name extends CallName>(
  name: Name,
  input: Input<Name>,
  signal?: AbortSignal,
): Promise<AnswerTo<Name>> {
  const key = `${name} ${JSON.stringify(input)}`;
  const asked = early.get(key) as Promise<AnswerTo<Name>> | undefined;
  if (asked) {
    early.delete(key);
    return asked;
  }
  const headers = { "content-type": "application/json", "x-page": PAGE };
  return (await request(`/api/${name}`, {
    headers,
    body: JSON.stringify(input),
    signal,
  })) as AnswerTo<Name>;
}

/** Hands a file over; gives its path on the server. Throws `CallError`. */
export async function upload(file: File): Promise<string> {
  const headers = { "content-type": "application/octet-stream" };
  const answer = await request(`/upload?name=${encodeURIComponent(file.name)}`, { headers, body: file });
  return (answer as { path: string }).path;
}
