// Units that results carry, and the few numbers that convert time and temperature. One unit per quantity inside the program: °C, K for
// differences, h, 1/h, and unixMs for instants.

/** The UCUM codes of the units that results carry. Source: The Unified Code for Units of Measure, version 2.1. */
export const resultUnits = ["Cel", "K", "1/h", "K/h", "h", "V", "W", "1"] as const;
export type ResultUnit = (typeof resultUnits)[number];

/** Units in which a raw value may be kept besides ours (°C, V for the supply), as UCUM codes. */
export const rawUnits = ["Ohm", "mV"] as const;
export type RawUnit = (typeof rawUnits)[number];

/** Milliseconds in an hour. */
export const msPerHour = 3_600_000;
/** Milliseconds in a minute. */
export const msPerMinute = 60_000;
/** Milliseconds in a day of 24 hours. */
export const msPerDay = 86_400_000;

/** 0 °C in kelvins. Source: SI Brochure, 9th ed. (BIPM, 2019), "The kelvin". */
export const kelvinOfZeroCelsius = 273.15;
