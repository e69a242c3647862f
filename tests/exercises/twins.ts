// Whether two positions are the same under the symmetries of the board and exchanged colours, by a way of its own: on
// FENs, without the program's placements and frames.

/** The sixteen ways to write a position. */
function formsOf(fen: string): Set<string> {
  const [board, turn] = fen.split(" ");
  const rows = board.split("/").map((row) => [...row.replace(/\d/g, (n) => ".".repeat(Number(n)))]);
  const flip = (all: string[][]) => [...all].reverse();
  const transpose = (all: string[][]) => all[0].map((_, n) => all.map((row) => row[n]));
  const mirror = (all: string[][]) => all.map((row) => [...row].reverse());
  const exchanged = (c: string) => (c === c.toUpperCase() ? c.toLowerCase() : c.toUpperCase());
  const forms = new Set<string>();
  for (const a of [rows, flip(rows)])
    for (const b of [a, mirror(a)])
      for (const c of [b, transpose(b)]) {
        const text = c.map((row) => row.join("")).join("/");
        forms.add(`${text} ${turn}`);
        forms.add(`${[...text].map(exchanged).join("")} ${turn === "w" ? "b" : "w"}`);
      }
  return forms;
}

/** True if one position is a twin of the other. */
export const alikeBySymmetry = (one: string, other: string): boolean => {
  const forms = formsOf(one);
  return [...formsOf(other)].some((form) => forms.has(form));
};
