// Readings of one stretch, checked and made ready for the fit. Their reduction to bins is in pull-down-bins.ts.

/** Readings of one stretch, ascending from the switch-on; all the same length, no NaN. */
export interface PullDownReadings {
  readonly hours: Float64Array;
  readonly cabinetCelsius: Float64Array;
  readonly ambientCelsius: Float64Array;
  /** How much each reading counts; null: all alike. */
  readonly weights: Float64Array | null;
}

/** Regular sampling repeats one step: below this difference, h, a step is the same. Rounding is far below these 3.6 ns. */
export const sameStep = 1e-12;

/** Readings of a stretch, hours since the switch-on; same length n, no NaN, ascending. */
export interface StretchReadings {
  readonly hours: Float64Array;
  readonly cabinetCelsius: Float64Array;
  readonly ambientCelsius: Float64Array;
  /** How much each reading counts; all alike when left out. */
  readonly weights?: Float64Array | null;
}

/** The caller handed over arrays that are no stretch. */
export class UnusableReadings extends Error {
  readonly code: "too-few-readings" | "lengths-differ" | "not-ascending" | "not-finite" | "before-switch-on";
  constructor(code: UnusableReadings["code"], message: string) {
    super(message);
    this.name = "UnusableReadings";
    this.code = code;
  }
}

/** The fewest readings that four parameters can be asked of. */
export const fewestReadings = 5;

/**
 * Checks the contract, but for missing readings (checkFinite), and lets the series begin at the switch-on (hour 0): with a
 * row of no weight where the first reading comes later, since the start temperature is that of the switch-on.
 *
 * @throws UnusableReadings
 */
export function readyForFit(stretch: StretchReadings): PullDownReadings {
  const { hours, cabinetCelsius, ambientCelsius, weights = null } = stretch;
  const n = hours.length;
  if (cabinetCelsius.length !== n || ambientCelsius.length !== n || (weights !== null && weights.length !== n)) {
    throw new UnusableReadings(
      "lengths-differ",
      `${n} instants, ${cabinetCelsius.length} cabinet and ${ambientCelsius.length} ambient readings` +
        `${weights === null ? "" : ` and ${weights.length} weights`}; they must be equally many`,
    );
  }
  if (n < fewestReadings)
    throw new UnusableReadings("too-few-readings", `${n} readings; a pull-down needs at least ${fewestReadings}`);
  if (!(hours[0] >= 0)) {
    throw new UnusableReadings("before-switch-on", `the first reading is at ${hours[0]} h; hour 0 is the switch-on`);
  }
  let isAscending = hours[n - 1] < Number.POSITIVE_INFINITY;
  for (let i = 1; i < n; i++) if (!(hours[i] > hours[i - 1])) isAscending = false;
  const areWeights = weights === null || weights.every((weight) => weight >= 0 && weight < Number.POSITIVE_INFINITY);
  if (!isAscending || !areWeights) throw firstFault(stretch);
  if (hours[0] === 0) return { hours, cabinetCelsius, ambientCelsius, weights };
  return {
    hours: Float64Array.of(0, ...hours),
    cabinetCelsius: Float64Array.of(cabinetCelsius[0], ...cabinetCelsius),
    ambientCelsius: Float64Array.of(ambientCelsius[0], ...ambientCelsius),
    weights: Float64Array.of(0, ...(weights ?? new Float64Array(n).fill(1))),
  };
}

/**
 * The rest of the contract: no reading is missing. A mean is finite only when all its readings are, so that a look at
 * the means spares a look at every reading.
 *
 * @param means of all the readings.
 * @throws UnusableReadings
 */
export function checkFinite(stretch: StretchReadings, means: PullDownReadings): void {
  let sum = 0;
  for (let i = 0; i < means.hours.length; i++) sum += means.cabinetCelsius[i] + means.ambientCelsius[i];
  if (!Number.isFinite(sum)) throw firstFault(stretch);
}

function firstFault({ hours, cabinetCelsius, ambientCelsius, weights }: StretchReadings): UnusableReadings {
  const n = hours.length;
  for (let i = 0; i < n; i++) {
    const at = `reading ${i + 1} of ${n}`;
    if (i > 0 && !(hours[i] > hours[i - 1])) {
      return new UnusableReadings(
        "not-ascending",
        `${at}: time does not advance, ${hours[i]} h after ${hours[i - 1]} h; sort the readings by time`,
      );
    }
    const values = [hours[i], cabinetCelsius[i], ambientCelsius[i], weights?.[i] ?? 1];
    if (!values.every(Number.isFinite) || values[3] < 0) {
      return new UnusableReadings(
        "not-finite",
        `${at}: cabinet ${values[1]}, ambient ${values[2]}, weight ${values[3]}; leave missing readings out`,
      );
    }
  }
  return new UnusableReadings("not-finite", "the readings are too large to add up");
}
