// A hot day for the terminal: the answer first, then the trip's strip of hours and its curve, what it rests on, and what
// helps. Every hour's state is a sign and a figure; colour only helps.

import type { HotDay, Trip } from "../../science/hot-days/index.ts";
import { hourAxis, roundAxisOf } from "../drawing/axis.ts";
import { type PlotLine, plotWidth, terminalPlot } from "../terminal/terminal-plot.ts";
import { columns, hang, padEnd, padStart, wrap } from "../terminal/text-layout.ts";
import {
  checkLines,
  foot,
  heading,
  listed,
  margin,
  type Printer,
  printer,
  section,
  type TextOptions,
  textOf,
} from "../terminal/text-parts.ts";
import type { HotDayContext } from "./hot-day-context.ts";
import { type HotDayTelling, type HourTelling, type Mark, stripKey, tellHotDay } from "./hot-day-telling.ts";

/** The whole prediction as text, ending with a line break. */
export function hotDayText(prediction: HotDay, context: HotDayContext, options: TextOptions): string {
  const telling = tellHotDay(prediction, context);
  const page = printer(context, options);
  const { hotDay } = page.words;
  return textOf([
    ...heading(telling, page),
    "",
    ...wrap(telling.sentence, page.width).map(page.colours.bold),
    ...(telling.cannotSee === "" ? [] : ["", ...wrap(telling.cannotSee, page.width)]),
    ...tripLines(prediction.trip, telling, page),
    ...factLines(telling, page),
    ...listed(hotDay.sourcesHeading, telling.others, page),
    ...listed(hotDay.restsHeading, telling.reasons, page),
    ...(telling.classes.length === 0
      ? []
      : listed(telling.classesHeading, [...telling.classes, telling.classesNote], page)),
    ...listed(hotDay.limitsHeading, telling.limits, page),
    ...adviceLines(telling, page),
    ...foot(telling, page),
  ]);
}

function factLines({ facts, factsHeading }: HotDayTelling, page: Printer): string[] {
  if (facts.length === 0) return [];
  const nameWidth = Math.min(Math.max(...facts.map(({ name }) => name.length)), widestName);
  const lines = facts.flatMap(({ name, text }) =>
    columns([name, text], [nameWidth, page.width - nameWidth - margin.length - 2]).map((line) => margin + line),
  );
  return [...section(factsHeading, page), ...lines];
}

/** Names of facts stand in a line, in Fahrenheit too; longer ones go on in the next. */
const widestName = 20;

function adviceLines({ advice }: HotDayTelling, page: Printer): string[] {
  if (advice.length === 0) return [];
  return [
    ...section(page.words.hotDay.adviceHeading, page),
    ...advice.flatMap((one, index) => checkLines(one, index + 1, page)),
  ];
}

function tripLines(trip: Trip | null, { hours }: HotDayTelling, page: Printer): string[] {
  if (trip === null) return [];
  return [
    ...section(page.words.hotDay.tripHeading, page),
    // The last hour ends the trip: it has a temperature but no length.
    ...stripLines(hours.length > 1 ? hours.slice(0, -1) : hours, page),
    "",
    ...stripKey(hours, page).flatMap((sentence) => hang(margin, sentence, page.width)),
    ...curveLines(trip, page),
  ];
}

/** Characters of one hour. */
const hourColumns = 4;
const mostHours = 12;

/** Six short rows per block of up to twelve hours: clock, energy, air outside with its signs, cabinet, mark. */
function stripLines(hours: readonly HourTelling[], page: Printer): string[] {
  const { strip, marks } = page.words.hotDay;
  const names = [strip.hour, strip.on, strip.outside, strip.cabinet, strip.against8(page.hand)];
  const nameWidth = Math.max(...names.map((name) => name.length));
  const perBlock = Math.min(mostHours, Math.floor((page.width - margin.length - nameWidth) / hourColumns));
  const blocks = Array.from({ length: Math.ceil(hours.length / perBlock) }, (_, at) =>
    hours.slice(at * perBlock, (at + 1) * perBlock),
  );
  return blocks.flatMap((block, at) => {
    const row = (name: string, cellOf: (one: HourTelling) => string) =>
      `${margin}${padEnd(name, nameWidth)}${block.map((one) => padStart(cellOf(one), hourColumns)).join("")}`;
    const signs = block.some((one) => one.signs !== "") ? [row("", (one) => one.signs)] : [];
    return [
      ...(at === 0 ? [] : [""]),
      margin + page.colours.dim(block[0].moment.split("\u00a0").slice(0, -1).join(" ")),
      row(strip.hour, (one) => one.clock.slice(0, 2)),
      row(strip.on, (one) => one.letter),
      row(strip.outside, (one) => one.outside),
      ...signs,
      row(strip.cabinet, (one) => one.cabinet),
      row(strip.against8(page.hand), (one) => ofMark(one.mark, page)(marks[one.mark].sign)),
    ];
  });
}

const ofMark = (mark: Mark, { colours }: Printer) =>
  ({ below: colours.green, across: colours.yellow, above: colours.red, unknown: colours.cyan })[mark];

function curveLines({ curves }: Trip, page: Printer): string[] {
  const { hotDay, report } = page.words;
  const { hours, ambient, cabinet, low, high } = curves;
  const seen = [...ambient, ...low, ...high].filter(Number.isFinite);
  if (!cabinet.some(Number.isFinite)) return [];
  const line = (
    ink: TripInk,
    name: string,
    values: Float64Array,
    sample: string,
    pattern: PlotLine<TripInk>["pattern"],
  ) => ({
    ink,
    name,
    values,
    sample,
    pattern,
    hours,
  });
  const band = report.chart.lines.band.replace("\u00a0", " ");
  const plot = terminalPlot<TripInk>(
    {
      title: report.chart.temperature(page.hand),
      hoursTitle: hotDay.trip.hoursTitle,
      x: hourAxis(0, hours[hours.length - 1], Math.floor(plotWidth(page.width - margin.length) / 7)),
      y: roundAxisOf("Cel", page.hand, Math.min(...seen), Math.max(...seen), 6),
      lines: [
        line("ambient", hotDay.trip.lines.ambient, ambient, "⠂⠂⠂⠂", (column) => column % 4 === 0),
        line("band", band, low, "⠂⠒⠂⠒", (column) => column % 3 === 0),
        line("band", band, high, "⠂⠒⠂⠒", (column) => column % 3 === 0),
        line("cabinet", hotDay.trip.lines.cabinet, cabinet, "⠒⠒⠒⠒", () => true),
      ],
      onset: null,
    },
    page.hand,
    page.width - margin.length,
    (text, ink) =>
      ({ cabinet: page.colours.bold, band: page.colours.magenta, ambient: page.colours.yellow })[ink](text),
  );
  return ["", ...plot.map((text) => margin + text)];
}

type TripInk = "cabinet" | "ambient" | "band";
