// A set-up as the catalogue and a user's own file write it.

export interface SetUp {
  readonly name: string;
  readonly also?: readonly string[];
  /** The material it belongs to; the default target where it is not said. */
  readonly material?: string;
  readonly means: string;
  readonly picture: string;
  readonly known: string;
  readonly source: string;
  readonly examples: readonly { readonly fen: string; readonly source: string }[];
  readonly "near-misses": readonly { readonly fen: string; readonly because: string }[];
}
