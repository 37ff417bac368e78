// The flue pipe, where a probe is tied to its outside (firmware-notes/placement.md): heated by what the flame does not leave in
// the boiler, and kept warm by the boiler that it is joined to. All numbers here are common practice, no source; they are chosen so
// that the pipe is some 180 °C in full work, and warm to the hand on electricity.

/** How quickly thin sheet follows the gas in it, s. */
const followsSeconds = 180;
/** How far one watt that goes up the flue warms the pipe above the air around it, K/W. */
const kelvinPerWatt = 1.9;
/** Share of the boiler's warmth above that air which the pipe takes up by itself. */
const boilerShare = 0.3;

export interface AroundFlue {
  /** Heat of the burnt gas that does not reach the boiler, W; 0 without a flame. */
  readonly flueWatts: number;
  readonly boilerCelsius: number;
  readonly ventCelsius: number;
}

/** Where the pipe settles, °C. */
const settledFlue = ({ flueWatts, boilerCelsius, ventCelsius }: AroundFlue) =>
  ventCelsius + boilerShare * (boilerCelsius - ventCelsius) + kelvinPerWatt * flueWatts;

/** The pipe after so many seconds in these surroundings, °C; exact for steady ones. */
export const stepFlue = (celsius: number, around: AroundFlue, seconds: number): number =>
  celsius + (settledFlue(around) - celsius) * -Math.expm1(-seconds / followsSeconds);
