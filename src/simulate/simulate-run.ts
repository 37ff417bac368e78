// One run, from plan to recording: steps the heat balance (heat-balance.ts) through the plan and reads the probes.

import { energySources, msPerHour, msPerMinute, type Position, type Recording } from "../schema/index.ts";
import { ambientOf } from "./ambient.ts";
import { faultEffects } from "./faults.ts";
import { stepFlue } from "./flue.ts";
import {
  atRest,
  coolingNow,
  type FridgeState,
  type PreparedFridge,
  prepareFridge,
  rejectionNow,
  stepFridge,
} from "./heat-balance.ts";
import { heatNow, type Night, nightsOf, scatter } from "./nights.ts";
import { hoursOf, type SimulatedPosition, type SimulationPlan } from "./plan.ts";
import { type ProbeBuild, SimulatedProbe } from "./probes.ts";
import { seededRandom } from "./seeded-random.ts";
import { callsForHeat } from "./thermostat.ts";
import { type CoolingMoment, type Truth, truthOf } from "./truth.ts";

export interface SimulatedRun {
  readonly recording: Recording;
  readonly truth: Truth;
}

/** Short enough for the quickest part, the air with its door open. */
const longestStepSeconds = 10;

/**
 * Simulates one run.
 *
 * The same plan gives the same run, bit for bit. Random are only what `seed` feeds: the wander of the air, the
 * scatter from night to night, and the probes' noise; each has its own stream.
 *
 * @throws RangeError when a duration is not positive or a fault's size makes no sense.
 */
export function simulateRun(plan: SimulationPlan): SimulatedRun {
  checkPlan(plan);
  const { samplingSeconds = 30 } = plan;
  const stepsPerReading = Math.ceil(samplingSeconds / longestStepSeconds);
  const seconds = samplingSeconds / stepsPerReading;
  const stepHours = seconds / 3600;
  const readings = Math.floor((hoursOf(plan.schedule) * 3600) / samplingSeconds + 1e-6) + 1;

  const nights = nightsOf(plan);
  const air = airOf(plan);
  const prepared = preparedFor(plan);
  const logger = new Logger(plan, readings, air.ambient(nights[0].startHours));
  const cooling: CoolingMoment[][] = nights.map(() => []);

  let state = atRest(air.ambient(nights[0].startHours));
  let flueCelsius = air.ambient(nights[0].startHours);
  let calls = true;
  let now = 0;
  for (let step = Math.round(nights[0].startHours / stepHours); step <= (readings - 1) * stepsPerReading; step++) {
    const hours = step * stepHours;
    const [ventCelsius, roomCelsius] = [air.ambient(hours), air.room(hours)];
    while (now < nights.length - 1 && hours >= nights[now].endHours - stepHours / 2) now++;
    if (step === 0) state = withLoad(plan, prepared, state, ventCelsius);
    if (step >= 0 && step % stepsPerReading === 0) logger.read(step / stepsPerReading, hours, nights[now]);

    calls = callsForHeat(calls, state.cabinet.air, plan);
    cooling[now].push({ hours, watts: coolingNow(state, prepared, ventCelsius) });
    const { heatWatts, flueWatts } = heatNow(plan, nights[now], hours, calls);
    const doorOpen = doorShare(plan, hours, stepHours);
    state = stepFridge(state, prepared, { heatWatts, ventCelsius, roomCelsius, doorOpen }, seconds);
    flueCelsius = stepFlue(flueCelsius, { flueWatts, boilerCelsius: state.boiler.boilerCelsius, ventCelsius }, seconds);
    logger.feel(
      { ...feltBy(plan, prepared, state, ventCelsius, roomCelsius, hours), flue: flueCelsius },
      hours,
      seconds,
    );
  }

  const recorded = nights.filter(({ startHours }) => startHours > -stepHours / 2);
  const coolingRecorded = cooling.slice(nights.length - recorded.length);
  return {
    recording: logger.recording(samplingSeconds),
    truth: truthOf(plan, recorded, coolingRecorded, prepared.coolingFactor),
  };
}

function airOf(plan: SimulationPlan) {
  const localMs = plan.startUnixMs + (plan.utcOffsetMinutes ?? 0) * msPerMinute;
  const span = {
    fromHours: -hoursOf(plan.before ?? []),
    toHours: hoursOf(plan.schedule),
    startHourOfDay: (localMs / msPerHour) % 24,
  };
  const ambient = ambientOf(plan.ambient, span, plan.seed, "ambient");
  return { ambient, room: plan.room ? ambientOf(plan.room, span, plan.seed, "room") : ambient };
}

function preparedFor(plan: SimulationPlan): PreparedFridge {
  const { load, fanInside = false, frostGramsPerHour = 0, nightToNight } = plan;
  const faults = faultEffects(plan.faults ?? []);
  const loadKilograms = (load?.kilograms ?? 0) + faults.warmLoadKilograms;
  return prepareFridge(
    plan.fridge,
    faults,
    { loadKilograms, fanInside, frostGramsPerHour },
    scatter(plan.seed, "cooling of the night", nightToNight?.cooling),
  );
}

/** The load comes in at the start of the recording: the known one with a temperature of its own, the unknown one at ambient. */
function withLoad(
  { load }: SimulationPlan,
  { faults }: PreparedFridge,
  state: FridgeState,
  ambient: number,
): FridgeState {
  const known = load?.kilograms ?? 0;
  const share = known > 0 ? known / (known + faults.warmLoadKilograms) : 0;
  const celsius = ambient + share * ((load?.celsius ?? ambient) - ambient);
  return { ...state, cabinet: { ...state.cabinet, load: celsius } };
}

/** Share of the step that begins now during which the door stands open. */
function doorShare({ doors = [] }: SimulationPlan, hours: number, stepHours: number): number {
  let open = 0;
  for (const { atHours, seconds } of doors) {
    const overlap = Math.min(hours + stepHours, atHours + seconds / 3600) - Math.max(hours, atHours);
    if (overlap > 0) open += overlap;
  }
  return Math.min(1, open / stepHours);
}

type Felt = { readonly [P in SimulatedPosition]: number };

/** The temperature at each probe's place but the flue, °C. */
function feltBy(
  plan: SimulationPlan,
  prepared: PreparedFridge,
  state: FridgeState,
  ambient: number,
  room: number,
  hours: number,
): Omit<Felt, "flue"> {
  const { air, evaporator } = state.cabinet;
  return {
    evaporator: evaporator + prepared.faults.probeTowardsAir * (air - evaporator),
    cabinet: air,
    ambient: ambient + sunKelvin(plan, hours),
    room,
    // The outlet carries mixed air, a little cooler than the pipes.
    ventOut: ambient + 0.8 * (rejectionNow(state, prepared, ambient) - ambient),
    boiler: state.boiler.boilerCelsius,
  };
}

/** The sun comes and goes within a few minutes. */
function sunKelvin({ sun = [] }: SimulationPlan, hours: number): number {
  const rampHours = 1 / 12;
  return sun.reduce((sum, { atHours, hours: lasts, kelvin }) => {
    const inside = Math.min(hours - atHours, atHours + lasts - hours) / rampHours;
    return sum + kelvin * Math.min(1, Math.max(0, inside));
  }, 0);
}

interface LoggedProbe {
  readonly position: SimulatedPosition;
  readonly probe: SimulatedProbe;
  readonly column: Float64Array;
  readonly fallsAtHours: number;
}

/** The logger with its probes: feels every step, writes every reading. */
class Logger {
  readonly #plan: SimulationPlan;
  readonly #probes: readonly LoggedProbe[];
  readonly #supply: Float64Array;
  readonly #supplyNoise: () => number;
  readonly #sourceCodes: Uint8Array;

  constructor(plan: SimulationPlan, readings: number, startCelsius: number) {
    const builds: { readonly [P in SimulatedPosition]?: ProbeBuild } = {
      evaporator: {},
      cabinet: {},
      ambient: {},
      ...plan.probes,
    };
    this.#plan = plan;
    this.#probes = (Object.entries(builds) as [SimulatedPosition, ProbeBuild][]).map(([position, build]) => ({
      position,
      probe: new SimulatedProbe(position, build, plan.spoilt ?? [], plan.seed, startCelsius),
      column: new Float64Array(readings),
      fallsAtHours: build.fallsAtHours ?? Infinity,
    }));
    this.#supply = new Float64Array(readings).fill(Number.NaN);
    this.#supplyNoise = seededRandom(plan.seed, "noise of supply").normal;
    this.#sourceCodes = new Uint8Array(readings);
  }

  feel(felt: Felt, hours: number, seconds: number): void {
    for (const { position, probe, fallsAtHours } of this.#probes)
      probe.follow(hours >= fallsAtHours ? felt.cabinet : felt[position], seconds);
  }

  read(i: number, hours: number, { source, volts }: Night): void {
    for (const { probe, column } of this.#probes) column[i] = probe.read(hours);
    this.#sourceCodes[i] = energySources.indexOf(source) + 1;
    if (volts !== null) this.#supply[i] = Math.round(volts * (1 + 0.002 * this.#supplyNoise()) * 100) / 100;
  }

  recording(samplingSeconds: number): Recording {
    const { name, startUnixMs, utcOffsetMinutes = 0, tellSource = true, includeSupply = false, sheet } = this.#plan;
    const columns: { [P in Position]?: Float64Array } = {};
    for (const { position, column } of this.#probes) columns[position] = column;
    if (includeSupply) columns.supply = this.#supply;
    return {
      name,
      unixMs: Float64Array.from(this.#sourceCodes, (_, i) => startUnixMs + i * samplingSeconds * 1000),
      utcOffsetMinutes,
      columns,
      sourceCodes: tellSource ? this.#sourceCodes : null,
      sourceMarks: [],
      sheet: sheet ?? null,
      unreadable: [],
    };
  }
}

function checkPlan({ name, samplingSeconds = 30, schedule, before = [] }: SimulationPlan): void {
  if (!(samplingSeconds > 0)) throw new RangeError(`"${name}": readings every ${samplingSeconds} s cannot be`);
  if (schedule.length === 0) throw new RangeError(`"${name}": the schedule is empty`);
  for (const { source, hours } of [...before, ...schedule])
    if (!(hours > 0 && hours < Infinity)) throw new RangeError(`"${name}": ${hours} h on ${source} cannot be`);
}
