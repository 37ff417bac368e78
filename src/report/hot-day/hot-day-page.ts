// A hot day as a letter: the answer, the trip with its strip of hours, the depths it rests on, what helps.

import type { HotDay, HotDaySource } from "../../science/hot-days/index.ts";
import { isKnown } from "../../science/index.ts";
import { evenly } from "../drawing/thin.ts";
import { type Html, html, raw } from "../page/html.ts";
import {
  checkItem,
  figureOf,
  footer,
  heading,
  lettersPage,
  listed,
  type PageLetter,
  type PageWriter,
  readingsTable,
  section,
} from "../page/page-parts.ts";
import { handOf, words } from "../words/index.ts";
import { depthDrawing } from "./depth-drawing.ts";
import type { HotDayContext } from "./hot-day-context.ts";
import { type HotDayTelling, stripKey, tellHotDay, warmestHour } from "./hot-day-telling.ts";
import { tripDrawing } from "./trip-drawing.ts";

export interface HotDayPage {
  readonly title: string;
  readonly prediction: HotDay;
  readonly context: HotDayContext;
}

/** The whole page. */
export const hotDayPage = (page: HotDayPage): string => lettersPage([hotDayLetter(page)]);

/** The letter, to stand on a page with others. */
export const hotDayLetter = (page: HotDayPage): PageLetter => ({
  title: page.title,
  language: page.context.language,
  write: (level, id) => letter(page, level, id),
});

function letter({ title, prediction, context }: HotDayPage, level: number, id: string): Html {
  const telling = tellHotDay(prediction, context);
  const own = words(context.language);
  const hand = handOf(context.language, context.utcOffsetMinutes, context.degrees);
  const writer: PageWriter = { words: own, report: own.report, hand, level, id };
  const { hotDay } = own;
  return html`<article aria-labelledby="${id}">
${heading(writer, 0, title, id)}
<p class="when">${telling.title}${telling.when === "" ? "" : `, ${telling.when}`}</p>
<p class="in-a-sentence">${telling.sentence}</p>
${telling.cannotSee === "" ? "" : html`<p class="note">${telling.cannotSee}</p>`}
${tripSection(prediction, telling, context, writer)}
${telling.facts.length === 0 ? "" : section(writer, telling.factsHeading, html`<dl>${telling.facts.map(({ name, text }) => html`<dt>${name}</dt><dd>${text}</dd>`)}</dl>`)}
${section(writer, hotDay.restsHeading, html`<p>${telling.reasons.join(" ")}</p>${depthFigure(prediction.sources[0], prediction.ambient, writer)}`)}
${listed(writer, hotDay.sourcesHeading, telling.others)}
${telling.classes.length === 0 ? "" : section(writer, telling.classesHeading, html`<ul>${telling.classes.map((text) => html`<li>${text}</li>`)}</ul><p class="note">${telling.classesNote}</p>`)}
${listed(writer, hotDay.limitsHeading, telling.limits)}
${telling.advice.length === 0 ? "" : section(writer, hotDay.adviceHeading, html`<ol class="checks">${telling.advice.map((one) => checkItem(one, writer))}</ol>`)}
${footer(writer, telling)}
</article>
`;
}

function tripSection(prediction: HotDay, telling: HotDayTelling, context: HotDayContext, writer: PageWriter): Html {
  const { trip } = prediction;
  if (trip === null) return raw("");
  const { hotDay } = writer.words;
  const { hand } = writer;
  const warmest = warmestHour(trip);
  const known = trip.hours.flatMap(({ cabinet }) => (isKnown(cabinet) ? [cabinet.value] : []));
  const celsius = (value: number) => hand.quantity(value, "Cel", 0);
  const description =
    warmest === null
      ? hotDay.trip.nothing
      : hotDay.trip.goes(
          celsius(trip.start.celsius),
          celsius(warmest.cabinet.value),
          hand.moment(warmest.unixMs),
          celsius(Math.min(...known)),
        );
  const [sources, ...signs] = stripKey(telling.hours, writer);
  const figure = figureOf(
    {
      id: `${writer.id}-trip`,
      title: hotDay.trip.title,
      description,
      caption: `${hotDay.trip.caption(hand)} ${sources}`,
      draw: (width) => tripDrawing(trip, telling.hours, writer, context.utcOffsetMinutes, width),
      table: tripTable(telling, writer),
      summary: hotDay.table.summary,
    },
    writer,
  );
  // Where nothing can be drawn, the hours are still worth their table.
  const body =
    known.length === 0
      ? html`<div class="scroll" tabindex="0" role="group" aria-label="${hotDay.table.caption(hand)}">${tripTable(telling, writer)}</div><p class="note">${signs.join(" ")}</p>`
      : figure;
  return section(writer, hotDay.tripHeading, body);
}

function tripTable({ hours }: HotDayTelling, { words: { hotDay }, hand }: PageWriter): Html {
  const { table, marks, strip } = hotDay;
  return readingsTable(
    table.caption(hand),
    [table.time, table.on, table.outside, table.conditions, table.cabinet, table.band, table.mark(hand), table.beyond],
    hours.map((one) => [
      one.moment,
      one.on,
      one.outside,
      [one.hour.sun ? strip.sun : "", one.hour.driving ? strip.driving : ""].filter((text) => text !== "").join(", "),
      one.cabinet,
      one.band,
      `${marks[one.mark].sign} ${marks[one.mark].name(hand)}`,
      one.hour.isExtrapolated ? table.yes : table.no,
    ]),
  );
}

const predictedRows = 12;

function depthFigure(one: HotDaySource, ambient: number, writer: PageWriter): Html {
  const { words: own, hand } = writer;
  const { depths } = own.hotDay;
  const { curve, points, belowAmbient } = one;
  if (curve === null || !isKnown(belowAmbient)) return raw("");
  const listOfRuns = own.report.list(points.map((point) => depths.point(point.ambient, point.depth, hand)));
  const kelvin = (value: number) => hand.figure(value, "K", 1);
  const celsius = (value: number) => hand.figure(value, "Cel", 1);
  const predicted = evenly(curve.ambient.length, predictedRows).map((i) => [
    "",
    celsius(curve.ambient[i]),
    kelvin(curve.depth[i]),
    hand.range(kelvin(curve.low[i]), kelvin(curve.high[i])),
    curve.ambient[i] > curve.seenTo || curve.ambient[i] < curve.seenFrom
      ? depths.from["carried-on"]
      : depths.from.predicted,
  ]);
  const seen = points.map((point) => [
    point.log,
    celsius(point.ambient),
    kelvin(point.depth),
    depths.ownError(kelvin(point.standardError)),
    depths.from[point.from],
  ]);
  const columns = depths.columns(hand);
  return figureOf(
    {
      id: `${writer.id}-depth`,
      title: depths.title(one.source),
      description: depths.description(depths.runs(listOfRuns), depths.predicted(ambient, belowAmbient, hand)),
      caption: depths.caption(hand),
      draw: (width) => depthDrawing(one, ambient, writer, width),
      table: readingsTable(
        depths.tableCaption(hand),
        [columns.log, columns.ambient, columns.depth, columns.band, columns.from],
        [...seen, ...predicted],
      ),
      summary: depths.tableSummary,
    },
    writer,
  );
}
