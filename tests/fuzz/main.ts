// `npm run fuzz -- [--minutes 10] [--seed 1] [CAMPAIGN…]`: random attempts of every kind, in turn, and what they found.
// A finding is written to the file of findings, smallest form first, and is tried again by every run of the tests.

import { appendFileSync, copyFileSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";

import { gamesFolder } from "../../src/places.js";
import { runCampaign } from "./campaign.js";
import { CAMPAIGNS, FINDINGS, startCampaign } from "./campaigns.js";
import { indexBundled } from "../bundled.js";

const { values, positionals } = parseArgs({
  options: { minutes: { type: "string", default: "10" }, seed: { type: "string", default: "1" } },
  allowPositionals: true,
});
const names = CAMPAIGNS.filter((name) => positionals.length === 0 || positionals.includes(name));
const folder = mkdtempSync(join(tmpdir(), "longside-fuzz-"));
await indexBundled(join(folder, "games.db"));
copyFileSync(
  join(
    gamesFolder(),
    readdirSync(gamesFolder()).find((name) => name.endsWith(".pgn"))!,
  ),
  join(folder, "games.pgn"),
);
const say = (text: string) => process.stdout.write(`${text}\n`);
let found = 0;
for (const name of names) {
  const { campaign, report } = await startCampaign(name, folder);
  const end = Date.now() + (60_000 * Number(values.minutes)) / names.length;
  const { tries, findings } = await runCampaign(campaign, Number(values.seed), () => Date.now() > end);
  say(`${name}: ${tries.toLocaleString("en")} tries, ${findings.length} faults${report()}`);
  for (const one of findings) {
    say(`  ${one.fault}\n  ${JSON.stringify(one.parts)}`);
    appendFileSync(FINDINGS, `${JSON.stringify({ campaign: one.campaign, parts: one.parts })}\n`);
  }
  found += findings.length;
}
rmSync(folder, { recursive: true, force: true });
// a campaign may leave threads that nobody waits for
process.exit(found === 0 ? 0 : 1);
