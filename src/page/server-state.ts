// What the server tells of itself by its stream of events: index runs, how far a call has come, and that it is gone.

import type { ServerEvent, Work } from "../server/answers.js";
import { PAGE, whenUnreachable } from "./calls.js";
import { sharedValue } from "./shared-value.js";

export interface ServerState {
  /** The index run or table build, or the last one. */
  readonly work: Work | undefined;
  /** How far the call in hand has come, in words. */
  readonly progress: string;
  /** Grows with every run that ends, and when the server is back: then everything shown is asked again. */
  readonly refresh: number;
  /** Whether the server cannot be reached. */
  readonly lost: boolean;
}

const state = sharedValue<ServerState>({ work: undefined, progress: "", refresh: 0, lost: false });

/** A part of the server's state, for a component, which is drawn again when that part changes: most events are no news
 * to most components. */
export const useServerState = state.usePart;

/** Whether an index run or a table build is under way. */
export const isWorking = ({ work }: ServerState): boolean => (work?.what ?? null) !== null;

/** Has everything that is shown asked again. */
export const askAgain = (): void => state.set({ ...state.get(), refresh: state.get().refresh + 1 });

function happened(event: ServerEvent): void {
  const before = state.get();
  if (!("work" in event)) return state.set({ ...before, progress: event.said });
  const ended = isWorking(before) && event.work.what === null;
  state.set({ ...before, work: event.work, refresh: before.refresh + (ended ? 1 : 0) });
}

function listen(): EventSource {
  const source = new EventSource(`/events?page=${PAGE}`);
  source.onmessage = ({ data }: MessageEvent<string>) => happened(JSON.parse(data) as ServerEvent);
  source.onerror = () => state.set({ ...state.get(), lost: true });
  source.onopen = () => {
    const before = state.get();
    // what was asked in vain is asked again
    if (before.lost) state.set({ ...before, lost: false, refresh: before.refresh + 1 });
  };
  return source;
}

/** Listens to the server for as long as the page is there; begun once. */
export function listenToServer(): void {
  let source: EventSource | undefined;
  // a browser has few connections to one server: tabs that nobody sees give theirs back
  const turn = () => {
    source?.close();
    source = document.visibilityState === "visible" ? listen() : undefined;
  };
  turn();
  // a call may notice that the server is gone before the stream does; the stream then says when it is back
  whenUnreachable(() => {
    if (state.get().lost) return;
    state.set({ ...state.get(), lost: true });
    turn();
  });
  document.addEventListener("visibilitychange", turn);
}
