// A hot day in words and in order, before any layout: the printed text, the page and the JSON all take from this one
// telling.

import type { EnergySource } from "../../schema/index.ts";
import type { HotDay, HotDaySource, Trip, TripHour } from "../../science/hot-days/index.ts";
import type { Answer, Estimate } from "../../science/index.ts";
import { isKnown } from "../../science/index.ts";
import { type CheckTelling, repeatsMarked, tellCautions } from "../advice-telling.ts";
import { type Side, sideOf8 } from "../against-8.ts";
import { program } from "../program.ts";
import { type Teller, tellerFor } from "../teller.ts";
import { say } from "../words/index.ts";
import type { HotDayContext } from "./hot-day-context.ts";

export interface HotDayTelling {
  readonly title: string;
  /** Period and clock of the trip; empty without one. */
  readonly when: string;
  /** The answer. */
  readonly sentence: string;
  /** What the answer does not see; empty where there is none. */
  readonly cannotSee: string;
  /** Names the source that the facts are of, where there are others. */
  readonly factsHeading: string;
  readonly facts: readonly { readonly name: string; readonly text: string }[];
  readonly others: readonly string[];
  readonly reasons: readonly string[];
  readonly classesHeading: string;
  readonly classes: readonly string[];
  readonly classesNote: string;
  readonly limits: readonly string[];
  readonly advice: readonly CheckTelling[];
  /** The trip's hours in words; empty without a trip. */
  readonly hours: readonly HourTelling[];
  readonly foot: readonly string[];
  readonly inputs: readonly string[];
}

/** Where a cabinet lies against 8 °C. */
export type Mark = Side | "unknown";

export interface HourTelling {
  readonly hour: TripHour;
  readonly clock: string;
  readonly moment: string;
  readonly letter: string;
  readonly on: string;
  readonly outside: string;
  /** Signs of sun, driving and of an hour beyond the runs; empty for none. */
  readonly signs: string;
  readonly cabinet: string;
  readonly band: string;
  readonly mark: Mark;
}

/** Tells a prediction in the context's language, on its clock. */
export function tellHotDay(prediction: HotDay, context: HotDayContext): HotDayTelling {
  const teller = tellerFor(context);
  const { hotDay, report, cautions, names } = teller.words;
  const { hand } = teller;
  const { sources, trip } = prediction;
  const [asked] = sources;
  const led = ledBy(prediction, context);
  const others = sources.filter((one) => !led.includes(one));
  const logs = context.inputs.filter(({ role }) => role === "log").map(({ name }) => name);
  const reasonOf = (reason: HotDaySource["reasons"][number]) => say(hotDay.reasons, reason, hand);
  return {
    title: hotDay.title(report.list(logs)),
    when: trip === null ? "" : report.when(hand.period(trip.startMs, trip.endMs, "with year"), hand.offset()),
    sentence: [...(trip === null ? [] : tellTrip(trip, teller)), tellAnswer(led, prediction, teller)].join(" "),
    cannotSee: tellCannotSee(led, prediction, teller),
    factsHeading: hotDay.factsHeading(
      trip === null && sources.length > 1 ? asked.source : "all",
      context.asked.source === null,
    ),
    facts: tellFacts(prediction, teller),
    others: others.map((one) => tellOther(one, teller)),
    reasons: [...new Set([...asked.reasons, ...(trip?.reasons ?? [])].map(reasonOf))],
    classesHeading: hotDay.classesHeading(asked.source),
    classes: asked.classes.map(({ name, coolest, warmest, settled, holds8 }) =>
      hotDay.classLine(name, coolest, warmest, settled, holds8, hand),
    ),
    classesNote: hotDay.classesNote,
    limits: [report.foodLimits(hand), hotDay.deferLimits, cautions.food.text],
    advice: repeatsMarked(
      prediction.advice.map(({ advice, cautions: codes }) => ({
        ...hotDay.advice[advice],
        note: "",
        caution: tellCautions(codes, teller),
      })),
    ),
    hours: trip === null ? [] : trip.hours.map((hour) => tellHour(hour, teller)),
    foot: [
      report.limits,
      report.times(hand.offset()),
      report.intervals,
      ...context.sourceMarks.map(({ unixMs, source }) => report.marks(hand.moment(unixMs), names.onSource(source))),
      report.method(program.version, program.method),
    ],
    inputs: context.inputs.map((input) => report.input(hotDay.roles[input.role], input.name, input.sha256)),
  };
}

/**
 * Of which sources the answer tells: of all that have a number, that which holds longest first. Where one was asked for, or
 * a trip, of that one alone; and so where nothing is known.
 */
function ledBy({ sources, trip }: HotDay, { asked: { source } }: HotDayContext): readonly HotDaySource[] {
  const known = sources.filter(({ settled }) => isKnown(settled));
  if (trip !== null || source !== null || known.length === 0) return sources.slice(0, 1);
  return known.toSorted((a, b) => settledAt(a) - settledAt(b));
}

const settledAt = ({ settled }: HotDaySource) => (isKnown(settled) ? settled.value : Number.POSITIVE_INFINITY);

function tellAnswer(
  led: readonly HotDaySource[],
  { ambient, trip }: HotDay,
  { words: { hotDay, unknowns }, hand }: Teller,
): string {
  const [{ source, settled }] = led;
  if (!isKnown(settled)) return hotDay.cannot(ambient, source, say(unknowns, settled.why, hand), hand);
  const answers = led.flatMap((one) =>
    isKnown(one.settled)
      ? [
          {
            source: one.source,
            settled: one.settled,
            side: sideOf8(one.settled),
            isHeld: isHeldByDial(one, one.settled),
          },
        ]
      : [],
  );
  return hotDay.settles(ambient, trip !== null, answers, hand);
}

function tellCannotSee(
  led: readonly HotDaySource[],
  { trip, topShelf }: HotDay,
  { words: { hotDay }, hand }: Teller,
): string {
  const isSaid = led.some(({ settled }) => isKnown(settled)) || (trip !== null && warmestHour(trip) !== null);
  if (!isSaid) return "";
  const isBeyond =
    led.some(({ isExtrapolated }) => isExtrapolated) ||
    (trip?.hours.some(({ isExtrapolated }) => isExtrapolated) ?? false);
  return hotDay.cannotSee(topShelf, isBeyond, hand);
}

/** Whether the thermostat and not the unit keeps it there. */
function isHeldByDial({ reasons }: HotDaySource, settled: Estimate): boolean {
  const held = reasons.find((reason) => reason.code === "dial-held");
  return held?.code === "dial-held" && held.estimate.value >= settled.value;
}

function tellTrip(trip: Trip, { words: { hotDay }, hand }: Teller): readonly string[] {
  const warmest = warmestHour(trip);
  const warmestText = warmest === null ? [] : [hotDay.tripWarmest(warmest.cabinet, warmest.unixMs, hand)];
  const unsaid = trip.hours.find(({ cabinet }) => !isKnown(cabinet));
  if (isKnown(trip.hoursAbove8)) return [hotDay.tripAbove(trip.hoursAbove8, hand), ...warmestText];
  return unsaid === undefined ? warmestText : [hotDay.tripCannot(unsaid.unixMs, unsaid.source, hand)];
}

/** The full hour with the warmest cabinet; null when none is known. */
export function warmestHour({ hours }: Trip): { readonly unixMs: number; readonly cabinet: Estimate } | null {
  const known = hours.flatMap(({ unixMs, cabinet }) => (isKnown(cabinet) ? [{ unixMs, cabinet }] : []));
  return known.toSorted((a, b) => b.cabinet.value - a.cabinet.value)[0] ?? null;
}

function tellFacts(prediction: HotDay, teller: Teller): HotDayTelling["facts"] {
  const {
    words: { hotDay, unknowns },
    hand,
  } = teller;
  const facts = hotDay.facts(hand);
  const { trip, topShelf, load } = prediction;
  const [asked] = prediction.sources;
  const fact = (name: string, answer: Answer, phrase: (e: Estimate) => string) => ({
    name,
    text: isKnown(answer) ? phrase(answer) : say(unknowns, answer.why, hand),
  });
  const ofTrip =
    trip === null
      ? []
      : [
          fact(facts.hoursAbove5, trip.hoursAbove5, (e) => hotDay.ofTrip(e, hand)),
          fact(facts.hoursAbove8, trip.hoursAbove8, (e) => hotDay.ofTrip(e, hand)),
          fact(facts.tripUntil8[trip.crosses8], trip.hoursUntil8, (e) => hotDay.afterStart(e, hand)),
        ];
  if (!isKnown(asked.settled)) return ofTrip;
  return [
    ...ofTrip,
    fact(facts.belowAmbient, asked.belowAmbient, (e) => hand.brief(e)),
    fact(facts.warmestAmbientFor8, asked.warmestAmbientFor8, (e) => hotDay.upTo(e, hand)),
    fact(facts.hoursUntil8, asked.hoursUntil8, (e) =>
      (load === null ? hotDay.fromWarm : hotDay.fromWarmLoaded)(e, asked.source, hand),
    ),
    { name: facts.topShelf, text: hotDay.topShelfText(topShelf, hand) },
  ];
}

function tellOther({ source, settled }: HotDaySource, { words: { hotDay, unknowns }, hand }: Teller): string {
  return isKnown(settled)
    ? hotDay.otherSource(source, settled, hand)
    : hotDay.otherCannot(source, say(unknowns, settled.why, hand));
}

/** Where an answer lies against 8 °C. */
function markOf(cabinet: Answer): Mark {
  return isKnown(cabinet) ? sideOf8(cabinet) : "unknown";
}

function tellHour(hour: TripHour, { words: { hotDay, names, report }, hand }: Teller): HourTelling {
  const { strip } = hotDay;
  const { cabinet, sun, driving, isExtrapolated } = hour;
  const number = (value: number) => hand.figure(value, "Cel", 0);
  return {
    hour,
    clock: hand.clock(hour.unixMs),
    moment: hand.moment(hour.unixMs),
    letter: hotDay.sourceLetters[hour.source],
    on: names.onSource(hour.source),
    outside: number(hour.ambient),
    signs: [sun ? strip.sunSign : "", driving ? strip.drivingSign : "", isExtrapolated ? strip.beyondSign : ""].join(
      "",
    ),
    cabinet: isKnown(cabinet) ? number(cabinet.value) : report.chart.missing,
    band: isKnown(cabinet)
      ? hand.range(number(cabinet.low ?? cabinet.value), number(cabinet.high ?? cabinet.value))
      : report.chart.missing,
    mark: markOf(cabinet),
  };
}

/** What the letters, signs and marks of these hours mean, a sentence each; what does not occur is not explained. */
export function stripKey(hours: readonly HourTelling[], { words: { hotDay }, hand }: Teller): readonly string[] {
  const { strip, marks, sourceLetters } = hotDay;
  const sources = [...new Set(hours.map(({ hour }) => hour.source))] as readonly EnergySource[];
  const used = (["below", "across", "above", "unknown"] as const).filter((mark) =>
    hours.some((one) => one.mark === mark),
  );
  return [
    strip.keySources(sources.map((source) => strip.letter(sourceLetters[source], source))),
    strip.keyMarks(
      used.map((mark) => `${marks[mark].sign} ${marks[mark].name(hand)}`.replaceAll(" ", "\u00a0")),
      hand,
    ),
    ...(hours.some(({ hour }) => hour.sun) ? [strip.keySun] : []),
    ...(hours.some(({ hour }) => hour.driving) ? [strip.keyDriving] : []),
    ...(hours.some(({ hour }) => hour.isExtrapolated) ? [strip.keyBeyond] : []),
    strip.keyUnits(hand),
  ];
}
