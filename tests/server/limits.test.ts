// What one asker can take from the others: turns, connections, places of the news, room on the disk.

import { existsSync, mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { type Socket, connect } from "node:net";
import { join } from "node:path";
import { PassThrough } from "node:stream";

import { afterAll, describe, expect, it } from "vitest";

import { MOST_OF_ONE } from "../../src/server/events.js";
import { MadeFiles } from "../../src/server/made-files.js";
import { type RunningServer, serve } from "../../src/server/server.js";
import { Turns } from "../../src/server/turns.js";
import { Uploads } from "../../src/server/uploads.js";
import { temporaryFolder } from "../support.js";
import { optionsFor } from "./support.js";

const folder = temporaryFolder();
const servers: RunningServer[] = [];
const sockets: Socket[] = [];
afterAll(async () => {
  for (const one of sockets) one.destroy();
  await Promise.all(servers.map((one) => one.close()));
});
const started = async (more: Parameters<typeof optionsFor>[1]) => {
  const one = await serve(optionsFor(join(folder, "none.db"), more));
  servers.push(one);
  return Number(new URL(one.address).port);
};
/** Connects from an address of the loopback; the promise ends when the other side closes. */
const connected = (port: number, from = "127.0.0.1") => {
  const socket = connect({ port, host: "127.0.0.1", localAddress: from });
  sockets.push(socket);
  let said = "";
  socket.on("data", (data) => (said += String(data)));
  socket.on("error", () => {});
  return { socket, closed: new Promise<string>((done) => socket.on("close", () => done(said))) };
};

describe("turns", () => {
  /** Work that ends when it is told to, and says when it begins. */
  const desk = (turns: Turns) => {
    const begun: string[] = [];
    const ends = new Map<string, () => void>();
    const ask = (asker: string, name: string) =>
      turns.take(asker, () => {
        begun.push(name);
        return new Promise<void>((end) => ends.set(name, end));
      });
    const settled = () => new Promise((done) => setImmediate(done));
    const end = async (name: string) => {
      await settled();
      ends.get(name)!();
      await settled();
    };
    return { begun, ask, end, settled };
  };

  it("go from one asker to the next", async () => {
    const { begun, ask, end } = desk(new Turns(1, 100, 50));
    for (const name of ["a1", "a2", "a3"]) void ask("a", name);
    for (const name of ["b1", "b2"]) void ask("b", name);
    await end("a1");
    await end("b1");
    await end("a2");
    await end("b2");
    expect(begun).toEqual(["a1", "b1", "a2", "b2", "a3"]);
  });
  it("are one for each asker where there are several places", async () => {
    const { begun, ask, settled } = desk(new Turns(2, 100, 50));
    for (const name of ["a1", "a2", "a3"]) void ask("a", name);
    void ask("b", "b1");
    await settled();
    expect(begun).toEqual(["a1", "b1"]);
  });
  it("are refused to one who waits too often, and to nobody else", async () => {
    const { begun, ask, end } = desk(new Turns(1, 100, 2));
    for (const name of ["a1", "a2", "a3"]) void ask("a", name);
    await expect(ask("a", "a4")).rejects.toMatchObject({ code: "too-busy" });
    void ask("b", "b1");
    await end("a1");
    expect(begun).toEqual(["a1", "b1"]);
  });
  it("go on when work fails", async () => {
    const turns = new Turns(1, 10, 10);
    await expect(turns.take("a", () => Promise.reject(new Error("x")))).rejects.toThrow("x");
    expect(await turns.take("a", async () => 1)).toBe(1);
  });
});

describe("connections", () => {
  it("that ask nothing, or no whole head, are closed", async () => {
    const port = await started({ limits: { all: 50, ofOne: 20, headTimeout: 300 } });
    const silent = connected(port);
    const slow = connected(port);
    slow.socket.write("GET / HTTP/1.1\r\nHost: localhost\r\nX-Slow: ");
    expect(await silent.closed).toBe("");
    expect(await slow.closed).not.toContain("200 OK");
  });
  it("of one address are few, and another address is served", async () => {
    const port = await started({ limits: { all: 50, ofOne: 3, headTimeout: 20_000 } });
    for (let n = 0; n < 3; ++n) connected(port);
    expect(await connected(port).closed).toBe("");
    const other = connected(port, "127.0.0.2");
    other.socket.write("GET /mark.svg HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n");
    expect(await other.closed).toContain("200 OK");
  });
  it("for the news are few for one address, and another address is told", async () => {
    const port = await started({ limits: { all: 200, ofOne: 100, headTimeout: 20_000 } });
    const request = "GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n";
    const first = (from: string) =>
      new Promise<string>((done) => {
        const { socket } = connected(port, from);
        socket.once("data", (data) => done(String(data)));
        socket.write(request);
      });
    for (let n = 0; n < MOST_OF_ONE; ++n) expect(await first("127.0.0.1")).toContain("200 OK");
    expect(await first("127.0.0.1")).toContain("503");
    expect(await first("127.0.0.2")).toContain("200 OK");
  });
});

describe("addresses", () => {
  it("with two slashes lead to no other host", async () => {
    const port = await started({ token: "a-token-of-some-length" });
    for (const path of ["//example.org/", "/\\example.org/", "\\\\example.org/"]) {
      const asked = connected(port);
      asked.socket.write(
        `GET ${path}?token=a-token-of-some-length HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n`,
      );
      expect(await asked.closed).not.toMatch(/location: *(?:\/\/|\/\\|\\)/i);
    }
  });
  it("show the licences of what the page is made of", async () => {
    const port = await started({});
    const told = await (await fetch(`http://127.0.0.1:${port}/licences`)).text();
    expect(told).toContain("GPL-3.0-or-later");
    for (const name of ["preact", "assemblyscript"])
      expect(told).toMatch(new RegExp(`^${name} [\\d.]+ \\(`, "m"));
  });
});

describe("files that were made", () => {
  const parent = join(folder, "made");
  mkdirSync(parent);
  const page = (content: string) => ({ name: "page.html", type: "text/html", content });
  const kept = () => readdirSync(parent).flatMap((name) => readdirSync(join(parent, name)));

  it("are kept on the disk, the newest within the limit, and removed at the end", () => {
    const made = new MadeFiles(3, 100, parent);
    for (let n = 0; n < 5; ++n) made.add(page("x".repeat(10)));
    expect(kept()).toHaveLength(3);
    made.add(page("x".repeat(90)));
    expect(kept()).toHaveLength(2);
    expect(() => made.add(page("x".repeat(101)))).toThrow(/more than 100 bytes/);
    made.close();
    expect(readdirSync(parent)).toEqual([]);
  });
  it("of a server that was killed are removed by the next, those of one that runs are not", () => {
    // no process has such a number (Linux: at most 2^22)
    mkdirSync(join(parent, "longside-made-99999999-abc"));
    mkdirSync(join(parent, `longside-made-${process.ppid}-abc`));
    const made = new MadeFiles(3, 100, parent);
    made.add(page("x"));
    expect(existsSync(join(parent, "longside-made-99999999-abc"))).toBe(false);
    expect(existsSync(join(parent, `longside-made-${process.ppid}-abc`))).toBe(true);
    made.close();
  });
});

describe("uploads", () => {
  it("that another server receives are left alone, those of a killed one are removed", () => {
    const place = join(folder, "shared.uploads");
    mkdirSync(place);
    writeFileSync(join(place, `.${process.ppid}-a`), "");
    writeFileSync(join(place, ".99999999-b"), "");
    writeFileSync(join(place, ".own"), "");
    const uploads = new Uploads(place);
    expect(readdirSync(uploads.folder).sort()).toEqual([`.${process.ppid}-a`, ".own"].sort());
  });
  it("that stop arriving are given up", async () => {
    const place = join(folder, "slow.uploads");
    const bytes = new PassThrough();
    bytes.write("[Event");
    await expect(new Uploads(place, 100).take("a.pgn", bytes)).rejects.toThrow(/stopped arriving/);
    expect(readdirSync(place)).toEqual([]);
  });
});
