// What the values of the options of `coldfall simulate` mean.

import { decimalOf, type Instant } from "../ingest/index.ts";
import { energySources } from "../schema/index.ts";
import { faultNames, type ScheduledStretch, type SimulatedFault } from "../simulate/index.ts";
import { badNumber, badOption, nameAndNumber, typedInstant } from "./option-values.ts";

/** SOURCE=HOURS,SOURCE=HOURS,... @throws BadInput "bad-option" */
export function scheduleOf(text: string): readonly ScheduledStretch[] {
  return text.split(",").map((part) => {
    const [name, hours] = nameAndNumber(part);
    const source = energySources.find((known) => known === name);
    if (source === undefined || !(hours > 0 && hours <= mostHours)) {
      throw badOption("--schedule", text, ({ cli }) => cli.simulate.expectedSchedule);
    }
    return { source, hours };
  });
}

/** Longer runs are a mistyped number. */
const mostHours = 24 * 60;

/** NAME=SIZE; how big a size may be, the simulator knows. @throws BadInput "bad-option" */
export function faultOf(text: string): SimulatedFault {
  const [given, size] = nameAndNumber(text);
  const name = faultNames.find((known) => known === given);
  if (name === undefined || !(size >= 0))
    throw badNumber("--fault", text, ({ cli }) => cli.simulate.expectedFault(faultNames));
  return { name, size };
}

/** Probes besides evaporator, cabinet and ambient that the simulator can read. */
export const furtherProbes = ["room", "ventOut", "flue", "boiler", "supply"] as const;
export type FurtherProbe = (typeof furtherProbes)[number];

/** One of `furtherProbes`. @throws BadInput "bad-option" */
export function furtherProbeOf(text: string): FurtherProbe {
  const probe = furtherProbes.find((name) => name.toLowerCase() === text.trim().toLowerCase());
  if (probe === undefined) throw badOption("--probe", text, ({ cli }) => cli.expectedOneOf(furtherProbes));
  return probe;
}

/** A whole number of 0 or more. @throws BadInput "bad-option" */
export function seedOf(text: string): number {
  const seed = decimalOf(text.trim());
  if (!(Number.isSafeInteger(seed) && seed >= 0))
    throw badNumber("--seed", text, ({ cli }) => cli.simulate.expectedSeed);
  return seed;
}

/** RFC 3339. @throws BadInput "bad-option" */
export function startOf(text: string): Instant {
  const instant = typedInstant(text);
  if (Number.isNaN(instant.unixMs)) throw badOption("--start", text, ({ cli }) => cli.simulate.expectedStart);
  return instant;
}
