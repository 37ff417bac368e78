// How far above ambient the cabinet would settle with the fridge off: nothing in a closed cabinet makes heat but a lamp
// that stays on. Read from the balance of what warms back, C·dT/dt = UA·(Ta - T) + P, so that nobody has to wait for the end.

import { fitStraightLine } from "../numbers/straight-line.ts";
import { doorCutHours, meanBetween, type StretchView } from "../readings/stretch-view.ts";
import { probeTolerance } from "./probe-offset.ts";

/** Kelvin above ambient, and its standard error. */
export interface CabinetLift {
  readonly value: number;
  readonly standardError: number;
}

/** The last readings of an off stretch, h; before that the cold evaporator and the contents still move. */
const windowHours = 1;
const coldUntil = 1.5;
/** What is not known of the rate of warming back, relative; contents lag behind the air besides. */
const rateDoubt = 0.35;
/** Beyond this the moving cabinet tells nothing of where it would end, K. */
const vague = 1.5;

/**
 * @param views all stretches of one run.
 * @param warmingRate k_w = UA/C, 1/h.
 * @returns of the off stretch that tells most; null where none does.
 */
export function cabinetLift(views: readonly StretchView[], warmingRate: number): CabinetLift | null {
  const lifts = views.flatMap((view, at) => {
    const lift = view.stretch.heated ? null : liftOf(view, warmingRate, at === 0 ? 0 : coldUntil);
    return lift === null || lift.standardError > vague ? [] : [lift];
  });
  return lifts.reduce<CabinetLift | null>(
    (best, lift) => (best === null || lift.standardError < best.standardError ? lift : best),
    null,
  );
}

function liftOf(view: StretchView, warmingRate: number, from: number): CabinetLift | null {
  const { ambient, cabinet, hours, doorHours } = view;
  if (ambient === null) return null;
  const until = hours.at(-1) ?? 0;
  const begin = Math.max(from, until - windowHours);
  if (until - begin < windowHours / 2 || doorHours.some((door) => door < until && door + doorCutHours > begin))
    return null;
  const rows = [...hours.keys()].filter((row) => hours[row] >= begin && Number.isFinite(cabinet[row] + ambient[row]));
  const line = fitStraightLine(
    rows.map((row) => hours[row]),
    rows.map((row) => cabinet[row]),
  );
  const above = meanBetween(view, begin, until, (row) => cabinet[row] - ambient[row], 5);
  if (line === null || above === null) return null;
  const stillToGo = line.slope / warmingRate;
  // Two probes in the same air may differ by their tolerance each.
  const probes = (Math.SQRT2 * probeTolerance) / 2;
  return {
    value: above.mean + stillToGo,
    standardError: Math.hypot(probes, above.standardError, rateDoubt * stillToGo),
  };
}
