// One-wire digital probes (18B20 type) send °C themselves; here is how far that can be trusted.

import { combined, ofStep, rectangular } from "./measured.ts";

/** The smallest step at 12 bits, K. Source: data sheet of the 18B20 type, table "Temperature/Data Relationship". */
const oneWireStep = 0.0625;

/**
 * Standard uncertainty of an uncalibrated one-wire probe, K: its tolerance (0.5 K from -10 to 85 °C, 2 K beyond; from
 * memory of the data sheet) and its step.
 */
export function oneWireUncertainty(celsius: number): number {
  const tolerance = celsius >= -10 && celsius <= 85 ? 0.5 : 2;
  return combined(rectangular(tolerance), ofStep(oneWireStep));
}
