// Writing positions as EPD (S. J. Edwards, PGN Specification and Implementation Guide, 1994, section 16.2).

import { fenFields } from "../../chess/fen-text.js";
import { plainLine } from "../../plain-text.js";

/** An operation: its opcode, and operands that are moves, numbers or texts. */
export interface Operation {
  readonly opcode: string;
  /** Moves in SAN and numbers stand bare; a text in quotes. */
  readonly operands: readonly (string | number)[];
  readonly text?: true;
}

/** A text operand may hold neither a quote nor a line's end. */
const quoted = (value: string | number) =>
  `"${plainLine(String(value)).replaceAll('"', "'").replace(/\s+/g, " ")}"`;

/** One line: the first four fields of a FEN, and the operations by opcode. */
export function epdLine(fen: string, operations: readonly Operation[]): string {
  const { board, turn, castling, enPassant } = fenFields(fen);
  const fields = `${board} ${turn[0]} ${castling} ${enPassant}`;
  const written = operations
    .filter(({ operands }) => operands.length > 0)
    .sort((a, b) => (a.opcode < b.opcode ? -1 : 1))
    .map(({ opcode, operands, text }) => `${opcode} ${operands.map(text ? quoted : String).join(" ")};`);
  return [fields, ...written].join(" ");
}
