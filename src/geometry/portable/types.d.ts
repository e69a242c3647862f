// The compiler's names of whole numbers and truths, for the other compiler.

type i32 = number;
type i8 = number;
type u8 = number;
type bool = boolean;

/** An array of fixed length; as JavaScript it is an Int32Array (tests). */
declare class StaticArray<_Value> {
  constructor(length: number);
  [n: number]: number;
  fill(value: number): this;
}
