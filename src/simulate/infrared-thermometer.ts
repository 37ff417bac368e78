// What an infrared thermometer shows: bare metal reflects the room and reads far too near to it.

import { kelvinOfZeroCelsius } from "../schema/index.ts";

export interface InfraredView {
  readonly surfaceCelsius: number;
  /** What the surface reflects: the room, usually. */
  readonly reflectedCelsius: number;
  readonly emissivity: number;
  /** The emissivity the instrument is set to; 0.95 on most. */
  readonly emissivitySet: number;
}

/**
 * The temperature shown, °C. Stefan-Boltzmann with a reflected background; an instrument of 8 to 14 µm deviates a little.
 * @example a flue tube of bare metal (emissivity 0.3) at 111.5 °C shows 60 °C in a room of 25 °C, set to 0.95.
 */
export function indicatedByInfrared({
  surfaceCelsius,
  reflectedCelsius,
  emissivity,
  emissivitySet,
}: InfraredView): number {
  const fourth = (celsius: number) => (celsius + kelvinOfZeroCelsius) ** 4;
  const room = fourth(reflectedCelsius);
  return (room + (emissivity / emissivitySet) * (fourth(surfaceCelsius) - room)) ** 0.25 - kelvinOfZeroCelsius;
}
