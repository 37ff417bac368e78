// What may be wrong with a fridge, and what each would do to all that can be seen.

import type { Cause } from "../../schema/documents/index.ts";
import type { HeatSource } from "../../schema/index.ts";

export interface Candidate {
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

export const candidates: readonly Candidate[] = [
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
