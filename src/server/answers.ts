// What the calls of the table answer, and what the stream of events tells: the types that the page knows the server by.
// They come from what answers the calls, so that the table of calls (api.ts) stays below it and imports none of it.

import type { LongsideError } from "../errors.js";
import type { QueryError } from "../query/language/query-error.js";
import type { Answer, Made } from "./answering-thread.js";
import type { CallName, HereCall, ThreadCall } from "./api.js";
import type { HereAnswer } from "./server.js";

export type { CallName, Input } from "./api.js";
export type { ServerEvent } from "./events.js";
export type { Work } from "./index-job.js";

/** What was made is fetched from an address of its own. */
type Fetched<T> = T extends { made: Made }
  ? Omit<T, "made"> & { readonly made: { readonly address: string; readonly name: string } }
  : T;

/** What a call answers, as it comes over the wire. */
export type AnswerTo<Name extends CallName> = Name extends ThreadCall
  ? Fetched<Answer<Name>>
  : Name extends HereCall
    ? HereAnswer<Name>
    : never;

/** The one shape of an error; of a question also where in it. */
export type ErrorAnswer = ReturnType<LongsideError["toJSON"]>["error"] &
  Partial<Pick<QueryError, "question" | "at" | "length">>;
