// Checks of probes on what they said in a run or a log: the ice-slush test, and which one was warmed in a hand.

import { msPerMinute } from "../schema/index.ts";
import { iceSlushCheck, type SlushFinding, type Warming, warmings } from "../science/probes/index.ts";
import type { ProbeReadings } from "./probe-readings.ts";

/** The test takes ten minutes; what came before it is the room, ms. */
const testMs = 10 * msPerMinute;
/** A probe whose last reading is older than this at the end has fallen silent, ms. */
const silentMs = 90_000;

/**
 * Judges probes that lay in a slush until the readings end.
 *
 * @param inSlush probe ids or positions that lay in it; all when left out
 */
export function slushFindings(
  probes: readonly ProbeReadings[],
  inSlush: readonly string[] | undefined,
): readonly SlushFinding[] {
  const ends = probes.map(({ unixMs, faultsMs }) => Math.max(unixMs.at(-1) ?? 0, faultsMs.at(-1) ?? 0));
  const end = Math.max(...ends);
  return iceSlushCheck(
    probes.map((probe) => {
      const { probeId, position, unixMs, celsius, faultsMs } = probe;
      const hasEnded = end - (unixMs.at(-1) ?? Number.NEGATIVE_INFINITY) > silentMs;
      const readings = unixMs.flatMap((at, i) =>
        at >= end - testMs && !hasEnded ? [{ seconds: (at - end) / 1000, celsius: celsius[i] }] : [],
      );
      return {
        probeId,
        isInSlush: inSlush === undefined || inSlush.some((name) => name === probeId || name === position),
        readings,
        faults: faultsMs.filter((at) => at >= end - testMs).length,
      };
    }),
  );
}

/** Which probe was warmed in a hand, and when. */
export const handWarmings = (probes: readonly ProbeReadings[]): readonly Warming[] => warmings(probes);
