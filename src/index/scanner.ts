// What a scanning thread does: it gets stretches and gives endings. It knows nothing of the database.

import { parseMaterial } from "../chess/material.js";
import type { ByteOffset } from "../chess/units.js";
import { EndingScan, type ScanResult } from "../endings/scan.js";
import { type Crossing, crossing } from "../errors.js";
import { type SharedTables, Tables } from "../solver/tables.js";

export interface ScanTask {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly offset: ByteOffset;
  readonly noReject: boolean;
}
export interface ScanWorkerData {
  readonly target: string;
  readonly folder: string;
  readonly shared: SharedTables;
}

/** What a scanning worker does with its tasks; `data` comes once, when the thread starts. */
export function scanner(data: ScanWorkerData): (task: ScanTask) => Crossing<ScanResult> {
  const material = parseMaterial(data.target);
  const tables = new Tables(material, data.folder, data.shared);
  const endings = new EndingScan(material, tables);
  return ({ bytes, offset, noReject }) => crossing(() => endings.scan(bytes, { offset, noReject }));
}
