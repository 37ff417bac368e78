// German: what may be behind cooling that stopped, for the alarm, the head of the live page and the event.

import { type HeatSource, isElectric } from "../../../schema/index.ts";
import type { StopDoubt } from "../../../science/index.ts";

/** As in ../en/stopped.ts. */
export function mayHaveStopped(
  source: HeatSource | null,
  doubt: StopDoubt = source === "dc12" ? null : "first-hold",
): string {
  if (doubt === "heat-goes-on")
    return "Kocher oder Abgas bleiben heiß: Geheizt wird also noch, nur entsteht daraus keine Kälte. Der Kühlschrank steht vielleicht nicht waagerecht, das Kühlaggregat ist vielleicht ausgefallen, oder ein Thermostat hat sehr lange abgeschaltet.";
  if (doubt === "heat-came-back")
    return "Kocher oder Abgas waren abgekühlt und sind wieder heiß: Die Wärme fiel aus und ist zurück; Kälte sollte binnen einer Stunde folgen.";
  const lost = isElectric(source)
    ? "Die Versorgung ist vielleicht weggefallen."
    : source === "gas"
      ? "Die Flamme ist vielleicht erloschen."
      : "Falls es Gas war, ist die Flamme vielleicht erloschen.";
  return doubt === "first-hold" ? `${lost} Ein Thermostat, der zum ersten Mal abschaltet, sieht genauso aus.` : lost;
}
