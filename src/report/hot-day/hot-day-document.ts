// A hot day in its outside shape, "coldfall-hot-day-1": what `hot-day --json` prints.

import type { HotDayDocument } from "../../schema/documents/index.ts";
import type { HotDay, HotDayReasonSaying, HotDaySource } from "../../science/hot-days/index.ts";
import { instant, outside } from "../outside-shapes.ts";
import { program } from "../program.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { plain } from "../terminal/text-layout.ts";
import { say } from "../words/index.ts";
import type { HotDayContext } from "./hot-day-context.ts";
import { tellHotDay } from "./hot-day-telling.ts";

/** The prediction as one JSON object; sentences in the context's language, instants in UTC. */
export function hotDayDocument(prediction: HotDay, context: HotDayContext): HotDayDocument {
  const teller = tellerFor(context);
  const telling = tellHotDay(prediction, context);
  const { ambient, source, sources, trip, load, topShelf } = prediction;
  const [asked] = sources;
  const ofTrip =
    trip === null
      ? { hoursAbove5: null, hoursAbove8: null, ...outside({ hoursUntil8: asked.hoursUntil8 }, teller) }
      : outside(
          { hoursAbove5: trip.hoursAbove5, hoursAbove8: trip.hoursAbove8, hoursUntil8: trip.hoursUntil8 },
          teller,
        );
  return {
    format: "coldfall-hot-day-1",
    program,
    options: {
      ...context.asked,
      load: load === null ? null : { ...load },
      sourceMarks: context.sourceMarks.map((mark) => ({ at: instant(mark.unixMs), source: mark.source })),
    },
    inputs: context.inputs.map((input) => ({ ...input })),
    sentence: plain(telling.sentence),
    ambient,
    source,
    ...outside({ settled: asked.settled }, teller),
    start: trip === null ? null : { cabinet: trip.start.celsius, from: trip.start.from },
    hours: (trip?.hours ?? []).map((hour) => ({
      time: instant(hour.unixMs),
      source: hour.source,
      ambient: hour.ambient,
      sun: hour.sun,
      driving: hour.driving,
      ...outside({ cabinet: hour.cabinet }, teller),
      extrapolated: hour.isExtrapolated,
    })),
    extrapolated: asked.isExtrapolated || (trip?.hours.some((hour) => hour.isExtrapolated) ?? false),
    ...ofTrip,
    ...outside({ warmestAmbientFor8: asked.warmestAmbientFor8, topShelfWarmer: topShelf }, teller),
    sources: sources.map((one) => sourceDocument(one, teller)),
    reasons: reasonTexts([...asked.reasons, ...(trip?.reasons ?? [])], teller),
    limits: [...telling.limits, telling.classesNote].map(plain),
    advice: telling.advice.map(({ title, text, caution }) => ({
      advice: plain(`${title}. ${text}`),
      caution: plain(
        [...(caution?.subjects.map((subject) => subject.text) ?? []), teller.words.cautionClose].join(" "),
      ),
    })),
    warnings: [],
  };
}

function sourceDocument(one: HotDaySource, teller: Teller): HotDayDocument["sources"][number] {
  const { settled, belowAmbient, warmestAmbientFor8, hoursUntil8, slope } = one;
  return {
    source: one.source,
    ...outside({ settled, belowAmbient, warmestAmbientFor8, hoursUntil8, slope }, teller),
    slopeFrom: one.isOwnSlope ? "own-runs" : "default",
    extrapolated: one.isExtrapolated,
    runs: one.points.map((point) => ({
      log: point.log,
      start: instant(point.startMs),
      ambient: point.ambient,
      belowAmbient: point.depth,
      standardError: point.standardError,
      from: point.from,
    })),
    climateClasses: one.classes.map(({ name, coolest, warmest, settled: there, holds8 }) => ({
      class: name,
      coolest,
      warmest,
      ...outside({ settled: there }, teller),
      holds8,
    })),
    reasons: reasonTexts(one.reasons, teller),
  };
}

const reasonTexts = (reasons: readonly HotDayReasonSaying[], { words: { hotDay }, hand }: Teller) =>
  reasons.map((reason) => plain(say(hotDay.reasons, reason, hand)));
