// The fin difference F: how much colder the evaporator's fins are than the cabinet air, less the probes' own offset.
// Heat flows into the fins with it, so it is a witness of cooling that needs no curve.

import { type Answer, estimate, isKnown, unknown } from "../numbers/estimate.ts";
import { doorCutHours, meanAmbient, meanBetween, type StretchView } from "../readings/stretch-view.ts";
import type { ProbeOffset } from "./probe-offset.ts";

/** F is the mean over the last hour of a stretch, or of its cut. */
const finHours = 1;

/** Mean ambient while the fins are read, °C; NaN without the probe. */
export function ambientOfFins(view: StretchView, untilHours = view.endHours): number {
  const until = Math.min(untilHours, view.endHours);
  return meanAmbient(view, until - finHours, until);
}

/** Cooling fins cannot be warmer than the air they cool: probes exchanged, or one of them wrong. */
export function finsWarmerThanAir({
  view,
  offset,
}: {
  readonly view: StretchView;
  readonly offset: ProbeOffset;
}): boolean {
  const fins = finDifference(view, offset);
  return isKnown(fins) && fins.value < -1;
}

/** @param untilHours end of the cut, h since the stretch began. */
export function finDifference(view: StretchView, offset: ProbeOffset, untilHours = view.endHours): Answer {
  const until = Math.min(untilHours, view.endHours);
  const nearDoor = (hours: number) => view.doorHours.some((door) => hours >= door && hours < door + doorCutHours);
  const found = meanBetween(view, until - finHours, until, (row) =>
    nearDoor(view.hours[row]) ? Number.NaN : view.cabinet[row] - view.evaporator[row] - offset.kelvin,
  );
  if (found === null) {
    return unknown(
      view.evaporator.some(Number.isFinite)
        ? { code: "too-few-readings", readings: 0, needed: 3 }
        : { code: "no-evaporator" },
    );
  }
  const error = Math.hypot(found.standardError, offset.standardError);
  return estimate("K", found.mean, found.mean - 2 * error, found.mean + 2 * error, {
    standardError: error,
    readings: found.readings,
  });
}
