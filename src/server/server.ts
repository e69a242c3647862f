// The local server: one page, one way to ask, one stream of events, files handed over, things made. All input goes through
// the table of calls; every error has one shape.

import { createHash, randomUUID } from "node:crypto";
import { readFileSync } from "node:fs";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { Readable } from "node:stream";

import fastify, { type FastifyInstance, type FastifyReply, type FastifyRequest } from "fastify";

import { type ErrorCode, LongsideError, causeOf, errorOf } from "../errors.js";
import { pageFolder, version } from "../places.js";
import { CALLS, type CallName, type HereCall, type Input, type ThreadCall } from "./api.js";
import type { Made } from "./answering-thread.js";
import type { Means } from "../app/workspace.js";
import { Folders } from "./folders.js";
import { Guard, HEADERS, MADE_POLICY, isLoopback, newToken } from "./guard.js";
import { Indexing } from "./index-job.js";
import { WorkerQueues } from "./worker-queue.js";
import { Listeners } from "./events.js";
import { Uploads } from "./uploads.js";

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
/** Bytes of a call's input, and milliseconds in which it must have come. */
const BODY = 1 << 20;
const BREATH = 20_000;

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
  "server-ends": 503,
  unexpected: 500,
  "database-failed": 500,
};
const statusOf = (code: ErrorCode): number => STATUS[code] ?? 400;

class Server {
  readonly app: FastifyInstance;
  private readonly guard: Guard;
  private queues: WorkerQueues | undefined;
  private readonly folders: Folders;
  private readonly indexing: Indexing;
  private readonly events = new Listeners();
  private readonly made = new Map<string, Made>();
  private readonly uploads: Uploads;

  constructor(private readonly options: ServerOptions) {
    const { host, means, games } = options;
    const token = options.token ?? (isLoopback(host) ? undefined : newToken());
    this.guard = new Guard(host, token);
    this.uploads = new Uploads(`${means.db}.uploads`);
    this.folders = new Folders(games);
    this.indexing = new Indexing(means, [...this.folders.allowed, this.uploads.folder], (work) =>
      this.events.tell({ work }),
    );
    this.app = fastify({
      bodyLimit: BODY,
      requestTimeout: 0,
      connectionTimeout: 0,
      forceCloseConnections: true,
      routerOptions: { maxParamLength: 200 },
      frameworkErrors: (thrown, _request, reply) => void this.refuse(reply, thrown),
      clientErrorHandler: (_thrown, socket) => {
        const { error } = new LongsideError("bad-input", { cause: "it is no request" }).toJSON();
        const body = JSON.stringify({ error });
        const head = `HTTP/1.1 400 Bad Request\r\nconnection: close\r\ncontent-type: application/json\r\ncontent-length: ${Buffer.byteLength(body)}`;
        if (socket.writable) socket.end(`${head}\r\n\r\n${body}`);
        else socket.destroy();
      },
      // what does not fit is refused, not bent
      ajv: { customOptions: { removeAdditional: false, coerceTypes: false, allErrors: false } },
    });
    this.routes();
  }

  get token(): string | undefined {
    return this.guard.token;
  }

  private refuse(reply: FastifyReply, thrown: unknown): FastifyReply {
    const { statusCode = 500, message } = thrown as { statusCode?: number; message: string };
    // what the framework refuses has a status of its own
    const foreign = !(thrown instanceof LongsideError) && statusCode < 500;
    const error = foreign
      ? new LongsideError("bad-input", { cause: message })
      : errorOf(thrown, this.options.means.db);
    return reply
      .code(foreign ? statusCode : statusOf(error.code))
      .headers(HEADERS)
      .type("application/json; charset=utf-8")
      .send(JSON.stringify(error.toJSON()));
  }

  private readonly asked = (request: FastifyRequest) => ({
    host: request.headers.host,
    origin: request.headers.origin,
    site: request.headers["sec-fetch-site"] as string | undefined,
    cookie: request.headers.cookie,
    opens:
      request.method === "GET" &&
      request.headers["sec-fetch-mode"] === "navigate" &&
      request.headers["sec-fetch-dest"] === "document",
    from: request.socket.remoteAddress,
    to: request.socket.localAddress,
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
    // a call comes in one breath; only a file may take its time
    const slow = new WeakMap<FastifyRequest, NodeJS.Timeout>();
    app.addHook("onRequest", async (request) => {
      if (request.url.startsWith("/api/"))
        slow.set(
          request,
          setTimeout(() => request.raw.destroy(), BREATH),
        );
    });
    const come = async (request: FastifyRequest) => clearTimeout(slow.get(request));
    app.addHook("preValidation", come);
    app.addHook("onResponse", come);
    app.addHook("onRequestAbort", come);
    app.setErrorHandler((thrown, request, reply) => {
      // who follows a link reads words, not JSON
      if (this.asked(request).opens && thrown instanceof LongsideError)
        return reply
          .code(statusOf(thrown.code))
          .type("text/plain; charset=utf-8")
          .send(`longside: ${thrown.message}\n${thrown.hint}\n`);
      return this.refuse(reply, thrown);
    });
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
    // what a browser keeps belongs to the games it was taken from
    const games = createHash("sha256").update(this.options.means.db).digest("hex").slice(0, 12);
    files.set(
      "/page.html",
      Buffer.from(
        files
          .get("/page.html")!
          .toString()
          .replace('<html lang="en"', `<html lang="en" data-games="${games}"`),
      ),
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
    app.get("/events", (request, reply) => {
      reply.hijack();
      const { page } = request.query as { page?: unknown };
      const listener = {
        here: this.guard.isHere(this.asked(request)),
        page: typeof page === "string" ? page : undefined,
      };
      if (!this.events.add(reply.raw, { work: this.indexing.work }, listener))
        reply.raw.writeHead(503, HEADERS).end();
      request.raw.socket.setTimeout(0);
    });
    app.get("/made/:id", (request, reply) => this.sendMade(request, reply));
    app.removeContentTypeParser("text/plain");
    // a file is handed on as it comes, so that nothing of it is held; whoever may not send one is told before
    app.addContentTypeParser("application/octet-stream", (_request, payload, done) => done(null, payload));
    app.post("/upload", { onRequest: async (request) => this.hostOnly(request) }, (request, reply) =>
      this.upload(request, reply),
    );
  }

  private async call(name: CallName, request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
    const { queue, ...rest } = CALLS[name];
    if ("host" in rest) this.hostOnly(request);
    void reply.type("application/json; charset=utf-8");
    if (queue === "here") {
      const answer = this.here[name as HereCall] as (input: unknown) => object;
      return reply.send(JSON.stringify(answer(request.body)));
    }
    const leaving = new AbortController();
    const leave = () => {
      if (!reply.raw.writableEnded) leaving.abort();
    };
    reply.raw.on("close", leave);
    const page = request.headers["x-page"];
    const report = (said: string) => this.events.say(said, typeof page === "string" ? page : undefined);
    report("");
    const answered = await this.begin().answer(name as ThreadCall, request.body, leaving.signal, report);
    if ("error" in answered)
      return reply.code(statusOf(answered.error.code)).send(JSON.stringify({ error: answered.error }));
    if (!answered.made) return reply.send(answered.json);
    const body = JSON.parse(answered.json) as object;
    return reply.send(JSON.stringify({ ...body, made: this.keep(answered.made) }));
  }

  /** What the server answers itself. */
  readonly here = {
    state: () => ({
      version: version(),
      db: this.options.means.db,
      folders: this.folders.allowed,
      work: this.indexing.work,
    }),
    folders: ({ path }: Input<"folders">) => this.folders.list(path),
    index: ({ paths }: Input<"index">) => {
      this.indexing.index(paths.map((path) => this.readable(path)));
      return {};
    },
    stop: () => {
      this.indexing.stop();
      return {};
    },
    tables: ({ material }: Input<"tables">) => {
      this.indexing.tables(material);
      return {};
    },
  } satisfies { [Name in HereCall]: (input: Input<Name>) => object };

  /** A path that may be read: below the folders allowed, or handed over by way of the page. */
  private readable(path: string): string {
    return this.uploads.holds(path) ? path : this.folders.confined(path);
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

  private async upload(request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
    const { name } = request.query as { name?: unknown };
    if (typeof name !== "string" || !(request.body instanceof Readable))
      throw new LongsideError("bad-input", {
        cause: "a file needs a name, and its bytes as application/octet-stream",
      });
    return reply.send(JSON.stringify(await this.uploads.take(name, request.body)));
  }

  /** The threads; they begin when the server listens, since beginning them takes longer than that. */
  begin(): WorkerQueues {
    return (this.queues ??= new WorkerQueues(this.options.means, this.options.seconds));
  }

  async close(): Promise<void> {
    this.events.close();
    await Promise.all([this.app.close(), this.indexing.close(), this.queues?.close()]);
  }
}

/** What such a call's answer holds. */
export type HereAnswer<Name extends HereCall> = ReturnType<Server["here"][Name]>;

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
