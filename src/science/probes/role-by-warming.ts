// Which of the probes on the table is the one in somebody's hand: the one that warms while the others do not. Asked once for
// each place, this gives every probe its role without a label.

import { median } from "simple-statistics";

/** A probe's readings since the person was asked to take one in the hand, in order of time. */
export interface WatchedProbe {
  readonly probeId: string;
  readonly celsius: readonly number[];
}

export type WarmedProbe =
  | { readonly outcome: "found"; readonly probeId: string; readonly roseKelvin: number }
  /** Nothing has risen enough yet: hold on, or, where the air is as warm as a hand, dip the probe into cold water and warm it then. */
  | { readonly outcome: "none-yet"; readonly mostKelvin: number }
  /** More than one rises: two in one hand, or the sun on all of them. */
  | { readonly outcome: "several"; readonly probeIds: readonly string[] };

/** A hand warms a probe in a room by several kelvins within a minute (common practice, no source); draughts do not. */
const leastRise = 2;
/** The second one must stay below this share of the first one's rise. */
const mostOfSecond = 0.4;
/** The first readings, before the hand is felt, and the newest: medians, so that one odd reading decides nothing. */
const readingsAtEachEnd = 3;

/** Finds the warmed probe. Probes with too few readings are left out; a rise that all share (the room's) does not count. */
export function roleByWarming(probes: readonly WatchedProbe[]): WarmedProbe {
  const rises = probes.filter(({ celsius }) => celsius.length >= 2 * readingsAtEachEnd).map(riseOf);
  // What even the stillest probe rose by is the room's; one that cools must not turn a still probe into a warmed one.
  const room = rises.length > 1 ? Math.max(0, Math.min(...rises.map(({ rise }) => rise))) : 0;
  const ranked = rises
    .map(({ probeId, rise }) => ({ probeId, rise: rise - room }))
    .sort((one, other) => other.rise - one.rise);
  const [first, ...others] = ranked;
  if (first === undefined || first.rise < leastRise) {
    return { outcome: "none-yet", mostKelvin: Math.max(0, first?.rise ?? 0) };
  }
  const rivals = others.filter(({ rise }) => rise > mostOfSecond * first.rise);
  if (rivals.length > 0) return { outcome: "several", probeIds: [first, ...rivals].map(({ probeId }) => probeId) };
  return { outcome: "found", probeId: first.probeId, roseKelvin: first.rise };
}

function riseOf({ probeId, celsius }: WatchedProbe): { probeId: string; rise: number } {
  const before = median(celsius.slice(0, readingsAtEachEnd));
  const now = median(celsius.slice(-readingsAtEachEnd));
  return { probeId, rise: now - before };
}
