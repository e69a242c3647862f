// The files of the page, held in memory: nothing that is asked for by address is looked up on the disk.

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";

import type { FastifyInstance, FastifyReply } from "fastify";

import { pageFolder } from "../places.js";
import { HEADERS } from "./guard.js";
import { identityOf, isThere, openForReading } from "../store/database.js";

/** Files of the page by the address they are fetched from. */
const FILES: Readonly<Record<string, { readonly file: string; readonly type: string }>> = {
  "/page.js": { file: "page.js", type: "text/javascript; charset=utf-8" },
  "/page.css": { file: "page.css", type: "text/css; charset=utf-8" },
  "/mark.svg": { file: "mark.svg", type: "image/svg+xml" },
  "/literata.woff2": { file: "literata.woff2", type: "font/woff2" },
  "/licences": { file: "licences.txt", type: "text/plain; charset=utf-8" },
};
/** Addresses at which the page shows something: all the same document. */
export const PLACES = [
  "/",
  "/ask",
  "/ending/:id",
  "/board",
  "/play",
  "/practise",
  "/theory",
  "/tray",
  "/lesson",
  "/games",
];

/** What the games in a database are known by; empty where there is none that can be read. */
function gamesOf(path: string): string {
  if (!isThere(path)) return "";
  try {
    const db = openForReading(path);
    try {
      return identityOf(db, path);
    } finally {
      db.close();
    }
  } catch {
    // the page will be told by the first call
    return "";
  }
}

/** Serves the page. Returns what sends its document, for addresses that are wrong. */
export function addPage(app: FastifyInstance, db: string): (reply: FastifyReply) => FastifyReply {
  // the style comes with the document: one journey less before anything is painted
  const css = readFileSync(join(pageFolder(), "page.css"), "utf8");
  const document = readFileSync(join(pageFolder(), "page.html"), "utf8").replace(
    '<link rel="stylesheet" href="/page.css" />',
    () => `<style>${css}</style>`,
  );
  const own = `'sha256-${createHash("sha256").update(css).digest("base64")}'`;
  const policy = HEADERS["content-security-policy"].replace("style-src 'self'", `style-src 'self' ${own}`);
  // what a browser stores belongs to the games of one database; another may come to lie at the same path
  const sendPage = (reply: FastifyReply) =>
    reply
      .header("content-security-policy", policy)
      .type("text/html; charset=utf-8")
      .send(document.replace('<html lang="en"', `<html lang="en" data-games="${gamesOf(db)}"`));
  for (const place of PLACES) app.get(place, (_request, reply) => sendPage(reply));
  for (const [path, { file, type }] of Object.entries(FILES)) {
    const content = readFileSync(join(pageFolder(), file));
    app.get(path, (_request, reply) => reply.type(type).send(content));
  }
  return sendPage;
}
