// The probes on a fridge: where each sits, and when its calibration is to be repeated.

import type { AnswerOf, Operations } from "../../src/schema/api/index.ts";
import { ask, useAsked } from "../ask.ts";
import { bench, handFor, localOffset, names } from "../words.ts";

type Calibration = AnswerOf<Operations["GET /api/probes"]>["calibrations"][number];

export function Probes({ fridgeId }: { readonly fridgeId: string }) {
  const { answer } = useAsked("probes", () => ask("GET /api/probes"));
  const roles = answer?.roles.filter((role) => role.fridgeId === fridgeId) ?? [];
  return (
    <section aria-labelledby="probes">
      <h2 id="probes">{bench.probes.title}</h2>
      {answer !== null && roles.length === 0 ? <p>{bench.probes.none}</p> : null}
      <ul>
        {roles.map(({ probeId, position }) => {
          const label = answer?.probes.find(({ id }) => id === probeId)?.label ?? probeId;
          const calibration = answer?.calibrations.find((one) => one.probeId === probeId);
          return (
            <li key={probeId}>
              <b>{bench.capital(names.positionNames[position])}</b>: {bench.probes.probe(label)}. {dueOf(calibration)}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function dueOf(calibration: Calibration | undefined): string {
  if (calibration === undefined) return bench.probes.uncalibrated;
  const { madeUnixMs, dueUnixMs, standardUncertaintyKelvin } = calibration;
  const day = (unixMs: number) => handFor(localOffset(unixMs)).day(unixMs);
  const made = bench.probes.calibrated(day(madeUnixMs), handFor(0).quantity(standardUncertaintyKelvin, "K", 2));
  if (dueUnixMs === undefined) return made;
  return `${made} ${dueUnixMs < Date.now() ? bench.probes.overdue(day(dueUnixMs)) : bench.probes.due(day(dueUnixMs))}`;
}
