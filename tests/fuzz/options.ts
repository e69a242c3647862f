// Every command with odd values for its arguments and options.

import { COMMANDS, OPTIONS, type OptionName } from "../../src/cli/options.js";
import { type Campaign, type Chance, ODD } from "./campaign.js";
import { faultOf } from "./terminal.js";

const FEN = "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1";

/** Values that fit somewhere, so that attempts get past the first check. */
const FITTING = [
  FEN,
  "8/2R5/8/1r6/4b3/4k3/8/3K4 b - - 0 1",
  "8/8/8/8/8/8/8/8 w - - 0 1",
  "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 99999",
  "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 9999 1",
  "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1",
  "Szén",
  "defender held",
  "second-rank defence, only move",
  "year",
  "outcome",
  "year:5",
  "defender-rating:200,year",
  "clock:10/60",
  "rook",
  "e2",
  "e2e4",
  "e2,e4",
  "1",
  "3",
  "R+B v R",
  "R v",
  "out.txt",
  "out/deep/er.txt",
  "/dev/null",
  "/dev/full",
  "/proc/none",
  "games.db",
  "games.pgn",
  "nothing",
  "duplicates",
];

/** Values that each option takes, so that most attempts get behind the parser. */
const OF: Readonly<Partial<Record<OptionName, readonly string[]>>> = {
  db: ["games.db"],
  limit: ["1", "0", "3"],
  size: ["1", "2"],
  sample: ["1", "50"],
  threads: ["1", "100000"],
  ply: ["0", "1", "152"],
};
/** What listens, what opens a browser or builds for minutes is left to other tests. */
const LEFT_OUT: readonly string[] = ["serve", "demo", "solve"];
const LEFT_OUT_OPTIONS: readonly OptionName[] = ["pdf", "every", "order"];
/** Commands that work through a whole table: now and then is enough. */
const SLOW: readonly string[] = ["rule", "changes", "repertoire", "exercises", "lesson", "report", "verify"];

const value = (chance: Chance): string => (chance.once(3) ? chance.of(FITTING) : chance.of(ODD));

/** `folder` is where it works: it holds games.db and games.pgn. */
export function optionsCampaign(folder: string): Campaign {
  return {
    name: "options",
    make(chance) {
      const usable = COMMANDS.filter(({ name }) => !LEFT_OUT.includes(name));
      let command = chance.of(usable);
      if (SLOW.includes(command.name) && !chance.once(8))
        command = chance.of(usable.filter(({ name }) => !SLOW.includes(name)));
      const words = [command.name];
      if (command.arguments !== undefined && !chance.once(6))
        for (let n = chance.below(3); n >= 0; --n)
          words.push(chance.once(2) ? chance.of(FITTING) : value(chance));
      // a number would be a check of so many placements
      if (command.name === "verify") words.push("--sample", "50");
      for (const name of command.options) {
        if (LEFT_OUT_OPTIONS.includes(name) || (command.name === "verify" && name === "sample")) continue;
        const often = name === "db" || name === "json";
        if (!(often ? chance.once(2) : chance.once(6))) continue;
        const { flags } = OPTIONS[name];
        const [flag] = flags.split(" ");
        if (!flags.includes("<")) words.push(flag);
        else words.push(`${flag}=${OF[name] && chance.once(2) ? chance.of(OF[name]) : value(chance)}`);
      }
      return words;
    },
    async attempt(parts) {
      const before = process.cwd();
      process.chdir(folder);
      try {
        return await faultOf(parts.filter((word) => word !== "-"));
      } finally {
        process.chdir(before);
      }
    },
  };
}
