// `coldfall hot-day`: read the logs and the forecast, predict, show.

import { readForecast, readWholeFile, writeWholeFile } from "../ingest/index.ts";
import { type HotDayContext, hotDayDocument, hotDayPage, hotDayText, words } from "../report/index.ts";
import { BadInput, type HeatSource } from "../schema/index.ts";
import { type HotDay, hotDay, type Load } from "../science/index.ts";
import { type GivenLogs, readGivenLogs } from "./logs.ts";
import { Progress } from "./progress.ts";
import type { Terminal } from "./terminal.ts";

const { cli } = words("en");

/** What is asked, of which logs. */
export interface HotDayGiven extends Pick<GivenLogs, "logs" | "sheet" | "map" | "sourceAt"> {
  /** °C; needed unless there is a forecast. */
  readonly ambient?: number;
  /** Forecast file. */
  readonly forecast?: string;
  readonly source?: HeatSource;
  readonly load?: Load;
  /** Cabinet as the trip begins, °C. */
  readonly begin?: number;
}

/** What `coldfall hot-day` may be told besides its logs. */
export interface HotDayOptions extends Omit<HotDayGiven, "logs"> {
  readonly json?: boolean;
  readonly html?: string;
}

/** @throws BadInput before anything is printed or written. */
export function runHotDay(logs: readonly string[], options: HotDayOptions, terminal: Terminal): void {
  const { json, html, ...given } = options;
  const { prediction, context, remarks } = predictGiven({ ...given, logs }, terminal);
  let messages = remarks;
  if (html !== undefined) {
    writeWholeFile(html, hotDayPage({ title: cli.hotDay.title, prediction, context }));
    messages = [...remarks, cli.wrote(html)];
  }
  for (const message of messages) terminal.tell(`${message}\n`);
  terminal.print(
    json
      ? `${JSON.stringify(hotDayDocument(prediction, context), null, 2)}\n`
      : hotDayText(prediction, context, { colour: terminal.hasColour, width: terminal.width }),
  );
}

export interface Predicted {
  readonly prediction: HotDay;
  readonly context: HotDayContext;
  /** What to tell besides the results, a sentence each. */
  readonly remarks: readonly string[];
}

/** Reads what was given and predicts. @throws BadInput when a file or an option cannot be used. */
export function predictGiven(given: HotDayGiven, terminal: Terminal): Predicted {
  const { ambient, source, load, begin, sourceAt = [], ...files } = given;
  if ((ambient === undefined) === (files.forecast === undefined)) throw new BadInput({ code: "ambient-or-forecast" });
  using progress = new Progress(terminal);
  const forecast =
    files.forecast === undefined ? undefined : readForecast(readWholeFile(files.forecast), files.forecast);
  const { logs, inputs, remarks } = readGivenLogs({ ...files, sourceAt }, progress);
  progress.step(cli.predicting);
  const ofForecast =
    forecast === undefined ? [] : [{ name: forecast.name, role: "forecast" as const, sha256: forecast.sha256 }];
  return {
    prediction: hotDay(logs, { ambient, forecast, source, load, begin }),
    context: {
      language: "en",
      inputs: [
        ...inputs.map(({ role, ...input }) => ({ ...input, role: role === "sheet" ? role : ("log" as const) })),
        ...ofForecast,
      ],
      utcOffsetMinutes: forecast?.utcOffsetMinutes ?? logs[0].utcOffsetMinutes,
      sourceMarks: sourceAt,
      asked: {
        ambient: ambient ?? null,
        forecast: forecast?.name ?? null,
        source: source ?? null,
        begin: begin ?? null,
      },
    },
    remarks,
  };
}
