// Worker thread of the page's server: answers one call after another.

import { workerData } from "piscina";

import { answerer } from "../src/server/answering-thread.js";
import type { Settings } from "../src/app/workspace.js";

export default answerer(workerData as Settings);
