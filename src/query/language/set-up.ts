// A set-up as the catalogue and a user's own file write it.

export interface SetUp {
  readonly name: string;
  readonly also?: readonly string[];
  /** The material it belongs to; the default target where it is not said. */
  readonly material?: string;
  /** Whose it is: what the defender holds, unless it is a station on the attacker's way to a win. */
  readonly side?: "attacker" | "defender";
  /** Names that need not be said of a position that this one fits. */
  readonly "instead-of"?: readonly string[];
  /** Its members are told apart by the file of the defender's king: they come out differently. */
  readonly "by-file"?: boolean;
  /** Everybody holds it without knowing its name: repertoires count it as known. */
  readonly basic?: boolean;
  readonly means: string;
  readonly picture: string;
  readonly known: string;
  readonly source: string;
  /** Positions that fit; with their verdict by the side to move, where it is claimed. */
  readonly examples: readonly {
    readonly fen: string;
    readonly source: string;
    readonly "attacker-to-move"?: string;
    readonly "defender-to-move"?: string;
  }[];
  readonly "near-misses": readonly { readonly fen: string; readonly because: string }[];
}
