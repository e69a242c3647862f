// The part of damerau-levenshtein that is used here; it comes without types.

declare module "damerau-levenshtein" {
  /** Edits between two texts: letters put in, left out, replaced, or swapped with the next. */
  export default function distance(one: string, other: string): { readonly steps: number };
}
