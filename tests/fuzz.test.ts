// A short run of every campaign of random attempts, and everything that a longer one has found once.

import { copyFileSync, readFileSync } from "node:fs";
import { join } from "node:path";

import { beforeAll, describe, expect, it } from "vitest";

import { gamesFolder } from "../src/places.js";
import { runCampaign } from "./fuzz/campaign.js";
import { CAMPAIGNS, type CampaignName, FINDINGS, startCampaign } from "./fuzz/campaigns.js";
import { indexBundled, temporaryFolder } from "./support.js";

const folder = temporaryFolder();
beforeAll(async () => {
  await indexBundled(join(folder, "games.db"));
  copyFileSync(join(gamesFolder(), "winter-club-cup-2024.pgn"), join(folder, "games.pgn"));
});

const TRIES: Readonly<Record<CampaignName, number>> = {
  questions: 100,
  outlines: 300,
  options: 25,
  files: 2,
  requests: 80,
};

const findings = readFileSync(FINDINGS, "utf8")
  .split("\n")
  .filter((line) => line !== "")
  .map((line) => JSON.parse(line) as { campaign: CampaignName; parts: string[] });

describe.each(CAMPAIGNS)("the campaign of %s", (name) => {
  it("finds nothing new, and nothing that it found before", async () => {
    const { campaign } = await startCampaign(name, folder);
    const tried = { ...campaign, end: undefined };
    expect((await runCampaign(tried, 1, (tries) => tries >= TRIES[name])).findings).toEqual([]);
    for (const { parts } of findings.filter((one) => one.campaign === name))
      expect(await campaign.attempt(parts), JSON.stringify(parts)).toBeUndefined();
    await campaign.end?.();
  });
});
