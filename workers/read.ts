// Worker thread of an index run: reads the games that may hold the target, and finds their endings.

import { workerData } from "piscina";

import type { Candidates } from "../src/endings/candidates.js";
import { type ReaderData, reader } from "../src/indexing/reading-threads.js";

const work = reader(workerData as ReaderData);

export default (task: Candidates) => work(task);
