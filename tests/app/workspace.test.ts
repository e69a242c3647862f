// The use cases that terminal and page share: what is opened, when, and how often; runs that are followed and stopped.

import { copyFileSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { afterAll, describe, expect, it } from "vitest";

import { countAsked } from "../../src/app/count.js";
import { chooseExercises } from "../../src/app/exercises.js";
import { indexInto } from "../../src/app/index-games.js";
import { type Settings, Workspace } from "../../src/app/workspace.js";
import { DEFAULT_TARGET, parseMaterial } from "../../src/chess/material.js";
import { cacheFolder, gamesFolder } from "../../src/places.js";
import { totalsOf } from "../../src/store/totals.js";
import { indexBundled, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const emptyFolder = temporaryFolder();
const settingsFor = (db: string, more: Partial<Settings> = {}): Settings => ({
  db: join(folder, db),
  target: DEFAULT_TARGET,
  setUps: null,
  folder: cacheFolder(),
  threads: 2,
  ...more,
});
const opened: Workspace[] = [];
afterAll(() => opened.forEach((one) => one.close()));
const open = (...args: ConstructorParameters<typeof Workspace>): Workspace => {
  const workspace = new Workspace(...args);
  opened.push(workspace);
  return workspace;
};

describe("a workspace", () => {
  it("does without a database until there is one, and follows another file in its place", async () => {
    const workspace = open(settingsFor("later.db"));
    expect(workspace.dbIfAny()).toBeUndefined();
    expect(() => workspace.db()).toThrow(/no database/);
    expect(workspace.target().name).toBe(parseMaterial(DEFAULT_TARGET).name);
    const path = workspace.settings.db;
    writeFileSync(path, ""); // as a run that begins makes it
    expect(workspace.dbIfAny()).toBeUndefined();
    await indexBundled(path);
    const first = workspace.db();
    expect(workspace.db()).toBe(first);
    copyFileSync(path, `${path}.copy`);
    renameSync(`${path}.copy`, path);
    expect(workspace.db()).not.toBe(first);
    expect(first.open).toBe(false);
  });

  it("opens tables once, and again after they were closed", () => {
    const workspace = open(settingsFor("later.db"));
    const tables = workspace.tables();
    expect(workspace.tables()).toBe(tables);
    workspace.closeTables();
    expect(workspace.tables()).not.toBe(tables);
  });

  it("reads the user's set-ups once, and tells a fault in them before any work", () => {
    const setUps = join(folder, "own.yaml");
    writeFileSync(setUps, "- name: box\n  means: king-rank = 1\n");
    const workspace = open(settingsFor("later.db", { setUps }));
    rmSync(setUps);
    expect(workspace.question("box")).toMatchObject({ kind: "set-up", name: "box" });
    expect(() => new Workspace(settingsFor("later.db", { setUps }))).toThrow(/no file or folder/);
  });

  it("builds missing tables where somebody follows that, and nowhere else", async () => {
    const settings = settingsFor("later.db", { folder: emptyFolder });
    const material = parseMaterial("R v K");
    expect(await open(settings).prepare([material])).toEqual([]);
    expect(readdirSync(emptyFolder)).toEqual([]);
    const told: string[] = [];
    const workspace = open(settings, {
      begin: (materials) => told.push(materials.map(({ name }) => name).join()),
      progress: (done) => expect(done).toBeLessThanOrEqual(1),
      end: (built) => told.push(String(built)),
    });
    const built = await workspace.prepare([material]);
    expect(built.length).toBeGreaterThan(0);
    expect(told).toEqual([material.name, String(built.length)]);
    expect(await workspace.prepare([material])).toEqual([]);
    expect(told).toHaveLength(2);
    expect(workspace.tables(material)).toBeDefined();
  });
});

describe("an index run", () => {
  it("tells how far it has come, and stops when it is told to", async () => {
    const settings = settingsFor("run.db");
    const asked = { paths: [gamesFolder()] };
    const stopped = new AbortController();
    stopped.abort();
    const none = await indexInto(settings, asked, { stopping: stopped, progress: () => {} });
    expect(none).toMatchObject({ stopped: true, read: 0 });
    const told: string[] = [];
    const all = await indexInto(settings, asked, {
      stopping: new AbortController(),
      begin: () => told.push("begin"),
      progress: (done, total) => told.push(done === total ? "all" : "some"),
    });
    expect(all).toMatchObject({ stopped: false, games: 160 });
    expect(told[0]).toBe("begin");
    expect(told.at(-1)).toBe("all");
    expect(totalsOf(open(settings).db()).endings).toBe(143);
  });

  it("finds its paths before anything is written", async () => {
    const settings = settingsFor("never.db");
    const run = indexInto(
      settings,
      { paths: [join(folder, "nowhere")] },
      { stopping: new AbortController(), progress: () => {} },
    );
    await expect(run).rejects.toMatchObject({ code: "no-such-path" });
    expect(readdirSync(folder)).not.toContain("never.db");
  });
});

describe("what is asked", () => {
  it("is counted by the facts that are named, and refused where the unit does not fit them", () => {
    const workspace = open(settingsFor("run.db"));
    const found = countAsked(workspace, { question: "", by: ["outcome"], share: "second-rank defence" });
    expect(found).toMatchObject({ unit: "ending", matching: found.of });
    expect(found.groups.reduce((sum, { of }) => sum + of, 0)).toBe(found.matching);
    expect(countAsked(workspace, { question: "", by: ["verdict"] }).unit).toBe("position");
    expect(() => countAsked(workspace, { question: "", by: ["verdict"], each: "ending" })).toThrow(
      /fact of positions/,
    );
  });

  it("gives exercises out of games only where there are any", async () => {
    const wanted = { task: "hold", among: "games", answers: 1, size: 2, seed: 1 } as const;
    const said: string[] = [];
    const workspace = open(settingsFor("run.db"));
    const question = workspace.question("second-rank defence");
    const chosen = await chooseExercises(workspace, { ...wanted, question }, (one) => said.push(one));
    expect(chosen.exercises).toHaveLength(2);
    expect(chosen.candidates).toBeGreaterThanOrEqual(2);
    expect(said).toEqual(["choosing"]);
    const without = open(settingsFor("none.db"));
    await expect(chooseExercises(without, { ...wanted, question }, () => {})).rejects.toMatchObject({
      code: "no-database",
    });
  });
});
