// A threat in the words of a lesson.

import type { Explanation } from "../../position/explain.js";
import { listed } from "./sentences.js";

/** "threatens mate with Rd8"; null where nothing is threatened. */
export function threatInWords(threat: Explanation["threat"]): string | null {
  if (!threat) return null;
  if ("mates" in threat) return `threatens mate with ${listed(threat.mates.map(bare).slice(0, 2), "or")}`;
  return `threatens to win the ${threat.wins} with ${listed(threat.by.slice(0, 2), "or")}`;
}

const bare = (san: string) => san.replace("#", "");
