// The checks that every request passes before anything is done for it: the guard, the token in the address, the time in
// which a call must have arrived.

import type { FastifyInstance, FastifyRequest } from "fastify";

import { LongsideError } from "../errors.js";
import { type Asked, type Guard, HEADERS } from "./guard.js";

/** Milliseconds in which a call's input must have arrived. */
const ARRIVAL_TIMEOUT = 20_000;

/** What the guard looks at in a request. */
export const askedBy = (request: FastifyRequest): Asked => ({
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

/** Throws `not-allowed` for everybody who does not sit at this machine. */
export function hostOnly(guard: Guard, request: FastifyRequest): void {
  if (!guard.isHere(askedBy(request)))
    throw new LongsideError("not-allowed", {
      cause: "games are read by the one at whose machine this is",
      hint: "ask them to do it",
    });
}

/** An address without the token in it. */
function withoutToken(url: string): string {
  const [asked, query = ""] = url.split("?");
  // two slashes at the beginning would name another host
  const path = asked.replace(/^[\\/]+/, "/");
  const rest = query.split("&").filter((part) => part !== "" && !part.startsWith("token="));
  return rest.length > 0 ? `${path}?${rest.join("&")}` : path;
}

/** Lets the guard check every request. */
export function addGuard(app: FastifyInstance, guard: Guard): void {
  app.addHook("onRequest", async (request, reply) => {
    void reply.headers(HEADERS);
    // the address that carries the token leaves it in a cookie, and goes on without it
    const { token } = request.query as { token?: unknown };
    if (
      typeof token === "string" &&
      request.method === "GET" &&
      guard.token !== undefined &&
      guard.fits(token)
    )
      return reply.header("set-cookie", guard.cookie()).redirect(withoutToken(request.url));
    guard.check(askedBy(request));
  });
}

/** Ends calls whose input does not arrive; an upload may take its time. */
export function addArrivalTimeout(app: FastifyInstance): void {
  const timers = new WeakMap<FastifyRequest, NodeJS.Timeout>();
  app.addHook("onRequest", async (request) => {
    if (request.url.startsWith("/api/"))
      timers.set(
        request,
        setTimeout(() => request.raw.destroy(), ARRIVAL_TIMEOUT),
      );
  });
  const arrived = async (request: FastifyRequest) => clearTimeout(timers.get(request));
  app.addHook("preValidation", arrived);
  app.addHook("onResponse", arrived);
  app.addHook("onRequestAbort", arrived);
}
