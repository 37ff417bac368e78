// `coldfall simulate`: an invented run as a log, and the truth behind it as a sentence.

import { type Instant, nativeLogText, refuseToReplace, writeWholeFile } from "../ingest/index.ts";
import { plain } from "../report/index.ts";
import { msPerHour } from "../schema/index.ts";
import {
  faultKinds,
  knownGoodFridge,
  type ProbeBuild,
  type ScheduledStretch,
  type SimulatedFault,
  type SimulatedPosition,
  type SimulatedRun,
  simulateRun,
  thermocouple,
} from "../simulate/index.ts";
import { type LanguageOptions, wordsFor } from "./language-option.ts";
import { badOption } from "./option-values.ts";
import type { FurtherProbe } from "./simulate-options.ts";
import type { Terminal } from "./terminal.ts";

interface WhenAndHowLong {
  readonly atHours: number;
  readonly howLong: number;
}

export interface SimulateOptions extends Pick<LanguageOptions, "language"> {
  readonly out: string;
  readonly fault?: readonly SimulatedFault[];
  readonly seed: number;
  readonly schedule: readonly ScheduledStretch[];
  readonly ambient: number;
  readonly swing: number;
  readonly start: Instant;
  readonly every: number;
  readonly door?: readonly WhenAndHowLong[];
  readonly outage?: readonly WhenAndHowLong[];
  readonly thermostat?: number;
  readonly nightToNight: number;
  readonly probe?: readonly FurtherProbe[];
  readonly source: boolean;
}

/** @throws BadInput before anything is written. */
export function runSimulate(options: SimulateOptions, terminal: Terminal): void {
  refuseToReplace({ readings: options.out });
  const { cli, names } = wordsFor(options);
  const run = simulated(options);
  writeWholeFile(options.out, nativeLogText(run.recording), "readings");
  for (const { name } of idleFaults(options))
    terminal.tell(`${cli.simulate.idleFault(name, (faultKinds[name].on ?? []).map(names.onSource))}\n`);
  terminal.print(`${plain(summary(options, run))}\n`);
}

/** Faults of a source that the fridge never runs on: the log shows nothing of them. */
const idleFaults = ({ fault: faults = [], schedule }: SimulateOptions) =>
  faults.filter(({ name }) => {
    const { on } = faultKinds[name];
    return on !== undefined && !schedule.some(({ source }) => on.some((one) => one === source));
  });

function simulated(options: SimulateOptions): SimulatedRun {
  const { fault: faults = [], door = [], outage = [], start, ambient, swing, nightToNight } = options;
  const plan = {
    name: options.out,
    seed: options.seed,
    startUnixMs: start.unixMs,
    utcOffsetMinutes: start.utcOffsetMinutes,
    fridge: knownGoodFridge(),
    schedule: options.schedule,
    ambient: { meanCelsius: ambient, swingKelvin: swing },
    samplingSeconds: options.every,
    doors: door.map(({ atHours, howLong }) => ({ atHours, seconds: howLong })),
    outages: outage.map(({ atHours, howLong }) => ({ atHours, hours: howLong })),
    thermostatSetCelsius: options.thermostat,
    nightToNight: { heat: nightToNight },
    probes: Object.fromEntries((options.probe ?? []).flatMap(buildOf)),
    includeSupply: options.probe?.includes("supply"),
    tellSource: options.source,
  };
  for (const fault of faults)
    refuseImpossible(fault, () => simulateRun({ ...plan, schedule: shortest, faults: [fault] }));
  return simulateRun({ ...plan, faults });
}

/** The probe at a position; the volts at the terminals are no probe's. */
const buildOf = (position: FurtherProbe): readonly (readonly [SimulatedPosition, ProbeBuild])[] => {
  if (position === "supply") return [];
  return [[position, position === "flue" || position === "boiler" ? thermocouple : {}]];
};

/** Enough of a run to learn whether a fault's size can be. */
const shortest: readonly ScheduledStretch[] = [{ source: "off", hours: 0.01 }];

/** The simulator knows which sizes can be: some are shares, some have no limit. */
function refuseImpossible({ name, size }: SimulatedFault, attempt: () => unknown): void {
  try {
    attempt();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw badOption("--fault", `${name}=${size}`, ({ cli }) => cli.simulate.expectedFaultSize(faultKinds[name].size));
  }
}

function summary(options: SimulateOptions, { recording, truth }: SimulatedRun): string {
  const { cli, names } = wordsFor(options);
  const stretches = truth.stretches.map(({ source, startMs, endMs, strength }) => {
    const hours = Math.round(((endMs - startMs) / msPerHour) * 100) / 100;
    const percent = strength === null ? null : Math.round(strength.thisNight * 100);
    return cli.simulate.stretch(names.onSource(source), hours, percent);
  });
  return cli.simulate.wrote(options.out, recording.unixMs.length, stretches);
}
