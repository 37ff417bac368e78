// Quantities that cross from one file to another, branded where they are easily swapped.
// One unit per quantity inside the program: °C, K for differences, h, 1/h, unixMs for instants.

declare const quantity: unique symbol;
type Quantity<Name extends string> = number & { readonly [quantity]: Name };

/** A temperature, °C. */
export type Celsius = Quantity<"temperature">;
/** A temperature difference, K. */
export type Kelvin = Quantity<"temperature difference">;
/** A time span, h. */
export type Hours = Quantity<"time span">;
/** A rate constant, 1/h. */
export type PerHour = Quantity<"rate constant">;

/** The UCUM codes of the units that results carry. Source: The Unified Code for Units of Measure, version 2.1. */
export const resultUnits = ["Cel", "K", "1/h", "K/h", "h", "V", "W", "1"] as const;
export type ResultUnit = (typeof resultUnits)[number];

/** Milliseconds in an hour. */
export const msPerHour = 3_600_000;
/** Milliseconds in a minute. */
export const msPerMinute = 60_000;
