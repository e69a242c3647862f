// The tag section of one game.

import { type Encoding, UTF8 } from "../files/encoding.js";

/** Tag values by name, in the order of the file; the first of a repeated tag counts. */
export type Tags = ReadonlyMap<string, string>;

const PAIR = /\[\s*([A-Za-z]\w*)\s*"(.*?)(?:"\s*\]|$)/gm;

/** Reads the tag pairs in `bytes` (a tag section). Unescaped quotes inside a value are kept. */
export function readTags(bytes: Uint8Array, encoding: Encoding = UTF8): Tags {
  const tags = new Map<string, string>();
  for (const [, name, value] of encoding.decode(bytes).matchAll(PAIR)) {
    if (!tags.has(name))
      tags.set(
        name,
        value
          .replace(/\\(["\\])/g, "$1")
          // control characters are part of no name, and could steer a terminal
          .replace(/\0/g, "")
          .replace(/[\u0001-\u001f\u007f]/g, " ")
          .trim(),
      );
  }
  return tags;
}

/** A tag's value, with what the PGN standard writes for "unknown" taken as absent. */
export function tagValue(tags: Tags, name: string): string | undefined {
  const value = tags.get(name);
  return value === undefined || value === "" || /^[?-]$/.test(value) ? undefined : value;
}

/** A rating tag as a number, 1 to 4,999; undefined when absent or something else. */
export function ratingOf(tags: Tags, name: "WhiteElo" | "BlackElo"): number | undefined {
  const rating = Number.parseInt(tags.get(name) ?? "", 10);
  return rating > 0 && rating < 5000 ? rating : undefined;
}

/** The year of the Date (or EventDate, or UTCDate) tag, four digits. */
export function yearOf(tags: Tags): number | undefined {
  for (const name of ["Date", "UTCDate", "EventDate"]) {
    const year = /^(\d{4})(?!\d)/.exec(tags.get(name) ?? "")?.[1];
    if (year !== undefined && Number(year) > 0) return Number(year);
  }
  return undefined;
}

export type VariantKind = "usual" | "fischer-random" | "other";

/** What the value of the Variant tag, or its absence, says is being played. */
export function variantOf(value: string | undefined): VariantKind {
  const variant = (value ?? "").toLowerCase().replace(/[^a-z0-9]/g, "");
  if (/^(|standard|normal|chess|classical|fromposition|regular|orthodox)$/.test(variant)) return "usual";
  if (/^(chess960|fischerandom|fischerrandom|fischerrandomchess|frc|960)$/.test(variant))
    return "fischer-random";
  return "other";
}
