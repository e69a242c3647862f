// The answers to a question that have been asked for so far. They are kept beyond the place that shows them, so that who
// comes back from an ending finds the list as long as it was.

import { useEffect, useRef, useState } from "preact/hooks";

import { wholeAddress } from "./address.js";
import { type CallError, callErrorOf } from "./call-error.js";
import { type AnswerTo, type Input, call, callEarly } from "./calls.js";
import { useServerState } from "./server-state.js";

export type First = AnswerTo<"ask">;
export type Row = First["rows"][number];
export type Each = Input<"ask">["each"];
export type Sort = NonNullable<Input<"ask">["sort"]>;

/** Rows that are asked for at a time, and at most at once. */
const SIZE = 24;
const MOST = 60;
/** Lists that are kept. */
const MOST_LISTS = 12;

/** What of a question stands in the address beside its words. */
export interface Way {
  readonly each: Each;
  readonly sort: Sort | undefined;
  /** Which meaning of the words, from 1. */
  readonly reading: number;
}

interface List {
  readonly rows: readonly Row[];
  readonly first: First;
  /** The number of the server's state that it is an answer in. */
  readonly refresh: number;
}

export interface Answers {
  readonly rows: readonly Row[];
  /** The first answer, with what is said of all; undefined until the question that is shown has one. */
  readonly first: First | undefined;
  readonly error: CallError | undefined;
  readonly busy: boolean;
  readonly isMore: boolean;
  /** Asks for more rows, unless some are on their way. */
  readonly more: () => void;
}

const lists = new Map<string, List>();

function keepList(key: string, list: List): void {
  lists.delete(key);
  lists.set(key, list);
  if (lists.size > MOST_LISTS) lists.delete(lists.keys().next().value!);
}

/** The list looked at last, for the way from one answer to the next. */
let latest: { readonly key: string; readonly address: string } | undefined;

/** Where an ending stands in the list looked at last, with its neighbours; undefined where it is not in it. */
export function placeInList(id: number, ply: number | undefined) {
  const list = latest && lists.get(latest.key);
  if (!latest || !list) return undefined;
  const { rows, first } = list;
  const exact = rows.findIndex((row) => row.id === id && row.ply === ply);
  const n = exact >= 0 ? exact : rows.findIndex((row) => row.id === id);
  if (n < 0) return undefined;
  const row = (at: number) => rows[at] as Row | undefined;
  return { number: n + 1, of: first.answers, before: row(n - 1), next: row(n + 1), address: latest.address };
}

/** Rows with more asked for behind them until there are so many, or no more to be had. */
export async function upTo(
  rows: readonly Row[],
  wanted: number,
  part: (from: number, size: number) => Promise<First>,
): Promise<Row[]> {
  const found = [...rows];
  while (found.length < wanted) {
    const next = await part(found.length, Math.min(MOST, wanted - found.length));
    if (next.rows.length === 0) break;
    found.push(...next.rows);
  }
  return found;
}

/** Asks for the first answers of an address ahead of everything that is drawn. */
export const askEarly = (question: string, way: Way): void =>
  callEarly("ask", { question, ...way, from: 0, size: SIZE });

export function useAnswers(question: string, way: Way): Answers {
  const { each, sort, reading } = way;
  const refresh = useServerState((server) => server.refresh);
  const key = JSON.stringify([question, each, sort, reading]);
  const [failed, setFailed] = useState<{ key: string; error: CallError }>();
  const [busy, setBusy] = useState(false);
  const [, redraw] = useState(0);
  const run = useRef(new AbortController());
  const list = lists.get(key);
  const part = (from: number, size: number, { signal }: AbortController) =>
    call("ask", { question, each, sort, reading, from, size }, signal);
  /** All that is shown, asked again: the list keeps its length. */
  const askAll = async (wanted: number, leaving: AbortController) => {
    const first = await part(0, Math.min(MOST, Math.max(SIZE, wanted)), leaving);
    const rows = await upTo(first.rows, wanted, (from, size) => part(from, size, leaving));
    keepList(key, { rows, first, refresh });
  };
  const work = async (leaving: AbortController, what: () => Promise<void>) => {
    setBusy(true);
    try {
      await what();
      if (leaving.signal.aborted) return;
      setFailed(undefined);
    } catch (thrown) {
      if (leaving.signal.aborted) return;
      const error = callErrorOf(thrown);
      // what was there before a server went away is still there
      if (error.code !== "no-server") lists.delete(key);
      setFailed({ key, error });
    }
    setBusy(false);
    redraw((n) => n + 1);
  };
  useEffect(() => {
    const leaving = (run.current = new AbortController());
    latest = { key, address: wholeAddress() };
    setBusy(false);
    if (list?.refresh !== refresh) void work(leaving, () => askAll(list?.rows.length ?? 0, leaving));
    return () => leaving.abort();
  }, [key, refresh]);
  const all = list ? Math.min(list.first.answers, list.first.limit ?? Infinity) : 0;
  const rows = list?.rows ?? [];
  const more = () => {
    if (busy || !list) return;
    const leaving = run.current;
    void work(leaving, async () => {
      const { rows: next } = await part(rows.length, SIZE, leaving);
      keepList(key, { ...list, rows: [...rows, ...next] });
    });
  };
  const error = failed?.key === key ? failed.error : undefined;
  return {
    rows,
    first: list?.first,
    error,
    busy: busy || (!list && !error),
    isMore: rows.length < all,
    more,
  };
}
