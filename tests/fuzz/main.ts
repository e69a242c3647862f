// `npm run fuzz -- [--minutes 10] [--seed 1] [CAMPAIGN…]`: random attempts of every kind, in turn, and what they found.
// A finding is written to the file of findings, smallest form first, and is tried again by every run of the tests. Each
// campaign runs in a process of its own, so that an attempt that ends it is a finding too.

import { spawnSync } from "node:child_process";
import {
  appendFileSync,
  closeSync,
  copyFileSync,
  ftruncateSync,
  mkdtempSync,
  openSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";

import { gamesFolder } from "../../src/places.js";
import { runCampaign } from "./campaign.js";
import { CAMPAIGNS, type CampaignName, FINDINGS, startCampaign } from "./campaigns.js";
import { indexBundled } from "../bundled.js";

const { values, positionals } = parseArgs({
  options: {
    minutes: { type: "string", default: "10" },
    seed: { type: "string", default: "1" },
    folder: { type: "string" },
  },
  allowPositionals: true,
});
const say = (text: string) => process.stdout.write(`${text}\n`);
const keep = (campaign: string, parts: unknown) =>
  appendFileSync(FINDINGS, `${JSON.stringify({ campaign, parts })}\n`);
/** Holds what is being tried. */
const attemptFile = (folder: string) => join(folder, "attempt.json");

/** Runs one campaign to its end; gives the number of findings. */
async function runOne(name: CampaignName, folder: string): Promise<number> {
  const { campaign, report } = await startCampaign(name, folder);
  const end = Date.now() + 60_000 * Number(values.minutes);
  const file = openSync(attemptFile(folder), "w");
  const noted = {
    ...campaign,
    make: campaign.make.bind(campaign),
    attempt(parts: readonly string[]) {
      ftruncateSync(file);
      writeSync(file, JSON.stringify(parts), 0);
      return campaign.attempt(parts);
    },
  };
  const { tries, findings } = await runCampaign(noted, Number(values.seed), () => Date.now() > end);
  closeSync(file);
  say(`${name}: ${tries.toLocaleString("en")} tries, ${findings.length} faults${report()}`);
  for (const one of findings) {
    say(`  ${one.fault}\n  ${JSON.stringify(one.parts)}`);
    keep(one.campaign, one.parts);
  }
  return findings.length;
}

/** Runs campaigns one after another, each in a process; whether all found nothing. */
async function runAll(names: readonly CampaignName[]): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), "longside-fuzz-"));
  await indexBundled(join(folder, "games.db"));
  const bundled = readdirSync(gamesFolder()).find((name) => name.endsWith(".pgn"))!;
  copyFileSync(join(gamesFolder(), bundled), join(folder, "games.pgn"));
  let sound = true;
  for (const name of names) {
    const minutes = String(Number(values.minutes) / names.length);
    const words = [name, "--folder", folder, "--minutes", minutes, "--seed", values.seed];
    const { status, signal } = spawnSync(process.execPath, [fileURLToPath(import.meta.url), ...words], {
      stdio: "inherit",
    });
    if (status === 0) continue;
    sound = false;
    if (status === 1) continue;
    const parts = JSON.parse(readFileSync(attemptFile(folder), "utf8")) as unknown;
    say(`${name}: ended by ${signal ?? `status ${status}`}\n  ${JSON.stringify(parts)}`);
    keep(name, parts);
  }
  rmSync(folder, { recursive: true, force: true });
  return sound;
}

const names = CAMPAIGNS.filter((name) => positionals.length === 0 || positionals.includes(name));
const sound =
  values.folder === undefined ? await runAll(names) : (await runOne(names[0], values.folder)) === 0;
// a campaign may leave threads that nobody waits for
process.exit(sound ? 0 : 1);
