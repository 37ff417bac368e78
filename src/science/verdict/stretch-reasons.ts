// The evidence behind a stretch's verdict in the order a technician would tell it: verdict, when the cold began, what
// fins and slope show beside known-good, what the rate constant does and does not show, what was referred, what happened.

import { isElectric, msPerHour, msPerMinute } from "../../schema/index.ts";
import { probeTolerance } from "../evidence/probe-offset.ts";
import type { StretchEvidence } from "../evidence/run-evidence.ts";
import { finDifferenceOf, meanOf } from "../evidence/side-by-side.ts";
import type { SwitchOver } from "../evidence/switch-over.ts";
import type { WarmingRatio } from "../evidence/warming-ratio.ts";
import type { StretchFinding } from "../findings.ts";
import { coolestAmbient } from "../hot-days/depth-law.ts";
import { isKnown, type Unknown } from "../numbers/estimate.ts";
import { stopsOf } from "../readings/events/cooling-stopped.ts";
import { ventShare } from "../readings/stretch-view.ts";
import type { ReasonSaying } from "../sayings.ts";
import { lowSupplyShare, ratedVoltsOf } from "../strength/heat-law.ts";
import type { Strength } from "../strength/strength.ts";

/**
 * The evidence of one stretch, a saying each, in the order it is told.
 *
 * @param verdict the reasons that the verdict itself came with
 * @param over what the switch before it tells; null where there was none
 */
export function stretchReasons(
  evidence: StretchEvidence,
  finding: Omit<StretchFinding, "reasons">,
  strength: Strength | Unknown,
  verdict: readonly ReasonSaying[],
  warming: WarmingRatio,
  over: SwitchOver | null,
): readonly ReasonSaying[] {
  const reasons = [
    ...verdict,
    ...onsetReasons(evidence, finding),
    ...switchReasons(evidence, over),
    ...("why" in strength ? [] : comparisonReasons(finding, strength, warming)),
    ...conditionReasons(evidence, finding),
    ...flameOuts(evidence),
  ];
  const isKnownGood =
    finding.verdict === "sound" &&
    finding.source !== null &&
    over === null &&
    // Heat that was lost while the source said on makes no run to measure others by.
    stopsOf(evidence.events).length === 0 &&
    !reasons.some(({ code }) => toBeExplained.includes(code));
  return isKnownGood ? [...reasons, { code: "offered-as-baseline" }] : reasons;
}

/** A run that says one of these may be of a good source, and yet no run to hold later ones against. */
const toBeExplained: readonly ReasonSaying["code"][] = [
  "cabinet-probe-slow",
  "witnesses-disagree",
  "explained-by-seal",
  "explained-by-load",
  "explained-by-lamp",
  "seal-suspected",
];

function onsetReasons(
  { source, stretch, fitted }: StretchEvidence,
  finding: Omit<StretchFinding, "reasons">,
): ReasonSaying[] {
  if ("why" in fitted || !isKnown(finding.fit.deadTime)) return [];
  const { onsetHours } = fitted.cabinetFit;
  const began: ReasonSaying = {
    code: "cold-began",
    onsetUnixMs: stretch.startMs + onsetHours * msPerHour,
    minutes: onsetHours * 60,
    source,
  };
  const shift = finding.deadTimeShift;
  if (!isKnown(shift)) return [began];
  if ((shift.low ?? 0) > 0) return [began, { code: "onset-later", shift }];
  const isEarlier = shift.high !== null && shift.high < 0;
  return [began, { code: isEarlier ? "onset-earlier" : "onset-as-usual", shift }];
}

/** How the source compares with the one before the switch, and what that comparison cannot see. */
function switchReasons({ source }: StretchEvidence, over: SwitchOver | null): ReasonSaying[] {
  const from = over?.before.source ?? null;
  if (over === null || over.told === null || from === null || source === null || !isKnown(over.ratio)) return [];
  const { finsBefore, finsAfter } = over.told;
  return [
    { code: "switch-tells", from, to: source, finsBefore, finsAfter, ratio: over.ratio },
    { code: "switch-drift", drift: over.drift, from },
    { code: "switch-cannot-see", from },
  ];
}

/** What fins, slope and rate constant show beside known-good, and what was referred to make them comparable. */
function comparisonReasons(
  { fit, ratios, baselineFit, baseline, verdict, coolingStrength }: Omit<StretchFinding, "reasons">,
  { comparisons, reasons: ofStrength, isOverSwitch }: Strength,
  warming: WarmingRatio,
): ReasonSaying[] {
  const another: ReasonSaying[] =
    verdict === "undecided" && isKnown(coolingStrength) ? [{ code: "another-night-decides" }] : [];
  if (baseline.kind === "other-sources") return [...ofStrength];
  const oneRun: ReasonSaying[] = baseline.runs === 1 ? [{ code: "baseline-one-run", runs: 1 }] : [];
  if (isOverSwitch) return [...ofStrength, ...oneRun, ...warmingReasons(ofStrength, warming), ...another];
  const hours = Math.min(...comparisons.map((one) => one.hours));
  const runs = comparisons.length;
  const reasons: ReasonSaying[] = [
    comparisons.every(({ here }) => here.fit === null)
      ? { code: "late-fins-compared", runs }
      : { code: "cut-to-equal-length", hours, runs },
  ];
  reasons.push(...oneRun);
  const fins = meanOf(comparisons.map(({ here }) => finDifferenceOf(here)));
  const knownFins = meanOf(comparisons.map(({ there }) => finDifferenceOf(there)));
  if (isKnown(ratios.finDifference) && isKnown(fins) && isKnown(knownFins)) {
    reasons.push({ code: "fins-tell", finDifference: fins, baseline: knownFins, ratio: ratios.finDifference });
  }
  // Of the same cuts as the ratio, or it would not follow from the two.
  const slope = meanOf(comparisons.map(({ here }) => here.numbers.initialSlope));
  if (baselineFit !== null && isKnown(ratios.initialSlope) && isKnown(slope) && isKnown(baselineFit.initialSlope)) {
    reasons.push({ code: "slope-tells", slope, baseline: baselineFit.initialSlope, ratio: ratios.initialSlope });
  }
  reasons.push(...ofStrength, ...warmingReasons(ofStrength, warming));
  if (baselineFit !== null && isKnown(fit.rateConstant) && isKnown(baselineFit.rateConstant)) {
    reasons.push({
      code: "rate-constants",
      rate: fit.rateConstant,
      baseline: baselineFit.rateConstant,
      hours: baselineFit.hours,
    });
    const isFaster = isKnown(ratios.rateConstant) && (ratios.rateConstant.low ?? 0) > 1.1;
    reasons.push({ code: isFaster ? "rate-constant-raised" : "rate-constant-alone-misleads" });
  }
  return [...reasons, ...another];
}

/** A seal or a load that shows in the warming back, unless it was already said as an explanation. */
function warmingReasons(said: readonly ReasonSaying[], warming: WarmingRatio): ReasonSaying[] {
  if (warming === null || said.some(({ code }) => code === "explained-by-seal" || code === "explained-by-load"))
    return [];
  if ((warming.low ?? 0) > 1.1) return [{ code: "seal-suspected", ratio: warming }];
  if ((warming.high ?? Number.POSITIVE_INFINITY) < 0.95) return [{ code: "load-suspected", ratio: warming }];
  return [];
}

function conditionReasons(evidence: StretchEvidence, finding: Omit<StretchFinding, "reasons">): ReasonSaying[] {
  const reasons: ReasonSaying[] = [];
  if (evidence.run.recording.columns.room !== undefined) reasons.push({ code: "room-shares", ventShare });
  if (evidence.offset.isMeasured) reasons.push({ code: "offset-from-settled", kelvin: evidence.offset.kelvin });
  else if (isKnown(finding.finDifference)) reasons.push({ code: "offset-unknown", tolerance: probeTolerance });
  if (finding.fit.modes === 2) reasons.push({ code: "two-modes" });
  if (isKnown(finding.duty))
    reasons.push({ code: "thermostat-held", source: evidence.source, duty: finding.duty.value }, { code: "at-least" });
  reasons.push(...lowSupply(evidence));
  if (evidence.stretch.sourceFrom === "found") reasons.push({ code: "source-was-found" });
  if (evidence.ambient < coolestAmbient) reasons.push({ code: "cool-ambient", ambient: evidence.ambient });
  return reasons;
}

function flameOuts({ source, stretch, events }: StretchEvidence): ReasonSaying[] {
  return stopsOf(events)
    .filter(({ startMs }) => startMs >= stretch.startMs && startMs < stretch.endMs)
    .map(({ startMs, endMs }) => ({
      code: "flame-out",
      unixMs: startMs,
      minutes: (endMs - startMs) / msPerMinute,
      source,
    }));
}

function lowSupply({ source, supplyVolts, run }: StretchEvidence): ReasonSaying[] {
  if (!isElectric(source) || supplyVolts === null) return [];
  const rated = ratedVoltsOf(source, run.recording.sheet);
  return supplyVolts < lowSupplyShare * rated ? [{ code: "supply-low", volts: supplyVolts, ratedVolts: rated }] : [];
}
