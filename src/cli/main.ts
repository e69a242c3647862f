#!/usr/bin/env node
// The command line as a process: its arguments, its outputs, its exit status.

import { LongsideError, causeOf } from "../errors.js";
import { report, runProgram } from "./program.js";

// a reader that has seen enough (head) closes the pipe: that is no error; a full disk is one
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  report(new LongsideError("cannot-write", { path: "the output", cause: causeOf(error) }), []);
  process.exit(2);
});
// what cannot be said cannot be said elsewhere either
process.stderr.on("error", () => {});

// npm runs scripts from the package's folder; paths are meant from where the user stands
if (process.env.npm_lifecycle_event === "longside" && process.env.INIT_CWD)
  process.chdir(process.env.INIT_CWD);

process.exitCode = await runProgram(process.argv.slice(2));
