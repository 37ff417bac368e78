// What probes that send no °C mean, as the store keeps it: which have a curve, and which lack one.

import type { ProbeCurve } from "../schema/index.ts";
import { sensorUnits } from "../science/sensors/index.ts";
import type { Store } from "../store/index.ts";

/** The curves that are kept, by their probe's id. */
export async function keptCurves(probes: Pick<Store["probes"], "list">): Promise<ReadonlyMap<string, ProbeCurve>> {
  return new Map((await probes.list()).flatMap(({ id, curve }) => (curve ? [[id, curve] as const] : [])));
}

/** Those of a board's probes that send ohms or millivolts without a curve for it. */
export function withoutCurve(
  probes: readonly { readonly probeId: string; readonly unit: "Cel" | "Ohm" | "mV" | "V" }[],
  curves: ReadonlyMap<string, ProbeCurve>,
): readonly string[] {
  return probes.flatMap(({ probeId, unit }) => {
    if (unit === "Cel" || unit === "V") return [];
    const curve = curves.get(probeId);
    return curve !== undefined && sensorUnits[curve.kind] === unit ? [] : [probeId];
  });
}
