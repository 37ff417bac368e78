// `coldfall hot-day`: read the logs and the forecast, predict, show.

import { readForecast, readWholeFile, refuseToReplace, writeWholeFile } from "../ingest/index.ts";
import { hotDayDocument, hotDayPage, hotDayText } from "../report/hot-day/index.ts";
import { BadInput, type HeatSource } from "../schema/index.ts";
import type { Load } from "../science/hot-days/index.ts";
import { type Prediction, predictFromLogs } from "../workshop/predict.ts";
import { tellingOf, wordsFor } from "./language-option.ts";
import { type GivenLogs, readGivenLogs } from "./logs.ts";
import { Progress } from "./progress.ts";
import type { Terminal } from "./terminal.ts";
import type { ToldOfLogs } from "./told-of-logs.ts";

/** What is asked, of which logs. */
export interface HotDayGiven
  extends Pick<GivenLogs, "logs" | "sheet" | "store" | "language" | "fahrenheit">,
    ToldOfLogs {
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
export async function runHotDay(logs: readonly string[], options: HotDayOptions, terminal: Terminal): Promise<void> {
  const { json, html, ...given } = options;
  const { cli } = wordsFor(given);
  refuseToReplace({ page: html });
  const { prediction, context, remarks } = await predictGiven({ ...given, logs }, terminal);
  let messages = remarks;
  if (html !== undefined) {
    writeWholeFile(html, hotDayPage({ title: cli.hotDay.title, prediction, context }), "page");
    messages = [...remarks, cli.wrote(html)];
  }
  for (const message of messages) terminal.tell(`${message}\n`);
  terminal.print(
    json
      ? `${JSON.stringify(hotDayDocument(prediction, context), null, 2)}\n`
      : hotDayText(prediction, context, { colour: terminal.hasColour, width: terminal.width }),
  );
}

export interface Predicted extends Prediction {
  /** What to tell besides the results, a sentence each. */
  readonly remarks: readonly string[];
}

/** Reads what was given and predicts. @throws BadInput when a log, file or option cannot be used. */
export async function predictGiven(given: HotDayGiven, terminal: Terminal): Promise<Predicted> {
  const { ambient, source, load, begin, forecast: file, ...logs } = given;
  if ((ambient === undefined) === (file === undefined)) throw new BadInput({ code: "ambient-or-forecast" });
  using progress = new Progress(terminal);
  const forecast = file === undefined ? undefined : readForecast(readWholeFile(file), file);
  const read = await readGivenLogs(logs, progress);
  progress.step(wordsFor(given).cli.predicting);
  return {
    ...predictFromLogs(read, { ambient, forecast, source, load, begin }, tellingOf(given)),
    remarks: read.remarks,
  };
}
