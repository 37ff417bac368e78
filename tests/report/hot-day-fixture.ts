// Predictions for the report's tests, made from an invented fridge's runs, and how they were asked for.

import type { HotDayContext } from "../../src/report/hot-day/index.ts";
import { hotDay } from "../../src/science/hot-days/index.ts";
import { forecastOf, logs, tripStart } from "../science/hot-days/hot-day-runs.ts";

const forecast = forecastOf(
  [3, 24, "mains"],
  [3, 28, "gas", { driving: true }],
  [4, 33, "off", { sun: true }],
  [5, 34, "gas"],
  [16, 26, "mains"],
);

const hash = "0".repeat(64);
const contextWith = (asked: Partial<HotDayContext["asked"]>): HotDayContext => ({
  language: "en",
  inputs: [
    { name: "night.csv", role: "log", sha256: hash },
    { name: "night.sheet.json", role: "sheet", sha256: hash },
    ...(asked.forecast ? [{ name: asked.forecast, role: "forecast" as const, sha256: hash }] : []),
  ],
  utcOffsetMinutes: 120,
  sourceMarks: [{ unixMs: tripStart, source: "mains" }],
  asked: { ambient: null, forecast: null, source: null, begin: null, ...asked },
});

/** One of each kind of answer. */
export const predictions = {
  "at an ambient": { prediction: hotDay(logs, { ambient: 32 }), context: contextWith({ ambient: 32 }) },
  "with goods": {
    prediction: hotDay(logs, { ambient: 27, source: "mains", load: { kilograms: 5, celsius: 22 } }),
    context: contextWith({ ambient: 27, source: "mains" }),
  },
  "through a trip": { prediction: hotDay(logs, { forecast }), context: contextWith({ forecast: "trip.csv" }) },
  "with a source that did not run": {
    prediction: hotDay(logs, { ambient: 32, source: "dc12" }),
    context: contextWith({ ambient: 32, source: "dc12" }),
  },
  "through a trip that goes on such a source": {
    prediction: hotDay(logs, {
      forecast: forecastOf([4, 25, "mains"], [4, 28, "dc12", { driving: true }], [4, 30, "mains"]),
    }),
    context: contextWith({ forecast: "trip.csv" }),
  },
  "through a trip that begins on such a source": {
    prediction: hotDay(logs, { forecast: forecastOf([4, 25, "dc12"], [4, 30, "mains"]) }),
    context: contextWith({ forecast: "trip.csv" }),
  },
} as const;
