// When which probe was warmed in a hand, found in a log afterwards: role-by-warming.ts asked again and again along it.

import { roleByWarming } from "./role-by-warming.ts";

/** A probe's readings over the log, in order of time. */
export interface LoggedProbe {
  readonly probeId: string;
  readonly unixMs: ArrayLike<number>;
  readonly celsius: ArrayLike<number>;
}

/** A time in which something warmed as in a hand. */
export type Warming =
  | {
      readonly outcome: "found";
      readonly probeId: string;
      readonly fromUnixMs: number;
      readonly toUnixMs: number;
      /** The most that it rose by within a minute and a half. */
      readonly roseKelvin: number;
    }
  /** Several rose together: nobody can say which was meant. */
  | {
      readonly outcome: "several";
      readonly probeIds: readonly string[];
      readonly fromUnixMs: number;
      readonly toUnixMs: number;
    };

/** As long as one is asked to hold a probe, and the pace of looking. */
const windowMs = 90_000;
const stepMs = 15_000;

/**
 * Finds the warmings in a log, in order of time.
 *
 * @param probes their readings at least every 15 s; slower ones give too few readings in a window and are not seen.
 */
export function warmings(probes: readonly LoggedProbe[]): readonly Warming[] {
  const watched = probes.filter(({ unixMs }) => unixMs.length > 0);
  if (watched.length === 0) return [];
  const begin = Math.min(...watched.map(({ unixMs }) => unixMs[0]));
  const end = Math.max(...watched.map(({ unixMs }) => unixMs[unixMs.length - 1]));
  const cursors = watched.map((probe) => new WindowOf(probe));
  const found: Warming[] = [];
  for (let from = begin; from === begin || from + windowMs <= end + stepMs; from += stepMs) {
    const inWindow = cursors.map((cursor) => cursor.at(from, from + windowMs));
    const warmed = roleByWarming(inWindow);
    if (warmed.outcome !== "none-yet") takeIn(found, { ...warmed, fromUnixMs: from, toUnixMs: from + windowMs });
  }
  return found.filter((warming) => !isTail(warming, found));
}

/** The readings of one probe within a window that only moves on. */
class WindowOf {
  readonly #probe: LoggedProbe;
  #first = 0;

  constructor(probe: LoggedProbe) {
    this.#probe = probe;
  }

  at(from: number, to: number): { readonly probeId: string; readonly celsius: readonly number[] } {
    const { probeId, unixMs, celsius } = this.#probe;
    while (this.#first < unixMs.length && unixMs[this.#first] < from) this.#first += 1;
    const values: number[] = [];
    for (let i = this.#first; i < unixMs.length && unixMs[i] <= to; i++) values.push(celsius[i]);
    return { probeId, celsius: values };
  }
}

/** Windows that overlap and say the same are one warming. */
function takeIn(found: Warming[], next: Warming): void {
  const before = found.findLastIndex((one) => sameProbes(one, next) && next.fromUnixMs <= one.toUnixMs);
  if (before < 0) {
    found.push(next);
    return;
  }
  const one = found[before];
  const rise =
    one.outcome === "found" && next.outcome === "found"
      ? { roseKelvin: Math.max(one.roseKelvin, next.roseKelvin) }
      : {};
  found[before] = { ...one, ...rise, toUnixMs: next.toUnixMs };
}

/** As one probe is laid down and the next one taken up, a window holds the end of one rise and the beginning of the other. */
function isTail(warming: Warming, all: readonly Warming[]): boolean {
  if (warming.outcome === "found") return false;
  return warming.probeIds.every((probeId) =>
    all.some(
      (other) =>
        other.outcome === "found" &&
        other.probeId === probeId &&
        other.fromUnixMs <= warming.toUnixMs &&
        other.toUnixMs >= warming.fromUnixMs,
    ),
  );
}

const probesOf = (warming: Warming) => (warming.outcome === "found" ? [warming.probeId] : warming.probeIds);

const sameProbes = (one: Warming, other: Warming) =>
  one.outcome === other.outcome && probesOf(one).toSorted().join() === probesOf(other).toSorted().join();
