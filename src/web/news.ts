// What every open page is told as it happens: server-sent events.

import type { ServerResponse } from "node:http";

import { HEADERS } from "./guard.js";
import type { Work } from "./indexing.js";

/** Between two signs of life, in milliseconds. */
const PULSE = 20_000;
/** Pages that can listen. */
const MOST = 64;

/** What happened: an index run or table build, or how far a call has come. */
export type News = { readonly work: Work } | { readonly call: string; readonly said: string };

/** What others in the room are told of the work: that it goes on, and not on which files. */
const forOthers = (news: News): News =>
  "work" in news
    ? {
        work: {
          ...news.work,
          paths: [],
          progress: news.work.progress && { ...news.work.progress, file: "" },
          last: null,
          error: null,
        },
      }
    : news;

/** Pages that listen for news, and whether each is of the one at this machine. */
export class Listeners {
  private readonly open = new Map<ServerResponse, boolean>();
  private readonly pulse = setInterval(() => {
    for (const one of this.open.keys()) one.write(": \n\n");
  }, PULSE).unref();

  tell(news: News): void {
    const [own, others] = [news, forOthers(news)].map((one) => `data: ${JSON.stringify(one)}\n\n`);
    for (const [one, here] of this.open) one.write(here ? own : others);
  }

  /** Adds a page; false where there are too many. */
  add(response: ServerResponse, first: News, here: boolean): boolean {
    if (this.open.size >= MOST) return false;
    response.writeHead(200, { ...HEADERS, "content-type": "text/event-stream" });
    response.write(`retry: 2000\ndata: ${JSON.stringify(here ? first : forOthers(first))}\n\n`);
    this.open.set(response, here);
    response.on("close", () => this.open.delete(response));
    return true;
  }

  close(): void {
    clearInterval(this.pulse);
    for (const one of this.open.keys()) one.end();
  }
}
