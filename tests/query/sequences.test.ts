// Conditions on the course of an ending, held against regular expressions over a letter for each position: another
// way to say the same, that shares no code. And chunks: answers are the same with and without them.

import { copyFileSync } from "node:fs";
import { join } from "node:path";

import { parseFen } from "chessops/fen";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { Connection } from "../../src/store/connection.js";
import { openForReading, openForWriting } from "../../src/store/database.js";
import { indexGames } from "../../src/indexing/run.js";
import { GEOMETRY } from "../../src/geometry/facts.js";
import { POSITION_COLUMNS } from "../../src/endings/position-columns.js";
import { SCHEMA_VERSION } from "../../src/store/schema.js";
import { loosenSource } from "../../src/store/chunk-writing.js";
import { columnStoreOf } from "../../src/store/column-store.js";
import { findFiles } from "../../src/pgn/files/find.js";
import { cacheFolder, gamesFolder } from "../../src/places.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { Answers } from "../../src/query/engine/find.js";
import { EndingReader } from "../../src/query/engine/rows.js";
import { TARGET, indexBundled, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const path = join(folder, "games.db");
let db: Connection;
beforeAll(async () => {
  await indexBundled(path);
  db = openForReading(path);
});
afterAll(() => db.close());

const parse = (text: string) => parseQuestion(text, standardCatalogue().known);
const ids = (on: Connection, text: string) =>
  [...new Answers(on, parse(text), { order: "file" }).endings()].map(({ id }) => id);
const positions = (text: string) =>
  new Set([...new Answers(db, parse(text)).positions()].map(({ id, ply }) => `${id} ${ply}`));

/** Endings whose letters, one a position, match: the letter of the first condition met there, else "-". */
function matching(letters: Record<string, string>, pattern: RegExp): number[] {
  const masks = Object.entries(letters).map(([letter, text]) => [letter, positions(text)] as const);
  const reader = new EndingReader(db, TARGET);
  return [...columnStoreOf(db).ids].filter((id) => {
    const plies = reader.read(id)!.positions();
    const word = plies
      .map(({ ply }) => masks.find(([, mask]) => mask.has(`${id} ${ply}`))?.[0] ?? "-")
      .join("");
    return pattern.test(word);
  });
}

describe("the course of an ending", () => {
  // seen from two equal edges a position may be both: the letters below must exclude each other
  const A = "second-rank defence and not (rook-rank >= 4)";
  const B = "rook-rank >= 4 and not second-rank defence";
  it.each([
    [`(${A}) then (${B})`, { a: A, b: B }, /a.*b/],
    [`(${A}) then within 1 move (${B})`, { a: A, b: B }, /a.?b/],
    [`(${A}) then within 4 moves (${B})`, { a: A, b: B }, /a.{0,7}b/],
    [`(${A}) then within 3 moves (${B}) then within 3 moves (${A})`, { a: A, b: B }, /a.{0,5}b.{0,5}a/],
    [`(${A}) then (${B}) then within 2 moves (${A})`, { a: A, b: B }, /a.*b.{0,3}a/],
    [`left (${A})`, { a: A }, /a[^a]/],
    [`count (${A}) >= 3`, { a: A }, /(?:a.*){3}/],
    [`stays (${A}) >= 2`, { a: A, t: "to-move = attacker" }, /a.(?:t.)*?t.t.(?:t.)*?a/],
    [`count (${A}) = 2`, { a: A }, /^[^a]*a[^a]*a[^a]*$/],
    [`streak (${A}) >= 3`, { a: A }, /a.a.a/],
    ["streak (kind = check) > 3", { c: "kind = check" }, /c.c.c.c/],
    ["count (error != none) < 2", { e: "error != none" }, /^[^e]*(?:e[^e]*)?$/],
    ["first (error != none) within 5 moves of entry", { e: "error != none" }, /^[^e]{0,10}e/],
    ["entry (king on edge)", { k: "king on edge" }, /^k/],
    ["end (king on edge)", { k: "king on edge" }, /k$/],
    ["throughout (king on edge)", { k: "king on edge" }, /^k*$/],
  ] as const)("%s", (text, letters, pattern) => {
    const wanted = matching(letters, pattern);
    expect(ids(db, text)).toEqual(wanted);
    expect(wanted.length).toBeGreaterThan(0);
    expect(wanted.length).toBeLessThan(columnStoreOf(db).endings);
  });

  it("a side's first mistake is the first of its turns that gave something away", () => {
    for (const [turn, parity] of [
      ["attacker", "x"],
      ["defender", "y"],
    ]) {
      const mistakes = { [parity]: `to-move = ${turn} and error != none` };
      const first = positions(`to-move = ${turn} and own-first-mistake`);
      const reader = new EndingReader(db, TARGET);
      const wanted = [...columnStoreOf(db).ids].flatMap((id) => {
        const all = positions(mistakes[parity]);
        const at = reader
          .read(id)!
          .positions()
          .find(({ ply }) => all.has(`${id} ${ply}`));
        return at ? [`${id} ${at.ply}`] : [];
      });
      expect([...first].sort()).toEqual(wanted.sort());
      expect(wanted.length).toBeGreaterThan(0);
    }
  });

  it("the bishop's squares are those of the board: a1 is dark", () => {
    const light = positions("bishop-squares = light");
    const reader = new EndingReader(db, TARGET);
    for (const id of columnStoreOf(db).ids)
      for (const { ply, fen } of reader.read(id)!.positions()) {
        const { board } = parseFen(fen).unwrap();
        const bishop = board.bishop.first()!;
        expect(light.has(`${id} ${ply}`), fen).toBe(((bishop >> 3) + (bishop & 7)) % 2 === 1);
      }
  });

  it("a stay is looked at after each of the defender's moves, and one look may miss it", () => {
    const mask = positions(A);
    const attacker = positions("to-move = attacker");
    const reader = new EndingReader(db, TARGET);
    for (const moves of [3, 5, 8]) {
      const wanted = [...columnStoreOf(db).ids].filter((id) => {
        const looks = reader
          .read(id)!
          .positions()
          .filter(({ ply }) => attacker.has(`${id} ${ply}`))
          .map(({ ply }) => (mask.has(`${id} ${ply}`) ? "a" : "-"))
          .join("");
        return [...looks.matchAll(/a(?:-?a)*/g)].some(([stay]) => stay.length - 1 >= moves);
      });
      expect(ids(db, `held (${A}) for ${moves} moves`)).toEqual(wanted);
      expect(wanted.length).toBeGreaterThan(0);
    }
  });

  it("left by, reached by: the move is asked about in the position before it", () => {
    const mask = positions(A);
    const rook = positions("kind = rook");
    const reader = new EndingReader(db, TARGET);
    for (const [how, before] of [
      ["left", true],
      ["reached", false],
    ] as const) {
      const wanted = [...columnStoreOf(db).ids].filter((id) =>
        reader
          .read(id)!
          .positions()
          .some(
            ({ ply }, n, all) =>
              n + 1 < all.length &&
              mask.has(`${id} ${ply}`) === before &&
              mask.has(`${id} ${ply + 1}`) !== before &&
              rook.has(`${id} ${ply}`),
          ),
      );
      expect(ids(db, `${how} (${A}) by (kind = rook)`)).toEqual(wanted);
      expect(wanted.length).toBeGreaterThan(0);
    }
  });

  it("the plies shown are where it happens", () => {
    for (const ending of new Answers(db, parse(`(${A}) then within 4 moves (${B})`)).endings()) {
      const [from, to] = ending.shows;
      expect(to - from).toBeGreaterThan(0);
      expect(to - from).toBeLessThanOrEqual(8);
      expect(ending.look.ply).toBe(from);
    }
    for (const ending of new Answers(db, parse(`held (${A}) for 5 moves`)).endings())
      expect(ending.shows[1] - ending.shows[0]).toBeGreaterThanOrEqual(10);
  });

  it("a waiting move changes neither the verdict nor any set-up", () => {
    const setUps = standardCatalogue().setUps.map(({ name }) => positions(`"${name}"`));
    const waiting = positions("waiting-move");
    const played = positions("error = none");
    const every = positions("");
    const active = positions(
      "kind = capture or kind = check or kind = attack or kind = block or kind = mate block or kind = pin",
    );
    let some = 0;
    for (const key of played) {
      const [id, ply] = key.split(" ");
      const next = `${id} ${Number(ply) + 1}`;
      // the last move leads out of the ending
      if (!every.has(next)) {
        expect(waiting.has(key)).toBe(false);
        continue;
      }
      const same = !active.has(key) && setUps.every((mask) => mask.has(key) === mask.has(next));
      expect(waiting.has(key), key).toBe(same);
      if (same) ++some;
    }
    expect(some).toBeGreaterThan(0);
    expect(some).toBeLessThan(played.size);
  });
});

describe("likeness in a database", () => {
  it("finds the position itself first, then the nearest, whatever side of the board", () => {
    const [, , third] = [...new Answers(db, parse("king on edge")).positions(3)];
    const [board, turn] = third.fen.split(" ");
    const mirrored = `${board
      .split("/")
      .map((row) => [...row].reverse().join(""))
      .join("/")} ${turn}`;
    for (const fen of [`${board} ${turn}`, mirrored]) {
      const found = [...new Answers(db, parse(`like "${fen}" within 9`)).positions()];
      expect(found[0].like).toEqual({ steps: 0, differs: [], relations: [] });
      expect(found.map(({ like }) => like!.steps)).toEqual(
        found.map(({ like }) => like!.steps).sort((a, b) => a - b),
      );
      expect(
        found.some(({ id, ply, like }) => id === third.id && ply === third.ply && like!.steps === 0),
      ).toBe(true);
      expect(found.at(-1)!.like!.differs.length).toBeGreaterThan(0);
      found.forEach(({ like }, n) => {
        const before = found[n - 1]?.like;
        if (before?.steps === like!.steps)
          expect(before.relations.length).toBeLessThanOrEqual(like!.relations.length);
      });
      const endings = [...new Answers(db, parse(`like "${fen}" within 9`)).endings()];
      expect(new Set(endings.map(({ id }) => id))).toEqual(new Set(found.map(({ id }) => id)));
    }
  });

  it("of another material is refused", () => {
    expect(() => [...new Answers(db, parse("like 8/8/8/8/8/k7/8/K6R w")).endings()]).toThrow(/R v K/);
  });
});

describe("chunks", () => {
  it("give the same columns as loose positions, and are made again when endings go", async () => {
    const bare = join(folder, "bare.db");
    copyFileSync(path, bare);
    const other = new Connection(bare);
    for (const source of other.prepare("SELECT id FROM sources").pluck().all() as number[])
      loosenSource(other, source);
    expect(other.prepare("SELECT count(*) FROM chunks").pluck().get()).toBe(0);
    const [loose, packed] = [columnStoreOf(other), columnStoreOf(db)];
    for (const { name } of POSITION_COLUMNS)
      expect(loose.column(name).values, name).toEqual(packed.column(name).values);
    expect(loose.twoEdges()).toEqual(packed.twoEdges());
    expect(loose.twoEdges().length).toBeGreaterThan(100);
    for (const [n, { name }] of GEOMETRY.entries())
      expect(loose.fromOtherEdge(n), name).toEqual(packed.fromOtherEdge(n));
    expect(ids(other, "second-rank defence")).toEqual(ids(db, "second-rank defence"));
    other.close();
    // a run gathers them, also after a file has gone
    const writing = openForWriting(bare, TARGET);
    const files = await findFiles([gamesFolder()]);
    await indexGames(writing, bare, files, { target: TARGET, folder: cacheFolder(), threads: 2 });
    const sum = () => writing.prepare("SELECT sum(positions) FROM chunks").pluck().get();
    expect(sum()).toBe(columnStoreOf(db).positions);
    const gone = writing.prepare("SELECT path FROM sources LIMIT 1").pluck().get() as string;
    writing
      .prepare("UPDATE sources SET path = '/gone.pgn', name = 'gone.pgn', hash = 'x' WHERE path = ?")
      .run(gone);
    const rest = {
      files: files.files.filter((file) => file.path !== gone),
      unreadable: [],
      paths: ["/gone.pgn"],
    };
    await indexGames(writing, bare, rest, {
      target: TARGET,
      folder: cacheFolder(),
      threads: 2,
      dropMissing: true,
    });
    expect(sum()).toBe(columnStoreOf(writing).positions);
    expect(columnStoreOf(writing).positions).toBeLessThan(columnStoreOf(db).positions);
    for (const name of ["placement", "dtm", "rook-side"])
      expect(columnStoreOf(writing).column(name).values.length).toBe(columnStoreOf(writing).positions);
    writing.close();
  });

  it("have the columns of this schema: whoever changes them raises SCHEMA_VERSION", () => {
    const layout = POSITION_COLUMNS.map(({ name, width }) => `${name} ${width}`).join(", ");
    expect([SCHEMA_VERSION, layout]).toMatchSnapshot();
  });
});
