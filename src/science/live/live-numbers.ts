// The numbers of a pull-down while it goes on: each as soon as it means something, with an interval that narrows.

import { fallHasEnded } from "../evidence/milestones.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import type { StretchFinding } from "../findings.ts";
import { settledDepth } from "../hot-days/stretch-depth.ts";
import { type Answer, estimate, isKnown, unknown } from "../numbers/estimate.ts";
import { hoursToFall } from "../pull-down/pull-down.ts";
import { slopeHours } from "../pull-down/pull-down-numbers.ts";
import { meanAmbient } from "../readings/stretch-view.ts";
import { slowedByGoods } from "../verdict/keeps-up.ts";
import { type CurveAhead, curveAhead } from "./curve-ahead.ts";
import { fallOfLastHour, rateShares } from "./last-fall.ts";

export interface LiveNumbers {
  /** Hours from the switch-on until cold began; from the first sight of it. */
  readonly onset: Answer;
  /** K/h, from half an hour after the onset. */
  readonly slope: Answer;
  /** 1/h, as soon as rate and depth can be told apart. */
  readonly rate: Answer;
  /** Where the cabinet would settle with the ambient of the last hour, °C. */
  readonly settled: Answer;
  /** Hours from the switch-on until the cabinet is at 5 °C. */
  readonly to5: Answer;
  /** Where the cabinet goes from here; null where that cannot be told. */
  readonly ahead: CurveAhead | null;
}

/** After the onset the slope may be told with its (wide) interval from here on, h. */
const earlySlopeHours = 0.5;
const goalCelsius = 5;

/** @param finding the judgement of the same stretch so far. */
export function numbersOf(evidence: StretchEvidence, finding: StretchFinding): LiveNumbers {
  const { fitted } = evidence;
  const { fit, milestones } = finding;
  if ("why" in fitted) {
    const why = unknown(fitted.why);
    return { onset: why, slope: why, rate: why, settled: settledOf(evidence, why), to5: milestones.to5, ahead: null };
  }
  const { hoursAfterOnset } = fitted.cabinetFit;
  const settled = settledOf(evidence, fit.depth);
  const hasEnded = fallHasEnded(evidence.view);
  return {
    onset: isKnown(fit.deadTime) ? fit.deadTime : firstOnset(fitted),
    slope: hoursAfterOnset >= slopeHours ? fit.initialSlope : firstSlope(fitted),
    rate: fit.rateConstant,
    settled,
    to5:
      hasEnded || (isKnown(milestones.to5) && milestones.to5.value <= evidence.view.endHours)
        ? milestones.to5
        : projected(evidence, milestones.to5),
    ahead:
      hoursAfterOnset >= slopeHours && !hasEnded
        ? curveAhead(evidence.view, fitted.cabinetFit.fit.pullDown.rate, settled)
        : null,
  };
}

type Fitted = Exclude<StretchEvidence["fitted"], { readonly why: unknown }>;

function firstOnset({ cabinetFit, judged }: Fitted): Answer {
  const { onsetHours, shiftHours } = cabinetFit;
  const { low, high } = judged.intervals.onset;
  return estimate("h", onsetHours, low === null ? null : shiftHours + low, high === null ? null : shiftHours + high);
}

function firstSlope({ cabinetFit, judged }: Fitted): Answer {
  const { hoursAfterOnset, fit } = cabinetFit;
  if (hoursAfterOnset < earlySlopeHours)
    return unknown({ code: "too-early", hoursAfterOnset, neededHours: earlySlopeHours });
  const { low, high } = judged.intervals.initialSlope;
  return estimate("K/h", fit.pullDown.rate * fit.pullDown.depth, low, high);
}

/** Ambient less depth, the part of the curve not yet seen allowed for. */
function settledOf(evidence: StretchEvidence, otherwise: Answer): Answer {
  const found = settledDepth(evidence);
  if (found === null)
    return isKnown(otherwise) ? (slowedByGoods([evidence]) ?? unknown({ code: "not-settled" })) : otherwise;
  const { view } = evidence;
  const ambient = meanAmbient(view, view.endHours - 1, view.endHours);
  if (Number.isNaN(ambient)) return unknown({ code: "no-ambient" });
  const { depth, standardError } = found;
  const value = ambient - depth;
  return estimate("Cel", value, value - 2 * standardError, value + 2 * standardError, { standardError });
}

/**
 * From where the cabinet is and how fast it fell in the last hour. It goes on falling ever slower: no sooner than along a
 * straight line, and no later than with the rate of the whole fit, which the quick air makes too large.
 */
function projected(evidence: StretchEvidence, otherwise: Answer): Answer {
  const { fitted, view } = evidence;
  if ("why" in fitted) return otherwise;
  if (!isKnown(otherwise) && otherwise.why.code === "already-below") return otherwise;
  const { hoursAfterOnset, fit } = fitted.cabinetFit;
  if (hoursAfterOnset < slopeHours) return unknown({ code: "too-early", hoursAfterOnset, neededHours: slopeHours });
  const now = fallOfLastHour(view);
  if (now === null || !(now.perHour > 0)) return otherwise;
  const fall = now.celsius - goalCelsius;
  const after = (rateShare: number, perHour: number): number | null => {
    const rate = rateShare * fit.pullDown.rate;
    const hours = rate > 0 ? hoursToFall(rate, perHour / rate, fall) : fall / perHour;
    return hours === null ? null : Math.max(view.endHours, now.hours + hours);
  };
  const { usual, least, most } = rateShares;
  const value = after(usual, now.perHour);
  if (value === null && evidence.warmGoods) return unknown({ code: "goods-hide-the-end", celsius: goalCelsius });
  if (value === null)
    return unknown({
      code: "not-reached",
      celsius: goalCelsius,
      settles: now.celsius - now.perHour / (usual * fit.pullDown.rate),
    });
  const low = after(least, now.perHour + 2 * now.error) ?? value;
  const high = now.perHour > 2 * now.error ? after(most, now.perHour - 2 * now.error) : null;
  return estimate("h", value, Math.min(low, value), high === null ? null : Math.max(high, value));
}
