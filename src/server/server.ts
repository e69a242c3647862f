// The local server: one page, one way to ask, one stream of events, uploads, files that were made. All input goes through
// the table of calls; every error has one shape.

import { networkInterfaces } from "node:os";
import { Readable } from "node:stream";
import { constants } from "node:zlib";

import compress, { type FastifyCompressOptions } from "@fastify/compress";
import fastify, { type FastifyInstance, type FastifyReply, type FastifyRequest } from "fastify";

import type { Settings } from "../app/workspace.js";
import { LongsideError, causeOf } from "../errors.js";
import { addArrivalTimeout, addGuard, askedBy, hostOnly } from "./access.js";
import { CALLS, type CallName, type HereCall, type ThreadCall } from "./api.js";
import { type HereCalls, hereCalls } from "./calls/here.js";
import { answerBadRequest, sendError, sendErrorText, statusOf } from "./error-replies.js";
import { type ConnectionLimits, httpOptions, limitConnections } from "./connections.js";
import { Listeners } from "./events.js";
import { Folders } from "./folders.js";
import { Guard, HEADERS, isLoopback, newToken } from "./guard.js";
import { Indexing } from "./index-job.js";
import { MadeFiles } from "./made-files.js";
import { addPage } from "./page-files.js";
import { Uploads, uploadsFolder } from "./uploads.js";
import { WorkerQueues } from "./worker-queue.js";

export interface ServerOptions {
  readonly host: string;
  /** 0 for any that is free. */
  readonly port: number;
  /** Asked of everybody; where it is left out, one is made for a host beyond the loopback, and none is asked on it. */
  readonly token?: string;
  /** Folders whose games may be read by way of the page. */
  readonly games: readonly string[];
  /** Limit of a question, in seconds. */
  readonly seconds?: number;
  readonly settings: Settings;
  /** Of connections; those of the program where they are left out. */
  readonly limits?: ConnectionLimits;
}

/** Bytes of a call's input. */
const MOST_INPUT = 1 << 20;
/** What is sent is compressed, quickly: the page, and answers from some kilobytes on. What is uploaded is taken as it is. */
const COMPRESSION = {
  encodings: ["br", "gzip"],
  threshold: 2048,
  brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: 5 } },
  globalDecompression: false,
} satisfies FastifyCompressOptions;

class Server {
  readonly app: FastifyInstance;
  private readonly guard: Guard;
  private readonly events = new Listeners();
  private readonly made = new MadeFiles();
  private readonly uploads: Uploads;
  private readonly indexing: Indexing;
  private readonly here: HereCalls;
  private queues: WorkerQueues | undefined;

  constructor(private readonly options: ServerOptions) {
    const { host, settings } = options;
    this.guard = new Guard(host, options.token ?? (isLoopback(host) ? undefined : newToken()));
    this.uploads = new Uploads(uploadsFolder(settings.db));
    const folders = new Folders(options.games);
    this.indexing = new Indexing(settings, [...folders.allowed, this.uploads.folder], (work) =>
      this.events.tell({ work }),
    );
    this.here = hereCalls(settings, folders, this.indexing, this.uploads);
    this.app = fastify({
      bodyLimit: MOST_INPUT,
      requestTimeout: 0,
      connectionTimeout: 0,
      http: httpOptions(options.limits),
      forceCloseConnections: true,
      routerOptions: { maxParamLength: 200 },
      frameworkErrors: (thrown, _request, reply) => void sendError(reply, thrown, settings.db),
      clientErrorHandler: (_thrown, socket) => answerBadRequest(socket),
      // what does not fit is refused, not bent
      ajv: { customOptions: { removeAdditional: false, coerceTypes: false, allErrors: false } },
    });
    limitConnections(this.app, options.limits);
    addGuard(this.app, this.guard);
    addArrivalTimeout(this.app);
    void this.app.register(compress, COMPRESSION);
    // it compresses the answers of routes that come after it
    this.app.after(() => {
      this.addErrors(addPage(this.app, settings.db));
      this.addRoutes();
    });
  }

  get token(): string | undefined {
    return this.guard.token;
  }

  private addErrors(sendPage: (reply: FastifyReply) => FastifyReply): void {
    const { db } = this.options.settings;
    this.app.setErrorHandler((thrown, request, reply) =>
      // somebody who follows a link reads words, not JSON
      askedBy(request).opens && thrown instanceof LongsideError
        ? sendErrorText(reply, thrown)
        : sendError(reply, thrown, db),
    );
    this.app.setNotFoundHandler((request, reply) =>
      // the page itself tells a reader that the address is wrong
      request.method === "GET" && request.headers.accept?.includes("text/html")
        ? sendPage(reply.code(404))
        : sendError(reply, new LongsideError("no-such-call", { path: request.url.slice(0, 200) }), db),
    );
  }

  private addRoutes(): void {
    const { app } = this;
    for (const call of Object.keys(CALLS) as CallName[])
      app.post(`/api/${call}`, { schema: { body: CALLS[call].takes } }, (request, reply) =>
        this.call(call, request, reply),
      );
    app.get("/events", (request, reply) => this.listen(request, reply));
    app.get("/made/:id", (request, reply) => this.made.send(request, reply));
    app.removeContentTypeParser("text/plain");
    // an upload is passed on as it arrives, so that nothing of it is held; a page that may not send one is refused before
    app.addContentTypeParser("application/octet-stream", (_request, payload, done) => done(null, payload));
    app.post("/upload", { onRequest: async (request) => hostOnly(this.guard, request) }, (request, reply) =>
      this.upload(request, reply),
    );
  }

  private async call(name: CallName, request: FastifyRequest, reply: FastifyReply): Promise<FastifyReply> {
    const { queue, ...rest } = CALLS[name];
    if ("host" in rest) hostOnly(this.guard, request);
    void reply.type("application/json; charset=utf-8");
    if (queue === "here") {
      const answer = this.here[name as HereCall] as (input: unknown) => object;
      return reply.send(JSON.stringify(answer(request.body)));
    }
    const leaving = new AbortController();
    reply.raw.on("close", () => {
      if (!reply.raw.writableEnded) leaving.abort();
    });
    const page = request.headers["x-page"];
    const onProgress = (said: string) => this.events.say(said, typeof page === "string" ? page : undefined);
    onProgress("");
    const answered = await this.begin().answer(
      name as ThreadCall,
      request.body,
      leaving.signal,
      onProgress,
      request.ip,
    );
    if ("error" in answered)
      return reply.code(statusOf(answered.error.code)).send(JSON.stringify({ error: answered.error }));
    if (!answered.made) return reply.send(answered.json);
    const body = JSON.parse(answered.json) as object;
    return reply.send(JSON.stringify({ ...body, made: this.made.add(answered.made) }));
  }

  /** Tells a page what happens, until it leaves. */
  private listen(request: FastifyRequest, reply: FastifyReply): void {
    reply.hijack();
    const { page } = request.query as { page?: unknown };
    const listener = {
      here: this.guard.isHere(askedBy(request)),
      page: typeof page === "string" ? page : undefined,
      address: request.ip,
    };
    if (!this.events.add(reply.raw, { work: this.indexing.work }, listener))
      reply.raw.writeHead(503, HEADERS).end();
    request.raw.socket.setTimeout(0);
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
    return (this.queues ??= new WorkerQueues(this.options.settings, this.options.seconds));
  }

  async close(): Promise<void> {
    this.events.close();
    this.made.close();
    await Promise.all([this.app.close(), this.indexing.close(), this.queues?.close()]);
  }
}

/** What the answer of a call holds that the server answers itself. */
export type HereAnswer<Name extends HereCall> = ReturnType<HereCalls[Name]>;

export interface RunningServer {
  /** Where the page is for the user at this machine, with the token if one is wanted. */
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
