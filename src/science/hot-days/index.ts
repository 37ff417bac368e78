// What other floors may import of hot days and trips.

export type { SettledDepth } from "./depth-law.ts";
export { type HotDayOptions, hotDay } from "./hot-day.ts";
export type * from "./hot-day-findings.ts";
export type * from "./hot-day-sayings.ts";
