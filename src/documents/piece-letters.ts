// Letters of the pieces in moves: those of six languages (PGN Specification and Implementation Guide, 1994, 8.2.3.2: the
// table of piece letters) and figurines.

/** King, queen, rook, bishop, knight. */
export const PIECE_LETTERS = {
  english: "KQRBN",
  german: "KDTLS",
  french: "RDTFC",
  spanish: "RDTAC",
  italian: "RDTAC",
  dutch: "KDTLP",
  figurines: "♔♕♖♗♘",
} as const;
export type PieceLetters = keyof typeof PIECE_LETTERS;

/** The piece's letter in a move in SAN: what follows tells it from the beginning of a word. */
const MOVE = /(?<![A-Za-z])[KQRBN](?=[a-h]?[1-8]?x?[a-h][1-8](?![A-Za-z0-9]))/g;

/** A page with the letters of its moves exchanged; tags stay as they are. */
export function withLetters(html: string, letters: PieceLetters): string {
  const [from, to] = [PIECE_LETTERS.english, [...PIECE_LETTERS[letters]]];
  return html.replace(
    /(<style>[\s\S]*?<\/style>|<code>[\s\S]*?<\/code>|<[^>]*>)|([^<]+)/g,
    (all, tag, text: string) => (tag ? all : text.replace(MOVE, (letter) => to[from.indexOf(letter)])),
  );
}
