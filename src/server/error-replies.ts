// How errors are sent: one JSON shape and a status for each code; as text to somebody who follows a link.

import type { Duplex } from "node:stream";

import type { FastifyReply } from "fastify";

import { type ErrorCode, LongsideError, errorOf } from "../errors.js";
import { HEADERS } from "./guard.js";

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
export const statusOf = (code: ErrorCode): number => STATUS[code] ?? 400;

/** Sends what was thrown, as JSON; `db` is the database that an error of SQLite's is about. */
export function sendError(reply: FastifyReply, thrown: unknown, db: string): FastifyReply {
  const { statusCode = 500, message } = thrown as { statusCode?: number; message: string };
  // what the framework refuses has a status of its own
  const foreign = !(thrown instanceof LongsideError) && statusCode < 500;
  const error = foreign ? new LongsideError("bad-input", { cause: message }) : errorOf(thrown, db);
  return reply
    .code(foreign ? statusCode : statusOf(error.code))
    .headers(HEADERS)
    .type("application/json; charset=utf-8")
    .send(JSON.stringify(error.toJSON()));
}

/** Sends an error as text. */
export const sendErrorText = (reply: FastifyReply, { code, message, hint }: LongsideError): FastifyReply =>
  reply.code(statusOf(code)).type("text/plain; charset=utf-8").send(`longside: ${message}\n${hint}\n`);

/** Answers bytes that are no HTTP request. */
export function answerBadRequest(socket: Duplex): void {
  const body = JSON.stringify(new LongsideError("bad-input", { cause: "it is no request" }).toJSON());
  const head = `HTTP/1.1 400 Bad Request\r\nconnection: close\r\ncontent-type: application/json\r\ncontent-length: ${Buffer.byteLength(body)}`;
  if (socket.writable) socket.end(`${head}\r\n\r\n${body}`);
  else socket.destroy();
}
