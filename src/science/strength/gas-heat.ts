// How much heat a burner gets from its gas: kind (Wobbe index), pressure, and the thickness of the air. All relative to
// propane at nominal pressure at sea level; whether the burner burns it well is another question.

import type { RunSheet } from "../../schema/index.ts";
import { standardPressure } from "../numbers/standard-atmosphere.ts";

type GasKind = NonNullable<RunSheet["gasKind"]>;

/** Net calorific value, MJ/kg: formation enthalpies of CODATA and the NIST WebBook, as ISO 6976 tabulates. */
const netCalorificValue = { propane: 46.335, butane: 45.721 } as const;
/** Molar mass, g/mol: IUPAC atomic weights. */
const molarMass = { propane: 44.096, butane: 58.122 } as const;

/**
 * Heat through a jet at one pressure, relative to propane: calorific value per volume over the root of density (Wobbe
 * index), which for ideal gases is MJ/kg times the root of the molar mass.
 */
export function wobbeOverPropane(kind: GasKind): number {
  const wobbe = (gas: "propane" | "butane") => netCalorificValue[gas] * Math.sqrt(molarMass[gas]);
  if (kind === "mixed") return (wobbe("propane") + wobbe("butane")) / 2 / wobbe("propane");
  return wobbe(kind) / wobbe("propane");
}

/**
 * Gas heat of one run over another's. What neither sheet states is taken as equal; where one is silent, it lies half-way between
 * what the other states and what is usual, with both in reach.
 */
export interface GasHeat {
  readonly logRatio: number;
  readonly variance: number;
  /** Conditions that only one sheet states, and what each leaves open of ln(heat), standard deviation. */
  readonly unknown: readonly { readonly condition: "gas" | "gas-pressure" | "altitude"; readonly error: number }[];
}

/** Supply pressures of LPG appliances, mbar: EN 437 (from memory). Which one a regulator holds, the stated pressure tells. */
const supplyPressures = [30, 37, 50] as const;
const usualPressure = (stated: number): number =>
  supplyPressures.reduce((best, one) => (Math.abs(one - stated) < Math.abs(best - stated) ? one : best));

/** What a condition known on one side only leaves open of ln(heat): half a propane/butane swap, 10 % of pressure, 500 m. */
const openLog = { gas: 0.06, "gas-pressure": 0.05, altitude: 0.03 } as const;

/** The heat of a burner in one run over that in another, from what their run sheets state; null is a run without a sheet. */
export function gasHeatRatio(here: RunSheet | null, there: RunSheet | null): GasHeat {
  const unknown: GasHeat["unknown"][number][] = [];
  let logRatio = 0;
  let variance = 0;
  const compare = <T>(
    condition: GasHeat["unknown"][number]["condition"],
    a: T | undefined,
    b: T | undefined,
    log: (value: T) => number,
    error: number,
    usualBeside?: (stated: T) => T,
  ) => {
    if (a === undefined && b === undefined) return;
    if (a === undefined || b === undefined) {
      const stated = (a ?? b) as T;
      const usual = usualBeside?.(stated) ?? stated;
      const half = (log(a ?? usual) - log(b ?? usual)) / 2;
      const open = Math.hypot(openLog[condition], half);
      unknown.push({ condition, error: open });
      variance += open ** 2;
      logRatio += half;
      return;
    }
    logRatio += log(a) - log(b);
    if (a !== b) variance += error ** 2;
  };
  // A burner set for one gas does not burn another as well: 4 % besides the Wobbe index. Common practice, no source.
  compare("gas", here?.gasKind, there?.gasKind, (kind) => Math.log(wobbeOverPropane(kind)), 0.04);
  compare(
    "gas-pressure",
    here?.gasPressureMbar,
    there?.gasPressureMbar,
    (mbar) => 0.5 * Math.log(mbar),
    0.02,
    usualPressure,
  );
  // The regulator holds the pressure above the air's; thinner gas flows in thinner air.
  compare(
    "altitude",
    here?.altitudeMetres,
    there?.altitudeMetres,
    (metres) => 0.5 * Math.log(standardPressure(metres)),
    0.01,
    () => 0,
  );
  return { logRatio, variance, unknown };
}
