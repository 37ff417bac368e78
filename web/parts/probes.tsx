// The probes on a fridge: where each sits, what it sends, and when its calibration is to be repeated.

import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { isSameCurve } from "../../src/science/sensors/index.ts";
import { ask, useAsked } from "../ask.ts";
import { useKept } from "../kept-value.ts";
import { mayChange } from "../role.ts";
import { bench, handFor, localOffset, names } from "../words.ts";
import { ProbeCurveForm } from "./probe-curve.tsx";

type Probe = AnswerOf<Operations["GET /api/probes"]>["probes"][number];
type Calibration = AnswerOf<Operations["GET /api/probes"]>["calibrations"][number];

export function Probes({ fridgeId }: { readonly fridgeId: string }) {
  const { answer, again } = useAsked("probes", () => ask("GET /api/probes"));
  const isChanging = useKept(mayChange);
  const roles = answer?.roles.filter((role) => role.fridgeId === fridgeId) ?? [];
  return (
    <section aria-labelledby="probes">
      <h2 id="probes">{bench.probes.title}</h2>
      {answer !== null && roles.length === 0 ? <p>{bench.probes.none}</p> : null}
      <ul>
        {roles.map(({ probeId, position }) => {
          const probe = answer?.probes.find(({ id }) => id === probeId) ?? { id: probeId };
          const calibrations = answer?.calibrations.filter((one) => one.probeId === probeId) ?? [];
          return (
            <li key={probeId}>
              <b>{bench.capital(names.positionNames[position])}</b>: {bench.probes.probe(probe.label ?? probeId)}.{" "}
              {probe.curve ? `${bench.probes.isA(probe.curve, handFor(0))} ` : ""}
              {standing(probe, calibrations)}
              {isChanging ? <ProbeCurveForm probeId={probeId} curve={probe.curve ?? null} changed={again} /> : null}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** @param calibrations newest first */
function standing(probe: Probe, calibrations: readonly Calibration[]): string {
  const newest = calibrations.find(({ curve }) => isSameCurve(curve, probe.curve));
  if (newest === undefined) return calibrations.length === 0 ? bench.probes.uncalibrated : bench.probes.otherCurve;
  const { madeUnixMs, dueUnixMs, standardUncertaintyKelvin } = newest;
  const day = (unixMs: number) => handFor(localOffset(unixMs)).day(unixMs);
  const made = bench.probes.calibrated(day(madeUnixMs), handFor(0).quantity(standardUncertaintyKelvin, "K", 2));
  if (dueUnixMs === undefined) return made;
  return `${made} ${dueUnixMs < Date.now() ? bench.probes.overdue(day(dueUnixMs)) : bench.probes.due(day(dueUnixMs))}`;
}
