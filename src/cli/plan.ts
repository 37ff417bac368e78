// `coldfall plan`: a run laid out over the clock of this machine.

import { refuseToReplace, writeWholeFile } from "../ingest/index.ts";
import type { Words } from "../report/index.ts";
import { planDocument, planPage, planText, tellPlanRefusal } from "../report/plan/index.ts";
import { BadInput, type HeatSource, heatSources, msPerHour } from "../schema/index.ts";
import { type PlanRequest, planRun } from "../science/plan/index.ts";
import { type LanguageOptions, wordsFor } from "./language-option.ts";
import { badOption } from "./option-values.ts";
import type { Terminal } from "./terminal.ts";

export interface PlanOptions extends LanguageOptions {
  readonly from: string;
  readonly sources: string;
  readonly date?: string;
  readonly until?: string;
  readonly attended: string;
  readonly switchWhileCold?: boolean;
  readonly json?: boolean;
  readonly html?: string;
}

/** @throws BadInput when an option cannot be used or no plan keeps the rules, before anything is written. */
export function runPlan(options: PlanOptions, terminal: Terminal): void {
  const { language = "en" } = options;
  refuseToReplace({ page: options.html });
  const request = requestOf(options, terminal.nowUnixMs());
  const found = planRun(request);
  if (found.outcome === "refused") {
    throw new BadInput({ code: "no-plan", why: tellPlanRefusal(found.reason, request.utcOffsetMinutes, language) });
  }
  const { plan } = found;
  const laterMinutes = offsetAt(plan.endMs) - plan.utcOffsetMinutes;
  if (laterMinutes !== 0) terminal.tell(`${wordsFor(options).plan.command.clocksChange(laterMinutes)}\n`);
  if (options.html !== undefined) {
    writeWholeFile(options.html, planPage(plan, language), "page");
    terminal.tell(`${wordsFor(options).cli.wrote(options.html)}\n`);
  }
  terminal.print(
    options.json
      ? `${JSON.stringify(planDocument(plan, language), null, 2)}\n`
      : planText(plan, language, { colour: terminal.hasColour, width: terminal.width }),
  );
}

/** What the options take, in words. */
type Expected = Words["plan"]["command"];

function requestOf(options: PlanOptions, now: number): PlanRequest {
  const text = wordsFor(options).plan.command;
  const startMs = beginOf(options, now, text);
  const untilMs = options.until === undefined ? undefined : timeOf("--until", options.until, startMs, text);
  if (untilMs !== undefined && untilMs <= startMs) throw badOption("--until", options.until ?? "", text.expectedUntil);
  return {
    startMs,
    ...(untilMs === undefined ? {} : { untilMs }),
    sources: sourcesOf(options.sources, text),
    utcOffsetMinutes: offsetAt(startMs),
    attended: attendedOf(options.attended, text),
    isSwitchedWhileCold: options.switchWhileCold === true,
  };
}

/** This machine's offset from UTC at an instant, min. */
const offsetAt = (unixMs: number) => -new Date(unixMs).getTimezoneOffset();

function beginOf({ from, date }: PlanOptions, now: number, text: Expected): number {
  if (date === undefined) return timeOf("--from", from, now - quarterOfAnHour, text);
  if (!/^\d{4}-\d\d-\d\d$/.test(date)) throw badOption("--date", date, text.expectedDate);
  const clock = clockOf(from);
  if (clock === null) throw badOption("--from", from, text.expectedTime);
  return localMs(`${date}T${clock}`) ?? refuse("--date", date, text.expectedDate);
}

/** Who asks for 13:00 at five past means now. */
const quarterOfAnHour = msPerHour / 4;

/** A local day and time, or the first such clock time after an instant. */
function timeOf(option: string, given: string, afterMs: number, text: Expected): number {
  const clock = clockOf(given);
  if (clock === null) return localMs(given.trim()) ?? refuse(option, given, text.expectedTime);
  const [hours, minutes] = clock.split(":").map(Number);
  const day = new Date(afterMs);
  day.setHours(hours, minutes, 0, 0);
  if (day.getTime() <= afterMs) day.setDate(day.getDate() + 1);
  return day.getTime();
}

function localMs(dayAndTime: string): number | null {
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(dayAndTime)) return null;
  const unixMs = new Date(`${dayAndTime}:00`).getTime();
  return Number.isNaN(unixMs) ? null : unixMs;
}

/** HH:MM of a clock, or null. */
function clockOf(given: string): string | null {
  const parts = /^(\d{1,2}):(\d\d)$/.exec(given.trim());
  return parts !== null && Number(parts[1]) < 24 && Number(parts[2]) < 60
    ? `${parts[1].padStart(2, "0")}:${parts[2]}`
    : null;
}

function sourcesOf(given: string, text: Expected): readonly HeatSource[] {
  const names = given.split(",").map((name) => name.trim());
  const sources = names.flatMap((name) => heatSources.filter((source) => source === name));
  if (sources.length !== names.length || new Set(sources).size !== sources.length) {
    throw badOption("--sources", given, text.expectedSources);
  }
  return sources;
}

function attendedOf(given: string, text: Expected): { fromHour: number; toHour: number } {
  const [from, to, ...more] = given.split("-").map((part) => (part.trim() === "24:00" ? 24 : hourOf(part)));
  if (more.length > 0 || !(from < to)) throw badOption("--attended", given, text.expectedAttended);
  return { fromHour: from, toHour: to };
}

function hourOf(part: string): number {
  const clock = clockOf(part);
  if (clock === null) return Number.NaN;
  const [hours, minutes] = clock.split(":").map(Number);
  return hours + minutes / 60;
}

function refuse(option: string, given: string, expected: string): never {
  throw badOption(option, given, expected);
}
