// English: what is said of hot days and trips.

import type { EnergySource, HeatSource, Phrases } from "../../../schema/index.ts";
import type { HotDayAdviceCode, HotDayReasonSayings, StartKind } from "../../../science/hot-days/index.ts";
import type { Estimate } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import type { Settling } from "../settling.ts";
import { bareSource, onSource } from "./names.ts";
import { unknowns } from "./unknowns.ts";

const celsius = (value: number, hand: Hand, decimals = 0) => hand.quantity(value, "Cel", decimals);
const kelvin = (value: number, hand: Hand, decimals = 0) => hand.quantity(value, "K", decimals);
/** How the depth changes with the ambient: the same number in every degree. */
const slope = (perDegree: number, standardError: number, hand: Hand) =>
  `${hand.number(perDegree, 2)} ± ${hand.number(standardError, 2)}\u00a0${hand.unit("K")} per ${hand.unit("K")}`;
const startsFrom: { readonly [K in StartKind]: string } = {
  stated: "as told",
  "last-reading": "the last reading of the newest log",
  settled: "settled, after a day that went like the trip's first",
  ambient: "as warm as the first row's ambient: nothing tells that it was cold",
};

const reasons: Phrases<HotDayReasonSayings, Hand> = {
  "runs-settled": ({ stretches, belowAmbient, ambient }, hand) =>
    `${hand.count(stretches, { one: "stretch tells", other: "stretches tell" })} how deep it settles: on average ${kelvin(belowAmbient, hand, 1)} below an ambient of ${celsius(ambient, hand)}.`,
  "slope-of-its-own": ({ perKelvin, standardError }, hand) =>
    `This fridge's own runs say how the depth goes with the ambient: ${slope(perKelvin, standardError, hand)} on ordinary days.`,
  "slope-usual": ({ perKelvin, standardError }, hand) =>
    `The ambients of the runs are too few or too much alike to tell how the depth goes with the ambient; a stated default stands in, ${slope(perKelvin, standardError, hand)} on ordinary days.`,
  "bends-when-hot": ({ fromAmbient }, hand) =>
    `Above ${celsius(fromAmbient, hand)} it is taken to lose ground ever faster, as absorption fridges do (common practice, no source), with a width of its own.`,
  "cold-runs-left-out": ({ runs, below }, hand) =>
    `${hand.count(runs, { one: "stretch", other: "stretches" })} below ${celsius(below, hand)} ambient proved cooling but are left out: they say nothing about hot days.`,
  "exhaust-on-probe": ({ stretches, error }, hand) =>
    `In ${hand.count(stretches, { one: "stretch", other: "stretches" })} the ambient probe rose with the heating, as in the warm air that leaves the fridge. What that adds is taken off, give or take ${hand.quantity(2 * error, "K", 1)}; move the probe to the air that enters the lower vent, and run again.`,
  "dial-held": ({ estimate }, hand) =>
    `The dial held the cabinet at ${hand.brief(estimate)}; it is predicted no colder than that.`,
  "from-duty": () =>
    "Where the thermostat cycled before the curve could be fitted, full cooling is worked out from the share of the time it heated, with a wide error.",
  "beyond-runs": ({ coolest, warmest, ambient }, hand) =>
    coolest === warmest || Math.round(coolest) === Math.round(warmest)
      ? `The run was made at ${celsius(warmest, hand)} ambient; ${hand.degrees(ambient)} lies beyond what it saw, so this part is carried on from there.`
      : `The runs were made at ${hand.range(hand.figure(coolest, "Cel", 0), celsius(warmest, hand))} ambient; ${hand.degrees(ambient)} lies beyond what they saw, so this part is carried on from there.`,
  "starts-at": ({ celsius: value, from, withGoods }, hand) =>
    `The trip starts with the cabinet at ${celsius(value, hand)}: ${startsFrom[from]}${withGoods ? ", and then the goods put in" : ""}.`,
  "boiler-from": ({ cold }) =>
    cold
      ? "The boiler is taken as cold at the start."
      : "The boiler is taken as hot and the unit as running at the start.",
  "rate-usual": ({ source, perHour }, hand) =>
    `How fast it cools ${onSource(source)} no run tells; a usual ${hand.number(perHour, 2)} per hour stands in, with a wide error.`,
  "warming-usual": ({ perHour }, hand) =>
    `How fast it warms when off no run tells; a usual ${hand.number(perHour, 2)} per hour stands in, with a wide error.`,
  "sun-allowed": ({ kelvin: warmer, standardError, hours }, hand) =>
    `For ${hand.span(hours)} of sun on the vents or the wall behind the fridge the ambient is taken ${hand.figure(warmer, "K", 0)} ± ${kelvin(standardError, hand)} warmer (common practice, no source).`,
  "driving-allowed": ({ share, hours }, hand) =>
    `For ${hand.span(hours)} of driving the depth may be ${hand.percent(share)} more or less: wind at the vents and a tilting fridge (common practice, no source).`,
  "load-allowed": ({ kilograms, celsius: warm, ownShare }, hand) =>
    `${hand.number(kilograms, Number.isInteger(kilograms) ? 0 : 1)}\u00a0kg of goods at ${celsius(warm, hand)} are put in at the start. With 3.7\u00a0kJ/(kg\u00a0K) (between the values of ASHRAE, reprinted in NZIFST Unit Operations, appendix 7) they make up about ${hand.percent(1 - ownShare)} of all that has to be cooled, and slow it by as much; the fridge's own heat capacity is known to about a third.`,
  "cannot-from": ({ unixMs, source, why }, hand) =>
    `From ${hand.moment(unixMs)} on nothing can be said, because the trip goes on ${onSource(source)}. ${sayWhy(why, hand)} Write "off" in those rows to see the worst case.`,
};

/** The words of why a number is missing, which stand in unknowns.ts. */
function sayWhy(why: HotDayReasonSayings["cannot-from"]["why"], hand: Hand): string {
  // One code picks the phrase that takes exactly this saying's values; TypeScript cannot follow that.
  const phrase = unknowns[why.code] as (values: typeof why, hand: Hand) => string;
  return phrase(why, hand);
}

const advice: { readonly [A in HotDayAdviceCode]: { readonly title: string; readonly text: string } } = {
  "cool-down-on-mains": {
    title: "Cool down on mains before leaving",
    text: "Run the fridge on mains from the evening before, empty or with cold goods: the trip then starts settled, and every hour off costs less.",
  },
  "load-cold": {
    title: "Load only what is cold already",
    text: "Warm goods take hours to cool in such a fridge. Put in what comes cold from a household fridge, leave room for the air, open the door seldom.",
  },
  "gas-on-the-road": {
    title: "Plan where gas has to be off",
    text: "Write those hours as off (or on 12\u00a0V) in the forecast, as here, to see what they cost. Fuel stations, ferries and garages count.",
  },
  "gas-while-driving": {
    title: "This trip drives on gas: find out whether it may",
    text: "Law and the fitted safety devices decide that, not this plan. Plan 12\u00a0V or off for the hours of driving if in doubt.",
  },
  "gas-at-night": {
    title: "This trip runs on gas at night: plan electricity instead",
    text: "Choose a site with mains for the night, or see what the hours cost when they are off.",
  },
  "dc12-on-charge": {
    title: "12\u00a0V only while something charges",
    text: "Plan 12\u00a0V for hours of driving on a charging supply; it holds what is cold rather than pulls down (common practice, no source).",
  },
  "shade-the-wall": {
    title: "Keep the sun off the fridge's side of the vehicle",
    text: "Park with that wall in the shade, or shade it at a distance that leaves the vents free. Sun on the vents is heat behind the fridge.",
  },
  "fan-at-the-rear": {
    title: "Move air behind the fridge",
    text: "A small 12\u00a0V fan at the upper fins, fitted so that it can neither blow on the flame nor block the flue, gains a few degrees in heat (common practice, unsure).",
  },
  "record-hotter": {
    title: "Record one run on a hotter day",
    text: "One attended run near that ambient turns what is carried on here into what was seen.",
  },
  "record-empty": {
    title: "Record it once more with the fridge empty",
    text: "Goods put in warm hide how deep the cabinet would settle. Six hours empty, with the load written on the run sheet, tell; so does a run with the same goods that goes on for two days.",
  },
  "record-the-source": {
    title: "Record the source that no run tells of",
    text: "Six hours from a boiler that was off, with the probes in, let the next prediction say how deep and how fast it cools.",
  },
};

/** Where a cabinet is against 8 °C; the sign stands for it in strips and tables. */
const marks = {
  below: { sign: "·", name: (hand: Hand) => `at ${hand.degrees(8)} or below` },
  across: { sign: "?", name: (hand: Hand) => `may be on either side of ${hand.degrees(8)}` },
  above: { sign: "▲", name: (hand: Hand) => `above ${hand.degrees(8)}` },
  unknown: { sign: "×", name: (_hand: Hand) => "cannot say" },
} as const;

const sourceLetters: { readonly [S in EnergySource]: string } = { gas: "G", mains: "M", dc12: "V", off: "–" };

export const hotDay = {
  reasons,
  advice,
  marks,
  sourceLetters,
  title: (logs: string) => `Coldfall on hot days: ${logs}`,
  /** The answer: whether it holds 8 °C, and where it settles. */
  settles: (ambient: number, isOfTrip: boolean, answers: readonly Settling[], hand: Hand) => {
    const at = ({ settled, source, isHeld }: Settling) =>
      `at ${hand.brief(settled)} ${onSource(source)}${isHeld ? ", as its dial stood" : ""}`;
    const [outside, limit] = [
      `at ${hand.degrees(ambient)} outside${isOfTrip ? ", the trip's warmest," : ""}`,
      hand.degrees(8),
    ];
    const [{ side }] = answers;
    if (answers.some((one) => one.side !== side)) {
      const words = { below: "yes", across: "open", above: "no" } as const;
      const each = answers.map((one) => `${words[one.side]}, ${at(one)}`);
      return `Whether this fridge holds ${limit} ${outside} depends on the source: ${each.join("; ")}.`;
    }
    const lead = {
      below: `${capital(outside)} this fridge holds ${limit}`,
      across: `Whether this fridge holds ${limit} ${outside} is open`,
      above: `${capital(outside)} this fridge does not hold ${limit}`,
    }[side];
    return `${lead}: it settles ${answers.map(at).join("; ")}.`;
  },
  /** What the answer does not see, to stand right under it. */
  cannotSee: (topShelf: Estimate, isBeyond: boolean, hand: Hand) =>
    `That is the air in mid-cabinet with the door kept shut; top shelf and door are ${hand.brief(topShelf)} warmer (common practice, no source).${
      isBeyond ? " Part of it lies beyond what the runs saw and is carried on from them." : ""
    }`,
  cannot: (ambient: number, source: HeatSource | null, why: string, hand: Hand) =>
    `How it would do at ${hand.degrees(ambient)} outside ${onSource(source)} cannot be said. ${why}`,
  tripAbove: (above: Estimate, hand: Hand) =>
    above.high !== null && above.high < 0.05
      ? `On this trip the cabinet stays at ${hand.degrees(8)} or below throughout.`
      : `On this trip the cabinet is above ${hand.degrees(8)} for ${hand.brief(above)}.`,
  tripWarmest: (e: Estimate, unixMs: number, hand: Hand) =>
    `It is warmest on ${hand.moment(unixMs)} with ${hand.brief(e)}.`,
  tripCannot: (unixMs: number, source: EnergySource, hand: Hand) =>
    `What the trip does from ${hand.moment(unixMs)} on cannot be said: it goes on ${onSource(source)}, of which these logs hold no usable run.`,

  /** "all": of the trip, or of the only source there is. */
  factsHeading: (source: HeatSource | null | "all", isNewest: boolean) =>
    source === "all" ? "In numbers" : `In numbers, ${onSource(source)}${isNewest ? " (the newest run)" : ""}`,
  facts: (hand: Hand) => ({
    settled: "settled",
    belowAmbient: "below ambient",
    warmestAmbientFor8: `holds ${hand.degrees(8)} up to`,
    hoursUntil8: `from warm to ${hand.degrees(8)}`,
    tripUntil8: { falling: `down to ${hand.degrees(8)}`, rising: `up to ${hand.degrees(8)}` },
    hoursAbove5: `above ${hand.degrees(5)}`,
    hoursAbove8: `above ${hand.degrees(8)}`,
    topShelf: "top shelf, door",
  }),
  upTo: (e: Estimate, hand: Hand) => `${hand.value(e)} ambient (${hand.interval(e)})`,
  fromWarm: (e: Estimate, source: HeatSource | null, hand: Hand) =>
    `${hand.brief(e)} after ${source === "gas" ? "lighting" : "switching on"}, everything as warm as the ambient`,
  fromWarmLoaded: (e: Estimate, source: HeatSource | null, hand: Hand) =>
    `${hand.brief(e)} after ${source === "gas" ? "lighting" : "switching on"}, the fridge as warm as the ambient, with the goods`,
  afterStart: (e: Estimate, hand: Hand) => `${hand.brief(e)} after the start`,
  ofTrip: (e: Estimate, hand: Hand) => `${hand.brief(e)} of the trip`,
  topShelfText: (e: Estimate, hand: Hand) =>
    `${hand.brief(e)} warmer than these figures, which are for the probe's place in mid-cabinet air (common practice, no source)`,

  sourcesHeading: "The other sources at this ambient",
  otherSource: (source: HeatSource | null, e: Estimate, hand: Hand) =>
    `${capital(onSource(source))} it would settle at ${hand.brief(e)}.`,
  otherCannot: (source: HeatSource | null, why: string) => `${capital(onSource(source))}: ${why}`,
  restsHeading: "What this rests on",
  tripHeading: "The trip, hour by hour",
  classesHeading: (source: HeatSource | null) => `Climate classes to compare with, ${onSource(source)}`,
  classesNote:
    "Ambient ranges of household refrigerators (IEC 62552-1:2015, before it ISO 15502; read in secondary pages). Mobile appliances lie outside " +
    "Regulation (EU) 2019/2019 (Article 1): compare, do not claim.",
  classLine: (
    name: string,
    coolest: number,
    warmest: number,
    e: Estimate,
    holds: "yes" | "no" | "undecided",
    hand: Hand,
  ) =>
    `${name}, ${hand.range(hand.figure(coolest, "Cel", 0), celsius(warmest, hand))}: at ${celsius(warmest, hand)} outside it settles at ${hand.brief(e)}; ${
      {
        yes: `${hand.degrees(8)} would be held`,
        no: `${hand.degrees(8)} would not be held`,
        undecided: `it may be on either side of ${hand.degrees(8)}`,
      }[holds]
    }.`,
  limitsHeading: "Food: limits to compare with",
  deferLimits: "Which limit holds where you are, local rules decide.",
  adviceHeading: "What helps",

  strip: {
    hour: "hour",
    on: "on",
    outside: "outside",
    cabinet: "cabinet",
    against8: (hand: Hand) => `${hand.degrees(8)}?`,
    sun: "sun",
    driving: "driving",
    sunSign: "☼",
    drivingSign: "»",
    beyondSign: "~",
    keySources: (letters: readonly string[]) => `On: ${letters.join(", ")}.`,
    letter: (letter: string, source: EnergySource) => `${letter} ${source === "off" ? "off" : bareSource(source)}`,
    keyMarks: (entries: readonly string[], hand: Hand) => `Against ${hand.degrees(8)}: ${entries.join(", ")}.`,
    keyBeyond: "~ hotter or cooler outside than the runs saw, so carried on from there.",
    keySun: "☼ sun on the vents or wall.",
    keyDriving: "» driving.",
    keyUnits: (hand: Hand) => `Figures in ${hand.unit("Cel")}.`,
  },
  table: {
    caption: (hand: Hand) => `The trip hour by hour; temperatures in ${hand.unit("Cel")}`,
    summary: "Every hour of the trip as a table",
    time: "time",
    on: "energy",
    outside: "outside",
    conditions: "sun, driving",
    cabinet: "cabinet",
    band: "95\u00a0% band",
    mark: (hand: Hand) => `against ${hand.degrees(8)}`,
    beyond: "beyond the runs",
    yes: "yes",
    no: "no",
  },
  depths: {
    title: (source: HeatSource | null) => `How far below ambient, against ambient, ${onSource(source)}`,
    y: (hand: Hand) => `below ambient, ${hand.unit("K")}`,
    x: (hand: Hand) => `ambient, ${hand.unit("Cel")}`,
    lines: { points: "runs", law: "predicted", beyond: "carried on" },
    caption: (hand: Hand) =>
      "Points are the runs, with their errors as uprights; solid what is predicted between them, dashed where it is carried on beyond them; shaded the " +
      `95\u00a0% band of one more run. On or above the dash-dotted line the cabinet is at ${hand.degrees(8)} or below.`,
    holds8: (hand: Hand) => hand.degrees(8),
    asked: "asked",
    description: (points: string, at: string) => `${points}. ${at}`,
    point: (ambient: number, depth: number, hand: Hand) => `${kelvin(depth, hand, 1)} at ${celsius(ambient, hand, 1)}`,
    runs: (list: string) => `Runs: ${list}`,
    predicted: (ambient: number, e: Estimate, hand: Hand) => `Predicted at ${hand.degrees(ambient)}: ${hand.brief(e)}.`,
    tableCaption: (hand: Hand) => `Below ambient in ${hand.unit("K")}; under full cooling`,
    tableSummary: "The runs and the prediction as a table",
    columns: (hand: Hand) => ({
      log: "log",
      ambient: `ambient, ${hand.unit("Cel")}`,
      depth: `below ambient, ${hand.unit("K")}`,
      band: "95\u00a0% band",
      from: "from",
    }),
    from: {
      fit: "fitted curve",
      settled: "seen settled",
      duty: "thermostat's share",
      predicted: "predicted",
      "carried-on": "carried on",
    },
    ownError: (error: string) => `±\u00a0${error}`,
  },
  trip: {
    title: "Cabinet temperature through the trip",
    lines: { cabinet: "cabinet", ambient: "outside" },
    hoursTitle: "hours after the start of the trip",
    caption: (hand: Hand) =>
      `Cabinet as a solid line, its 95\u00a0% band shaded; the air outside dotted; ${hand.degrees(5)} and ${hand.degrees(8)} as dashed lines. Below, for each span: an empty box where the ` +
      `cabinet is at ${hand.degrees(8)} or below, a half-filled one where it may be on either side, a full one above, a cross where nothing can be said; a wave under the ` +
      `hours that lie beyond what the runs saw; and the cabinet in ${hand.unit("Cel")}.`,
    goes: (from: string, warmest: string, when: string, coldest: string) =>
      `The cabinet starts at ${from}, is warmest with ${warmest} on ${when}, and coldest with ${coldest}.`,
    nothing: "Nothing can be said of this trip.",
    beyond: "beyond the runs",
  },
  roles: { log: "Log", sheet: "Run sheet", forecast: "Forecast" },
};
