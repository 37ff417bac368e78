// What was seen of a fridge that a cause would have to explain.

import type { HeatSource } from "../../schema/index.ts";
import type { CabinetLift } from "../evidence/cabinet-lift.ts";

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
