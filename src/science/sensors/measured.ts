// A temperature as a probe gives it: never without its standard uncertainty. How such uncertainties are put together
// follows the GUM: JCGM 100:2008, Evaluation of measurement data, clauses 4.3 and 5.1.2.

/** A temperature and its standard uncertainty (one standard deviation), K. */
export interface MeasuredCelsius {
  readonly celsius: number;
  readonly standardUncertainty: number;
}

/** Standard uncertainty of a value that lies anywhere within ± `halfWidth` alike. GUM 4.3.7. */
export const rectangular = (halfWidth: number): number => halfWidth / Math.sqrt(3);

/** Standard uncertainty of a value shown in steps. GUM F.2.2.1. */
export const ofStep = (step: number): number => rectangular(step / 2);

/** Independent parts put together. GUM 5.1.2. */
export const combined = (...parts: readonly number[]): number => Math.hypot(...parts);
