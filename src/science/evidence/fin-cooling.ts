// What the fins alone tell of the cooling at one moment, on a scale that holds still while the cabinet does not: the heat
// that flows into them, referred to the evaporator and the ambient at which cooling strength is told (-5 and 25 °C).
// Only differences within one run mean anything: the fins' own size, their frost and the probes' places drop out.
//
// Coefficients come from this project's simulated fridges (eight random sound ones, seeds 501 to 508); no published
// source was found, so each is only believed within its doubt.

/** A moment of a stretch: fin difference (K, above 0), evaporator and ambient (°C), and how fast the evaporator warms (K/h). */
export interface FinMoment {
  readonly kelvin: number;
  readonly evaporator: number;
  readonly ambient: number;
  readonly warming: number;
}

/** ln(cooling) up to a constant, in the parts that are doubted apart from each other. */
export interface FinCooling {
  readonly fins: number;
  readonly mass: number;
  readonly evaporator: number;
  readonly surroundings: number;
}

/** Fins in free convection (Nusselt number as Rayleigh to the quarter), and under a fan inside. */
const freePower = 1.25;
const fanPower = 1;
/** Heat that the evaporator's own mass gives or takes: heat capacity over conductance, K^power per K/h. */
const freeMass = 0.21;
const fanMass = 0.9;
/** A colder evaporator evaporates less of its ammonia: this much of it at -5 °C, more the colder, over so many kelvin. */
const unevaporated = 0.123;
const overKelvin = 15;
/** A hotter absorber raises the coldest that the evaporator can get to, K per K. */
const coldestFollows = 0.8;
/** ln(cooling) for each kelvin of a hotter condenser, and for the square of those above the usual. */
const perKelvinHotter = -0.0047;
const perSquareHotter = -0.0012;
/** A boiler in warmer air loses less: ln(cooling) of a fully heated unit for each kelvin, the more the weaker its heat. */
const boilerPerKelvin = 0.0023;
/** How far a fully heated unit warms condenser and absorber above the air, K, and how that goes with its cooling. */
const rejectionLift = 10;
const rejectionPower = 0.75;

/** Doubt of each part, as a share of what it shifts between two states of one night. */
export const finCoolingDoubt: FinCooling = { fins: 0.02, mass: 0.2, evaporator: 0.2, surroundings: 0.2 };

/**
 * @param share cooling over that of a fully heated unit, above 0: it says how hot the condenser runs, and how much the
 *   boiler's loss weighs.
 * @param isFanInside whether a fan blew over the fins.
 */
export function finCooling(moment: FinMoment, share: number, isFanInside: boolean): FinCooling {
  const power = isFanInside ? fanPower : freePower;
  const mass = isFanInside ? fanMass : freeMass;
  const intoFins = moment.kelvin ** power;
  const lift = rejectionLift * (share ** rejectionPower - 1);
  const hotter = moment.ambient - 25 + lift;
  return {
    fins: power * Math.log(moment.kelvin),
    mass: Math.log(Math.max(0.05, 1 - (mass * moment.warming) / intoFins)),
    evaporator: evaporated(-5, lift) - evaporated(moment.evaporator, hotter),
    surroundings: condensed(lift) - condensed(hotter) - (boilerPerKelvin / share) * (moment.ambient - 25),
  };
}

/** ln(cooling) up to a constant, all parts together. */
export const logCoolingOf = ({ fins, mass, evaporator, surroundings }: FinCooling): number =>
  fins + mass + evaporator + surroundings;

const evaporated = (celsius: number, hotter: number): number =>
  -unevaporated * Math.exp(-(celsius + 5 - coldestFollows * hotter) / overKelvin);

const condensed = (hotter: number): number => perKelvinHotter * hotter + perSquareHotter * Math.max(0, hotter) ** 2;
