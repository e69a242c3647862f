// Why a game, or what stands between games, could not be read.

export const FAULTS = {
  "other-variant": "another variant",
  "bad-start": "its FEN is not a legal position",
  "illegal-move": "a move that is not legal",
  "null-move": "a null move",
  unclosed: "a comment or side line that never closes",
  "too-many-moves": "more moves than a game can have",
  "too-long": "more bytes than a game may have",
  "two-encodings": "text of two bytes a letter (UTF-16) in a file of one",
  "no-game": "text that is in no game",
} as const;
export type Fault = keyof typeof FAULTS;
