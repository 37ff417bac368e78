// Numbers that people ask for: when was it cold, how fast did it fall, how long was it too warm.

import type { StretchFinding } from "../findings.ts";
import { type Answer, estimate, type Unknown, unknown } from "../numbers/estimate.ts";
import type { CabinetFit } from "../pull-down/cabinet-fit.ts";
import { hoursToFall } from "../pull-down/pull-down.ts";
import type { JudgedFit } from "../pull-down/pull-down-numbers.ts";
import { meanAmbient, meanBetween, type StretchView } from "../readings/stretch-view.ts";
import { probeTolerance } from "./probe-offset.ts";

type Milestones = StretchFinding["milestones"];

/** The fit of the stretch, and whether its rate and depth may be read. */
export interface MilestoneFit {
  readonly cabinetFit: CabinetFit;
  readonly judged: JudgedFit;
}

/**
 * Hours until the cabinet is at 8, 5 and 0 °C, its fall in the first hour of cold (K), and the shares of the stretch above 5
 * and 8 °C; each with its interval, or why there is none.
 *
 * @param warmGoods whether goods may still have been cooling: where the fall leads to is then not told by its curve.
 */
export function milestones(view: StretchView, fitted: MilestoneFit | Unknown, warmGoods = false): Milestones {
  const timeOf = (celsius: number) => timeTo(celsius, view, fitted, warmGoods);
  return {
    to8: timeOf(8),
    to5: timeOf(5),
    to0: timeOf(0),
    fallFirstHour: fallFirstHour(view, fitted),
    shareAbove5: shareAbove(5, view),
    shareAbove8: shareAbove(8, view),
  };
}

/** Hours from the switch-on until the cabinet is at `celsius`: reached, or projected with the ambient of the last hour. */
function timeTo(celsius: number, view: StretchView, fitted: MilestoneFit | Unknown, warmGoods: boolean): Answer {
  const first = meanBetween(view, 0, 0.25, (row) => view.cabinet[row], 1);
  if (first === null) return unknown({ code: "no-cabinet" });
  if (first.mean <= celsius) return unknown({ code: "already-below", celsius });
  const seen = reached(celsius, view);
  if (seen !== null) return seen;
  if (fallHasEnded(view)) return unknown({ code: "fall-ended" });
  return warmGoods ? unknown({ code: "goods-hide-the-end", celsius }) : projected(celsius, view, fitted);
}

/** So long after its end the fall is not going on, h. */
const goesOnHours = 0.25;

/** Whether the stretch goes on after its pull-down: where that led to, nobody will see. */
export const fallHasEnded = ({ hours, endHours }: StretchView): boolean =>
  hours.length > 0 && hours[hours.length - 1] > endHours + goesOnHours;

/** The first crossing that lasts: the mean of the next quarter of an hour is below, too. */
function reached(celsius: number, view: StretchView): Answer | null {
  for (let i = 1; i < view.hours.length; i++) {
    if (!(view.cabinet[i] <= celsius)) continue;
    const after = meanBetween(view, view.hours[i], view.hours[i] + 0.25, (row) => view.cabinet[row], 1);
    if (after === null || after.mean > celsius) continue;
    const around = meanBetween(view, view.hours[i] - 0.25, view.hours[i] + 0.25, (row) => view.cabinet[row], 2);
    const step = view.hours[i] - view.hours[i - 1];
    const doubt = Math.max(step, around === null ? 0 : 2 * around.standardError * step);
    return estimate("h", view.hours[i], Math.max(0, view.hours[i] - doubt), view.hours[i] + doubt);
  }
  return null;
}

function projected(celsius: number, view: StretchView, fitted: MilestoneFit | Unknown): Answer {
  if ("why" in fitted) return unknown(fitted.why);
  if (view.ambient === null) return unknown({ code: "no-ambient" });
  const { cabinetFit, judged } = fitted;
  if ("why" in judged.numbers.depth) return judged.numbers.depth;
  const ambient = meanAmbient(view, view.endHours - 1, view.endHours);
  if (Number.isNaN(ambient)) return unknown({ code: "no-ambient" });
  const hoursAt = (rate: number, depth: number, onset: number, start: number): number | null => {
    const after = hoursToFall(rate, start - (ambient - depth), start - celsius);
    return after === null ? null : cabinetFit.shiftHours + onset + after;
  };
  const { rate, depth, onset, start } = cabinetFit.fit.pullDown;
  const value = hoursAt(rate, depth, onset, start);
  if (value === null) return unknown({ code: "not-reached", celsius, settles: ambient - depth });
  const early = judged.intervals.possible.map(({ pullDown, depthReach }) =>
    hoursAt(pullDown.rate, pullDown.depth + depthReach, pullDown.onset, pullDown.start),
  );
  const late = judged.intervals.possible.map(({ pullDown, depthReach }) =>
    hoursAt(pullDown.rate, pullDown.depth - depthReach, pullDown.onset, pullDown.start),
  );
  const low = Math.min(value, ...early.filter((hours) => hours !== null));
  const high = late.some((hours) => hours === null) ? null : Math.max(value, ...late.filter((hours) => hours !== null));
  return estimate("h", value, low, high);
}

/** Fall of the cabinet in the first hour after the onset, K. */
function fallFirstHour(view: StretchView, fitted: MilestoneFit | Unknown): Answer {
  if (view.stretch.startState === "switched-while-cold") return unknown({ code: "switched-while-cold" });
  if ("why" in fitted) return unknown(fitted.why);
  const { onsetHours, hoursAfterOnset } = fitted.cabinetFit;
  if (hoursAfterOnset < 1) return unknown({ code: "too-early", hoursAfterOnset, neededHours: 1 });
  const at = (hours: number) => meanBetween(view, hours - 0.1, hours + 0.1, (row) => view.cabinet[row], 1);
  const before = at(onsetHours);
  const after = at(onsetHours + 1);
  if (before === null || after === null) return unknown({ code: "no-numbers" });
  const fall = before.mean - after.mean;
  const error = Math.hypot(before.standardError, after.standardError);
  return estimate("K", fall, fall - 2 * error, fall + 2 * error, { standardError: error });
}

/** Share of the stretch with the cabinet above a limit; its interval is what the probe's tolerance leaves open. */
function shareAbove(celsius: number, view: StretchView): Answer {
  const share = (limit: number) => {
    let above = 0;
    let whole = 0;
    for (let i = 1; i < view.hours.length; i++) {
      if (!Number.isFinite(view.cabinet[i])) continue;
      const step = Math.min(view.hours[i] - view.hours[i - 1], 0.25); // a gap says nothing about its middle
      whole += step;
      if (view.cabinet[i] > limit) above += step;
    }
    return whole > 0 ? above / whole : Number.NaN;
  };
  const value = share(celsius);
  if (!Number.isFinite(value)) return unknown({ code: "no-cabinet" });
  return estimate("1", value, share(celsius + probeTolerance), share(celsius - probeTolerance));
}
