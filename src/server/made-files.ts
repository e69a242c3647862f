// Files that calls have made: the newest are kept in a folder of their own, each at an address that runs nothing.

import { randomUUID } from "node:crypto";
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import type { FastifyReply, FastifyRequest } from "fastify";

import { LongsideError, causeOf } from "../errors.js";
import type { Made } from "./answering-thread.js";
import { MADE_POLICY } from "./guard.js";
import { isAlive } from "../processes.js";

/** Types whose content comes as base64. */
const BINARY: readonly string[] = ["image/png", "application/pdf"];
/** Files kept at most, and their bytes in all. */
const MOST = 200;
const MOST_BYTES = 256 * 2 ** 20;

const PREFIX = "longside-made-";

interface Kept {
  readonly name: string;
  readonly type: string;
  readonly bytes: number;
}

export class MadeFiles {
  private readonly files = new Map<string, Kept>();
  private folder: string | undefined;
  private bytes = 0;

  constructor(
    private readonly most = MOST,
    private readonly mostBytes = MOST_BYTES,
    private readonly parent = tmpdir(),
  ) {}

  /** The folder, for this process alone to read; those of servers that were killed are removed when it is made. */
  private place(): string {
    if (this.folder !== undefined) return this.folder;
    for (const name of readdirSync(this.parent)) {
      const owner = name.startsWith(PREFIX) ? Number(name.slice(PREFIX.length).split("-")[0]) : 0;
      if (owner > 0 && !isAlive(owner)) rmSync(join(this.parent, name), { recursive: true, force: true });
    }
    return (this.folder = mkdtempSync(join(this.parent, `${PREFIX}${process.pid}-`)));
  }

  /** Keeps a file; the oldest are removed where there are too many. Throws `cannot-write`. */
  add({ name, type, content }: Made): { readonly address: string; readonly name: string } {
    const bytes = Buffer.from(content, BINARY.includes(type) ? "base64" : "utf8");
    if (bytes.length > this.mostBytes)
      throw new LongsideError("bad-input", { cause: `what was made has more than ${this.mostBytes} bytes` });
    const id = randomUUID();
    try {
      writeFileSync(join(this.place(), id), bytes, { mode: 0o600 });
    } catch (thrown) {
      throw new LongsideError("cannot-write", { path: this.folder ?? this.parent, cause: causeOf(thrown) });
    }
    this.files.set(id, { name, type, bytes: bytes.length });
    this.bytes += bytes.length;
    for (const [old, kept] of this.files) {
      if (this.files.size <= this.most && this.bytes <= this.mostBytes) break;
      this.files.delete(old);
      this.bytes -= kept.bytes;
      rmSync(join(this.place(), old), { force: true });
    }
    return { address: `/made/${id}`, name };
  }

  /** Sends the file of an address, to be shown or, with `?save`, to be saved. Throws `no-such-call`. */
  send(request: FastifyRequest, reply: FastifyReply): FastifyReply {
    const { id } = request.params as { id: string };
    const kept = this.files.get(id);
    if (!kept) throw new LongsideError("no-such-call", { path: `/made/${id}` });
    let bytes: Buffer;
    try {
      bytes = readFileSync(join(this.place(), id));
    } catch {
      // somebody has cleaned the folder of temporary files
      throw new LongsideError("no-such-call", { path: `/made/${id}` });
    }
    const { save } = request.query as { save?: unknown };
    const isText = kept.type.startsWith("text/") || kept.type.endsWith("pgn");
    return reply
      .header("content-security-policy", MADE_POLICY)
      .header("x-frame-options", "SAMEORIGIN")
      .header(
        "content-disposition",
        `${save === undefined ? "inline" : "attachment"}; filename="${kept.name}"`,
      )
      .type(isText ? `${kept.type}; charset=utf-8` : kept.type)
      .send(bytes);
  }

  /** Removes all of them. */
  close(): void {
    if (this.folder !== undefined) rmSync(this.folder, { recursive: true, force: true });
    this.folder = undefined;
    this.files.clear();
  }
}
