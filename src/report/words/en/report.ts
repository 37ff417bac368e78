// English: headings, labels and the report's own sentences; what the science says is in the files beside.

import type { BaselineKind } from "../../../schema/documents/index.ts";
import type { HeatSource } from "../../../schema/index.ts";
import type { Estimate } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital, lowered } from "../phrasing.ts";
import { list, onSource, startingOf } from "./names.ts";

/** The four numbers of a pull-down: name, what it says of this stretch, what it does and does not show. */
const pullDownNumbers = {
  rateConstant: {
    name: "rate constant",
    phrase: (e: Estimate, hand: Hand) => `halves the remaining gap every ${hand.number(Math.LN2 / e.value, 1)}\u00a0h`,
    shows: "how fast the cabinet closes on the temperature it would settle at.",
    hides:
      "how strong the cooling is: a starved burner lowers it by only about a tenth, a leaking seal or a warm load raises it.",
  },
  depth: {
    name: "depth",
    phrase: (e: Estimate, hand: Hand) => `would end ${hand.value(e)} below ambient`,
    shows: "how far below ambient it would end if nothing changed.",
    hides: "why: weak cooling, a leaking seal and a warm load all make it smaller.",
  },
  initialSlope: {
    name: "initial fall",
    phrase: (e: Estimate, hand: Hand) => `would fall ${hand.value(e)} starting at ambient`,
    shows: "cooling power over all that has to be cooled; with the fin difference it makes the cooling strength.",
    hides: "a warm load or an opened door, which lower it without any fault.",
  },
  deadTime: {
    name: "dead time",
    phrase: (e: Estimate, hand: Hand) => `cold began ${hand.value(e)} after the start`,
    shows: "how long the boiler needs from cold; longer where it gets too little heat.",
    hides: "how well it cools afterwards.",
  },
} as const;

/** What a strength is a share of. */
const yardsticks: { readonly [K in BaselineKind]: string } = {
  own: "known-good",
  kind: "known-good of its kind",
  "other-sources": "what the strongest other source leads one to expect",
  generic: "the usual",
  none: "nothing known",
};

export const report = {
  reportOn: (logs: string) => `Coldfall on ${logs}`,
  pageTitle: "Coldfall: how these fridges cool",
  when: (period: string, offset: string) => `${period} (${offset})`,
  list,

  headline: (source: HeatSource | null) => capital(onSource(source)),
  strength: (e: Estimate, baseline: BaselineKind, hand: Hand) =>
    `cooling strength ${hand.value(e)} of ${yardsticks[baseline]} (${hand.interval(e)})`,
  untilItStopped: (strength: string) => `${strength} until it stopped and did not come back`,
  thisNight: (e: Estimate, baseline: BaselineKind, hand: Hand) =>
    `This night alone: ${hand.value(e)} of ${yardsticks[baseline]} (${hand.interval(e)}).`,
  noStretch: "The logs hold no stretch in which the fridge was heated, so there is nothing to judge.",
  warningsHeading: "To keep in mind",

  sourceHeading: (source: HeatSource | null, verdict: string) => `${capital(onSource(source))}: ${verdict}`,
  stretchHeading: (on: string, period: string) => `${capital(on)}, ${period}`,
  warmingBack: "off, warming back",
  particulars: (parts: readonly string[]) => `${capital(parts.join("; "))}.`,
  lasting: (length: string) => `${length} long`,
  toldOrFound: { told: "source as told", found: "found from the curves" },
  comparedWith: (baseline: string, runs: string) => `compared with ${runs} (${baseline})`,
  /** @param why a full sentence. */
  notCompared: (why: string) => `not compared: ${lowered(why).replace(/\.$/, "")}`,
  knownGoodRuns: { one: "run", other: "runs" },
  inLog: (log: string) => `log ${log}`,

  /** Opens the table of numbers. */
  numbersSummary: (hasAllowances: boolean) =>
    hasAllowances ? "The numbers of this stretch, and what was allowed for" : "The numbers of this stretch",
  numbersCaption: (hasKnownGood: boolean) =>
    hasKnownGood ? "The fitted pull-down beside known-good" : "The fitted pull-down",
  numberColumn: "number",
  hereColumn: "this stretch",
  knownGoodColumn: "known-good",
  ratioColumn: "compared",
  later: (shift: string, minutes: number) =>
    minutes === 0 ? shift : `${shift} ${minutes < 0 ? "(earlier)" : "later"}`,
  notKnown: "not known",
  pullDownNumbers,
  showsHeading: "What these numbers show, and what not",
  shows: ({ name, shows, hides }: { name: string; shows: string; hides: string }) =>
    `${capital(name)} shows ${shows} It does not show ${hides}`,
  showsShort: (shows: string, hides: string) => `Shows ${shows} Not: ${hides}`,
  fittedTo: (readings: string) =>
    `Fitted to ${readings}; ± is the standard error, the figures under it the 95\u00a0% interval.`,
  equalLength: (hours: number, hand: Hand) => `Known-good cut to the same ${hand.span(hours)} from the start of cold.`,

  sentence: (text: string) => `${capital(text)}.`,
  /** The same for a text that may be a sentence already. */
  sentenceOf: (text: string) => `${capital(text)}${text.endsWith(".") ? "" : "."}`,
  otherStretchesHeading: "Switched off",
  numberMissing: (names: string, why: string) => `${capital(names)}: ${why}`,

  factNames: (hand: Hand) => ({
    to8: `to ${hand.degrees(8)}`,
    to5: `to ${hand.degrees(5)}`,
    to0: `to ${hand.degrees(0)}`,
    fallFirstHour: "first hour",
    shareAbove5: `above ${hand.degrees(5)}`,
    shareAbove8: `above ${hand.degrees(8)}`,
    finDifference: "fins",
    belowAmbient: "settled",
    warmingRate: "warming back",
    duty: "duty",
  }),
  reached: (e: Estimate, source: HeatSource | null, hand: Hand) =>
    `reached ${hand.value(e)} after ${startingOf(source)} (${hand.interval(e)})`,
  projected: (e: Estimate, source: HeatSource | null, hand: Hand) =>
    `would be reached ${hand.value(e)} after ${startingOf(source)} (${hand.interval(e)})`,
  facts: {
    fallFirstHour: (e: Estimate, hand: Hand) => `fell ${hand.brief(e)} in the hour after cold began`,
    shareAbove5: (e: Estimate, hand: Hand) => `${hand.value(e)} of the time`,
    shareAbove8: (e: Estimate, hand: Hand) => `${hand.value(e)} of the time`,
    finDifference: (e: Estimate, hand: Hand) => `${hand.value(e)} colder than the cabinet air (${hand.interval(e)})`,
    belowAmbient: (e: Estimate, hand: Hand) => `${hand.value(e)} below ambient (${hand.interval(e)})`,
    warmingRate: (e: Estimate, hand: Hand) =>
      `${hand.brief(e)}: halves the gap to ambient every ${hand.number(Math.LN2 / e.value, 1)}\u00a0h`,
    duty: (e: Estimate, hand: Hand) => `heated ${hand.brief(e)} of the time while the thermostat cycled`,
  },

  keepsUpHeading: "Does it keep up?",
  settledHere: (source: HeatSource | null, e: Estimate, against: string, hand: Hand) =>
    `${capital(onSource(source))}, as it was run here, the cabinet settles at ${hand.brief(e)}: ${against}.`,
  settledAt32: (source: HeatSource | null, e: Estimate, against: string, hand: Hand) =>
    `${capital(onSource(source))} at ${hand.degrees(32)} ambient it would settle at ${hand.brief(e)}: ${against}.`,
  notSettled: (source: HeatSource | null, why: string, hand: Hand) =>
    `${capital(onSource(source))} the settled temperature is not known, neither as it was run here nor at ${hand.degrees(32)} ambient. ${why}`,
  notSettledHere: (source: HeatSource | null, why: string) =>
    `${capital(onSource(source))}, as it was run here, the settled temperature is not known. ${why}`,
  notSettledAt32: (source: HeatSource | null, why: string, hand: Hand) =>
    `${capital(onSource(source))} at ${hand.degrees(32)} ambient the settled temperature is not known. ${why}`,
  against8: (hand: Hand) => ({
    below: `colder than ${hand.degrees(8)}`,
    above: `warmer than ${hand.degrees(8)}`,
    across: `it may be on either side of ${hand.degrees(8)}`,
  }),
  /** Limits with their source; whether food may be eaten is never said. */
  foodLimits: (hand: Hand) =>
    `Limits to compare with: fresh food ${hand.range(hand.figure(0, "Cel", 0), hand.degrees(8))}, target ${hand.degrees(4)} (Regulation (EU) 2019/2016, Annex IV, Table 3; mobile appliances lie ` +
    `outside it); chilled food at or below ${hand.degrees(8)} (Food Safety and Hygiene (England) Regulations 2013, Schedule 4), fridge set to ` +
    `${hand.degrees(5)} or below (advice of the Food Standards Agency); 40\u00a0°F, which is 4.4\u00a0°C (advice of USDA and FDA for homes).`,

  causesHeading: "Likely causes",
  causesNote: "One cause at a time is assumed; shares are rounded, and causes below half a per cent left out.",
  cause: (name: string, source: HeatSource | null) => (source === null ? name : `${name}, ${onSource(source)}`),
  noCauses: "Nothing can be said of causes yet: nothing was seen so far that points to any.",
  /** In place of "nothing unusual" where cooling stopped while a source said on. */
  nothingElseUnusual: "nothing unusual while it was heated",
  causeColumn: "cause",
  shareColumn: "share",

  checksHeading: "What to check next",
  checkNote: (minutes: string) => `About ${minutes} of work; common practice, no source.`,
  tellsApart: (names: string) => `Tells apart: ${names}.`,
  cautionAbout: (about: string) => `Caution, ${about}:`,
  /** Of cautions that stand in full further up. */
  cautionAgain: (abouts: readonly string[]) => `Caution as above: ${abouts.join("; ")}.`,
  noChecks: "Nothing needs checking.",

  condemningHeading: "Before a cooling unit is condemned",
  condemningNote:
    "The cooling unit is among the causes, and no unit is condemned on one run. All of this must be shown first, and then a licensed fitter decides.",
  proof: (name: string, state: string) => `${name}: ${state}`,

  eventsHeading: "What happened during the run",
  noEvents: "No door opening, gap, cycling or probe fault was seen.",
  eventAt: (period: string, name: string, position: string | null) =>
    position === null ? `${period}, ${name}.` : `${period}, ${name} (${position}).`,
  rejectedHeading: "Readings set aside",
  noRejected: "No reading had to be set aside.",
  rejectedNote: "They stay in the log; only the analysis leaves them out.",
  rejected: (count: string, position: string, log: string, reason: string) =>
    `${count} of ${position} in ${log}: ${reason}.`,
  rejectedWhen: (periods: readonly string[]) => `When: ${periods.join("; ")}.`,
  rejectedWhenMore: (periods: readonly string[], further: number, last: string) =>
    `When: ${periods.join("; ")}; ${further === 1 ? "once more" : `${further} times more`} up to ${last}.`,
  readings: { one: "reading", other: "readings" },

  knownGoodHeading: "What a known-good run would add",
  knownGoodAdds: (sources: string) =>
    `Without a known-good run ${sources} the report holds fits, milestones, events and whether it keeps up, but no cooling strength. ` +
    "One run of this fridge while it is known to be well (nights on electricity only, gas attended) would let the next analysis say good or weak, with an " +
    "interval; three make that interval narrow enough to be useful.",

  footHeading: "Where this comes from",
  times: (offset: string) => `Times are ${offset}, as the log writes them.`,
  intervals: "Figures in brackets are 95\u00a0% intervals; figures after ± are standard errors.",
  margin: (share: string) => `Allowed loss: ${share} of known-good strength.`,
  marks: (moment: string, source: string) => `Noted: ${source} from ${moment}.`,
  method: (version: string, method: string) => `Coldfall ${version}, method ${method}.`,
  limits:
    "Coldfall only reads temperatures. It never switches or lights anything and is no gas, carbon monoxide or fire alarm; local codes " +
    "and licensed gas and electrical people decide.",
  input: (role: string, name: string, sha256: string) => `${role} ${name}, SHA-256 ${sha256}`,
  roles: { log: "Log", "known-good": "Known-good log", baseline: "Baseline", sheet: "Run sheet" },

  chart: {
    temperature: (hand: Hand) => `temperature, ${hand.unit("Cel")}`,
    residual: (hand: Hand) => `readings less fit, ${hand.unit("K")}`,
    hours: (source: HeatSource | null) => `hours after ${startingOf(source)}`,
    hoursOff: "hours after switching off",
    clock: (offset: string) => `time of day, ${offset}`,
    lines: {
      cabinet: "cabinet",
      evaporator: "evaporator",
      ambient: "ambient",
      fitted: "fitted",
      knownGood: "known-good",
      band: "95\u00a0% band",
    },
    coldBegan: "cold began",
    stretchTitle: (heading: string) => `${heading}: temperatures and fitted curve`,
    runTitle: (log: string) => `The whole of ${log}`,
    runCaption:
      "The whole run. Stretches are named along the top and shaded where the fridge was off; letters mark the events listed further down.",
    patterns: {
      cabinet: "cabinet readings as a solid line",
      fitted: "the fitted curve dashed, its 95\u00a0% band shaded",
      evaporator: "evaporator in long dashes",
      ambient: "ambient dotted",
      knownGood: "dash-dotted how far below this ambient known-good runs were, counted from the start of cold",
      rejected: "× a reading set aside, at the edge where it lies beyond the axis",
    },
    caption: (patterns: readonly string[]) => `${capital(patterns.join("; "))}.`,
    missesCaption: "Below: what the fit misses.",
    dataSummary: (rows: string) => `The readings of this drawing as a table (thinned to at most ${rows})`,
    rows: { one: "row", other: "rows" },
    runTableCaption: (hand: Hand) => `Temperatures in ${hand.unit("Cel")}`,
    tableCaption: (hand: Hand) => `Temperatures in ${hand.unit("Cel")}; the last column in ${hand.unit("K")}`,
    columns: {
      hours: "hours",
      clock: "time",
      evaporator: "evaporator",
      cabinet: "cabinet",
      ambient: "ambient",
      fitted: "fitted",
      band: "95\u00a0% band",
      residual: "less fit",
      stretch: "stretch",
    },
    missing: "–",
    goes: (name: string, from: string, to: string, extra: string) => `${capital(name)} from ${from} to ${to}${extra}.`,
    lowest: (value: string, hours: string) => `, coldest ${value} after ${hours}`,
    fitsWithin: (kelvin: string) => `The fit misses the readings by ${kelvin} (root mean square).`,
    noReadings: "No readings.",
  },
};
