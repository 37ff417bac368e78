// What the causes are weighed on, gathered from the judged stretches.

import { type HeatSource, heatSources } from "../../schema/index.ts";
import type { SourceFinding } from "../findings.ts";
import { isKnown } from "../numbers/estimate.ts";
import type { WarmingRatio } from "../strength/strength.ts";
import type { JudgedStretch } from "../verdict/judge-stretch.ts";
import type { Observations, Shown } from "./causes.ts";

export function observationsOf(
  judged: readonly JudgedStretch[],
  sources: readonly SourceFinding[],
  warming: readonly WarmingRatio[],
): Observations {
  const ofSource = (source: HeatSource | null) =>
    judged.filter((one) => one.evidence.stretch.heated && one.evidence.source === source);
  const shown = warming.filter((ratio) => ratio !== null);
  return {
    sources: heatSources.flatMap((source) => {
      const finding = sources.find((one) => one.source === source);
      if (finding === undefined) return [];
      const strength = isKnown(finding.coolingStrength) ? finding.coolingStrength : null;
      const shifts = ofSource(source).flatMap((one) =>
        isKnown(one.finding.deadTimeShift) ? [one.finding.deadTimeShift.value * 60] : [],
      );
      return [
        {
          source,
          logStrength: strength === null ? null : Math.log(strength.value),
          standardError: strength === null ? 0 : (strength.standardError ?? 0) / strength.value,
          isDead: finding.verdict === "not-cooling",
          onsetShiftMinutes: shifts.length === 0 ? null : shifts.reduce((sum, shift) => sum + shift, 0) / shifts.length,
        },
      ];
    }),
    logWarming:
      shown.length === 0
        ? null
        : {
            value: shown.reduce((sum, ratio) => sum + Math.log(ratio.value), 0) / shown.length,
            standardError: (shown[0].standardError ?? 0) / shown[0].value / Math.sqrt(shown.length),
          },
    logApart: apartOf(judged),
    lowSupply:
      judged.find((one) => one.finding.reasons.some((reason) => reason.code === "supply-low"))?.evidence.source ?? null,
  };
}

/** How far the witnesses lie apart, in the stretch where it shows most: a load is felt in the first stretch only. */
function apartOf(judged: readonly JudgedStretch[]): Shown | null {
  const shown = judged.flatMap(({ strength }) =>
    "why" in strength || strength.apart === null ? [] : [strength.apart],
  );
  if (shown.length === 0) return null;
  return shown.reduce((most, one) => (Math.abs(one.value) > Math.abs(most.value) ? one : most));
}
