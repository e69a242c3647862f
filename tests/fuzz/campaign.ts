// What every campaign of random attempts shares: attempts in parts, which make a finding small; odd values; the judgement
// of what the program said.

import { randomNumbers } from "../../src/chess/random.js";
import { ERRORS } from "../../src/errors.js";

/** A source of chance with the choices that campaigns make. */
export class Chance {
  private readonly next: () => number;

  constructor(seed: number) {
    this.next = randomNumbers(seed);
  }

  /** A whole number from 0 to `below` - 1. */
  below(below: number): number {
    return Math.floor(this.next() * below);
  }
  of<T>(choices: readonly T[]): T {
    return choices[this.below(choices.length)];
  }
  /** Whether something happens that happens once in so many times. */
  once(times: number): boolean {
    return this.below(times) === 0;
  }
}

/** One kind of attack. What is tried is a list of parts, so that it can be made smaller. */
export interface Campaign {
  readonly name: string;
  /** Makes up something to try. */
  make(chance: Chance): string[];
  /** Tries it; says what is wrong with the answer, or nothing. */
  attempt(parts: readonly string[]): Promise<string | undefined>;
  end?(): Promise<void>;
}

/** A fault, and the least that brings it about. */
export interface Finding {
  readonly campaign: string;
  readonly parts: readonly string[];
  readonly fault: string;
}

/** What a user must never read, or a terminal be sent. */
const SIGNS_OF_A_FAULT =
  /^\s+at .+:\d+:\d+|Cannot (?:read|destructure|set|convert)|is not (?:a function|iterable|defined)|undefined|\bNaN\b|\[object Object\]|something went wrong|[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/m;

/** What is wrong with something that the program said; nothing where it is as it should be. */
export function faultIn(said: string): string | undefined {
  const found = SIGNS_OF_A_FAULT.exec(said);
  return found
    ? `it says ${JSON.stringify(said.slice(Math.max(0, found.index - 200), found.index + 200))}`
    : undefined;
}

export const isErrorCode = (code: unknown): boolean =>
  typeof code === "string" && Object.hasOwn(ERRORS, code) && code !== "unexpected";

/** Leaves out parts as long as something is wrong without them. */
export async function smaller(campaign: Campaign, parts: readonly string[], tries = 200): Promise<string[]> {
  let least = [...parts];
  for (let size = Math.ceil(least.length / 2); size >= 1; size = size === 1 ? 0 : Math.ceil(size / 2)) {
    for (let at = 0; at < least.length && tries > 0;) {
      const without = [...least.slice(0, at), ...least.slice(at + size)];
      --tries;
      if (without.length > 0 && (await campaign.attempt(without)) !== undefined) least = without;
      else at += size;
    }
  }
  return least;
}

export interface Outcome {
  readonly tries: number;
  readonly findings: readonly Finding[];
}

/** Tries until `until` says that it is enough; one finding of each kind is kept. */
export async function runCampaign(
  campaign: Campaign,
  seed: number,
  until: (tries: number) => boolean,
): Promise<Outcome> {
  const chance = new Chance(seed);
  const findings = new Map<string, Finding>();
  let tries = 0;
  try {
    for (; !until(tries); ++tries) {
      const parts = campaign.make(chance);
      const fault = await campaign.attempt(parts);
      if (fault === undefined) continue;
      const kind = fault.replace(/\d+/g, "0").slice(0, 60);
      if (findings.has(kind)) continue;
      const least = await smaller(campaign, parts);
      findings.set(kind, { campaign: campaign.name, parts: least, fault });
    }
  } finally {
    await campaign.end?.();
  }
  return { tries, findings: [...findings.values()] };
}

/** Values that programs stumble over. */
export const ODD = [
  "",
  " ",
  "0",
  "-1",
  "1e9",
  "1.5",
  "NaN",
  "Infinity",
  "99999999999999999999",
  "0x10",
  "null",
  "undefined",
  "__proto__",
  "constructor",
  "toString",
  "true",
  "[]",
  "{}",
  "'",
  '"',
  "\\",
  "%00",
  "a\u0000b",
  "\u001b[31mred",
  "\u009b2J",
  "\u202eabc",
  "\u2066x",
  "\ud800",
  "é".repeat(300),
  "x".repeat(5000),
  "<script>alert(1)</script>",
  "=1+1",
  "a,b,,c",
  "../../etc/passwd",
  "--",
  "--db",
  "名前",
  "\n",
  "\r\n\r\n",
  "\t",
  ".",
  ":memory:",
];
