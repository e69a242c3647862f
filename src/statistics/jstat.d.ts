// The part of jstat that is used here; it comes without types.

declare module "jstat" {
  const jStat: {
    readonly normal: {
      inv(p: number, mean: number, deviation: number): number;
      cdf(x: number, mean: number, deviation: number): number;
    };
    readonly chisquare: {
      cdf(x: number, degrees: number): number;
      inv(p: number, degrees: number): number;
    };
    readonly studentt: { inv(p: number, degrees: number): number };
    inv(matrix: readonly (readonly number[])[]): number[][];
  };
  export default jStat;
}
