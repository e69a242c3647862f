// An answering thread: takes one call after another, and returns the JSON that is to be sent.

import type { MessagePort } from "node:worker_threads";

import { type LongsideError, errorOf } from "../errors.js";
import { plainValues } from "../plain-text.js";
import type { Input, ThreadCall } from "./api.js";
import { type OnProgress, type Settings, Workspace } from "../app/workspace.js";
import * as asking from "./calls/ask.js";
import * as looking from "./calls/look.js";
import * as playing from "./calls/play.js";

type Answerers = {
  readonly [Name in ThreadCall]: (
    workspace: Workspace,
    input: Input<Name>,
    onProgress: OnProgress,
  ) => unknown;
};

/** What answers calls of which a page waits for some before it shows anything. */
const AT_ONCE = { ...asking, ...looking, ...playing };
/** What answers the others: loading it takes most of a second, which the first question is not to wait for. */
const loadOthers = async () => ({
  ...(await import("./calls/make.js")),
  ...(await import("./calls/theory.js")),
});
type All = typeof AT_ONCE & Awaited<ReturnType<typeof loadOthers>>;

/** What answers each of the calls that are asked for. */
const answerersFor = async (call: ThreadCall): Promise<Partial<Answerers>> =>
  call in AT_ONCE ? AT_ONCE : await loadOthers();

/** What a call's answer holds. */
export type Answer<Name extends ThreadCall> = Awaited<ReturnType<All[Name]>>;

/** A file that was made, to be fetched from an address of its own; binary content as base64. */
export interface Made {
  readonly name: string;
  readonly type: string;
  readonly content: string;
}

export interface AnswerTask {
  readonly call: ThreadCall;
  readonly input: unknown;
  /** Receives in words how far the work has come. */
  readonly port?: MessagePort;
}

/** JSON to be sent, or the error that takes its place; a file that was made comes beside it. */
export type Answered =
  | { readonly json: string; readonly made?: Made }
  | { readonly error: ReturnType<LongsideError["toJSON"]>["error"] };

/**
 * What SQLite says to a reader in the moment in which a writer opens or closes the database; a moment later all is well.
 * (https://www.sqlite.org/rescode.html: BUSY, LOCKED, PROTOCOL, CANTOPEN, READONLY_RECOVERY, READONLY_CANTINIT.)
 */
const TRANSIENT = /^SQLITE_(?:BUSY|LOCKED|PROTOCOL|CANTOPEN|READONLY|SCHEMA)/;
const isTransient = (thrown: unknown) => TRANSIENT.test(String((thrown as { code?: unknown } | null)?.code));
/** Times that a call is tried again then, and milliseconds between them. */
const TRIES = 20;
const PAUSE = 50;

/** Answers calls in a workspace of its own, which begins with the first of them. */
export function answerer(settings: Settings): (task: AnswerTask) => Promise<Answered> {
  let workspace: Workspace | undefined;
  const answer = async ({ call, input, port }: AnswerTask): Promise<Answered> => {
    workspace ??= new Workspace(settings);
    const answerTo = (await answerersFor(call))[call] as (
      workspace: Workspace,
      input: unknown,
      onProgress: OnProgress,
    ) => unknown;
    const { made, ...rest } = (await answerTo(workspace, input, (said) => port?.postMessage(said))) as {
      made?: Made;
    };
    return { json: JSON.stringify(rest, plainValues), made };
  };
  return async (task) => {
    try {
      for (let left = TRIES; ; --left) {
        try {
          return await answer(task);
        } catch (thrown) {
          if (left === 0 || !isTransient(thrown)) throw thrown;
          workspace?.closeDb();
          await new Promise((resolve) => setTimeout(resolve, PAUSE));
        }
      }
    } catch (thrown) {
      return { error: errorOf(thrown, settings.db).toJSON().error };
    } finally {
      task.port?.close();
    }
  };
}
