// The ideas of exercises: their names, and what a first hint says of each.

/** The themes, those that say the most of a position first: the first that is found names an exercise. */
export const THEMES = [
  { name: "stalemate", idea: "What if the piece is simply left to be taken?" },
  { name: "skewer", idea: "Two pieces stand on one line, the king in front." },
  { name: "zugzwang", idea: "Find the move after which the other side would rather not have to move." },
  { name: "interposition made ready", idea: "The check is coming: prepare a piece to step in between." },
  { name: "double threat", idea: "Make two threats with one move." },
  { name: "run of the king", idea: "The king has to go a long way to the other side: begin now." },
  { name: "check from the far side", idea: "Give a check, from as far away as possible." },
  { name: "only check", idea: "A check is right, but only one of them." },
  { name: "pin", idea: "Pin a piece." },
  { name: "bishop's transfer with tempo", idea: "The bishop changes its diagonal and gains time by it." },
  { name: "rook swing", idea: "The rook belongs on the other side of the king." },
  { name: "change of set-up", idea: "The set-up has done its work: change to another." },
  { name: "interposition", idea: "Step in between." },
  { name: "waiting move", idea: "Nothing needs to be changed: find the move that changes nothing." },
  { name: "kings face to face", idea: "Bring the king to face the other king." },
  {
    name: "interposition forced",
    idea: "Give a check that can only be answered by stepping in between.",
  },
  { name: "mate threat", idea: "Threaten mate." },
  { name: "attack on the rook", idea: "Attack the rook." },
  { name: "attack on the bishop", idea: "Attack the bishop." },
  { name: "cutting off the king", idea: "Cut the king off." },
  { name: "away from the corner", idea: "Keep away from the corner." },
  { name: "into the wedge", idea: "The king belongs between the bishop's two diagonals." },
  { name: "out of the wedge", idea: "The king must leave the space between the bishop's two diagonals." },
  { name: "pin kept", idea: "A piece is pinned: do not let it go." },
  { name: "defence against mate", idea: "First see which mate is threatened." },
  {
    name: "defence against a skewer",
    idea: "King and rook stand on one line: see the check that is coming, and meet it in time.",
  },
  {
    name: "defence against a double threat",
    idea: "A check is coming that would win a piece as well: meet it in time.",
  },
  { name: "piece under attack", idea: "A piece is attacked: choose its square with care." },
  { name: "way out of check", idea: "The king is in check: choose its square with care." },
  { name: "set-up kept", idea: "The set-up still holds: stay in it." },
] as const;
export type Theme = (typeof THEMES)[number]["name"];

/** What a first hint says of a theme. */
export const ideaOf = (theme: Theme): string => THEMES.find(({ name }) => name === theme)!.idea;

/** Themes in the order of the table. */
export const inOrder = (themes: ReadonlySet<Theme>): Theme[] =>
  THEMES.flatMap(({ name }) => (themes.has(name) ? [name] : []));
