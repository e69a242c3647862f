// The campaigns by name, and where findings are kept.

import { join } from "node:path";

import { DEFAULT_TARGET } from "../../src/chess/material.js";
import { PACKAGE, cacheFolder, gamesFolder } from "../../src/places.js";
import type { Campaign } from "./campaign.js";
import { filesCampaign } from "./files.js";
import { optionsCampaign } from "./options.js";
import { outlinesCampaign } from "./outlines.js";
import { READING_LIMIT, type Timed, questionsCampaign } from "./questions.js";
import { requestsCampaign } from "./requests.js";

export const CAMPAIGNS = ["questions", "outlines", "options", "files", "requests"] as const;
export type CampaignName = (typeof CAMPAIGNS)[number];

/** What was found once, in its smallest form: JSON Lines of campaign and parts. */
export const FINDINGS = join(PACKAGE, "fixtures", "findings.jsonl");

/** Starts a campaign in a folder that holds games.db and games.pgn; `report` says more of how it went. */
export async function startCampaign(
  name: CampaignName,
  folder: string,
): Promise<{ readonly campaign: Campaign; readonly report: () => string }> {
  const nothing = () => "";
  if (name === "questions") {
    const timed: Timed = { slowest: 0, question: "", over: 0 };
    const report = () =>
      `; slowest ${timed.slowest.toFixed(0)} ms, ${timed.over} above ${READING_LIMIT} ms: ${JSON.stringify(timed.question.slice(0, 200))}`;
    return { campaign: questionsCampaign(timed), report };
  }
  if (name === "outlines") return { campaign: outlinesCampaign(), report: nothing };
  if (name === "options") return { campaign: optionsCampaign(folder), report: nothing };
  if (name === "files") return { campaign: filesCampaign(folder), report: nothing };
  const settings = {
    db: join(folder, "games.db"),
    target: DEFAULT_TARGET,
    setUps: null,
    folder: cacheFolder(),
    threads: 1,
  };
  const options = { host: "127.0.0.1", port: 0, games: [gamesFolder()], settings };
  return { campaign: await requestsCampaign(options), report: nothing };
}
