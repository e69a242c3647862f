// The server: who is answered, what is taken, what is refused and how, limits, files handed over, runs begun and stopped;
// and bad requests without end.

import { mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from "node:fs";
import { request as rawRequest } from "node:http";
import { connect } from "node:net";
import { spawnSync } from "node:child_process";
import { join } from "node:path";

import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";

import { WorkerQueues } from "../../src/server/worker-queue.js";
import type { AnswerTo } from "../../src/server/answers.js";
import { CALLS, type CallName } from "../../src/server/api.js";
import { Folders } from "../../src/server/folders.js";
import { Guard, isLoopback } from "../../src/server/guard.js";
import { PLACES } from "../../src/server/page-files.js";
import { type RunningServer, serve } from "../../src/server/server.js";
import { uploadName, withoutUploadsFolder } from "../../src/server/uploads.js";
import { cacheFolder, gamesFolder } from "../../src/places.js";
import { indexGames } from "../../src/indexing/run.js";
import { openForReading, openForWriting } from "../../src/store/database.js";
import { contentSignature } from "../../src/store/signature.js";
import { findFiles } from "../../src/pgn/files/find.js";
import { TARGET, indexBundled, temporaryFolder } from "../support.js";
import { copyOf, optionsFor, serverForTests } from "./support.js";

const server = serverForTests();
const others: RunningServer[] = [];
afterAll(() => Promise.all(others.map((one) => one.close())));
const another = async (db: string, more: Parameters<typeof optionsFor>[1] = {}) => {
  const one = await serve(optionsFor(db, more));
  others.push(one);
  return one;
};

interface Told {
  status: number;
  headers: Headers;
  text: string;
}
const ask = async (path: string, init: RequestInit = {}, at = server.at()): Promise<Told> => {
  const response = await fetch(at + path, { redirect: "manual", ...init });
  return { status: response.status, headers: response.headers, text: await response.text() };
};
const post = (call: string, body: unknown, headers: Record<string, string> = {}, at = server.at()) =>
  ask(
    `/api/${call}`,
    {
      method: "POST",
      headers: { "content-type": "application/json", ...headers },
      body: typeof body === "string" ? body : JSON.stringify(body),
    },
    at,
  );
const answer = async <T>(call: CallName, body: unknown, at = server.at()) => {
  const told = await post(call, body, {}, at);
  expect(told.text).not.toContain('"error":{"code"');
  return JSON.parse(told.text) as T;
};
const errorOf = ({ text }: Told) =>
  (JSON.parse(text) as { error: { code: string; message: string; hint: string } }).error;

/** A request with headers that fetch would not let one set. */
const raw = (headers: Record<string, string>, path = "/", at = server.at()) =>
  new Promise<{ status: number; type: string; text: string }>((done, failed) => {
    const { hostname, port } = new URL(at);
    rawRequest({ hostname, port, path, headers }, (response) => {
      let text = "";
      response.on("data", (bytes: Buffer) => (text += bytes.toString()));
      response.on("end", () =>
        done({ status: response.statusCode!, type: String(response.headers["content-type"]), text }),
      );
    })
      .on("error", failed)
      .end();
  });

describe("the server's answers", () => {
  it("are the page at each of its places, with a policy that loads nothing from elsewhere", async () => {
    for (const place of PLACES) {
      const { status, headers, text } = await ask(place.replace(":id", "1"));
      expect(status).toBe(200);
      expect(text).toContain('<script type="module" src="/page.js">');
      const policy = headers.get("content-security-policy")!;
      expect(policy).toContain("default-src 'none'");
      expect(policy).not.toMatch(/unsafe|\*|https?:/);
      expect(headers.get("x-content-type-options")).toBe("nosniff");
    }
  });

  it("hold nothing in page or style that would be fetched from elsewhere", async () => {
    for (const path of ["/", "/page.js", "/page.css"]) {
      const { text } = await ask(path);
      // names of XML are no addresses to fetch from
      expect(text.replaceAll(/http:\/\/www\.w3\.org\/[\w/]+/g, "")).not.toMatch(/https?:\/\//);
    }
  });

  it.each([
    "/page.html",
    "/package.json",
    "/../package.json",
    "/%2e%2e/package.json",
    "/page.js/../../../package.json",
    "/dist/page/page.js",
    "/made/../../etc/passwd",
    "/made/no-such",
    "/api/ask",
    "/api/nothing",
    "//etc/passwd",
    "/page.js%00.css",
  ])("to %s are that there is nothing there", async (path) => {
    const { status, text } = await ask(path);
    expect(status).toBeGreaterThanOrEqual(400);
    expect(status).toBeLessThan(500);
    expect(JSON.parse(text)).toMatchObject({ error: { code: expect.any(String), hint: expect.any(String) } });
    expect(text).not.toContain("longside: 0");
  });

  it("have one shape for every error, with the place of a fault in a question", async () => {
    const fault = await post("ask", { question: "phillidoor", each: "ending", from: 0, size: 5 });
    expect(fault.status).toBe(400);
    expect(errorOf(fault)).toMatchObject({
      code: "question-fault",
      at: 0,
      length: 10,
      hint: expect.stringContaining(`did you mean "philidor"`),
    });
    const gone = await post("ending", { id: 999_999 });
    expect(gone.status).toBe(404);
    expect(errorOf(gone).code).toBe("no-such-ending");
    expect(errorOf(await post("position", { fen: "nonsense" })).code).toBe("bad-fen");
    expect(
      errorOf(await post("play", { start: "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1", moves: ["a7a9"], seed: 1 }))
        .code,
    ).toBe("bad-input");
    expect(
      errorOf(await post("play", { start: "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1", moves: ["a7b8"], seed: 1 }))
        .code,
    ).toBe("no-such-move");
  });

  it.each([
    ["ask", {}],
    ["ask", { question: 1, each: "ending", from: 0, size: 5 }],
    ["ask", { question: "", each: "everything", from: 0, size: 5 }],
    ["ask", { question: "", each: "ending", from: -1, size: 5 }],
    ["ask", { question: "", each: "ending", from: 0, size: 100_000 }],
    ["ask", { question: "", each: "ending", from: 0, size: 5, more: 1 }],
    ["ask", { question: "x".repeat(3000), each: "ending", from: 0, size: 5 }],
    ["position", { fen: null }],
    ["index", { paths: [] }],
    ["ask", "{"],
    ["ask", "null"],
    ["ask", "[]"],
    ["ask", '{"__proto__":{"question":""}}'],
  ])("refuse what %s does not take", async (call, body) => {
    const told = await post(call, body);
    expect(told.status).toBe(400);
    expect(errorOf(told).code).toBe("bad-input");
  });

  it("take nothing but JSON, and not too much of it", async () => {
    const text = await ask("/api/ask", {
      method: "POST",
      headers: { "content-type": "text/plain" },
      body: "{}",
    });
    expect(text.status).toBe(415);
    expect(errorOf(text).code).toBe("bad-input");
    const much = await post("lesson", { outline: "x".repeat(2 << 20) });
    expect(much.status).toBe(413);
    expect((await ask("/api/ask", { method: "DELETE" })).status).toBe(404);
  });
});

describe("who is answered", () => {
  it("is only who calls the server by its own name", async () => {
    const { port } = new URL(server.at());
    for (const host of [`127.0.0.1:${port}`, `localhost:${port}`, `[::1]:${port}`])
      expect((await raw({ host })).status).toBe(200);
    for (const host of [
      "evil.example",
      `evil.example:${port}`,
      "127.0.0.1.evil.example",
      "localhost@evil.example",
    ])
      expect((await raw({ host })).status, host).toBeGreaterThanOrEqual(400);
  });

  it("is no page from elsewhere", async () => {
    const body = { question: "", each: "ending", from: 0, size: 1 };
    const own = server.at();
    expect((await post("ask", body, { origin: own })).status).toBe(200);
    for (const origin of [
      "http://evil.example",
      "null",
      own.replace("http:", "https:"),
      `${own}.evil.example`,
    ])
      expect((await post("ask", body, { origin })).status, origin).toBe(403);
    expect((await post("ask", body, { "sec-fetch-site": "cross-site" })).status).toBe(403);
    expect((await post("ask", body, { "sec-fetch-site": "same-origin" })).status).toBe(200);
    const told = await ask("/", { headers: { origin: own } });
    expect(told.headers.get("access-control-allow-origin")).toBeNull();
  });

  it("beyond this machine is only who has the token, which leaves the address for a cookie", async () => {
    const open = await another(server.db(), { host: "0.0.0.0" });
    expect(open.token).toMatch(/^[\w-]{20,}$/);
    const at = `http://127.0.0.1:${new URL(open.address).port}`;
    expect((await ask("/ask", {}, at)).status).toBe(403);
    expect((await post("holds", {}, {}, at)).status).toBe(403);
    expect((await ask("/ask?token=wrong", {}, at)).status).toBe(403);
    const shown = await ask(`/ask?q=philidor&token=${open.token}`, {}, at);
    expect(shown.status).toBe(302);
    expect(shown.headers.get("location")).toBe("/ask?q=philidor");
    const cookie = shown.headers.get("set-cookie")!;
    expect(cookie).toMatch(/HttpOnly; SameSite=Lax/);
    const headers = { cookie: cookie.split(";")[0] };
    expect((await ask("/ask", { headers }, at)).status).toBe(200);
    expect((await post("holds", {}, headers, at)).status).toBe(200);
    expect((await post("holds", {}, { cookie: `${headers.cookie}x` }, at)).status).toBe(403);
  });

  it("may follow a link from elsewhere to the page, which then asks for itself", async () => {
    const link = {
      "sec-fetch-site": "cross-site",
      "sec-fetch-mode": "navigate",
      "sec-fetch-dest": "document",
    };
    const shown = await raw(link, "/ask?q=philidor");
    expect(shown.status).toBe(200);
    expect(shown.text).toContain("/page.js");
    expect((await raw({ "sec-fetch-site": "cross-site", "sec-fetch-mode": "cors" }, "/ask")).status).toBe(
      403,
    );
    // who has no token reads words
    const open = await another(server.db(), { host: "0.0.0.0" });
    const refused = await raw(link, "/ask", `http://127.0.0.1:${new URL(open.address).port}`);
    expect(refused.status).toBe(403);
    expect(refused.type).toContain("text/plain");
    expect(refused.text).toContain("open the whole address");
  });

  it("reads games only at this machine itself", () => {
    const guard = new Guard("0.0.0.0", "token");
    const asked = (from: string) => ({
      host: "localhost",
      origin: undefined,
      site: undefined,
      cookie: undefined,
      opens: false,
      from,
      to: "192.168.1.9",
    });
    for (const from of ["127.0.0.1", "::1", "::ffff:127.0.0.1", "192.168.1.9"])
      expect(guard.isHere(asked(from)), from).toBe(true);
    for (const from of ["192.168.1.7", "::ffff:10.0.0.1", "", "1127.0.0.1"])
      expect(guard.isHere(asked(from)), from).toBe(false);
  });

  it("listens on the loopback alone unless told otherwise", () => {
    expect(["127.0.0.1", "::1", "localhost"].every(isLoopback)).toBe(true);
    expect(["0.0.0.0", "192.168.1.7", "::", "127.0.0.1.example"].some(isLoopback)).toBe(false);
  });
});

const bundled = readdirSync(gamesFolder()).filter((name) => name.endsWith(".pgn"));

describe("files", () => {
  const folder = temporaryFolder();
  mkdirSync(join(folder, "games", "league"), { recursive: true });
  mkdirSync(join(folder, "secret"));
  writeFileSync(join(folder, "secret", "hidden.pgn"), "");
  writeFileSync(join(folder, "games", "one.pgn"), "");
  writeFileSync(join(folder, "games", "notes.txt"), "");
  symlinkSync(join(folder, "secret"), join(folder, "games", "way-out"));
  symlinkSync(join(folder, "secret", "hidden.pgn"), join(folder, "games", "league", "link.pgn"));
  symlinkSync(join(folder, "games", "round.pgn"), join(folder, "games", "round.pgn"));
  const folders = new Folders([join(folder, "games")]);

  it("are listed below the folders allowed, games and folders alone", () => {
    expect(folders.list().entries.map(({ path }) => path)).toEqual(folders.allowed);
    expect(folders.list(folders.allowed[0]).entries.map(({ name }) => name)).toEqual(["league", "one.pgn"]);
  });

  it.each([
    "secret",
    "secret/hidden.pgn",
    "games/../secret",
    "games/way-out",
    "games/way-out/hidden.pgn",
    "games-2",
    "",
    "/etc",
  ])("at %j are refused, there or not", (path) => {
    const at = path.startsWith("/") ? path : join(folder, path);
    expect(() => folders.confined(at)).toThrow(/outside the folders/);
  });

  it("are refused by the server as well, with a hint", async () => {
    for (const path of ["/etc", join(folder, "secret"), `${gamesFolder()}/../../..`, "relative"]) {
      const told = await post("folders", { path });
      expect(told.status, path).toBe(403);
      expect(errorOf(told).hint).toContain("this folder allowed");
      expect((await post("index", { paths: [path] })).status, path).toBe(403);
    }
  });

  it("that links lead to outside are not read, and a pipe keeps nobody waiting", async () => {
    writeFileSync(join(folder, "secret", "hidden.pgn"), readFileSync(join(gamesFolder(), bundled[0])));
    const found = await findFiles([join(folder, "games", "league")], folders.allowed);
    expect(found.files).toEqual([]);
    expect(found.unreadable[0].message).toContain("outside the folders");
    expect(spawnSync("mkfifo", [join(folder, "games", "pipe.pgn")]).status).toBe(0);
    const all = await findFiles([join(folder, "games")], folders.allowed);
    expect(all.files.map(({ name }) => name)).toEqual(["one.pgn"]);
    expect(all.unreadable.map(({ message }) => message).join("\n")).toContain("it is no file");
  });

  it("handed over as anything but bytes, and much of it, are refused before they are read", async () => {
    const much = "x".repeat(3 << 20);
    const init = { method: "POST", headers: { "content-type": "application/json" }, body: much };
    const told = await ask("/upload?name=a.pgn", init).catch(() => ({ status: 413 }));
    expect(told.status).toBe(413);
    expect((await post("holds", {})).status).toBe(200);
  });

  it("have names without any path in them", () => {
    expect(uploadName("my games.pgn")).toBe("my games.pgn");
    expect(uploadName("../../etc/x.pgn")).toBe("x.pgn");
    expect(uploadName("C:\\games\\y.pgn.zst")).toBe("y.pgn.zst");
    expect(uploadName("...z\u0000.pgn")).toBe("z_.pgn");
    expect(uploadName("CON.pgn")).toBe("_CON.pgn");
    const long = uploadName(`${"漢".repeat(110)}.pgn`);
    expect(Buffer.byteLength(long)).toBeLessThanOrEqual(200);
    expect(uploadName(`${"x".repeat(200)}...y.pgn`)).toMatch(/^x+\.\.\.y\.pgn$/);
    for (const bad of ["", "..", "x.db", "x.exe"]) expect(() => uploadName(bad), bad).toThrow();
  });

  it("handed over are kept beside the database, the same once, others of the name beside it", async () => {
    const db = copyOf(server.db(), join(folder, "own.db"));
    const { address } = await another(db);
    const at = address.replace(/\/$/, "");
    const hand = async (text: string) => {
      const init = { method: "POST", headers: { "content-type": "application/octet-stream" }, body: text };
      return JSON.parse((await ask("/upload?name=a.pgn", init, at)).text) as { path: string };
    };
    const first = await hand("one");
    expect(await hand("one")).toEqual(first);
    const second = await hand("two");
    expect(second.path).toMatch(/a 2\.pgn$/);
    expect(readdirSync(`${db}.uploads`).sort()).toEqual(["a 2.pgn", "a.pgn"]);
    expect(readFileSync(second.path, "utf8")).toBe("two");
  });

  it("that are held are told with the year of the newest", async () => {
    const { held } = await answer<AnswerTo<"holds">>("holds", {});
    const db = openForReading(server.db());
    const newest = db.prepare("SELECT max(year) FROM games").pluck().get();
    db.close();
    expect(held).toMatchObject({ newest });
    expect(newest).toBeGreaterThan(2000);
  });

  it("handed over are called as they were given, wherever their names are told", async () => {
    const { address } = await another(join(folder, "named.db"));
    const at = address.replace(/\/$/, "");
    const init = {
      method: "POST",
      headers: { "content-type": "application/octet-stream" },
      body: '[FEN "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1"]\n\n1... Rd7+ 2. Qh5 *\n',
    };
    const { path } = JSON.parse((await ask("/upload?name=mine.pgn", init, at)).text) as { path: string };
    await answer("index", { paths: [path] }, at);
    const read = async () => (await answer<AnswerTo<"state">>("state", {}, at)).work.last?.read;
    await expect.poll(read, { timeout: 60_000 }).toBe(1);
    const some = { from: 0, size: 9 };
    const files = await answer<AnswerTo<"files">>("files", some, at);
    expect(files.rows.map(({ shown }) => shown)).toEqual(["mine.pgn"]);
    const skipped = await answer<AnswerTo<"skipped">>("skipped", some, at);
    expect(skipped.rows.map(({ file }) => file)).toEqual(["mine.pgn"]);
    expect((await answer<AnswerTo<"ending">>("ending", { id: 1 }, at)).file).toBe("mine.pgn");
    expect(withoutUploadsFolder(path)).toBe("mine.pgn");
    expect(withoutUploadsFolder("games/other.pgn")).toBe("games/other.pgn");
  });
});

describe("limits", () => {
  it("end a question that takes too long, and the next one is answered", async () => {
    const { settings } = optionsFor(server.db());
    const queues = new WorkerQueues(settings, 0.001);
    const never = new AbortController().signal;
    const question = {
      question: "reached Szén from the third-rank defence",
      each: "ending",
      from: 0,
      size: 1,
    };
    // as long as a question may be: it takes many times the limit, whatever else the machine does
    const courses = Array.from({ length: 90 }, (_, n) => `szen then within ${n + 1} moves philidor`);
    const long = { ...question, question: courses.join(" or ") };
    await expect(queues.answer("ask", long, never, () => {})).rejects.toThrow(/longer than 0.001 s/);
    await queues.close();
    const patient = new WorkerQueues(settings, 20);
    expect(await patient.answer("ask", question, never, () => {})).toHaveProperty("json");
    await patient.close();
  });

  it("tell those who still ask when the server ends", async () => {
    const queues = new WorkerQueues(optionsFor(server.db()).settings, 20);
    const asked = queues.answer("words", {}, new AbortController().signal, () => {});
    const told = expect(asked).rejects.toMatchObject({ code: "server-ends" });
    await queues.close();
    await told;
  });

  it("pass over calls that nobody waits for any more, and refuse more than can wait", async () => {
    const queues = new WorkerQueues(optionsFor(server.db()).settings, 20);
    const leaving = new AbortController();
    const never = new AbortController().signal;
    const ask = (signal: AbortSignal, asker = "") => queues.answer("words", {}, signal, () => {}, asker);
    const first = ask(never);
    const left = Promise.allSettled(Array.from({ length: 50 }, () => ask(leaving.signal)));
    leaving.abort();
    for (const one of await left)
      expect(one).toMatchObject({ status: "rejected", reason: { code: "nobody-waits" } });
    // the one before them and those behind are answered by the same thread
    expect(await first).toHaveProperty("json");
    const many = await Promise.allSettled(
      Array.from({ length: 250 }, (_, n) => ask(never, `asker ${n % 3}`)),
    );
    expect(many.filter(({ status }) => status === "fulfilled").length).toBeGreaterThanOrEqual(190);
    expect(many.at(-1)).toMatchObject({ status: "rejected", reason: { code: "too-busy" } });
    await queues.close();
  });

  it("tell the page that it took too long", async () => {
    const { address } = await another(server.db(), { seconds: 0.001 });
    const told = await post(
      "ask",
      { question: "only move", each: "ending", from: 0, size: 1 },
      {},
      address.replace(/\/$/, ""),
    );
    expect(told.status).toBe(503);
    expect(errorOf(told)).toMatchObject({ code: "time-limit", hint: expect.stringContaining("--seconds") });
  });

  it("cut a list short, and say so", async () => {
    const many = await answer<{ answers: number; limit: number | null }>("ask", {
      question: "",
      each: "position",
      from: 0,
      size: 1,
    });
    expect(many.answers).toBeGreaterThan(2000);
    expect(many.limit).toBe(2000);
    const last = await answer<{ rows: unknown[] }>("ask", {
      question: "",
      each: "position",
      from: 1990,
      size: 60,
    });
    expect(last.rows).toHaveLength(10);
  });
});

describe("reading games", () => {
  /** The events until something is true of them. */
  const eventsUntil = async (at: string, enough: (text: string) => boolean) => {
    const leaving = new AbortController();
    const response = await fetch(`${at}/events`, { signal: leaving.signal });
    expect(response.headers.get("content-type")).toBe("text/event-stream");
    let text = "";
    const decoder = new TextDecoder();
    for await (const bytes of response.body!) {
      text += decoder.decode(bytes as Uint8Array, { stream: true });
      if (enough(text)) break;
    }
    leaving.abort();
    return text;
  };

  it("goes on live, one run at a time, is stopped, and goes on from there to the same content", async () => {
    const folder = temporaryFolder();
    const db = join(folder, "new.db");
    const games = join(folder, "many");
    mkdirSync(games);
    // enough of them to be stopped in the middle
    const text = bundled.map((name) => readFileSync(join(gamesFolder(), name), "utf8")).join("\n");
    for (let n = 0; n < 20; ++n)
      writeFileSync(
        join(games, `${n}.pgn`),
        text
          .replaceAll(/\[Round "[^"]*"\]/g, `[Round "${n}"]`)
          .replaceAll('[White "', `[White "${String.fromCharCode(65 + n)}`),
      );
    const { address } = await another(db, { games: [games] });
    const at = address.replace(/\/$/, "");
    expect((await answer<{ held: unknown }>("holds", {}, at)).held).toBeNull();
    const events = eventsUntil(at, (told) => told.includes('"progress":{"done"'));
    await answer("index", { paths: [games] }, at);
    const busy = await post("index", { paths: [games] }, {}, at);
    expect(busy.status).toBe(409);
    expect(errorOf(busy).code).toBe("already-indexing");
    expect(await events).toContain('"what":"index"');
    await answer("stop", {}, at);
    const ended = await eventsUntil(at, (told) => /"what":null[^\n]*"stopped":true/.test(told));
    expect(ended).toContain('"stopped":true');
    const before = await answer<{ held: { endings: number } }>("holds", {}, at);
    await answer("index", { paths: [games] }, at);
    await eventsUntil(at, (told) => /"what":null[^\n]*"stopped":false/.test(told));
    const after = await answer<{ held: { endings: number } }>("holds", {}, at);
    expect(after.held.endings).toBeGreaterThan(before.held.endings);
    expect(after.held.endings % 20).toBe(0);
    // and while all this went on, questions are answered
    const rows = await answer<{ rows: unknown[] }>(
      "ask",
      { question: "", each: "ending", from: 0, size: 5 },
      at,
    );
    expect(rows.rows).toHaveLength(5);
  });
});

describe("files whose games are held", () => {
  interface Held {
    all: number;
    rows: { name: string; games: number; held: number; endings: number; complete: boolean }[];
  }

  it("are listed with what they gave, can be taken out, and leave what was read without them", async () => {
    const folder = temporaryFolder();
    const [db, fewer] = [join(folder, "all.db"), join(folder, "fewer.db")];
    await indexBundled(db);
    const { address } = await another(db);
    const at = address.replace(/\/$/, "");
    const { all, rows } = await answer<Held>("files", { from: 0, size: 500 }, at);
    expect(rows).toHaveLength(all);
    expect(rows.every(({ complete }) => complete)).toBe(true);
    const holds = async () => (await answer<{ held: { endings: number } }>("holds", {}, at)).held;
    expect(rows.reduce((sum, { endings }) => sum + endings, 0)).toBe((await holds()).endings);
    const [out] = [...rows].sort((a, b) => b.endings - a.endings);
    await answer("drop", { name: out.name }, at);
    await expect
      .poll(async () => (await answer<Held>("files", { from: 0, size: 500 }, at)).all, { timeout: 60_000 })
      .toBe(all - 1);
    // the same as if the file had never been read
    const found = await findFiles([gamesFolder()]);
    const others = found.files.filter(({ name }) => name !== out.name);
    expect(others).toHaveLength(all - 1);
    const writing = openForWriting(fewer, TARGET);
    await indexGames(
      writing,
      fewer,
      { ...found, files: others },
      {
        target: TARGET,
        folder: cacheFolder(),
        threads: 1,
      },
    );
    writing.close();
    const signatures = [db, fewer].map((path) => {
      const reading = openForReading(path);
      try {
        return contentSignature(reading);
      } finally {
        reading.close();
      }
    });
    expect(signatures[0]).toBe(signatures[1]);
    // once more: nothing of that name is held
    await answer("drop", { name: out.name }, at);
    await expect.poll(async () => (await post("state", {}, {}, at)).text).toContain('"code":"not-held"');
  });
});

describe("what is made", () => {
  const FEN = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";

  it("lies at an address that runs nothing", async () => {
    const items = [{ fen: FEN, note: "<script>alert(1)</script>" }, { ending: 1 }];
    const { made } = await answer<{ made: { address: string } }>("pgn", { title: "A title", items });
    const told = await ask(made.address);
    expect(told.headers.get("content-type")).toContain("application/vnd.chess-pgn");
    expect(told.headers.get("content-security-policy")).toContain("sandbox");
    expect(told.text).toContain(`[FEN "${FEN}"]`);
    expect((await ask(`${made.address}?save`)).headers.get("content-disposition")).toBe(
      'attachment; filename="collected.pgn"',
    );
    const { outline } = await answer<{ outline: string }>("outline", { title: "A lesson", items });
    const lesson = await answer<{ made: { address: string } }>("lesson", { outline });
    const page = await ask(lesson.made.address);
    expect(page.headers.get("content-security-policy")).toMatch(
      /^default-src 'none'; style-src 'unsafe-inline'/,
    );
    expect(page.text).toContain("&lt;script&gt;alert(1)");
    expect(page.text).not.toContain("<script");
  });

  it("tells of a game that is not there, and of a lesson without an end", async () => {
    const gone = await post("sheet", { title: "x", items: [{ fen: FEN, ending: 999_999, ply: 1 }] });
    expect(errorOf(gone).code).toBe("no-such-ending");
    for (const outline of ["", "# X\n\n```board\nfen: x", "```exercises\nsize: 1000000000\n```"])
      expect((await post("lesson", { outline })).status, outline).toBe(400);
  });

  it("plays what was collected, and says why something is not taken", async () => {
    const items = [{ fen: FEN }, { fen: "8/8/4k3/8/8/2K5/8/1R2b3 w - - 0 1" }, { ending: 1 }];
    const made = await answer<{ exercises: { fen: string }[]; leftOut: string }>("practise", { items });
    expect(made.exercises.map(({ fen }) => fen)).toEqual([FEN]);
    expect(made.leftOut).toBe("Not taken: 1 is another ending, 1 is a whole ending.");
    const all = await answer<{ leftOut: string | null }>("practise", { items: [{ fen: FEN }] });
    expect(all.leftOut).toBeNull();
  });

  it("tells of a fault in an outline with its line", async () => {
    const told = await post("lesson", { outline: "# X\n\n```board\nfem: x\n```\n" });
    expect(told.status).toBe(400);
    expect(errorOf(told)).toMatchObject({ code: "bad-outline", line: 3 });
  });
});

describe("bad requests", () => {
  const alive = async () => expect((await post("holds", {})).status).toBe(200);

  it("of any shape are refused in the one shape, and nothing falls over", async () => {
    // what works for long, or changes things, is left out
    const calls = Object.keys(CALLS).filter(
      (call) =>
        CALLS[call as keyof typeof CALLS].queue !== "make" && !["index", "stop", "tables"].includes(call),
    );
    const value = fc.oneof(
      fc.json(),
      fc.string(),
      fc
        .record({
          question: fc.oneof(fc.string(), fc.constantFrom("szen", "like 8/8", "held", "(((", '"')),
          each: fc.constantFrom("ending", "position", "x"),
          from: fc.integer({ min: -2, max: 3000 }),
          size: fc.integer({ min: -1, max: 100 }),
          by: fc.array(fc.string(), { maxLength: 3 }),
        })
        .map((one) => JSON.stringify(one)),
      fc
        .record({
          fen: fc.string(),
          piece: fc.string(),
          id: fc.anything(),
          start: fc.string(),
          moves: fc.array(fc.string()),
        })
        .map((one) => JSON.stringify(one)),
    );
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...calls), value, async (call, body) => {
        const told = await post(call, body);
        const read = JSON.parse(told.text) as { error?: { code: string; message: string; hint: string } };
        if (told.status === 200) return;
        expect(told.status, `${call} ${body}: ${told.text}`).toBeLessThan(500);
        expect(read.error).toMatchObject({
          code: expect.any(String),
          message: expect.any(String),
          hint: expect.any(String),
        });
      }),
      { numRuns: 400 },
    );
    await alive();
  });

  it("of any address are refused without a look at the disk", async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ maxLength: 200 }), async (path) => {
        const { status } = await ask(
          `/${encodeURI(path.replaceAll(/[\ud800-\udfff]/g, "")).replaceAll("#", "%23")}`,
        );
        expect(status).toBeLessThan(500);
      }),
      { numRuns: 200 },
    );
    await alive();
  });

  it("of any bytes do no harm", async () => {
    const { hostname, port } = new URL(server.at());
    const send = (bytes: Uint8Array | string) =>
      new Promise<void>((done) => {
        const socket = connect(Number(port), hostname, () => socket.end(bytes));
        socket.on("close", () => done());
        socket.on("error", () => done());
        socket.resume();
        setTimeout(() => socket.destroy(), 300);
      });
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 500 }), (bytes) => send(bytes)),
      { numRuns: 60 },
    );
    await send("POST /api/ask HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-length: 100000\r\n\r\n{");
    await send("GET / HTTP/1.1\r\n\r\n");
    await send(`GET / HTTP/1.1\r\nhost: ${"a".repeat(100_000)}\r\n\r\n`);
    await alive();
  });
});
