// Runs a program inside this process and tells its peak memory on standard error when it ends.

import { pathToFileURL } from "node:url";

const [, , program, ...args] = process.argv;
process.argv = [process.argv[0], program, ...args];
process.on("exit", () =>
  process.stderr.write(`\npeak ${Math.round(process.resourceUsage().maxRSS / 1024)} MB\n`),
);
await import(pathToFileURL(program).href);
