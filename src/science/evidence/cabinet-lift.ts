// How far above ambient the cabinet would settle with the fridge off: nothing in a closed cabinet makes heat but a lamp
// that stays on. Read from the balance of what warms back, C·dT/dt = UA·(Ta - T) + P, so that nobody has to wait for the end.

import { fitStraightLine } from "../numbers/straight-line.ts";
import { doorCutHours, meanAmbient, meanBetween, type StretchView, ventShare } from "../readings/stretch-view.ts";
import { probeTolerance } from "./probe-offset.ts";

/** Kelvin above ambient, and its standard error. */
export interface CabinetLift {
  readonly value: number;
  readonly standardError: number;
  /** What it is at the least, whatever the rate: where the cabinet stood above ambient and went on rising; else null. */
  readonly least: number | null;
}

/** The last readings of an off stretch, h; before that the cold evaporator and the contents still move. */
const windowHours = 1;
const coldUntil = 1.5;
/** The rate of warming back, 1/h, and what is not known of it, relative; contents lag behind the air besides. */
interface Rate {
  readonly perHour: number;
  readonly doubt: number;
}

/** Where the run shows its rate. */
const shownRateDoubt = 0.35;
/**
 * Where it does not, as with a lamp so strong that the cabinet hardly stays below ambient: simulated fridges have 0.12 to 0.4.
 * Half of it in doubt, and twice the error leaves just what the cabinet already stood above ambient.
 */
const usualRate: Rate = { perHour: 0.2, doubt: 0.5 };
/** Beyond this the moving cabinet does not show that there is no lift, K. */
const vague = 1.5;

/**
 * A van is heated while the air at its vent is cold, and its room warms the cabinet as a lamp would: how far above the vent's air
 * the box may stand, standard deviation in K, in a van whose room nobody logged. Common practice, no source.
 */
const vanRoom = { celsius: 20, least: 2 } as const;
const roomDoubt = (ventCelsius: number): number =>
  (1 - ventShare) * Math.max(vanRoom.least, (vanRoom.celsius - ventCelsius) / 2);

/**
 * @param views all stretches of one run.
 * @param warmingRate k_w = UA/C, 1/h; null where the run does not show it.
 * @param isInVan the fridge stands in a van, and no probe tells of the room before its door.
 * @returns of the off stretch that tells most; null where none does.
 */
export function cabinetLift(
  views: readonly StretchView[],
  warmingRate: number | null,
  isInVan: boolean,
): CabinetLift | null {
  const rate = warmingRate === null ? usualRate : { perHour: warmingRate, doubt: shownRateDoubt };
  const lifts = views.flatMap((view, at) => {
    const lift = view.stretch.heated ? null : liftOf(view, rate, at === 0 ? 0 : coldUntil, isInVan);
    return lift !== null && (lift.standardError <= vague || isLamp(lift)) ? [lift] : [];
  });
  return lifts.reduce<CabinetLift | null>(
    (best, lift) => (best === null || lift.standardError < best.standardError ? lift : best),
    null,
  );
}

/** Whether there is a lamp in the cabinet: a lift beyond its own error and what two probes may differ by, however far it has to go. */
export const isLamp = (lift: CabinetLift | null): lift is CabinetLift =>
  lift !== null && lift.value - 2 * lift.standardError > 0.5;

function liftOf(view: StretchView, { perHour, doubt }: Rate, from: number, isInVan: boolean): CabinetLift | null {
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
  const stillToGo = line.slope / perHour;
  // Two probes in the same air may differ by their tolerance each.
  const probes = (Math.SQRT2 * probeTolerance) / 2;
  const room = isInVan ? roomDoubt(meanAmbient(view, begin, until)) : 0;
  return {
    value: above.mean + stillToGo,
    least: above.mean > 0 && stillToGo > 0 && !isInVan ? above.mean : null,
    standardError: Math.hypot(probes, room, above.standardError, doubt * stillToGo),
  };
}
