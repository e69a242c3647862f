// Worker thread that helps with questions to a large database.

import { workerData } from "node:worker_threads";

import type { ThreadData } from "../src/threads.js";
import { helpThrough } from "../src/query/engine/slice-helper.js";
import type { HelperData } from "../src/query/engine/slice-threads.js";

const { port, data } = workerData as ThreadData<HelperData>;
helpThrough(port, data);
