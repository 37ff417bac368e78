// What other floors may import of hot days and trips.

export { type HotDayOptions, hotDay } from "./hot-day.ts";
export type * from "./hot-day-findings.ts";
export type * from "./hot-day-sayings.ts";
export type { SettledDepth } from "./stretch-depth.ts";
