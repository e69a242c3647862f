// Worker thread of the scan: finds the endings in one stretch of PGN after another.

import { workerData } from "piscina";

import { type ScanTask, type ScanWorkerData, scanner } from "../src/index/scanner.js";

const work = scanner(workerData as ScanWorkerData);

export default (task: ScanTask) => work(task);
