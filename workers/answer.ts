// Worker thread of the page's server: answers one call after another.

import { workerData } from "piscina";

import { answerer } from "../src/web/answer.js";
import type { Means } from "../src/web/bench.js";

export default answerer(workerData as Means);
