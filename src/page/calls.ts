// Asking the server: one call and its answer or fault, answers as a hook, and the stream of events.

import { useEffect, useRef, useState } from "preact/hooks";

import type { Answer, Made } from "../server/answering-thread.js";
import type { CallName, HereCall, Input, ThreadCall } from "../server/api.js";
import type { Work } from "../server/index-job.js";
import type { ServerEvent } from "../server/events.js";
import type { HereAnswer } from "../server/server.js";

/** What was made lies at an address. */
type Fetched<T> = T extends { made: Made }
  ? Omit<T, "made"> & { readonly made: { readonly address: string; readonly name: string } }
  : T;
export type AnswerTo<Name extends CallName> = Name extends ThreadCall
  ? Fetched<Answer<Name>>
  : Name extends HereCall
    ? HereAnswer<Name>
    : never;

/** What went wrong, in the server's one shape; of a question also where in it. */
export class Fault extends Error {
  readonly code: string;
  readonly hint: string;
  readonly question: string | undefined;
  readonly at: number | undefined;
  readonly length: number | undefined;
  readonly line: number | undefined;

  constructor(told: {
    code: string;
    message: string;
    hint: string;
    question?: string;
    at?: number;
    length?: number;
    line?: number;
  }) {
    super(told.message);
    this.code = told.code;
    // what a hint says of the terminal is found on the page as well
    this.hint = told.hint
      .replace(/see: longside words$/, "see every word that is understood, under Ask")
      .replace(/see: longside \w+ --help$/, "change it and try again")
      .replace(
        "take the number from the first column of `longside find`",
        "go there from an answer under Ask",
      );
    this.question = told.question;
    this.at = told.at;
    this.length = told.length;
    this.line = told.line;
  }
}

async function answerOf(response: Response): Promise<unknown> {
  const told = (await response.json().catch(() => {
    throw unreachable();
  })) as { error?: ConstructorParameters<typeof Fault>[0] };
  if (told.error) throw new Fault(told.error);
  return told;
}

const unreachable = () =>
  new Fault({
    code: "no-server",
    message: "the server does not answer",
    hint: "start longside serve again, then reload this page",
  });

/** A name for this page, by which it is told how far its own calls have come. */
const PAGE = Math.random().toString(36).slice(2);

/** Calls the server. Throws `Fault`; an abort is thrown as it is. */
export async function call<Name extends CallName>(
  name: Name,
  input: Input<Name>,
  signal?: AbortSignal,
): Promise<AnswerTo<Name>> {
  let response: Response;
  try {
    response = await fetch(`/api/${name}`, {
      method: "POST",
      headers: { "content-type": "application/json", "x-page": PAGE },
      body: JSON.stringify(input),
      signal,
    });
  } catch (thrown) {
    if (signal?.aborted) throw thrown;
    throw unreachable();
  }
  return (await answerOf(response)) as AnswerTo<Name>;
}

/** Hands a file over; gives the path it lies at. */
export async function upload(file: File): Promise<string> {
  const response = await fetch(`/upload?name=${encodeURIComponent(file.name)}`, {
    method: "POST",
    headers: { "content-type": "application/octet-stream" },
    body: file,
  }).catch(() => {
    throw unreachable();
  });
  return ((await answerOf(response)) as { path: string }).path;
}

export interface Asking<T> {
  readonly answer: T | undefined;
  readonly fault: Fault | undefined;
}

const NOTHING = { answer: undefined, fault: undefined };

/**
 * The answer to a call, asked anew when the input changes; undefined asks nothing. The answer before stays until the next
 * one comes, so that nothing flickers.
 */
export function useAnswer<Name extends CallName>(
  name: Name,
  input: Input<Name> | undefined,
  again: unknown = 0,
): Asking<AnswerTo<Name>> {
  const [state, set] = useState<Asking<AnswerTo<Name>>>(NOTHING);
  const key = input === undefined ? undefined : JSON.stringify(input);
  useEffect(() => {
    if (input === undefined) {
      set(NOTHING);
      return;
    }
    const leaving = new AbortController();
    call(name, input, leaving.signal).then(
      (answer) => set({ answer, fault: undefined }),
      (thrown: unknown) => {
        if (leaving.signal.aborted) return;
        if (!(thrown instanceof Fault)) throw thrown;
        set({ answer: undefined, fault: thrown });
      },
    );
    return () => leaving.abort();
  }, [name, key, again]);
  return state;
}

/** Work that a button begins: at most one at a time, its fault kept to be shown. */
export function useTask(): {
  readonly busy: boolean;
  readonly fault: Fault | undefined;
  /** The signal says that it shall stop. */
  readonly run: (work: (stopped: AbortSignal) => Promise<void>) => void;
  readonly stop: () => void;
} {
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState<Fault>();
  const running = useRef<AbortController | undefined>(undefined);
  return {
    busy,
    fault,
    run: (work) => {
      if (running.current) return;
      const stopping = (running.current = new AbortController());
      setBusy(true);
      setFault(undefined);
      work(stopping.signal)
        .catch((thrown: unknown) => {
          if (stopping.signal.aborted) return;
          if (!(thrown instanceof Fault)) throw thrown;
          setFault(thrown);
        })
        .finally(() => {
          running.current = undefined;
          setBusy(false);
        });
    },
    stop: () => running.current?.abort(),
  };
}

/**
 * What is going on: index runs, and how far the call in hand has come. `turns` grows with every run that ends, and when
 * the server is back: then everything shown is asked anew.
 */
export interface Going {
  readonly work: Work | undefined;
  readonly said: string;
  readonly turns: number;
  /** Whether the server cannot be reached. */
  readonly lost: boolean;
}

/** The stream of events; one for the whole page. */
export function useNews(): Going {
  const [going, set] = useState<Going>({ work: undefined, said: "", turns: 0, lost: false });
  useEffect(() => {
    let source: EventSource | undefined;
    let lost = false;
    const listen = () => {
      source = new EventSource(`/events?page=${PAGE}`);
      source.onmessage = ({ data }: MessageEvent<string>) => {
        const events = JSON.parse(data) as ServerEvent;
        set((before) => {
          if (!("work" in events)) return { ...before, said: events.said };
          const ended = before.work !== undefined && before.work.what !== null && events.work.what === null;
          return { ...before, work: events.work, turns: before.turns + (ended ? 1 : 0) };
        });
      };
      source.onerror = () => {
        lost = true;
        set((before) => ({ ...before, lost }));
      };
      source.onopen = () => {
        // what was asked in vain is asked again
        if (lost) set((before) => ({ ...before, lost: false, turns: before.turns + 1 }));
        lost = false;
      };
    };
    // a browser has few connections to one server: tabs that nobody sees give theirs back
    const turn = () => {
      source?.close();
      source = undefined;
      if (document.visibilityState === "visible") listen();
    };
    turn();
    document.addEventListener("visibilitychange", turn);
    return () => {
      document.removeEventListener("visibilitychange", turn);
      source?.close();
    };
  }, []);
  return going;
}
