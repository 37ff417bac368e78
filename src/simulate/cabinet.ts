// What is cooled: evaporator, air, wall, shelves and load, with the leak, the lamp, the door and the frost.

import type { FaultEffects } from "./faults.ts";
import type { CabinetBuild, SimulatedFridge } from "./fridge.ts";

export interface CabinetState {
  readonly evaporator: number;
  readonly air: number;
  readonly wall: number;
  readonly shelves: number;
  readonly load: number;
  readonly frostGrams: number;
}

/** The cabinet of one run: the fridge's build with its faults, fan and load put in. */
export interface Cabinet {
  readonly build: CabinetBuild;
  readonly loadKilograms: number;
  readonly doorLeak: number;
  readonly lampWatts: number;
  /** W·K^-exponent of the bare fins. */
  readonly finConductance: number;
  readonly finExponent: 1 | 1.25;
  /** Frost that grows in an hour below 0 °C, g. */
  readonly frostGramsPerHour: number;
}

export interface CabinetConditions {
  readonly loadKilograms: number;
  readonly fanInside: boolean;
  /** Frost that grows in an hour below 0 °C, g. */
  readonly frostGramsPerHour: number;
}

/** The air around the cabinet, and the share of the step that its door stands open. */
interface CabinetSurroundings {
  readonly ventCelsius: number;
  readonly roomCelsius: number;
  readonly doorOpen: number;
}

/** Water at 10 °C, J/(kg K). Source: IAPWS-IF97. */
const waterHeatCapacity = 4195;
/** Stacked packages leave some 0.035 m² free for each kilogram, at 5 W/(m² K). Common practice, no source. */
const loadWattsPerKelvinAndKilogram = 0.17;
/** Melting ice, J/g. */
const meltingHeat = 334;
/** Frost that halves the fins' conductance, g. */
const halvingFrost = 400;
/** What flows in through an open door, per litre of cabinet, W/K. Common practice, no source. */
const openDoorPerLitre = 0.13;
/** Of the open door's heat, what moisture leaves on cold things besides. */
const moistShare = 0.6;

/** The cabinet of a fridge with its faults. */
export function cabinetOf(fridge: SimulatedFridge, faults: FaultEffects, conditions: CabinetConditions): Cabinet {
  const { cabinet: build, unit } = fridge;
  return {
    build,
    loadKilograms: conditions.loadKilograms,
    doorLeak: build.sealLeak + faults.addedLeak * (build.sealLeak + wallLeakOf(build)),
    lampWatts: faults.lampWatts,
    // A fan halves the difference at the design cooling and makes it straight.
    finConductance: conditions.fanInside
      ? (2 * unit.coolingWatts) / (unit.coolingWatts / build.finConductance) ** (1 / 1.25)
      : build.finConductance,
    finExponent: conditions.fanInside ? 1 : 1.25,
    frostGramsPerHour: conditions.frostGramsPerHour,
  };
}

/** Air to outside through the wall, W/K. */
export const wallLeakOf = ({ airToWall, wallLeak }: CabinetBuild) => 1 / (1 / airToWall + 1 / wallLeak);

/** Heat from air to fins, W; negative where the fins are warmer. */
export function finWatts(cabinet: Cabinet, difference: number, frostGrams = 0): number {
  const size = Math.abs(difference);
  const bare = cabinet.finExponent === 1 ? size : size * Math.sqrt(Math.sqrt(size));
  return (Math.sign(difference) * cabinet.finConductance * bare) / (1 + frostGrams / halvingFrost);
}

/** What the wall sees outside, °C. */
const outsideWall = ({ ventShare }: CabinetBuild, { ventCelsius, roomCelsius }: CabinetSurroundings) =>
  ventShare * ventCelsius + (1 - ventShare) * roomCelsius;

/** The cabinet after a step; `cooling` is what the evaporator takes, W. */
export function stepCabinet(
  state: CabinetState,
  cabinet: Cabinet,
  around: CabinetSurroundings,
  cooling: number,
  volumeLitres: number,
  seconds: number,
): CabinetState {
  const { build } = cabinet;
  const { evaporator, air, wall, shelves, load, frostGrams } = state;
  const toFins = finWatts(cabinet, air - evaporator, frostGrams);
  const toWall = build.airToWall * (air - wall);
  const toShelves = build.airToShelves * (air - shelves);
  const toEachKilogram = loadWattsPerKelvinAndKilogram * (air - load);
  const throughDoor = openDoorPerLitre * volumeLitres * around.doorOpen * (around.roomCelsius - air);
  const throughSeal = cabinet.doorLeak * (around.roomCelsius - air);
  const throughWall = build.wallLeak * (outsideWall(build, around) - wall);
  const moisture = moistShare * Math.max(0, throughDoor);
  const toLoad = toEachKilogram * cabinet.loadKilograms;
  const intoAir = throughSeal + throughDoor + cabinet.lampWatts - toFins - toWall - toShelves - toLoad;
  const melting = frostGrams > 0 ? Math.min(20 * Math.max(0, evaporator), (frostGrams * meltingHeat) / seconds) : 0;
  const growing = evaporator < 0 && cooling > 0 ? (cabinet.frostGramsPerHour * seconds) / 3600 : 0;
  return {
    evaporator: evaporator + ((toFins - cooling - melting) * seconds) / build.evaporatorHeatCapacity,
    air: air + (intoAir * seconds) / build.airHeatCapacity,
    wall: wall + ((toWall + throughWall) * seconds) / build.wallHeatCapacity,
    shelves: shelves + ((toShelves + moisture) * seconds) / build.shelvesHeatCapacity,
    load: load + (toEachKilogram * seconds) / waterHeatCapacity,
    frostGrams: frostGrams + growing - (melting * seconds) / meltingHeat,
  };
}
