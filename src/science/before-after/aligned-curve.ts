// The readings of a stretch laid on the start of cold, as kelvin below ambient: so runs of different days lie over
// each other.

import type { StretchEvidence } from "../evidence/run-evidence.ts";
import type { AlignedCurve } from "./change-findings.ts";

/** How much of the time before the start of cold is shown, h. */
const hoursBefore = 1;

/**
 * One stretch from an hour before the start of cold on; from the switch-on where no start was found.
 *
 * @returns hours since the start of cold and kelvins below ambient, of the same length; NaN without the ambient probe
 */
export function alignedCurve({ run, stretch, view, fitted }: StretchEvidence): AlignedCurve {
  const isFromOnset = !("why" in fitted);
  const zero = isFromOnset ? fitted.cabinetFit.onsetHours : 0;
  const from = Math.max(
    0,
    view.hours.findIndex((hours) => hours >= zero - hoursBefore),
  );
  return {
    log: run.log,
    startMs: stretch.startMs,
    endMs: stretch.endMs,
    isFromOnset,
    hours: view.hours.slice(from).map((hours) => hours - zero),
    belowAmbient: view.hours
      .slice(from)
      .map((_, i) => (view.ambient?.[from + i] ?? Number.NaN) - view.cabinet[from + i]),
  };
}
