// Questions on their way to another thread: facts go by their names, since what a fact is stands in the vocabulary.

import { type Fact, factNamed } from "../language/vocabulary.js";

interface NamedFact {
  readonly factNamed: string;
}

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" &&
  value !== null &&
  [Object.prototype, null].includes(Object.getPrototypeOf(value) as object | null);

/** A value made of arrays and plain objects, each part changed; anything else stays what it is. */
function changed(value: unknown, change: (part: Record<string, unknown>) => unknown): unknown {
  if (Array.isArray(value)) return value.map((part) => changed(part, change));
  if (!isObject(value)) return value;
  const other = change(value);
  if (other !== undefined) return other;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, changed(part, change)]));
}

/** A value with names in the place of the vocabulary's facts in it, so that it can be sent. */
export const namedFacts = (value: unknown): unknown =>
  changed(value, (part) => {
    const { name } = part;
    if (typeof name !== "string" || (factNamed(name) as unknown) !== part) return undefined;
    return { factNamed: name } satisfies NamedFact;
  });

/** What `namedFacts` was given. */
export const factsByName = (value: unknown): unknown =>
  changed(value, (part): Fact | undefined =>
    typeof part.factNamed === "string" ? factNamed(part.factNamed) : undefined,
  );
