// The files of the page, held in memory: nothing that is asked for by address is looked up on the disk.

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";

import type { FastifyInstance, FastifyReply } from "fastify";

import { pageFolder } from "../places.js";

/** Files of the page by the address they are fetched from. */
const FILES: Readonly<Record<string, { readonly file: string; readonly type: string }>> = {
  "/page.js": { file: "page.js", type: "text/javascript; charset=utf-8" },
  "/page.css": { file: "page.css", type: "text/css; charset=utf-8" },
  "/mark.svg": { file: "mark.svg", type: "image/svg+xml" },
  "/licences": { file: "licences.txt", type: "text/plain; charset=utf-8" },
};
/** Addresses at which the page shows something: all the same document. */
export const PLACES = ["/", "/ask", "/ending/:id", "/board", "/play", "/practise", "/tray", "/games"];

/** The page's document. What a browser stores belongs to the games of one database, which is named by a digest. */
function documentFor(db: string): string {
  const games = createHash("sha256").update(db).digest("hex").slice(0, 12);
  return readFileSync(join(pageFolder(), "page.html"), "utf8").replace(
    '<html lang="en"',
    `<html lang="en" data-games="${games}"`,
  );
}

/** Serves the page. Returns what sends its document, for addresses that are wrong. */
export function addPage(app: FastifyInstance, db: string): (reply: FastifyReply) => FastifyReply {
  const document = documentFor(db);
  const sendPage = (reply: FastifyReply) => reply.type("text/html; charset=utf-8").send(document);
  for (const place of PLACES) app.get(place, (_request, reply) => sendPage(reply));
  for (const [path, { file, type }] of Object.entries(FILES)) {
    const content = readFileSync(join(pageFolder(), file));
    app.get(path, (_request, reply) => reply.type(type).send(content));
  }
  return sendPage;
}
