// A server that is sent odd calls, and bytes that are no calls at all.

import { connect } from "node:net";

import { CALLS } from "../../src/server/api.js";
import { PLACES } from "../../src/server/page-files.js";
import { type ServerOptions, serve } from "../../src/server/server.js";
import { type Campaign, type Chance, ODD, isErrorCode } from "./campaign.js";

const FEN = "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1";
/** Fields that calls take, with values that fit. */
const FIELDS: Readonly<Record<string, readonly unknown[]>> = {
  question: ["Szén", "defender held", "reached (", ""],
  each: ["ending", "position"],
  from: [0, 1],
  size: [1, 5],
  by: [["year"], []],
  id: [1, 2, 999999],
  fen: [FEN],
  piece: ["rook", "e2"],
  below: ["white"],
  as: ["svg", "png"],
  setUp: ["szen"],
  start: [FEN],
  moves: [[], ["f7f8"], ["a1a1"]],
  seed: [1],
  opponent: ["best"],
  title: ["T"],
  items: [[{ fen: FEN }], [{ ending: 1, ply: 100 }]],
  path: ["/", "."],
  outline: ["# a\n\n```board\nfen: x\n```\n"],
};
/** Calls that read games, build tables or take long are asked by other tests. */
const LEFT_OUT: readonly string[] = ["index", "tables", "exercises", "practise", "lesson", "sheet"];

const oddly = (chance: Chance, text: string): string => {
  const cut = chance.below(text.length + 1);
  return chance.once(2) ? text.slice(0, cut) + chance.of(ODD) + text.slice(cut) : text.slice(0, cut);
};

/** Sends bytes and gives what comes back until the other side closes, or is silent for two seconds. */
const exchange = (port: number, bytes: string): Promise<string> =>
  new Promise((done) => {
    let said = "";
    const socket = connect(port, "127.0.0.1", () => socket.end(bytes));
    socket.setTimeout(20_000, () => socket.destroy());
    socket.on("data", (data: Buffer) => (said += data.toString("latin1")));
    socket.on("error", () => {});
    socket.on("close", () => done(said));
  });

export async function requestsCampaign(options: ServerOptions): Promise<Campaign> {
  const server = await serve(options);
  const { port, host } = new URL(server.address);
  const calls = Object.keys(CALLS).filter((name) => !LEFT_OUT.includes(name));
  return {
    name: "requests",
    make(chance) {
      const call = chance.of(calls);
      const body = Object.fromEntries(
        Object.keys(CALLS[call as "ask"].takes.properties).map((field) => {
          const fitting = FIELDS[field] ?? ODD;
          return [field, chance.once(5) ? chance.of([...ODD, ODD, {}, null, -1, 1e300]) : chance.of(fitting)];
        }),
      );
      let text = JSON.stringify(body);
      if (chance.once(8)) text = oddly(chance, text);
      const place = chance.of([...PLACES, "/events", "/made/x", "//example.org/", "/%2e%2e/x", "/licences"]);
      const lines = [
        chance.once(5)
          ? `GET ${place}${chance.once(3) ? oddly(chance, "?page=1&token=x") : ""} HTTP/1.1`
          : `POST /api/${call} HTTP/1.1`,
        `Host: ${host}`,
        "Connection: close",
        "Content-Type: application/json",
        `Content-Length: ${Buffer.byteLength(text)}`,
        "",
        text,
      ];
      if (chance.once(4)) {
        const at = chance.below(lines.length);
        lines[at] = oddly(chance, lines[at]);
      }
      if (lines[0].includes("/events")) lines[0] = "GET /events HTTP/9.9";
      return lines;
    },
    async attempt(parts) {
      const said = await exchange(Number(port), parts.join("\r\n"));
      const status = Number(/^HTTP\/1\.1 (\d+)/.exec(said)?.[1] ?? 0);
      // what is cut short may be left without an answer
      if (status === 0) return said === "" ? undefined : `it answers ${said.slice(0, 200)}`;
      if (status >= 500 && status !== 503 && status !== 505) return `it answers ${said.slice(0, 600)}`;
      if (status >= 300 && status < 400) return `it leads elsewhere: ${said.slice(0, 300)}`;
      if (!/content-security-policy|^HTTP\/1\.1 (?:400|408|431)/i.test(said)) return "there is no policy";
      if (status === 400 || status === 403 || status === 404) {
        const code = /"error":\{"code":"([\w-]+)"/.exec(said)?.[1];
        if (said.includes("application/json") && !isErrorCode(code))
          return `its error is ${said.slice(-300)}`;
      }
      return undefined;
    },
    end: () => server.close(),
  };
}
