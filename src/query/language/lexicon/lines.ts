// Which pieces stand on one rank, file or line.

import { type Phrase, say } from "./phrase.js";

/** Two pieces on one rank, file or line: as the fact for these two has it, else by the squares of the board. */
function sameLine(
  [one, saysOne]: readonly [piece: string, pattern: string],
  [two, saysTwo]: readonly [piece: string, pattern: string],
  facts: { readonly rank?: string; readonly file?: string; readonly line?: string } = {},
  ...both: string[]
): readonly Phrase[] {
  const on = (line: "rank" | "file") => facts[line] ?? `${one}-board-${line} = ${two}-board-${line}`;
  const ways = (line: string) => [
    `(${saysOne} and [the] ${saysTwo}|${saysTwo} and [the] ${saysOne}) [both] on [the] (same|one|one and the same) ${line}`,
    `${saysOne} on [the] (same|one) ${line} (as|with) ${saysTwo}`,
    `${saysTwo} on [the] (same|one) ${line} (as|with) ${saysOne}`,
    `(${saysOne} and [the] ${saysTwo}|${saysTwo} and [the] ${saysOne}) share [a|the] [same] ${line}`,
    ...both.flatMap((pair) => [
      `[both|two] ${pair} [both] on [the] (same|one|one and the same) ${line}`,
      `${pair} share [a|the] [same] ${line}`,
    ]),
  ];
  // the geometry counts files along the edge where the defender's king stands, which are ranks of the board at its sides
  const or: Phrase["or"] = facts.file?.includes("-files-apart")
    ? [[`${one}-board-file = ${two}-board-file`, "files of the board"]]
    : undefined;
  return [
    say(on("rank"), ...ways("rank")),
    { say: ways("file"), means: on("file"), ...(or ? { or } : {}) },
    say(facts.line ?? `${on("rank")} or ${on("file")}`, ...ways("line")),
  ];
}

const OF_DEFENDER_KING = ["king", "@king"] as const;

const OF_ATTACKER_KING = ["attacker-king", "@aking"] as const;

const OF_ROOK = ["rook", "@rook"] as const;

const OF_ATTACKER_ROOK = ["attacker-rook", "@arook"] as const;

const OF_BISHOP = ["bishop", "@bishop"] as const;

/** Which pieces stand on one line. */
export const LINES: readonly Phrase[] = [
  ...sameLine(OF_ROOK, ["king", "[own] @king"], {
    rank: "rook-line = rank",
    file: "rook-line = file",
    line: "rook-line != none",
  }),
  ...sameLine(OF_DEFENDER_KING, OF_ATTACKER_KING, { file: "kings-files-apart = 0" }, "=kings"),
  ...sameLine(OF_BISHOP, OF_DEFENDER_KING, { file: "bishop-files-apart = 0" }),
  ...sameLine(OF_ATTACKER_ROOK, OF_DEFENDER_KING, { rank: "attacker-rook-place = beside" }),
  ...sameLine(OF_ROOK, OF_ATTACKER_KING, { rank: "rook-place = beside" }),
  ...sameLine(OF_ROOK, OF_ATTACKER_ROOK, {}, "=rooks"),
  ...sameLine(OF_ROOK, OF_BISHOP),
  ...sameLine(OF_ATTACKER_ROOK, OF_BISHOP),
  ...sameLine(OF_ATTACKER_ROOK, ["attacker-king", "(@aking|(its|his) [own] king)"]),
  ...sameLine(OF_BISHOP, ["attacker-king", "(@aking|(its|his) [own] king)"]),
];
