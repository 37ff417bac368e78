// First causes: what would have to be wrong for the observations to come out as they did. One cause at a time is
// assumed; each is weighed by how well it explains strength, onset and warming back of every source together.

import type { Cause } from "../../schema/documents/index.ts";
import { type HeatSource, heatSources } from "../../schema/index.ts";
import type { CabinetLift } from "../evidence/cabinet-lift.ts";
import { isLamp } from "../evidence/cabinet-lift.ts";
import { isSlow } from "../evidence/slow-cabinet.ts";
import type { CauseFinding } from "../findings.ts";
import { normalBelow } from "../numbers/distributions.ts";
import { lowSupplyShare } from "../strength/heat-law.ts";
import { usualHeatScatter } from "./strength-in-heat.ts";

/** ln(strength) of one source, its standard error, and how much later the cold began, if known. */
export interface SourceObservation {
  readonly source: HeatSource;
  readonly logStrength: number | null;
  readonly standardError: number;
  /** The source that the strength is told against; null where known-good runs stand behind it. */
  readonly against: HeatSource | null;
  /** Not cooling, or not any more when its last stretch ended. */
  readonly isDead: boolean;
  /** It ran before another one stopped for good: what all sources share may have failed since. */
  readonly ranBeforeStop: boolean;
  /** No fins stand beside the initial fall: a warm load would look like a weaker source. */
  readonly isBySlopeAlone: boolean;
  /** Dead time minus the known-good one from a cold boiler; `atLeast` where no cold had begun when the stretch ended. */
  readonly onsetShift: { readonly minutes: number; readonly atLeast: boolean } | null;
  /** Volts at the fridge over the rated ones, the lowest of its stretches; null where nobody told them of every one. */
  readonly supplyShare: number | null;
  /** Whether the known-good runs tell theirs as well, so that the strength is told with low ones allowed for. */
  readonly isSupplyReferred: boolean;
}

/** A number that was seen, and its standard error. */
export interface Shown {
  readonly value: number;
  readonly standardError: number;
}

/** What the first heated stretch of each run shows, and what the later ones do; null where they show nothing. */
export interface WhileWarm {
  readonly first: Shown | null;
  readonly later: Shown | null;
}

export interface Observations {
  readonly sources: readonly SourceObservation[];
  /** ln(k_w over known-good), and its standard error. */
  readonly logWarming: Shown | null;
  /** ln(cooling by fins) minus ln(cooling by slope), over known-good, and its standard error. */
  readonly logApart: WhileWarm;
  /** ln(rate constant over known-good), and its standard error. */
  readonly logRate: WhileWarm;
  /** How far above ambient the cabinet would settle when off, K. */
  readonly lift: CabinetLift | null;
  /** Whether frost melted on the fins with the fridge off, and not in the known-good runs; null where neither shows. */
  readonly frost: boolean | null;
  /** How much more the cabinet's probe lags behind its air than in the known-good runs, K. */
  readonly lag: Shown | null;
  /** How ln(strength) changes for each 10 K that the ambient is warmer, beyond what is usual. */
  readonly inHeat: Shown | null;
  /** The supply was known to be low: source and ln(cooling) that explains. */
  readonly lowSupply: HeatSource | null;
}

interface Candidate {
  readonly cause: Cause;
  readonly source: HeatSource | null;
  /** Before anything is seen. Common practice, no source: heat faults are commoner than unit faults. */
  readonly prior: number;
  /** Which sources lose cooling. */
  readonly hits: (source: HeatSource) => boolean;
  /** Less heat into the boiler makes the cold begin later. */
  readonly delaysOnset: boolean;
  readonly warming: "usual" | "faster" | "slower";
  /**
   * How the witnesses come apart: a load slows the cabinet and not the fins, a leak does so a little, frost makes the fins colder, a
   * loose probe falsifies them.
   */
  readonly apart: "together" | "slope-a-little-low" | "slope-low" | "either";
  /** What becomes of the rate constant: a leak and goods that lag behind the air raise it, as the cabinet settles sooner and warmer. */
  readonly rate: "usual" | "raised" | "any";
  /** Goods are cold after the first heated stretch: what they did to the witnesses and the rate has worn off in the later ones. */
  readonly wearsOff: boolean;
  /** Slows the fall, so that without fins beside it every source looks weaker. */
  readonly slowsFall: boolean;
  /** The cabinet's probe answers later than in the known-good runs. */
  readonly lags: boolean;
  /** Frost on the fins, which melts when the fridge is off. */
  readonly melts: boolean;
  /** A lamp keeps the cabinet above ambient. */
  readonly lifts: boolean;
  /** Poor ventilation, sun on the vents or a charge near its condensing limit cost most when it is hot. */
  readonly inHeat: "usual" | "weaker" | "either";
}

const nothing = {
  hits: () => false,
  delaysOnset: false,
  warming: "usual",
  apart: "together",
  rate: "usual",
  wearsOff: false,
  slowsFall: false,
  lags: false,
  melts: false,
  lifts: false,
  inHeat: "usual",
} as const;
const heatOf = (source: HeatSource) => ({
  ...nothing,
  source,
  hits: (other: HeatSource) => other === source,
  delaysOnset: true,
});
const allSources = { ...nothing, source: null, hits: () => true };

const candidates: readonly Candidate[] = [
  { cause: "none", ...nothing, source: null, prior: 0.4 },
  { cause: "burner", ...heatOf("gas"), prior: 0.07 },
  { cause: "flue", ...heatOf("gas"), prior: 0.07 },
  { cause: "gas-supply", ...heatOf("gas"), prior: 0.05 },
  { cause: "mains-element", ...heatOf("mains"), prior: 0.06 },
  { cause: "dc12-element", ...heatOf("dc12"), prior: 0.05 },
  { cause: "supply-voltage", ...heatOf("dc12"), prior: 0.06 },
  { cause: "supply-voltage", ...heatOf("mains"), prior: 0.01 },
  { cause: "thermostat", ...allSources, prior: 0.01 },
  { cause: "boiler-insulation", ...allSources, delaysOnset: true, prior: 0.01 },
  { cause: "ventilation", ...allSources, inHeat: "weaker", prior: 0.04 },
  { cause: "not-level", ...allSources, prior: 0.04 },
  { cause: "cooling-unit", ...allSources, inHeat: "either", prior: 0.03 },
  {
    cause: "door-seal",
    ...nothing,
    source: null,
    warming: "faster",
    apart: "slope-a-little-low",
    rate: "raised",
    prior: 0.05,
  },
  {
    cause: "warm-load",
    ...nothing,
    source: null,
    warming: "slower",
    apart: "slope-low",
    rate: "raised",
    wearsOff: true,
    slowsFall: true,
    prior: 0.05,
  },
  { cause: "frost", ...nothing, source: null, apart: "slope-low", melts: true, prior: 0.04 },
  { cause: "lamp", ...nothing, source: null, warming: "faster", apart: "slope-low", lifts: true, prior: 0.02 },
  { cause: "probe", ...nothing, source: null, apart: "either", rate: "any", lags: true, prior: 0.04 },
];

/** `other` is never ruled out. */
const otherShare = 0.04;

/** ln(strength) a fault leaves: from hardly noticed to dead. */
const losses = Array.from({ length: 24 }, (_, i) => Math.log(0.92) + ((Math.log(0.12) - Math.log(0.92)) * i) / 23);
const deadLog = Math.log(0.12);
/** Night to night, onsets move by some minutes. */
const onsetScatter = 5;
/**
 * A boiler that gets half the heat takes twice as long to boil: the dead time of a fridge in order, min, grows as the heat
 * shrinks. Common practice, no source (30 to 60 min from cold); 500 simulated faults lie within a quarter of it.
 */
const usualDeadMinutes = 45;
const delayDoubt = 0.4;
/** Cooling goes as the heat to this power where there is less than rated (heat-law.ts). */
const coolingPower = 1.4;
const warmingScatter = 0.08;

/**
 * @returns causes with probabilities that add to 1, likeliest first; only those of sources that were seen. None at all where
 * nothing was seen that points anywhere: the shares would be those from before anything was seen.
 */
export function weighCauses(observations: Observations): readonly CauseFinding[] {
  if (!speaks(observations)) return [];
  const seen = new Set(observations.sources.map((source) => source.source));
  const possible = candidates.filter((candidate) => candidate.source === null || seen.has(candidate.source));
  const weights = possible.map((candidate) => candidate.prior * likelihood(candidate, observations));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const share = sum > 0 ? (1 - otherShare) / sum : 0;
  const found = possible.map(({ cause, source }, i) => ({ cause, source, probability: weights[i] * share }));
  const other = { cause: "other" as const, source: null, probability: sum > 0 ? otherShare : 1 };
  return [...found, other].sort((a, b) => b.probability - a.probability || order(a.source) - order(b.source));
}

/** An onset and a warming back as usual and no lamp are good to know beside a strength; alone they point nowhere. */
function speaks({ sources, logWarming, logApart, lag, lift, inHeat, lowSupply }: Observations): boolean {
  const ofSources = sources.some(
    ({ logStrength, isDead, onsetShift }) =>
      logStrength !== null || isDead || Math.abs(onsetShift?.minutes ?? 0) > 2 * onsetScatter,
  );
  const warmsOddly =
    logWarming !== null && Math.abs(logWarming.value) > 2 * Math.hypot(logWarming.standardError, warmingScatter);
  return (
    ofSources ||
    warmsOddly ||
    (lag !== null && isSlow(lag)) ||
    isLamp(lift) ||
    [logApart.first, logApart.later, inHeat, lowSupply].some((seen) => seen !== null)
  );
}

const order = (source: HeatSource | null) => (source === null ? -1 : heatSources.indexOf(source));

function likelihood(candidate: Candidate, observations: Observations): number {
  const { sources, logWarming, logApart, logRate, frost, lag, lift, inHeat, lowSupply } = observations;
  // A shared cause takes the same share of every source it hits, and delays each by as much.
  const sourcesAt = (loss: number) =>
    sources.reduce(
      (product, one) =>
        product *
        strengthDensity(one, expectedLog(one, candidate, loss)) *
        onsetDensity(one, candidate.hits(one.source) && candidate.delaysOnset ? delayOf(loss) : 0),
      1,
    );
  const possible = possibleLosses(candidate, sources);
  const overLosses = possible.reduce((sum, loss) => sum + sourcesAt(loss), 0) / possible.length;
  const supply =
    lowSupply === null ? 1 : candidate.cause === "supply-voltage" && candidate.source === lowSupply ? 4 : 0.5;
  return (
    overLosses *
    rateDensity(candidate, logRate) *
    warmingDensity(candidate.warming, logWarming) *
    apartDensity(candidate, logApart) *
    frostShare(candidate.melts, frost) *
    lagDensity(candidate.lags, lag) *
    liftDensity(candidate.lifts, lift) *
    inHeatDensity(candidate.inHeat, inHeat) *
    supply
  );
}

/**
 * What a fault may leave of the cooling: anything. But volts that were told and are not low take what they take and no more, and
 * of low ones that were allowed for nothing is left.
 */
function possibleLosses({ cause, source }: Candidate, sources: readonly SourceObservation[]): readonly number[] {
  const { supplyShare: share, isSupplyReferred } = sources.find((one) => one.source === source) ?? {
    supplyShare: null,
  };
  if (cause !== "supply-voltage" || share === null) return losses;
  if (share < lowSupplyShare) return isSupplyReferred ? [0] : losses;
  return [2 * coolingPower * Math.log(Math.min(1, share))];
}

/** A warm load takes no more of an initial fall than this, in the logarithm: as much as the fridge's own heat capacity. */
const heaviestLoad = Math.log(0.6);

/** Told against another source, a loss that both take cannot be seen; by its fall alone, a load looks like one. */
function expectedLog(
  { source, against, isBySlopeAlone, ranBeforeStop }: SourceObservation,
  { hits, slowsFall, source: ofSource }: Candidate,
  loss: number,
): number {
  if (slowsFall && isBySlopeAlone) return Math.max(heaviestLoad, loss);
  if (ranBeforeStop && ofSource === null) return 0;
  return (hits(source) ? loss : 0) - (against !== null && hits(against) ? loss : 0);
}

function strengthDensity({ logStrength, standardError, isDead }: SourceObservation, expected: number): number {
  if (logStrength === null && !isDead) return 1;
  // Next to nothing is as good as dead: no loss goes further than that.
  const seen = isDead ? deadLog : Math.max(deadLog, Math.min(0.3, logStrength ?? 0));
  return wideNormal(seen - expected, Math.max(0.04, standardError));
}

/** How much later the cold begins where too little heat leaves so much of the cooling (its logarithm), min. */
const delayOf = (loss: number): number => usualDeadMinutes * (Math.exp(-loss / coolingPower) - 1);

/** One source in fifty is told an hour or so before it is lit, or after: common practice, no source. */
const onsetAnyhow = 0.02 / 60;

function onsetDensity({ onsetShift }: SourceObservation, delay: number): number {
  if (onsetShift === null) return 1;
  const scatter = Math.hypot(onsetScatter, delayDoubt * delay);
  const { minutes, atLeast } = onsetShift;
  return atLeast ? notBefore(minutes - delay, scatter) : normal(minutes - delay, scatter) + onsetAnyhow;
}

/**
 * Of the rate constant between runs of a fridge in order; later stretches begin colder, and scatter more. A loss of heat lowers it
 * by a tenth at most (simulated fridges).
 */
const rateScatter = { first: 0.06, later: 0.09 };
const rateWhenWeak = -0.03;

function rateDensity({ rate, wearsOff }: Candidate, { first, later }: WhileWarm): number {
  if (rate === "raised") return wearsOff ? raisedByGoods(first, later) : raisedByLeak(first, later);
  return rateAsUsual(rate, first, rateScatter.first) * rateAsUsual(rate, later, rateScatter.later);
}

const raisedByGoods = (first: Shown | null, later: Shown | null) =>
  (first === null ? 1 : mostlySmall(0.05, 0.35, 0.6, first.value, Math.hypot(rateScatter.first, first.standardError))) *
  evenDensity(0, 0.35, later, rateScatter.later);

/** A leak raises the rate in every stretch alike: by 0.18 to 0.57 where it is 40 to 100 % larger (80 simulated stretches). */
const raises = Array.from({ length: 11 }, (_, i) => 0.1 + 0.05 * i);

const raisedByLeak = (first: Shown | null, later: Shown | null) =>
  raises.reduce(
    (sum, raise) => sum + nearDensity(raise, first, rateScatter.first) * nearDensity(raise, later, rateScatter.later),
    0,
  ) / raises.length;

function rateAsUsual(expected: "usual" | "any", seen: Shown | null, scatter: number): number {
  if (seen === null) return 1;
  const usual = nearDensity(rateWhenWeak, seen, scatter);
  return expected === "usual" ? usual : (usual + 1) / 2;
}

/** Of what is seen beside what is expected; 1 where nothing is seen. */
const nearDensity = (expected: number, seen: Shown | null, scatter: number): number =>
  seen === null ? 1 : wideNormal(seen.value - expected, Math.hypot(scatter, seen.standardError));

/** Of what may be anything between two values; 1 where nothing is seen. */
const evenDensity = (from: number, to: number, seen: Shown | null, scatter: number): number =>
  seen === null ? 1 : evenBetween(from, to, seen.value, Math.hypot(scatter, seen.standardError));

function warmingDensity(expected: Candidate["warming"], seen: Shown | null): number {
  if (seen === null) return 1;
  const error = Math.hypot(seen.standardError, warmingScatter);
  if (expected === "faster") return evenBetween(Math.log(1.2), Math.log(2.2), seen.value, error);
  // Goods that hardly touch the air slow the warming back little, and such that are warm still when the fridge goes off hasten it.
  if (expected === "slower")
    return (
      0.8 * evenBetween(Math.log(0.4), 0, seen.value, error) + 0.2 * evenBetween(0, Math.log(1.25), seen.value, error)
    );
  return wideNormal(seen.value, error);
}

/** The fins' logarithm less the slope's where their probe reads a third of what it should; farther off it has fallen. */
const fallenOff = -1.6;

/** The least that the witnesses scatter by between them. */
const apartScatter = 0.05;

function apartDensity({ apart, wearsOff }: Candidate, { first, later }: WhileWarm): number {
  return (
    apartDensityOf(apart, first) *
    (wearsOff ? evenDensity(-0.15, 0.15, later, apartScatter) : apartDensityOf(apart, later))
  );
}

function apartDensityOf(expected: Candidate["apart"], seen: Shown | null): number {
  if (seen === null) return 1;
  const error = Math.max(apartScatter, seen.standardError);
  if (expected === "slope-low") return mostlySmall(0.05, 0.3, 0.6, seen.value, error);
  // 0.01 to 0.17 for a leak 40 to 100 % larger (80 simulated stretches).
  if (expected === "slope-a-little-low") return evenBetween(0, 0.2, seen.value, error);
  // A probe that hangs loose reads towards the air, be it a little or nearly all of it; one clipped to a colder fin is rarer.
  if (expected === "either") {
    const value = Math.max(fallenOff, seen.value);
    return 0.3 * evenBetween(0.15, 0.8, value, error) + 0.7 * evenBetween(fallenOff, -0.15, value, error);
  }
  return wideNormal(seen.value, error);
}

/** Frost heavy enough to matter melts for all to see; a little of it is on the fins of many a fridge in order. */
const meltsSeen = 0.9;
const meltsAnyway = 0.1;

function frostShare(melts: boolean, seen: boolean | null): number {
  if (seen === null) return 1;
  const share = melts ? meltsSeen : meltsAnyway;
  return seen ? share : 1 - share;
}

/** Half of the probes that moved are not late, and a bottle or goods make it stand off by up to this, K. */
const slowest = 6;
const lagScatter = 0.5;

function lagDensity(lags: boolean, seen: Shown | null): number {
  if (seen === null) return 1;
  const error = Math.hypot(lagScatter, seen.standardError);
  // Fins that stay colder than usual are frosted, or their probe is elsewhere.
  const value = Math.min(slowest, Math.max(0, seen.value));
  const usual = wideNormal(value, error);
  return lags ? (usual + evenBetween(1, slowest, value, error)) / 2 : usual;
}

function liftDensity(lifts: boolean, seen: CabinetLift | null): number {
  if (seen === null) return 1;
  // 2 to 25 W of lamp over some 1 W/K of leak; few lamps are strong.
  if (lifts)
    return (
      0.8 * evenBetween(1.5, 10, seen.value, seen.standardError) +
      0.2 * evenBetween(10, 25, seen.value, seen.standardError)
    );
  const ended = wideNormal(seen.value, Math.max(0.5, seen.standardError));
  // No doubt of its rate makes a cabinet without a lamp rise further above ambient.
  return seen.least === null ? ended : Math.min(ended, wideNormal(seen.least, 0.5));
}

function inHeatDensity(expected: Candidate["inHeat"], seen: Shown | null): number {
  if (seen === null) return 1;
  const error = Math.hypot(seen.standardError, usualHeatScatter);
  const usual = wideNormal(seen.value, error);
  if (expected === "usual") return usual;
  // Poor ventilation costs 10 % on a cool day and 35 % above 32 °C (simulated fridges).
  const weaker = evenBetween(-0.5, -0.05, seen.value, error);
  return expected === "weaker" ? weaker : (usual + weaker) / 2;
}

/** Density of what is seen when the truth may lie anywhere between two values. */
function evenBetween(from: number, to: number, seen: number, error: number): number {
  const steps = Math.ceil((2 * (to - from)) / error);
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += wideNormal(seen - from - ((to - from) * (i + 0.5)) / steps, error);
  return sum / steps;
}

/** A few kilograms of goods are commoner than a full cabinet of them, and a small lamp than a strong one. */
const mostlySmall = (from: number, middle: number, to: number, seen: number, error: number): number =>
  0.7 * evenBetween(from, middle, seen, error) + 0.3 * evenBetween(middle, to, seen, error);

/** Chance of lying beyond a deviation, with the same floor. */
const notBefore = (deviation: number, error: number) => 0.995 * (1 - normalBelow(deviation / error)) + 0.005;

/** Normal density with a floor: nothing observed rules a cause out for good. */
const wideNormal = (deviation: number, error: number) => normal(deviation, error) + 0.002;

const normal = (deviation: number, error: number) =>
  (0.98 * Math.exp(-((deviation / error) ** 2) / 2)) / (error * Math.sqrt(2 * Math.PI));
