// The part of the WebAssembly interface that the solver uses; @types/node 20 does not declare it.
// Source: WebAssembly JavaScript Interface, W3C.

declare namespace WebAssembly {
  class Module {
    constructor(bytes: Uint8Array);
  }
  class Instance {
    constructor(module: Module, imports: Record<string, Record<string, unknown>>);
    readonly exports: unknown;
  }
  interface Memory {
    readonly buffer: ArrayBuffer;
  }
}
