// How many connections there may be, and how long each may be silent before it has asked for anything.

import type { Server } from "node:http";
import type { Socket } from "node:net";

import type { FastifyInstance } from "fastify";

/** Connections in all, and of one address. A browser opens six for each page, and one for the news. */
export const MOST_CONNECTIONS = 400;
export const MOST_OF_ONE = 80;
/** Milliseconds in which the head of a request must have arrived, and in which a new connection must have begun one. */
export const HEAD_TIMEOUT = 10_000;
/** Milliseconds that a connection is kept open for the next request. */
const KEPT_OPEN = 10_000;

export interface ConnectionLimits {
  readonly all: number;
  readonly ofOne: number;
  readonly headTimeout: number;
}
const LIMITS: ConnectionLimits = {
  all: MOST_CONNECTIONS,
  ofOne: MOST_OF_ONE,
  headTimeout: HEAD_TIMEOUT,
};

/** What Node's server must know when it is made. */
export const httpOptions = ({ headTimeout } = LIMITS) => ({
  headersTimeout: headTimeout,
  connectionsCheckingInterval: Math.min(1000, headTimeout),
  keepAliveTimeout: KEPT_OPEN,
});

/** Counts the connections of a server, and closes those that are too many or that ask nothing. */
export function limitConnections(app: FastifyInstance, { all, ofOne, headTimeout } = LIMITS): void {
  const server = app.server as Server;
  server.maxConnections = all;
  const open = new Map<string, number>();
  server.on("connection", (socket: Socket) => {
    const from = socket.remoteAddress ?? "";
    const count = (open.get(from) ?? 0) + 1;
    if (count > ofOne) {
      socket.destroy();
      return;
    }
    open.set(from, count);
    socket.once("close", () => {
      const left = open.get(from)! - 1;
      if (left > 0) open.set(from, left);
      else open.delete(from);
    });
    const silent = setTimeout(() => socket.destroy(), headTimeout);
    const ends = () => clearTimeout(silent);
    socket.once("data", ends);
    socket.once("close", ends);
  });
}
