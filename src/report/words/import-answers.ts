// What the options of `coldfall import` take, and units and zones as they are written: the same in every language.

import type { DateOrder, TemperatureUnit } from "../../schema/index.ts";

/** What --date-order takes. */
export const orderAnswers: { readonly [O in DateOrder]: string } = {
  "day-month-year": "dmy",
  "month-day-year": "mdy",
  "year-month-day": "ymd",
};

/** What --unit takes. */
export const unitAnswers: { readonly [U in TemperatureUnit]: string } = { Cel: "C", "[degF]": "F", K: "K" };

export const unitSigns: { readonly [U in TemperatureUnit]: string } = { Cel: "°C", "[degF]": "°F", K: "K" };

/** "UTC", "UTC+02:00", or the zone's own name. */
export const zoneName = (zone: string) => (zone === "Z" ? "UTC" : /^[+-]/.test(zone) ? `UTC${zone}` : zone);
