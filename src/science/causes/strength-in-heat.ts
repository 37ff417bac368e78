// Whether the fridge is weak only when it is hot: its strength over the ambients of all its stretches, each source against
// itself. That is what poor ventilation, sun on the vents, and a charge near its condensing limit have in common.

import type { HeatSource } from "../../schema/index.ts";
import type { StrengthAt, WarningSaying } from "../sayings.ts";
import type { JudgedStretch } from "../verdict/judge-stretch.ts";

/** ln(strength) for each 10 K that it is warmer, beyond what the references to 25 °C allow for. */
export interface StrengthInHeat {
  readonly value: number;
  readonly standardError: number;
  readonly coolest: StrengthAt;
  readonly hottest: StrengthAt;
}

/** From one ambient to another the usual course is known to this much of ln(strength), per 10 K: simulated fridges. */
export const usualHeatScatter = 0.03;

/** Ambients closer together than this tell nothing of heat, K. */
const leastSpan = 5;

/** @returns null unless one source was judged at two ambients at least 5 K apart. */
export function strengthInHeat(judged: readonly JudgedStretch[]): StrengthInHeat | null {
  const points = judged.flatMap(({ evidence: { source, ambient }, strength }) =>
    source === null || "why" in strength || strength.baseline === "other-sources" || !Number.isFinite(ambient)
      ? []
      : [{ source, ambient, log: strength.log, variance: strength.nightVariance + strength.spreadVariance }],
  );
  const spans = new Map<HeatSource, typeof points>();
  for (const point of points) spans.set(point.source, [...(spans.get(point.source) ?? []), point]);
  const telling = [...spans.values()].filter((group) => {
    const ambients = group.map(({ ambient }) => ambient);
    return Math.max(...ambients) - Math.min(...ambients) >= leastSpan;
  });
  if (telling.length === 0) return null;
  let across = 0;
  let along = 0;
  let variance = 0;
  for (const group of telling) {
    const mean = (pick: (point: (typeof group)[number]) => number) =>
      group.reduce((sum, point) => sum + pick(point), 0) / group.length;
    const [meanAmbient, meanLog] = [mean((point) => point.ambient), mean((point) => point.log)];
    for (const { ambient, log, variance: own } of group) {
      across += (ambient - meanAmbient) * (log - meanLog);
      along += (ambient - meanAmbient) ** 2;
      variance += (ambient - meanAmbient) ** 2 * own;
    }
  }
  const inOrder = telling.flat().toSorted((a, b) => a.ambient - b.ambient);
  const at = ({ ambient, log }: (typeof points)[number]): StrengthAt => ({ ambient, strength: Math.exp(log) });
  return {
    value: (10 * across) / along,
    standardError: (10 * Math.sqrt(variance)) / along,
    coolest: at(inOrder[0]),
    hottest: at(inOrder[inOrder.length - 1]),
  };
}

/** Said where the loss in heat is beyond chance. */
export function heatWarnings(judged: readonly JudgedStretch[]): readonly WarningSaying[] {
  const inHeat = strengthInHeat(judged);
  if (inHeat === null || !(inHeat.value + 2 * Math.hypot(inHeat.standardError, usualHeatScatter) < 0)) return [];
  return [{ code: "weaker-in-heat", coolest: inHeat.coolest, hottest: inHeat.hottest }];
}
