// The part of the WebAssembly interface that is used here; @types/node 20 does not declare it.
// Source: WebAssembly JavaScript Interface, W3C.

declare namespace WebAssembly {
  interface Module {
    readonly compiled?: unique symbol;
  }
  const Module: new (bytes: Uint8Array) => Module;
  class Instance {
    constructor(module: Module, imports: Record<string, Record<string, unknown>>);
    readonly exports: unknown;
  }
  class Memory {
    /** Pages of 64 KiB. */
    constructor(size: { readonly initial: number; readonly maximum: number; readonly shared: boolean });
    readonly buffer: ArrayBuffer;
    /** Gives the number of pages that there were. */
    grow(pages: number): number;
  }
}
