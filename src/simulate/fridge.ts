// The fridge that is simulated, as numbers of its heat balance. Invented, and of a size common in campers (90 l);
// tests/simulate compares what follows from them with published figures and common practice.

import type { HeatSource } from "../schema/index.ts";
import { seededRandom } from "./seeded-random.ts";

/** W at the boiler, J/K, W/K and °C throughout. */
export interface SimulatedFridge {
  readonly name: string;
  readonly volumeLitres: number;
  /** Electric heat at rated voltage; for gas the heat of the burnt gas (net), of which `burnerEfficiency` reaches the boiler. */
  readonly ratedWatts: { readonly [S in HeatSource]: number };
  readonly burnerEfficiency: number;
  readonly ratedVolts: { readonly mains: number; readonly dc12: number };
  readonly boiler: BoilerBuild;
  readonly unit: CoolingUnitBuild;
  readonly cabinet: CabinetBuild;
}

export interface BoilerBuild {
  readonly heatCapacity: number;
  /** Through the insulation to the vent air. */
  readonly lossWattsPerKelvin: number;
  /** Heat that goes into vapour for each kelvin above boiling. */
  readonly vapourWattsPerKelvin: number;
  /** The element with its sheath, or the flue tube: it warms first and hands the heat on. */
  readonly heaterHeatCapacity: number;
  readonly heaterWattsPerKelvin: number;
  /** Pressure in the running unit: it sets where the solution boils and where ammonia still condenses. */
  readonly pressureBar: number;
}

export interface CoolingUnitBuild {
  /** Useful heat the unit was built for, W. */
  readonly designHeatWatts: number;
  /** Cooling at design heat, 25 °C ambient, evaporator at -5 °C. */
  readonly coolingWatts: number;
  /** Share of the design vapour below which the bubbles do not lift the solution. */
  readonly pumpShare: number;
  /** From pumping to cold: condensing, running down, hydrogen getting under way. */
  readonly transportMinutes: number;
  /** How far condenser and absorber lie above ambient at design heat, well ventilated, K. */
  readonly rejectionKelvin: number;
  /** Where the evaporator would end without any load, at 25 °C ambient. */
  readonly coldLimitCelsius: number;
}

export interface CabinetBuild {
  readonly evaporatorHeatCapacity: number;
  /** Air and what follows it within minutes. */
  readonly airHeatCapacity: number;
  /** Liner and the inner half of the insulation. */
  readonly wallHeatCapacity: number;
  /** Shelves and drawers of the empty fridge; a load comes on top. */
  readonly shelvesHeatCapacity: number;
  /** Fins in free convection: W = this · K^1.25. */
  readonly finConductance: number;
  readonly airToWall: number;
  readonly airToShelves: number;
  /** Through the insulation, wall to outside. */
  readonly wallLeak: number;
  /** Around the door, air to room. */
  readonly sealLeak: number;
  /** Share of the wall leak that comes from the vent air behind the fridge; the rest comes from the room. */
  readonly ventShare: number;
}

/** Changes to a known-good fridge, part by part. */
export type FridgeChanges = {
  readonly [P in keyof SimulatedFridge]?: SimulatedFridge[P] extends object
    ? Partial<SimulatedFridge[P]>
    : SimulatedFridge[P];
};

const usual: SimulatedFridge = {
  name: "known-good 90 l",
  volumeLitres: 90,
  ratedWatts: { gas: 185, mains: 125, dc12: 120 },
  burnerEfficiency: 0.68,
  ratedVolts: { mains: 230, dc12: 12 },
  boiler: {
    heatCapacity: 2000,
    lossWattsPerKelvin: 0.215,
    vapourWattsPerKelvin: 8,
    heaterHeatCapacity: 150,
    heaterWattsPerKelvin: 1.4,
    pressureBar: 22,
  },
  unit: {
    designHeatWatts: 125,
    coolingWatts: 28,
    pumpShare: 0.05,
    transportMinutes: 15,
    rejectionKelvin: 10,
    coldLimitCelsius: -40,
  },
  cabinet: {
    evaporatorHeatCapacity: 2000,
    airHeatCapacity: 1000,
    wallHeatCapacity: 9500,
    shelvesHeatCapacity: 2500,
    finConductance: 2,
    airToWall: 7,
    airToShelves: 0.9,
    wallLeak: 0.9,
    sealLeak: 0.15,
    ventShare: 0.35,
  },
};

/** The known-good fridge of this project's simulations, with changes of your own. */
export const knownGoodFridge = (changes: FridgeChanges = {}): SimulatedFridge => ({
  ...usual,
  ...changes,
  ratedWatts: { ...usual.ratedWatts, ...changes.ratedWatts },
  ratedVolts: { ...usual.ratedVolts, ...changes.ratedVolts },
  boiler: { ...usual.boiler, ...changes.boiler },
  unit: { ...usual.unit, ...changes.unit },
  cabinet: { ...usual.cabinet, ...changes.cabinet },
});

/** Another known-good fridge: other size, other make, for studies over many fridges. The same seed gives the same fridge. */
export function randomFridge(seed: number): SimulatedFridge {
  const random = seededRandom(seed, "fridge");
  const around = (value: number, spread: number) => value * Math.exp(spread * random.normal());
  // Surface grows slower than volume, mass in between.
  const size = 0.7 + 1.1 * random.uniform();
  const surface = size ** (2 / 3);
  const mass = size ** 0.8;
  const { boiler, unit, cabinet } = usual;
  const heat = usual.unit.designHeatWatts * surface;
  return knownGoodFridge({
    name: `random fridge ${seed}`,
    volumeLitres: Math.round(usual.volumeLitres * size),
    ratedWatts: {
      gas: Math.round(around(usual.ratedWatts.gas * surface, 0.04)),
      mains: Math.round(around(heat, 0.03)),
      dc12: Math.round(around(usual.ratedWatts.dc12 * surface, 0.04)),
    },
    burnerEfficiency: 0.62 + 0.1 * random.uniform(),
    boiler: {
      heatCapacity: around(boiler.heatCapacity * surface, 0.08),
      lossWattsPerKelvin: around(boiler.lossWattsPerKelvin * surface, 0.1),
      vapourWattsPerKelvin: boiler.vapourWattsPerKelvin * surface,
      heaterHeatCapacity: around(boiler.heaterHeatCapacity * surface, 0.15),
      heaterWattsPerKelvin: around(boiler.heaterWattsPerKelvin * surface, 0.15),
      pressureBar: 21 + 3 * random.uniform(),
    },
    unit: {
      designHeatWatts: heat,
      coolingWatts: around(unit.coolingWatts * surface, 0.04),
      transportMinutes: 11 + 8 * random.uniform(),
      rejectionKelvin: around(unit.rejectionKelvin, 0.08),
      coldLimitCelsius: unit.coldLimitCelsius + 2 * random.normal(),
    },
    cabinet: {
      evaporatorHeatCapacity: around(cabinet.evaporatorHeatCapacity * mass, 0.12),
      airHeatCapacity: around(cabinet.airHeatCapacity * size, 0.1),
      wallHeatCapacity: around(cabinet.wallHeatCapacity * mass, 0.1),
      shelvesHeatCapacity: around(cabinet.shelvesHeatCapacity * mass, 0.2),
      finConductance: around(cabinet.finConductance * surface, 0.08),
      airToWall: around(cabinet.airToWall * surface, 0.1),
      airToShelves: around(cabinet.airToShelves * surface, 0.15),
      wallLeak: around(cabinet.wallLeak * surface, 0.04),
      sealLeak: around(cabinet.sealLeak * surface, 0.1),
      ventShare: 0.3 + 0.15 * random.uniform(),
    },
  });
}
