// Types of the bzip2 library, which comes with none: what is used of it.

declare module "seek-bzip" {
  interface Input {
    /** The next byte, -1 at the end. */
    readByte(): number;
    eof(): boolean;
  }
  interface Output {
    writeByte(byte: number): void;
  }
  const bzip2: {
    /** Bytes one by one; the library's own methods do the rest with them. */
    readonly Stream: new () => object;
    /** Unpacks all of `input`, several streams one after the other if `several`. Throws where it is damaged. */
    decode(input: Input, output: Output, several: boolean): void;
  };
  export default bzip2;
}
