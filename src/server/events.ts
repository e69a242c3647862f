// What every open page is told as it happens: server-sent events.

import type { ServerResponse } from "node:http";

import { plainValues } from "../plain-text.js";
import { HEADERS } from "./guard.js";
import type { Work } from "./index-job.js";

/** Milliseconds between two comments that keep the connection open. */
const HEARTBEAT = 20_000;
/** Pages that can listen, and of one address. */
const MOST_LISTENERS = 128;
export const MOST_OF_ONE = 32;
/** Bytes that may wait to be sent to a page; one that does not read is let go, and comes back if it is there. */
const MOST_UNREAD = 1 << 20;

/** What happened: an index run or table build, or how far a call of one page has come. */
export type ServerEvent = { readonly work: Work } | { readonly said: string };

/** What pages on other machines are told of the work: that it goes on, and not on which files. */
const forOthers = (event: ServerEvent): ServerEvent =>
  "work" in event
    ? {
        work: {
          ...event.work,
          paths: [],
          progress: event.work.progress && { ...event.work.progress, file: "" },
          last: null,
          error: null,
        },
      }
    : event;

/** A page that listens: whether it is open on this machine, and the name it gave itself. */
interface Listener {
  readonly here: boolean;
  readonly page: string | undefined;
  readonly address: string;
}

/** Pages that listen for events. */
export class Listeners {
  private readonly open = new Map<ServerResponse, Listener>();
  private readonly heartbeat = setInterval(() => {
    for (const one of this.open.keys()) this.write(one, ": \n\n");
  }, HEARTBEAT).unref();

  private write(one: ServerResponse, text: string): void {
    if (one.writableLength > MOST_UNREAD) one.destroy();
    else one.write(text);
  }

  tell(event: ServerEvent): void {
    const [own, others] = [event, forOthers(event)].map(
      (one) => `data: ${JSON.stringify(one, plainValues)}\n\n`,
    );
    for (const [one, { here }] of this.open) this.write(one, here ? own : others);
  }

  /** Tells the page of that name, and nobody else, how far its call has come. */
  say(said: string, page: string | undefined): void {
    if (page === undefined) return;
    for (const [one, listener] of this.open)
      if (listener.page === page)
        this.write(one, `data: ${JSON.stringify({ said } satisfies ServerEvent, plainValues)}\n\n`);
  }

  /** Adds a page; false where there are too many. */
  add(response: ServerResponse, first: ServerEvent, listener: Listener): boolean {
    const own = [...this.open.values()].filter(({ address }) => address === listener.address);
    if (this.open.size >= MOST_LISTENERS || own.length >= MOST_OF_ONE) return false;
    response.writeHead(200, { ...HEADERS, "content-type": "text/event-stream" });
    response.write(
      `retry: 2000\ndata: ${JSON.stringify(listener.here ? first : forOthers(first), plainValues)}\n\n`,
    );
    this.open.set(response, listener);
    response.on("close", () => this.open.delete(response));
    // a page that left while something was being written to it
    response.on("error", () => this.open.delete(response));
    return true;
  }

  close(): void {
    clearInterval(this.heartbeat);
    const ending = [...this.open.keys()];
    this.open.clear();
    for (const one of ending) one.end();
  }
}
