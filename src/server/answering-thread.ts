// An answering thread: takes one call after another, and gives what is to be sent as it goes over the wire.

import type { MessagePort } from "node:worker_threads";

import { type LongsideError, errorOf } from "../errors.js";
import type { Input, ThreadCall } from "./api.js";
import { Workspace, type Means } from "../app/workspace.js";
import * as asking from "./calls/ask.js";
import * as looking from "./calls/look.js";
import * as making from "./calls/make.js";
import * as playing from "./calls/play.js";

/** What answers each call. */
const ANSWERS = { ...asking, ...looking, ...making, ...playing } satisfies {
  [Name in ThreadCall]: (workspace: Workspace, input: Input<Name>, report: making.Report) => unknown;
};

/** What a call's answer holds. */
export type Answer<Name extends ThreadCall> = Awaited<ReturnType<(typeof ANSWERS)[Name]>>;

/** Something that was made, to be fetched from an address of its own; binary content as base64. */
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

/** JSON to be sent, or the error that takes its place; what was made comes beside it. */
export type Answered =
  | { readonly json: string; readonly made?: Made }
  | { readonly error: ReturnType<LongsideError["toJSON"]>["error"] };

/**
 * What SQLite says to a reader who comes in the moment in which a writer opens or closes the database: it passes.
 * (https://www.sqlite.org/rescode.html: BUSY, LOCKED, PROTOCOL, CANTOPEN, READONLY_RECOVERY, READONLY_CANTINIT.)
 */
const PASSING = /^SQLITE_(?:BUSY|LOCKED|PROTOCOL|CANTOPEN|READONLY|SCHEMA)/;
const isPassing = (thrown: unknown) => PASSING.test(String((thrown as { code?: unknown } | null)?.code));
/** Times that a call is tried again then, and milliseconds between them. */
const TRIES = 20;
const PAUSE = 50;

/** Answers calls with the means given. */
export function answerer(means: Means): (task: AnswerTask) => Promise<Answered> {
  let workspace: Workspace | undefined;
  const answer = async ({ call, input, port }: AnswerTask): Promise<Answered> => {
    workspace ??= new Workspace(means);
    const answerTo = ANSWERS[call] as (
      workspace: Workspace,
      input: unknown,
      report: making.Report,
    ) => unknown;
    const { made, ...rest } = (await answerTo(workspace, input, (said) => port?.postMessage(said))) as {
      made?: Made;
    };
    return { json: JSON.stringify(rest), made };
  };
  return async (task) => {
    try {
      for (let left = TRIES; ; --left) {
        try {
          return await answer(task);
        } catch (thrown) {
          if (left === 0 || !isPassing(thrown)) throw thrown;
          workspace?.letGo();
          await new Promise((resolve) => setTimeout(resolve, PAUSE));
        }
      }
    } catch (thrown) {
      return { error: errorOf(thrown, means.db).toJSON().error };
    } finally {
      task.port?.close();
    }
  };
}
