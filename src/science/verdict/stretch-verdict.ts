// The verdict on one heated stretch, from its strength and its own curve.

import type { Verdict } from "../../schema/documents/index.ts";
import { msPerHour } from "../../schema/index.ts";
import { finDifference } from "../evidence/fin-difference.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { type SwitchOver, switchSettlesHours } from "../evidence/switch-over.ts";
import { type Answer, type Estimate, isKnown, type Unknown } from "../numbers/estimate.ts";
import { leastFall } from "../pull-down/cabinet-fit.ts";
import { cabinetTemperature } from "../pull-down/pull-down.ts";
import { slopeHours } from "../pull-down/pull-down-numbers.ts";
import { meanBetween } from "../readings/stretch-view.ts";
import type { ReasonSaying, UnknownSaying } from "../sayings.ts";
import { finsAloneHours } from "../strength/comparison.ts";
import { type Strength, strengthBelow, strengthEstimate } from "../strength/strength.ts";

/** A dead source is called so only after this, h since the switch-on: slow starters exist. */
export const notCoolingHours = 4;

/** A verdict with what it rests on first; what else is to be said of the stretch comes on top in judge-stretch.ts. */
export interface StretchVerdict {
  readonly verdict: Verdict;
  readonly reasons: readonly ReasonSaying[];
}

/**
 * The verdict on a stretch that is not dead.
 *
 * @param margin allowed loss, as a share.
 * @param over what the switch before it tells, where it was switched to while cold.
 */
export function judgeStretch(
  evidence: StretchEvidence,
  strength: Strength | Unknown,
  margin: number,
  over: SwitchOver | null = null,
): StretchVerdict {
  if ("why" in strength) return { verdict: "undecided", reasons: waiting(evidence, strength.why, over) };
  return judgeStrength(strength, margin, evidence.stoppedMs);
}

/**
 * Verdict and first reason on a strength. The other sources of a fridge can show a weak one; a good one they cannot prove.
 *
 * @param stoppedMs when cooling stopped and did not come back: until it is known why, no source is called good; null where it went on.
 */
export function judgeStrength(strength: Strength, margin: number, stoppedMs: number | null): StretchVerdict {
  const shown = strengthEstimate(strength, true);
  const verdict = verdictOn(shown, margin);
  if (strength.baseline === "other-sources") {
    if (verdict === "weak") return { verdict, reasons: [{ code: "weak-among-sources", estimate: shown, margin }] };
    // Less than its heat explains, though perhaps by less than the allowed loss: worth a word, and no verdict.
    const isLow = strengthBelow(strength, 0.95) < 1;
    const reason: ReasonSaying = isLow
      ? { code: "low-among-sources", estimate: shown, margin }
      : { code: "not-weak-among-sources", estimate: shown };
    return { verdict: "undecided", reasons: [reason] };
  }
  if (shown.low !== null && shown.low > mostBelievable) {
    return { verdict: "undecided", reasons: [{ code: "strength-unbelievable", estimate: shown }] };
  }
  if (verdict === "sound" && stoppedMs !== null)
    return { verdict: "undecided", reasons: [{ code: "stopped-for-good", estimate: shown, unixMs: stoppedMs }] };
  return { verdict, reasons: [strengthReason(verdict, shown, margin)] };
}

/** No source cools so much more strongly than when it was known to be good: the logs are wrong. Common practice, no source. */
const mostBelievable = 1.4;

/** Three-way against the allowed loss; stronger than the baseline is good. Written so that a missing end decides nothing. */
export function verdictOn(strength: Answer, margin: number): Verdict {
  if (!isKnown(strength)) return "undecided";
  if (strength.low !== null && strength.low >= 1 - margin) return "sound";
  if (strength.high !== null && strength.high < 1 - margin) return "weak";
  return "undecided";
}

function strengthReason(verdict: Verdict, strength: Estimate, margin: number): ReasonSaying {
  if (verdict === "sound") return { code: "strength-sound", estimate: strength, margin };
  if (verdict === "weak") return { code: "strength-weak", estimate: strength, margin };
  return { code: "strength-undecided", estimate: strength, margin };
}

/**
 * "No cooling" and "no cold yet": no onset, fins no colder than the air, and a cabinet no colder than drifting
 * towards ambient explains. Both witnesses must say so: a fallen evaporator probe alone must not.
 */
export function deadness(evidence: StretchEvidence): StretchVerdict | null {
  const { view, fitted } = evidence;
  if (!("why" in fitted) || fitted.why.code === "time-unreliable") return null;
  const fins = finDifference(view, evidence.offset);
  if (!isKnown(fins) || !(fins.value < leastFall) || !driftsOnly(evidence)) return null;
  if (view.endHours < notCoolingHours) {
    return {
      verdict: "undecided",
      reasons: [
        { code: "no-cold-yet", hours: view.endHours },
        { code: "wait-until", ...waitUntil(evidence, notCoolingHours) },
      ],
    };
  }
  return {
    verdict: "not-cooling",
    reasons: [{ code: "not-cooling", finDifference: fins.value, hours: view.endHours }],
  };
}

/** Whether the cabinet ends no colder than its own drift towards ambient explains, within the probes' tolerance and 1 K. */
function driftsOnly({ view, warmingRate }: StretchEvidence): boolean {
  if (view.ambient === null) return false;
  const start = meanBetween(view, 0, 0.25, (row) => view.cabinet[row], 1);
  const end = meanBetween(view, view.endHours - 1, view.endHours, (row) => view.cabinet[row], 3);
  if (start === null || end === null) return false;
  const drift = cabinetTemperature(
    { hours: view.hours, ambientCelsius: view.ambient },
    { start: start.mean, onset: Number.POSITIVE_INFINITY, rate: warmingRate, depth: 0, jumps: [] },
    { warmingRate },
  );
  const explained = meanBetween(view, view.endHours - 1, view.endHours, (row) => drift[row], 1);
  return explained !== null && end.mean > explained.mean - 1.5 * leastFall;
}

const waitUntil = ({ stretch }: StretchEvidence, hours: number) => ({
  unixMs: stretch.startMs + hours * msPerHour,
  hours,
});

/** Why there is no verdict, and when there can be one. */
function waiting(evidence: StretchEvidence, why: UnknownSaying, over: SwitchOver | null): ReasonSaying[] {
  const { fitted, source, view } = evidence;
  if (source === null) return [{ code: "source-unknown" }];
  if (!("why" in fitted)) {
    const { onsetHours, hoursAfterOnset } = fitted.cabinetFit;
    if (hoursAfterOnset < slopeHours) return [{ code: "wait-until", ...waitUntil(evidence, onsetHours + slopeHours) }];
    return why.code === "no-known-good" ? [{ code: "no-baseline", source }] : [{ code: "cannot-tell", why }];
  }
  if (fitted.why.code === "time-unreliable") return [{ code: "cannot-tell", why: fitted.why }];
  if (fitted.why.code === "starts-settled" || fitted.why.code === "switched-while-cold") {
    const soon = overSwitch(evidence, over);
    if (soon !== null) return soon;
    const wait: ReasonSaying[] =
      view.endHours < finsAloneHours ? [{ code: "wait-until", ...waitUntil(evidence, finsAloneHours) }] : [];
    const baseline: ReasonSaying[] = why.code === "no-known-good" ? [{ code: "no-baseline", source }] : [];
    const warms = fitted.why.code === "starts-settled" && fitted.why.warms;
    return [{ code: "starts-settled", warms }, ...wait, ...baseline];
  }
  if (view.endHours < notCoolingHours) return [{ code: "wait-until", ...waitUntil(evidence, notCoolingHours) }];
  return [{ code: "cannot-tell", why }];
}

/** After a switch the answer comes earlier; null where the fins alone must be waited for. */
function overSwitch(evidence: StretchEvidence, over: SwitchOver | null): ReasonSaying[] | null {
  const from = over?.before.source ?? null;
  if (over === null || from === null || isKnown(over.ratio)) return null;
  if (over.ratio.why.code === "too-short" && evidence.view.endHours < switchSettlesHours)
    return [{ code: "wait-until", ...waitUntil(evidence, switchSettlesHours) }];
  const later: ReasonSaying[] =
    evidence.view.endHours < finsAloneHours ? [{ code: "wait-until", ...waitUntil(evidence, finsAloneHours) }] : [];
  return [{ code: "switch-cannot-tell", from, why: over.ratio.why }, ...later];
}
