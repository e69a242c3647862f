// WebAssembly modules: every one of them is loaded here, and compiled once a thread.

import { readFileSync } from "node:fs";

/** What a module may be given. */
type Import = ((...numbers: number[]) => number) | (() => void) | WebAssembly.Memory;

const modules = new Map<string, WebAssembly.Module>();

/** A fresh instance, with a memory of its own, of the module in a file: what it exports. Throws if there is none. */
export function instantiate<Exports>(
  file: string,
  imports: Record<string, Record<string, Import>> = {},
): Exports {
  let module = modules.get(file);
  if (!module) modules.set(file, (module = new WebAssembly.Module(readFileSync(file))));
  return new WebAssembly.Instance(module, imports).exports as Exports;
}
