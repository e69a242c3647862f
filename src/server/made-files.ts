// Files that calls have made: the newest are held in memory, each at an address of its own that runs nothing.

import { randomUUID } from "node:crypto";

import type { FastifyReply, FastifyRequest } from "fastify";

import { LongsideError } from "../errors.js";
import type { Made } from "./answering-thread.js";
import { MADE_POLICY } from "./guard.js";

/** Files held at most. */
const MOST = 30;

export class MadeFiles {
  private readonly files = new Map<string, Made>();

  /** Holds a file; the oldest are dropped. */
  add(made: Made): { readonly address: string; readonly name: string } {
    const id = randomUUID();
    this.files.set(id, made);
    for (const old of this.files.keys()) {
      if (this.files.size <= MOST) break;
      this.files.delete(old);
    }
    return { address: `/made/${id}`, name: made.name };
  }

  /** Sends the file of an address, to be shown or, with `?save`, to be saved. Throws `no-such-call`. */
  send(request: FastifyRequest, reply: FastifyReply): FastifyReply {
    const { id } = request.params as { id: string };
    const made = this.files.get(id);
    if (!made) throw new LongsideError("no-such-call", { path: `/made/${id}` });
    const { save } = request.query as { save?: unknown };
    const isText = made.type.startsWith("text/") || made.type.endsWith("pgn");
    return reply
      .header("content-security-policy", MADE_POLICY)
      .header(
        "content-disposition",
        `${save === undefined ? "inline" : "attachment"}; filename="${made.name}"`,
      )
      .type(isText ? `${made.type}; charset=utf-8` : made.type)
      .send(made.type === "image/png" ? Buffer.from(made.content, "base64") : made.content);
  }
}
