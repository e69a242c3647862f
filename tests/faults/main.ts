// The campaign from the command line: `npm run faults -- [--minutes 10] [--seed 1]`.

import { parseArgs } from "node:util";

import { campaign } from "./run.js";

const { values } = parseArgs({
  options: { minutes: { type: "string", default: "10" }, seed: { type: "string", default: "1" } },
});
const { tries, faults } = await campaign(60 * Number(values.minutes), Number(values.seed));
const lines = Object.entries(tries).map(([name, count]) => `${count}  ${name}`);
process.stdout.write(`${lines.join("\n")}\n${faults.length} faults (seed ${values.seed})\n`);
for (const fault of faults) process.stdout.write(`- ${fault}\n`);
process.exitCode = faults.length > 0 ? 1 : 0;
