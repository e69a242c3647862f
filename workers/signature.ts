// Worker thread that works out the signature of a database.

import { workerData } from "node:worker_threads";

import type { ThreadData } from "../src/threads.js";
import { openForReading } from "../src/store/database.js";
import { contentSignature } from "../src/store/signature.js";

const { port, data } = workerData as ThreadData<string>;
const db = openForReading(data);
port.postMessage(contentSignature(db));
db.close();
