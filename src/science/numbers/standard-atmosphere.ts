// The air's pressure by altitude, where nobody measured it.

/** Pressure of the standard atmosphere, hPa, at a geopotential altitude in metres. Source: ISO 2533:1975, lowest layer. */
export const standardPressure = (altitudeMetres: number): number =>
  1013.25 * (1 - (0.0065 * altitudeMetres) / 288.15) ** 5.25588;
