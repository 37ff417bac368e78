// Two libraries whose types cannot be found: ml-regression has none at its root, cephes has them where
// its package does not lead an ES module. Declared here is what we use, no more.

declare module "ml-regression" {
  export const SimpleLinearRegression: new (
    x: readonly number[],
    y: readonly number[],
  ) => { readonly slope: number; readonly intercept: number };
}

declare module "cephes" {
  /** Settled when the functions below may be called. */
  export const compiled: Promise<void>;
  /** Upper tail of the gamma distribution of shape `shape`, and the value whose upper tail is `tail`. */
  export function igamc(shape: number, value: number): number;
  export function igami(shape: number, tail: number): number;
  /** Lower tail of the beta distribution, and the value whose lower tail is `tail`. */
  export function incbet(a: number, b: number, value: number): number;
  export function incbi(a: number, b: number, tail: number): number;
  /** Standard normal quantile. */
  export function ndtr(x: number): number;
  export function ndtri(probability: number): number;
}
