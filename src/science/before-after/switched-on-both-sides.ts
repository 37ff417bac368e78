// A source that was switched to while cold, before a service and after it: a night on mains, gas in the attended morning.
// It has no pull-down of its own. The fins across each switch hold it against the source before (switch-over.ts):
//
//   ln(after/before) = ln(source before the switch, after/before) + ln(ratio at the switch after) - ln(the same before)
//
// Where nobody touched the source before the switch, the two last terms alone are the ratio over the control.

import type { HeatSource } from "../../schema/index.ts";
import type { RunEvidence, StretchEvidence } from "../evidence/run-evidence.ts";
import { type SwitchOver, switchOverAt } from "../evidence/switch-over.ts";
import type { WarmingRatio } from "../evidence/warming-ratio.ts";
import type { Estimate } from "../numbers/estimate.ts";
import { logEstimate } from "../numbers/log-estimate.ts";
import { asTheyRan } from "../strength/sheet-conditions.ts";
import { type Strength, strengthOf } from "../strength/strength.ts";
import { ofWitnesses } from "../strength/strength-over-switch.ts";
import { combinedVariance, type WitnessSpread } from "../strength/witness-spread.ts";

/** A switch that tells a ratio, right after a pull-down on a told source. */
interface ToldSwitch {
  readonly from: HeatSource;
  readonly fall: StretchEvidence;
  readonly told: NonNullable<SwitchOver["told"]>;
}

function toldSwitch(stretch: StretchEvidence, run: RunEvidence): ToldSwitch | null {
  const over = switchOverAt(stretch, run.stretches);
  if (over === null || over.told === null || over.before.source === null || "why" in over.before.fitted) return null;
  return { from: over.before.source, fall: over.before, told: over.told };
}

const switchesTo = (source: HeatSource, runs: readonly RunEvidence[]): readonly ToldSwitch[] =>
  runs.flatMap((run) =>
    run.stretches.flatMap((stretch) => (stretch.source === source ? (toldSwitch(stretch, run) ?? []) : [])),
  );

/**
 * A stretch after, over the stretches on its source before, by the source that both sides were switched from.
 *
 * @returns null where either side was not switched over from the same source, or a switch tells nothing.
 */
export function strengthOverSwitches(
  after: { readonly stretch: StretchEvidence; readonly run: RunEvidence },
  before: readonly RunEvidence[],
  spread: WitnessSpread,
  warming: WarmingRatio,
): Strength | null {
  const { source } = after.stretch;
  const now = toldSwitch(after.stretch, after.run);
  if (source === null || now === null) return null;
  const then = switchesTo(source, before).filter(({ from }) => from === now.from);
  if (then.length === 0) return null;
  const falls = then.map(({ fall }) => fall);
  const strength = strengthOf(now.fall, falls, spread, warming, "own", asTheyRan);
  if ("why" in strength) return null;
  return {
    ...strength,
    log: strength.log + now.told.log - meanOf(then, "log"),
    nightVariance: strength.nightVariance + now.told.variance,
    baselineVariance: strength.baselineVariance + meanOf(then, "variance") / then.length,
    apart: null,
    reasons: strength.reasons.filter(({ code }) => !ofWitnesses.has(code)),
    isOverSwitch: true,
  };
}

/** The same over the source before the switch, which nobody touched. */
export function controlOverSwitches(
  source: HeatSource,
  control: HeatSource,
  after: readonly RunEvidence[],
  before: readonly RunEvidence[],
  /** How much one source over the other scatters from run to run. */
  spread: WitnessSpread,
): Estimate | null {
  const [now, then] = [after, before].map((runs) => switchesTo(source, runs).filter(({ from }) => from === control));
  if (now.length === 0 || then.length === 0) return null;
  const log = meanOf(now, "log") - meanOf(then, "log");
  const finsAlone = 1;
  const variance =
    combinedVariance(spread, finsAlone) * (1 / now.length + 1 / then.length) +
    meanOf(now, "variance") / now.length +
    meanOf(then, "variance") / then.length;
  return logEstimate(log, variance, spread.freedom);
}

const meanOf = (switches: readonly ToldSwitch[], key: "log" | "variance") =>
  switches.reduce((sum, { told }) => sum + told[key], 0) / switches.length;
