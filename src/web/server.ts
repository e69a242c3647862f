// The local server: one page, one way to ask, one stream of news, files handed over, things made. All input goes through
// the table of calls; every error has one shape.

import { createHash, randomUUID } from "node:crypto";
import {
  createReadStream,
  createWriteStream,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
} from "node:fs";
import type { IncomingMessage, ServerResponse } from "node:http";
import { networkInterfaces } from "node:os";
import { basename, join } from "node:path";
import { Transform } from "node:stream";
import { pipeline } from "node:stream/promises";

import fastify, { type FastifyInstance, type FastifyReply, type FastifyRequest } from "fastify";

import { type ErrorCode, LongsideError, causeOf } from "../errors.js";
import { isGames } from "../pgn/read.js";
import { pageFolder, version } from "../places.js";
import { CALLS, type CallName, type Input, type ThreadCall } from "./api.js";
import type { Made } from "./answer.js";
import type { Means } from "./bench.js";
import { Folders } from "./folders.js";
import { Guard, HEADERS, MADE_POLICY, isLoopback, newToken } from "./guard.js";
import { Indexing, type Work } from "./indexing.js";
import { Lanes } from "./lanes.js";

export interface ServerOptions {
  readonly host: string;
  /** 0 for any that is free. */
  readonly port: number;
  /** Wanted of everybody; where it is left out, one is made for a host beyond the loopback, and none is wanted there. */
  readonly token?: string;
  /** Folders whose games may be read by way of the page. */
  readonly games: readonly string[];
  /** Limit of a question, in seconds. */
  readonly seconds?: number;
  readonly means: Means;
}

/** Things made that are kept to be fetched, the newest. */
const KEPT = 30;
/** Bytes of a call's input, and of a file that is handed over. */
const BODY = 1 << 20;
const UPLOAD = 8 * 2 ** 30;
/** Between two signs of life of the stream of news, in milliseconds. */
const PULSE = 20_000;
const NEWS = 64;

/** Files of the page by the address they are fetched from. */
const FILES: Readonly<Record<string, string>> = {
  "/page.js": "text/javascript; charset=utf-8",
  "/page.css": "text/css; charset=utf-8",
  "/mark.svg": "image/svg+xml",
};
/** Addresses at which the page shows something: all the same document. */
export const PLACES = ["/", "/ask", "/ending/:id", "/board", "/play", "/practise", "/tray", "/games"];

const STATUS: Readonly<Partial<Record<ErrorCode, number>>> = {
  "not-allowed": 403,
  "no-such-call": 404,
  "no-such-ending": 404,
  "no-such-path": 404,
  "no-database": 404,
  "already-indexing": 409,
  "database-busy": 409,
  "time-limit": 503,
  "too-busy": 503,
  unexpected: 500,
  "database-failed": 500,
};
const statusOf = (code: ErrorCode): number => STATUS[code] ?? 400;

/** What happened that every page is told. */
type News = { readonly work: Work } | { readonly call: string; readonly said: string };

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
class Listeners {
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
    if (this.open.size >= NEWS) return false;
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

/** A name for a file that was handed over: no path, nothing a system might stumble over. */
export function uploadName(text: string): string {
  const name = basename(text.replaceAll("\\", "/"))
    .normalize("NFC")
    .replace(/[\u0000-\u001f\u007f<>:"/\\|?*]/g, "_")
    .replace(/^\.+/, "")
    .slice(-120);
  if (!isGames(name))
    throw new LongsideError("bad-input", {
      cause: `${JSON.stringify(text.slice(0, 100))} is no name of a file of games`,
    });
  return name;
}

/** The digest of a file's bytes. */
async function digestOf(path: string): Promise<string> {
  const hash = createHash("sha256");
  await pipeline(createReadStream(path), hash);
  return hash.digest("hex");
}

class Server {
  readonly app: FastifyInstance;
  private readonly guard: Guard;
  private lanes: Lanes | undefined;
  private readonly folders: Folders;
  private readonly indexing: Indexing;
  private readonly news = new Listeners();
  private readonly made = new Map<string, Made>();
  private readonly uploads: string;

  constructor(private readonly options: ServerOptions) {
    const { host, means, games } = options;
    const token = options.token ?? (isLoopback(host) ? undefined : newToken());
    this.guard = new Guard(host, token);
    this.uploads = `${means.db}.uploads`;
    this.folders = new Folders(games);
    this.indexing = new Indexing(means, (work) => this.news.tell({ work }));
    this.app = fastify({
      bodyLimit: BODY,
      requestTimeout: 0,
      connectionTimeout: 0,
      forceCloseConnections: true,
      routerOptions: { maxParamLength: 200 },
      // what does not fit is refused, not bent
      ajv: { customOptions: { removeAdditional: false, coerceTypes: false, allErrors: false } },
    });
    this.routes();
  }

  get token(): string | undefined {
    return this.guard.token;
  }

  private refuse(reply: FastifyReply, thrown: unknown): FastifyReply {
    const {
      code,
      statusCode = 500,
      message,
    } = thrown as { code?: string; statusCode?: number; message: string };
    const error =
      thrown instanceof LongsideError
        ? thrown
        : statusCode < 500
          ? new LongsideError("bad-input", { cause: message })
          : new LongsideError("unexpected", { cause: causeOf(thrown) });
    const ours = thrown instanceof LongsideError || code === undefined;
    void reply.code(ours && thrown instanceof LongsideError ? statusOf(error.code) : statusCode);
    return reply.type("application/json; charset=utf-8").send(JSON.stringify(error.toJSON()));
  }

  private readonly asked = (request: FastifyRequest) => ({
    host: request.headers.host,
    origin: request.headers.origin,
    site: request.headers["sec-fetch-site"] as string | undefined,
    cookie: request.headers.cookie,
    from: request.socket.remoteAddress,
  });

  /** Throws `not-allowed` for who does not sit at this machine. */
  private hostOnly(request: FastifyRequest): void {
    if (!this.guard.isHere(this.asked(request)))
      throw new LongsideError("not-allowed", {
        cause: "games are read by the one at whose machine this is",
        hint: "ask them to do it",
      });
  }

  private routes(): void {
    const { app } = this;
    app.addHook("onRequest", async (request, reply) => {
      for (const [name, value] of Object.entries(HEADERS)) void reply.header(name, value);
      // the address that carries the token leaves it in a cookie, and goes on without it
      const { token } = request.query as { token?: unknown };
      if (typeof token === "string" && request.method === "GET" && this.guard.token !== undefined) {
        if (this.guard.fits(token)) {
          const [path, query = ""] = request.url.split("?");
          const rest = query.split("&").filter((part) => part !== "" && !part.startsWith("token="));
          void reply.header("set-cookie", this.guard.cookie());
          return reply.redirect(rest.length > 0 ? `${path}?${rest.join("&")}` : path);
        }
      }
      this.guard.check(this.asked(request));
    });
    app.setErrorHandler((thrown, _request, reply) => this.refuse(reply, thrown));
    const folder = pageFolder();
    const files = new Map(
      ["/page.html", ...Object.keys(FILES)].map((path) => [path, readFileSync(join(folder, path))]),
    );
    // who comes by a wrong address sees the page say so
    app.setNotFoundHandler((request, reply) =>
      request.method === "GET" && request.headers.accept?.includes("text/html")
        ? reply.code(404).type("text/html; charset=utf-8").send(files.get("/page.html"))
        : this.refuse(reply, new LongsideError("no-such-call", { path: request.url.slice(0, 200) })),
    );
    for (const place of PLACES)
      app.get(place, (_request, reply) =>
        reply.type("text/html; charset=utf-8").send(files.get("/page.html")),
      );
    for (const [path, type] of Object.entries(FILES))
      app.get(path, (_request, reply) => reply.type(type).send(files.get(path)));
    for (const call of Object.keys(CALLS) as CallName[])
      app.post(`/api/${call}`, { schema: { body: CALLS[call].takes } }, (request, reply) =>
        this.call(call, request, reply),
      );
    app.get("/news", (request, reply) => {
      reply.hijack();
      const here = this.guard.isHere(this.asked(request));
      if (!this.news.add(reply.raw, { work: this.indexing.work }, here))
        reply.raw.writeHead(503, HEADERS).end();
      request.raw.socket.setTimeout(0);
    });
    app.get("/made/:id", (request, reply) => this.sendMade(request, reply));
    app.removeContentTypeParser("text/plain");
    app.addContentTypeParser("application/octet-stream", { bodyLimit: UPLOAD }, (_request, payload, done) =>
      done(null, payload),
    );
    app.post("/upload", { bodyLimit: UPLOAD }, (request, reply) => this.upload(request, reply));
  }

  private async call(name: CallName, request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
    const { lane, ...rest } = CALLS[name];
    if ("host" in rest) this.hostOnly(request);
    void reply.type("application/json; charset=utf-8");
    if (lane === "here") return reply.send(JSON.stringify(this.here(name, request.body)));
    const leaving = new AbortController();
    const leave = () => {
      if (!reply.raw.writableEnded) leaving.abort();
    };
    reply.raw.on("close", leave);
    const answered = await this.begin().answer(name as ThreadCall, request.body, leaving.signal, (said) =>
      this.news.tell({ call: name, said }),
    );
    if ("error" in answered)
      return reply.code(statusOf(answered.error.code)).send(JSON.stringify({ error: answered.error }));
    if (!answered.made) return reply.send(answered.json);
    const body = JSON.parse(answered.json) as object;
    return reply.send(JSON.stringify({ ...body, made: this.keep(answered.made) }));
  }

  /** Calls that the server answers itself. */
  private here(name: CallName, body: unknown): object {
    switch (name) {
      case "folders":
        return this.folders.list((body as Input<"folders">).path);
      case "index":
        this.indexing.index((body as Input<"index">).paths.map((path) => this.readable(path)));
        return {};
      case "stop":
        this.indexing.stop();
        return {};
      case "tables":
        this.indexing.tables((body as Input<"tables">).material);
        return {};
      default:
        return {
          version: version(),
          db: this.options.means.db,
          folders: this.folders.allowed,
          work: this.indexing.work,
        };
    }
  }

  /** A path that may be read: below the folders allowed, or handed over by way of the page. */
  private readable(path: string): string {
    const own = join(this.uploads, basename(path));
    return path === own && existsSync(own) ? own : this.folders.confined(path);
  }

  /** Keeps something made under an address. */
  private keep(made: Made): { readonly address: string; readonly name: string } {
    const id = randomUUID();
    this.made.set(id, made);
    for (const old of this.made.keys()) {
      if (this.made.size <= KEPT) break;
      this.made.delete(old);
    }
    return { address: `/made/${id}`, name: made.name };
  }

  private sendMade(request: FastifyRequest, reply: FastifyReply): FastifyReply {
    const { id } = request.params as { id: string };
    const made = this.made.get(id);
    if (!made) throw new LongsideError("no-such-call", { path: `/made/${id}` });
    const { save } = request.query as { save?: unknown };
    const text = made.type.startsWith("text/") || made.type.endsWith("pgn");
    return reply
      .header("content-security-policy", MADE_POLICY)
      .header(
        "content-disposition",
        `${save === undefined ? "inline" : "attachment"}; filename="${made.name}"`,
      )
      .type(text ? `${made.type}; charset=utf-8` : made.type)
      .send(made.type === "image/png" ? Buffer.from(made.content, "base64") : made.content);
  }

  /** Takes a file that was chosen on the page, beside the database; the same bytes under the same name are one file. */
  private async upload(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
    this.hostOnly(request);
    const { name: given } = request.query as { name?: unknown };
    if (
      typeof given !== "string" ||
      typeof (request.body as IncomingMessage | undefined)?.pipe !== "function"
    )
      throw new LongsideError("bad-input", {
        cause: "a file needs a name, and its bytes as application/octet-stream",
      });
    const name = uploadName(given);
    mkdirSync(this.uploads, { recursive: true });
    const coming = join(this.uploads, `.${randomUUID()}`);
    const hash = createHash("sha256");
    let size = 0;
    const counted = new Transform({
      transform(bytes: Buffer, _encoding, done) {
        hash.update(bytes);
        size += bytes.length;
        if (size > UPLOAD)
          done(new LongsideError("bad-input", { cause: `the file has more than ${UPLOAD} bytes` }));
        else done(null, bytes);
      },
    });
    try {
      await pipeline(request.body as IncomingMessage, counted, createWriteStream(coming));
      const path = await this.placeFor(name, size, hash.digest("hex"));
      renameSync(coming, path);
      return await reply.send(JSON.stringify({ path, size }));
    } catch (thrown) {
      rmSync(coming, { force: true });
      throw thrown instanceof LongsideError
        ? thrown
        : new LongsideError("cannot-write", { path: this.uploads, cause: causeOf(thrown) });
    }
  }

  /** Where a file goes: another one of the same name is kept beside it. */
  private async placeFor(name: string, size: number, digest: string): Promise<string> {
    const end = /(?:\.pgn)?\.[^.]+$/i.exec(name)?.[0] ?? "";
    const stem = name.slice(0, name.length - end.length);
    for (let n = 1; ; ++n) {
      const path = join(this.uploads, n === 1 ? name : `${stem} ${n}${end}`);
      const there = statSync(path, { throwIfNoEntry: false });
      if (!there || (there.size === size && (await digestOf(path)) === digest)) return path;
    }
  }

  /** The threads; they begin when the server listens, since beginning them takes longer than that. */
  begin(): Lanes {
    return (this.lanes ??= new Lanes(this.options.means, this.options.seconds));
  }

  async close(): Promise<void> {
    this.news.close();
    await this.app.close();
    await this.indexing.close();
    await this.lanes?.close();
  }
}

export interface RunningServer {
  /** Where the page is for who sits at this machine, the token in it if one is wanted. */
  readonly address: string;
  /** Where others find it; none where it listens on the loopback. */
  readonly others: readonly string[];
  readonly token: string | undefined;
  close(): Promise<void>;
}

/** Addresses of this machine in its networks, IPv4 first. */
const ownAddresses = (): string[] =>
  Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .filter(({ internal, scopeid }) => !internal && !scopeid)
    .sort((a, b) => (a.family < b.family ? -1 : a.family > b.family ? 1 : 0))
    .map(({ address }) => address);

/** Starts the server. Throws `no-such-path` for a folder of games that is not there, and `bad-address`. */
export async function serve(options: ServerOptions): Promise<RunningServer> {
  const server = new Server(options);
  const { host, port } = options;
  try {
    await server.app.listen({ host, port });
  } catch (thrown) {
    await server.close();
    throw new LongsideError("bad-address", { host, port, cause: causeOf(thrown) });
  }
  server.begin();
  const address = server.app.server.address();
  const bound = typeof address === "object" && address ? address.port : port;
  const query = server.token === undefined ? "" : `?token=${encodeURIComponent(server.token)}`;
  const addressOf = (name: string) => `http://${name.includes(":") ? `[${name}]` : name}:${bound}/${query}`;
  const everywhere = host === "0.0.0.0" || host === "::";
  return {
    address: addressOf(everywhere ? "localhost" : host),
    others: everywhere ? ownAddresses().map(addressOf) : [],
    token: server.token,
    close: () => server.close(),
  };
}
