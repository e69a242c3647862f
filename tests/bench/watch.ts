// Runs a program inside this process and tells its peak memory on standard error when it ends.

import { existsSync, readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";

/** Peak resident memory in KB. What the system counts for a process begins with that of the one that started it. */
function peakMemory(): number {
  const own = "/proc/self/status";
  const [, peak] = (existsSync(own) && /VmHWM:\s+(\d+)/.exec(readFileSync(own, "utf8"))) || [];
  return peak === undefined ? process.resourceUsage().maxRSS : Number(peak);
}

const [, , program, ...args] = process.argv;
process.argv = [process.argv[0], program, ...args];
process.on("exit", () => process.stderr.write(`\npeak ${Math.round(peakMemory() / 1024)} MB\n`));
await import(pathToFileURL(program).href);
