// What happened during a run, found in the working series. Each kind of event has a file of its own.

import { msPerMinute } from "../../../schema/index.ts";
import type { RunEvent } from "../../findings.ts";
import type { Series, Stretch } from "../series.ts";
import { coolingPauses } from "./cooling-pauses.ts";
import { findCoolingStopped } from "./cooling-stopped.ts";
import { findCycling } from "./cycling.ts";
import { findDoorOpenings } from "./door-openings.ts";
import { findProbeSteps, withoutMovedProbes } from "./probe-steps.ts";
import { findSunOnProbe } from "./sun-on-probe.ts";

/** A door that stood open is shut at the latest so long after its peak. */
const doorShutsMs = 15 * msPerMinute;

/** All events of a run in order of time. Gaps, probe faults and clock jumps come from cleaning. */
export function findEvents(series: Series, stretches: readonly Stretch[]): RunEvent[] {
  const sun = findSunOnProbe(series);
  const doors = findDoorOpenings(series);
  const steps = findProbeSteps(series).filter((step) => !isSun(step, sun) && !isDoor(step, doors));
  const seated = withoutMovedProbes(series, steps);
  const inStretches = stretches.flatMap((stretch) => pauseEvents(seated, stretch));
  return [...doors, ...inStretches, ...steps, ...sun].sort((a, b) => a.startMs - b.startMs);
}

/**
 * Row where the pull-down part of a stretch ends: at the first pause of cooling (thermostat, flame, supply) or where the
 * cabinet probe was moved; else the stretch's end.
 */
export function pullDownEnd(stretch: Stretch, events: readonly RunEvent[], series: Series): number {
  if (!stretch.heated) return stretch.to;
  const ends = events
    .filter((event) => endsPullDown(event) && event.startMs >= stretch.startMs && event.startMs < stretch.endMs)
    .map((event) => rowAt(series, stretch, event.startMs));
  // A pause at the very end is not yet an event, but no pull-down either.
  const pauses = coolingPauses(withoutMovedProbes(series, events), stretch).map((pause) => pause.from);
  return Math.min(stretch.to, ...ends, ...pauses);
}

function pauseEvents(series: Series, stretch: Stretch): RunEvent[] {
  const pauses = coolingPauses(series, stretch);
  const cycling = findCycling(series, stretch, pauses);
  const ofCycling = cycling.flatMap((chain) => chain.pauses);
  const stopped = findCoolingStopped(series, stretch, pauses, ofCycling);
  return [...cycling.map((chain) => chain.event), ...stopped];
}

const endsPullDown = (event: RunEvent) =>
  event.kind === "cycling" ||
  event.kind === "cooling-stopped" ||
  (event.kind === "probe-moved" && event.position === "cabinet");

function rowAt({ unixMs }: Series, stretch: Stretch, atMs: number): number {
  for (let row = stretch.from; row < stretch.to; row++) if (unixMs[row] >= atMs) return row;
  return stretch.to;
}

/** A step of the ambient probe that begins or ends a sunny time is the sun's. */
const isSun = (step: RunEvent, sun: readonly RunEvent[]) =>
  step.position === "ambient" && sun.some((one) => step.endMs >= one.startMs && step.startMs <= one.endMs);

/** What the cabinet keeps of a door's warmth for half an hour looks like a step, and so does its fall when a door shuts. */
const isDoor = (step: RunEvent, doors: readonly RunEvent[]) =>
  step.position === "cabinet" &&
  doors.some((one) => step.endMs >= one.startMs && step.startMs <= one.endMs + doorShutsMs);
