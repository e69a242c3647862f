// Numbers with their unit in the type. The brands cost nothing and stop one unit from being passed for another.

type Unit<Name extends string> = number & { readonly unit?: Name };

/** Half-moves played before a position; 0 is the start of the game. */
export type Ply = Unit<"ply">;
/** Moves of the winning side, as distances to mate and to conversion count them. */
export type Moves = Unit<"moves">;
/** Bytes from the start of a file. */
export type ByteOffset = Unit<"byte">;
/** A square, a1 = 0, b1 = 1 … h8 = 63. */
export type Square = Unit<"square">;
