// A set of exercises out of the whole table, made before it is asked for, since that takes its time: it goes on while one
// looks at other places, and is there at once when one comes back.

import { useEffect, useRef, useState } from "preact/hooks";

import { type AnswerTo, type Input, call } from "./calls.js";

type Wanted = Input<"exercises">;
type Made = AnswerTo<"exercises">;

/** How long the wishes rest before a set is begun, in milliseconds. */
const REST = 800;

/** The set that is made ahead, by the wishes it is made for. */
let ahead:
  { readonly key: string; readonly made: Promise<Made>; readonly leaving: AbortController } | undefined;

function begin(key: string, wanted: Wanted) {
  const leaving = new AbortController();
  const one = { key, leaving, made: call("exercises", wanted, leaving.signal) };
  one.made.catch(() => {
    // it is made again when it is asked for, and what is wrong is told then
    if (ahead === one) ahead = undefined;
  });
  return one;
}

export interface MadeAhead {
  /** How far the set is that these wishes lead to; undefined where none is made ahead. */
  readonly state: "being made" | "ready" | undefined;
  /** The set: the one made ahead, or a new one. */
  readonly take: (stopped: AbortSignal) => Promise<Made>;
}

/** Has the set that is wished for made ahead where it comes from the table. */
export function useMadeAhead(wanted: Wanted): MadeAhead {
  const key = JSON.stringify(wanted);
  const [stateOf, setState] = useState<{ key: string; state: MadeAhead["state"] }>();
  /** Wishes whose set has been asked for: it needs no making ahead any more. */
  const taken = useRef<string>(undefined);
  useEffect(() => {
    if (wanted.among !== "table") return;
    const timer = setTimeout(() => {
      if (taken.current === key) return;
      if (ahead?.key !== key) {
        ahead?.leaving.abort();
        ahead = begin(key, wanted);
      }
      setState({ key, state: "being made" });
      ahead.made.then(
        () => setState({ key, state: "ready" }),
        () => setState(undefined),
      );
    }, REST);
    return () => clearTimeout(timer);
  }, [key]);
  return {
    state: stateOf?.key === key ? stateOf.state : undefined,
    take: (stopped) => {
      const one = ahead?.key === key ? ahead : begin(key, wanted);
      if (ahead === one) ahead = undefined;
      taken.current = key;
      setState(undefined);
      stopped.addEventListener("abort", () => one.leaving.abort());
      return one.made;
    },
  };
}
