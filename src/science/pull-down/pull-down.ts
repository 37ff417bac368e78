// The model of a pull-down, as a formula: what the cabinet does on one energy source while the ambient
// air drifts. How it is fitted is in pull-down-fit.ts. The heat balance:
//
//     before the onset   dT/dt = -k_w (T - Ta)              relaxing towards ambient
//     from the onset on  dT/dt = -k (T - (Ta - D))          closing on D kelvin below ambient
//
// With Ta linear between readings both are exact over a step of h hours:
//     V = T - Ta + D,   V1 = e V0 - g (Ta1 - Ta0),   e = exp(-k h),   g = (1 - e) / (k h)

/** One pull-down: `start` °C, `onset` h after the first reading, `rate` 1/h, `depth` K. */
export interface PullDown {
  readonly start: number;
  readonly onset: number;
  readonly rate: number;
  readonly depth: number;
  /** Heat let in by door openings: K added at `hours`, decaying with `rate`. */
  readonly jumps: readonly { readonly hours: number; readonly kelvin: number }[];
}

/** What the model is told: rate of relaxing before the onset, 1/h, and build-up of the cooling, h (0: a step). */
export interface PullDownSetting {
  readonly warmingRate: number;
  readonly buildUp?: number;
}

/** Instants in h, ascending, and the ambient temperature at each, °C. Same length, no NaN. */
export interface AmbientCourse {
  readonly hours: Float64Array;
  readonly ambientCelsius: Float64Array;
}

/** (1 - exp(-x)) / x, the mean of exp(-s) over 0 to x. */
export const meanDecay = (x: number): number => (Math.abs(x) < 1e-8 ? 1 - x / 2 : -Math.expm1(-x) / x);

/**
 * The model's cabinet temperature, °C, at each instant of `course`.
 *
 * A build-up lets the cooling grow as 1 - exp(-(t - onset) / buildUp) instead of stepping on.
 */
export function cabinetTemperature(course: AmbientCourse, pullDown: PullDown, setting: PullDownSetting): Float64Array {
  const { hours, ambientCelsius } = course;
  const result = new Float64Array(hours.length);
  if (hours.length === 0) return result;
  const walk = new Walk(pullDown, setting, hours[0], ambientCelsius[0]);
  result[0] = pullDown.start;
  for (let i = 1; i < hours.length; i++) result[i] = walk.to(hours[i], ambientCelsius[i]);
  return result;
}

/** Hours after the onset until the cabinet has fallen by `fall` kelvin, the ambient holding still; null when it never does. */
export function hoursToFall(rate: number, depthBelowStart: number, fall: number): number | null {
  if (fall <= 0) return 0;
  return fall < depthBelowStart ? -Math.log1p(-fall / depthBelowStart) / rate : null;
}

/** Walks along the model from reading to reading, stopping at the onset and at every jump. */
class Walk {
  private hours: number;
  private ambient: number;
  /** Cabinet minus ambient, K. */
  private lift: number;
  private readonly pullDown: PullDown;
  private readonly setting: PullDownSetting;
  private readonly stops: readonly number[];

  constructor(pullDown: PullDown, setting: PullDownSetting, hours: number, ambient: number) {
    this.hours = hours;
    this.ambient = ambient;
    this.lift = pullDown.start - ambient;
    this.pullDown = pullDown;
    this.setting = setting;
    this.stops = [pullDown.onset, ...pullDown.jumps.map((jump) => jump.hours)].sort((a, b) => a - b);
  }

  to(hours: number, ambient: number): number {
    const from = this.hours;
    const slope = hours > from ? (ambient - this.ambient) / (hours - from) : 0;
    for (const stop of this.stops) {
      if (stop <= from || stop > hours) continue;
      this.advance(stop, slope);
      for (const jump of this.pullDown.jumps) if (jump.hours === stop) this.lift += jump.kelvin;
    }
    this.advance(hours, slope);
    this.ambient = ambient;
    return ambient + this.lift;
  }

  private advance(until: number, slope: number): void {
    const h = until - this.hours;
    if (h <= 0) return;
    const { rate, depth, onset } = this.pullDown;
    const cooling = this.hours >= onset;
    const k = cooling ? rate : this.setting.warmingRate;
    const below = cooling ? depth : 0;
    const buildUp = this.setting.buildUp ?? 0;
    this.lift = Math.exp(-k * h) * (this.lift + below) - below - meanDecay(k * h) * h * slope;
    if (cooling && buildUp > 0) {
      // What the growing cooling still lacks, depth exp(-(t - onset) / buildUp), answered with rate k.
      const lacking = depth * Math.exp(-(this.hours - onset) / buildUp);
      this.lift += lacking * k * Math.exp(-h / buildUp) * h * meanDecay((k - 1 / buildUp) * h);
    }
    this.hours = until;
  }
}
