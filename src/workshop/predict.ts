// Hot days and trips, from logs or from the runs of a fridge.

import type { HotDayContext } from "../report/hot-day/index.ts";
import type { Degrees, Language } from "../report/index.ts";
import type { Forecast, HeatSource } from "../schema/index.ts";
import { type HotDay, hotDay, type Load } from "../science/hot-days/index.ts";
import { marksOf } from "./judge.ts";
import type { LogsRead } from "./logs-read.ts";

/** What is asked. One of `ambient` and `forecast`. */
export interface HotDayQuestion {
  /** °C */
  readonly ambient?: number;
  readonly forecast?: Forecast;
  /** That of the newest stretch unless stated. */
  readonly source?: HeatSource;
  /** Goods loaded warm. */
  readonly load?: Load;
  /** Cabinet as the trip begins, °C. */
  readonly begin?: number;
}

/** A prediction with what a report on it needs. */
export interface Prediction {
  readonly prediction: HotDay;
  readonly context: HotDayContext;
}

/** Answers the question from logs. Times are shown with the forecast's clock, without one with the first log's. */
export function predictFromLogs(
  { logs, inputs }: Pick<LogsRead, "logs" | "inputs">,
  question: HotDayQuestion,
  { language = "en", degrees }: { readonly language?: Language; readonly degrees?: Degrees } = {},
): Prediction {
  const { ambient, forecast, source, load, begin } = question;
  const ofForecast =
    forecast === undefined ? [] : [{ name: forecast.name, role: "forecast" as const, sha256: forecast.sha256 }];
  return {
    prediction: hotDay(logs, { ambient, forecast, source, load, begin }),
    context: {
      language,
      degrees,
      inputs: [
        // What the runs would be compared with comes along with them, and no prediction looks at it.
        ...inputs.flatMap(({ role, ...input }) => (role === "log" || role === "sheet" ? [{ ...input, role }] : [])),
        ...ofForecast,
      ],
      utcOffsetMinutes: forecast?.utcOffsetMinutes ?? logs[0].utcOffsetMinutes,
      sourceMarks: marksOf(logs),
      asked: {
        ambient: ambient ?? null,
        forecast: forecast?.name ?? null,
        source: source ?? null,
        begin: begin ?? null,
      },
    },
  };
}
