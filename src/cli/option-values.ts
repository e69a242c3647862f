// Reading the values of options; each throws what is wrong as a plain message.

import { THEMES, type Theme } from "../exercises/themes/theme.js";
import { EXCLUSIONS, type Exclusion } from "../store/exclusions.js";

/** Reads a whole number in limits. */
export const whole =
  (least: number, most = Infinity) =>
  (text: string) => {
    const value = Number(text);
    if (!Number.isInteger(value) || value < least || value > most)
      throw new Error(
        `${text} is not a whole number from ${least} ${most === Infinity ? "up" : `to ${most}`}`,
      );
    return value;
  };
/** Reads one of several parts, as in "3/8". */
export function readPart(text: string): { readonly part: number; readonly of: number } {
  const [part, of] = /^(\d{1,4})\/(\d{1,4})$/.exec(text)?.slice(1).map(Number) ?? [0, 0];
  if (part < 1 || part > of) throw new Error(`${text} is no part of a whole; write it like 3/8`);
  return { part, of };
}
/** Reads one of some words. */
export const oneOf =
  <T extends string>(...choices: T[]) =>
  (text: string): T => {
    if (!(choices as string[]).includes(text)) throw new Error(`${text} is not one of ${choices.join(", ")}`);
    return text as T;
  };

/** Reads "duplicates,passing" or "nothing". */
export function readLeaveOut(text: string): Exclusion[] {
  if (text.trim() === "nothing") return [];
  return text.split(",").map((word) => oneOf(...EXCLUSIONS.map(({ name }) => name))(word.trim()));
}

/** Reads "skewer, only check". */
export function readThemes(text: string): Theme[] {
  return text.split(",").map((word) => oneOf(...THEMES.map(({ name }) => name))(word.trim().toLowerCase()));
}

/** A token goes into addresses and cookies as it is, and must be hard to guess. */
export function readToken(text: string): string {
  if (!/^[\w.~-]{8,200}$/.test(text)) throw new Error("a token is eight letters, digits or . _ ~ - at least");
  return text;
}
