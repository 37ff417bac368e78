// What a stretch can tell: the four numbers of its pull-down, each only where the readings hold it.

import type { ResultUnit } from "../../schema/index.ts";
import type { PullDownNumbers } from "../findings.ts";
import { type Answer, estimate, unknown } from "../numbers/estimate.ts";
import type { UnknownSaying } from "../sayings.ts";
import type { CabinetFit } from "./cabinet-fit.ts";
import { type Interval, type PullDownIntervals, pullDownIntervals } from "./pull-down-intervals.ts";
import { withstandsSoftStart } from "./soft-start.ts";

/** Before this, a stretch tells nothing, h after the onset. */
const tellsNothingHours = 1;
/** From here on the initial slope and the fin difference count, h after the onset. */
export const slopeHours = 2;
/** Under this a cooling that builds up can pass for another rate and depth (soft-start.ts), h after the onset. */
const softStartHours = 6;

export interface JudgedFit {
  readonly numbers: PullDownNumbers;
  readonly intervals: PullDownIntervals;
}

/** All four numbers missing for one reason. */
export const noNumbers = (why: UnknownSaying): PullDownNumbers => ({
  rateConstant: unknown(why),
  depth: unknown(why),
  initialSlope: unknown(why),
  deadTime: unknown(why),
});

/** The numbers of a fit with their intervals, each only from the length on that holds it. */
export function judgedFit({ fit, shiftHours, onsetHours, hoursAfterOnset }: CabinetFit): JudgedFit {
  const intervals = pullDownIntervals(fit);
  const { rate, depth } = fit.pullDown;
  const grown = Math.sqrt(fit.inflation);
  const answer = (unit: ResultUnit, value: number, interval: Interval, standardError: number): Answer => {
    const error = standardError * grown;
    return estimate(unit, value, interval.low, interval.high, {
      ...(Number.isFinite(error) ? { standardError: error } : {}),
      readings: fit.count,
    });
  };
  const early = unknown({ code: "too-early", hoursAfterOnset, neededHours: slopeHours });
  const isEarly = hoursAfterOnset < slopeHours;
  const curve = curveDoubt(fit, intervals, hoursAfterOnset);
  const onset = {
    low: intervals.onset.low === null ? null : shiftHours + intervals.onset.low,
    high: intervals.onset.high === null ? null : shiftHours + intervals.onset.high,
  };
  return {
    intervals,
    numbers: {
      rateConstant: isEarly ? early : (curve ?? answer("1/h", rate, intervals.rate, fit.standardErrors.rate)),
      depth: isEarly ? early : (curve ?? answer("K", depth, intervals.depth, fit.standardErrors.depth)),
      initialSlope: isEarly
        ? early
        : answer("K/h", rate * depth, intervals.initialSlope, fit.standardErrors.initialSlope),
      deadTime:
        hoursAfterOnset < tellsNothingHours
          ? unknown({ code: "too-early", hoursAfterOnset, neededHours: tellsNothingHours })
          : answer("h", onsetHours, onset, fit.standardErrors.onset),
    },
  };
}

/** Why rate and depth cannot be told apart in this stretch; null when they can. */
function curveDoubt(fit: CabinetFit["fit"], intervals: PullDownIntervals, hoursAfterOnset: number): Answer | null {
  if (
    intervals.rate.low === null ||
    intervals.rate.high === null ||
    intervals.depth.low === null ||
    intervals.depth.high === null
  ) {
    return unknown({ code: "open-profile", hours: hoursAfterOnset });
  }
  if (hoursAfterOnset < softStartHours && !withstandsSoftStart(fit, intervals)) {
    return unknown({ code: "soft-start-possible", hours: hoursAfterOnset });
  }
  return null;
}
