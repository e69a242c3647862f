// Worker thread of an index run: finds the candidates of one block of PGN after another.

import { workerData } from "piscina";

import { type ScanTask, scanner } from "../src/indexing/scanning-thread.js";

const work = scanner(workerData as string);

export default (task: ScanTask) => work(task);
