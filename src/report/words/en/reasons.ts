// English: the evidence behind a verdict. Each a full sentence, with its numbers.

import { isElectric, type Phrases } from "../../../schema/index.ts";
import type { ReasonSayings, UnknownSaying } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { conditionNames, conditionPair } from "./conditions.ts";
import { bareSource, list, onSource, startingOf } from "./names.ts";
import { unknowns } from "./unknowns.ts";

/** Wherever a sentence has the fridge run again, it says how. */
const safeHabit = "nights on electricity only, gas attended";

const limit = (margin: number, hand: Hand) => hand.percent(1 - margin);
const runs = (count: number, hand: Hand) => hand.count(count, { one: "known-good run", other: "known-good runs" });
const celsius = (value: number, hand: Hand) => hand.quantity(value, "Cel", 1);
const kelvin = (value: number, hand: Hand) => hand.quantity(value, "K", 1);

/** @param below K below ambient, negative above it */
const besideAmbient = (below: number, hand: Hand) =>
  `${kelvin(Math.abs(below), hand)} ${below < 0 ? "above" : "below"} ambient`;

/** "raises" or "lowers ... by 4 %" for a factor near 1. */
const byFactor = (factor: number, hand: Hand) =>
  factor >= 1 ? `raises it by ${hand.percent(factor - 1)}` : `lowers it by ${hand.percent(1 - factor)}`;

/** What a condition that differs leaves open of the witnesses; the widths are those of sheet-conditions.ts. */
function whatItLeaves(
  { effect, slopeShare, finShare }: Pick<ReasonSayings["condition-differs"], "effect" | "slopeShare" | "finShare">,
  hand: Hand,
): string {
  const source = "from simulated fridges, no published source";
  if (effect === "fins-silent")
    return `That alters the fin difference itself, so only the initial fall speaks, with ±${hand.percent(slopeShare)} open (${source}).`;
  if (effect === "slope-silent")
    return `That alters what has to be cooled, so only the fins speak, with ±${hand.percent(finShare)} open (${source}).`;
  return `That leaves ±${hand.percent(slopeShare)} of the initial fall and ±${hand.percent(finShare)} of the fin difference open, and the interval is so much wider (${source}).`;
}

export const reasons: Phrases<ReasonSayings, Hand> = {
  "strength-sound": ({ estimate, margin }, hand) =>
    `Cooling strength ${hand.value(estimate)} of known-good (${hand.interval(estimate)}): the whole interval lies above the ${limit(margin, hand)} that still count as good.`,
  "strength-weak": ({ estimate, margin }, hand) =>
    `Cooling strength ${hand.value(estimate)} of known-good (${hand.interval(estimate)}): the whole interval lies below the ${limit(margin, hand)} that still count as good.`,
  "strength-undecided": ({ estimate, margin }, hand) =>
    `Cooling strength ${hand.value(estimate)} of known-good (${hand.interval(estimate)}): the interval reaches across ${limit(margin, hand)}, the least that counts as good, so good and weak are both possible.`,
  "strength-unbelievable": ({ estimate }, hand) =>
    `Cooling strength ${hand.value(estimate)} of known-good (${hand.interval(estimate)}): no source cools so much better than when it was known to be good. The probes may be exchanged or moved since, or the known-good runs of another fridge or of a poor night.`,
  "stopped-for-good": ({ estimate, unixMs }, hand) =>
    `It cooled with ${hand.value(estimate)} of its known-good strength (${hand.interval(estimate)}) until ${hand.moment(unixMs)}; then it stopped and did not come back. Until it is known why, it is not called good.`,
  "compared-with-source": ({ other }) =>
    `There is no known-good run on this source, so it is held against ${bareSource(other)}, each by the heat that it gets. What all sources share (level, cooling unit, ventilation) cannot be seen that way.`,
  "witnesses-apart-among-sources": ({ other, finRatio, slopeRatio }, hand) =>
    `By the fins it cools with ${hand.percent(finRatio)} of ${bareSource(other)}, by the initial fall with ${hand.percent(slopeRatio)}: a probe that moved between them, frost or warm goods make the one or the other wrong, so the interval takes in both.`,
  "weak-among-sources": ({ estimate, margin }, hand) =>
    `It cools with ${hand.value(estimate)} of the strength that the strongest other source leads one to expect (${hand.interval(estimate)}): the whole interval lies below the ${limit(margin, hand)} that still count as good.`,
  "low-among-sources": ({ estimate, margin }, hand) =>
    `It cools with ${hand.value(estimate)} of the strength that the strongest other source leads one to expect (${hand.interval(estimate)}): less than its heat explains, but whether by more than the allowed ${hand.percent(margin)} is open.`,
  "not-weak-among-sources": ({ estimate }, hand) =>
    `It cools with ${hand.value(estimate)} of the strength that the strongest other source leads one to expect (${hand.interval(estimate)}). That does not make it weak, nor prove that it is good: a known-good run would.`,
  "another-night-decides": () => `Another run on this source would narrow the interval; ${safeHabit}.`,
  "wait-until": ({ unixMs, hours }, hand) =>
    `No verdict before ${hand.moment(unixMs)}, which is ${hand.span(hours)} into the stretch; ${safeHabit}.`,
  "cannot-tell": ({ why }, hand) => {
    // The same dispatch as `say`, which stands above this folder.
    const phrase = unknowns[why.code] as (values: UnknownSaying, hand: Hand) => string;
    return `No cooling strength here. ${phrase(why, hand)}`;
  },
  "no-baseline": ({ source }) =>
    `There is no known-good run ${onSource(source)} to compare with, so there is no cooling strength: one would tell a weak source from a hot day or a full fridge.`,
  "baseline-one-run": (values, hand) =>
    `Only ${runs(values.runs, hand)} to compare with, so the interval is wide; each further one narrows it.`,
  "cold-began": ({ onsetUnixMs, minutes, source }, hand) =>
    `Cold began ${hand.clock(onsetUnixMs)}, ${hand.span(minutes / 60)} after ${startingOf(source)}.`,
  "onset-later": ({ shift }, hand) =>
    `Cold began ${hand.value(shift)} later than in the known-good runs (${hand.interval(shift)}), as it does when the boiler gets too little heat.`,
  "onset-earlier": ({ shift }, hand) =>
    `Cold began sooner than in the known-good runs (difference ${hand.brief(shift)}), as it does in warmer air.`,
  "onset-as-usual": ({ shift }, hand) =>
    `Cold began when it does in the known-good runs (difference ${hand.brief(shift)}).`,
  "no-cold-yet": ({ hours }, hand) =>
    `No cold yet after ${hand.span(hours)}. There are slow starters: only after 4\u00a0h does this mean that it does not cool.`,
  "not-cooling": ({ finDifference, hours }, hand) =>
    `After ${hand.span(hours)} the fins are ${kelvin(finDifference, hand)} colder than the cabinet air, and the cabinet is no colder than its surroundings explain: it does not cool.`,
  "fins-tell": ({ finDifference, baseline, ratio }, hand) =>
    `Late in the stretch the fins are ${hand.value(finDifference)} colder than the cabinet air (${hand.interval(finDifference)}); in the known-good runs ${hand.brief(baseline)}. That is ${hand.brief(ratio)} of known-good.`,
  "slope-tells": ({ slope, baseline, ratio }, hand) =>
    `Starting at ambient the cabinet would fall ${hand.value(slope)} (${hand.interval(slope)}); in the known-good runs ${hand.brief(baseline)}. That is ${hand.brief(ratio)} of known-good.`,
  "fins-alone": () => "The strength rests on the fin difference alone; cooling goes as its power of 1.36.",
  "slope-alone": () => "The strength rests on the initial fall alone.",
  "cabinet-probe-slow": ({ kelvin: lag, side }, hand) =>
    `With the fridge off the fins read ${kelvin(lag, hand)} farther above the cabinet probe ${side === "here" ? "than in the known-good runs" : "in the known-good runs than here"}, and nothing heats them: that probe answers late, as in a bottle or among goods. The fins look colder and the fall slower for it, and the interval is open to the side that this hides.`,
  "load-unseen": ({ share }, hand) =>
    `Without fins to compare, goods put in warm look like a weaker source, so the interval reaches ${hand.percent(share)} farther up. An evaporator probe, or two hours of warming back, would rule that out.`,
  "fall-bent": ({ share }, hand) =>
    `The fall starts steeper than in the known-good runs and slows down sooner, as with goods put in cold or a leak: the start may not be the source's doing, so the interval reaches ${hand.percent(share)} farther down. An evaporator probe would tell.`,
  "began-cold": ({ kelvin: colder, side }, hand) =>
    `As its first heating began, the cabinet stood ${kelvin(colder, hand)} farther below ambient ${side === "here" ? "than in the known-good runs" : "in the known-good runs than here"}, as with goods put in cold. The air then falls faster than the source makes it, and the interval is open to the side that this hides.`,
  "load-unseen-before": ({ share }, hand) =>
    `Goods that were put in warm before would look like a weaker source then, so the interval reaches ${hand.percent(share)} farther down.`,
  "rate-constants": ({ rate, baseline, hours }, hand) =>
    `Rate constant ${hand.brief(rate)}, known-good ${hand.brief(baseline)}, both over ${hand.span(hours)} from the start of cold.`,
  "rate-constant-alone-misleads": () =>
    "Rate constants alone mislead: a burner starved of gas lowers this one by only about a tenth.",
  "rate-constant-raised": () =>
    "A rate constant that rose says nothing of the heat: a leaking door seal and warm goods raise it, the cabinet settling sooner and warmer.",
  "room-shares": ({ ventShare }, hand) =>
    `The ambient is taken as ${hand.percent(ventShare)} of the air at the lower vent and ${hand.percent(1 - ventShare)} of the room, as the box feels them (common practice, no source).`,
  "witnesses-agree": ({ finRatio, slopeRatio }, hand) =>
    `The two witnesses of cooling agree, conditions allowed for: ${hand.percent(finRatio)} of known-good by the fins (cooling goes as their difference to the power of 1.36), ${hand.percent(slopeRatio)} by the initial fall.`,
  "witnesses-disagree": ({ finRatio, slopeRatio }, hand) =>
    `The two witnesses of cooling disagree, conditions allowed for: ${hand.percent(finRatio)} of known-good by the fins (cooling goes as their difference to the power of 1.36), ${hand.percent(slopeRatio)} by the initial fall.`,
  "explained-by-seal": ({ ratio }, hand) =>
    `The cabinet warms back at ${hand.value(ratio)} of the usual rate (${hand.interval(ratio)}): cold leaks out, as through a door seal.`,
  "explained-by-load": ({ ratio }, hand) =>
    `The cabinet warms back at ${hand.value(ratio)} of the usual rate (${hand.interval(ratio)}): more had to be cooled than in the known-good runs, as with a warm load.`,
  "explained-by-lamp": ({ kelvin: lift }, hand) =>
    `When off, the cabinet would settle ${kelvin(lift, hand)} above ambient: something inside gives off heat, as a lamp that stays on does. That slows the fall and not the fins, so the fins speak.`,
  "seal-suspected": ({ ratio }, hand) =>
    `When off, the cabinet warms back at ${hand.value(ratio)} of the usual rate (${hand.interval(ratio)}): look at the door seal too.`,
  "load-suspected": ({ ratio }, hand) =>
    `When off, the cabinet warms back at ${hand.value(ratio)} of the usual rate (${hand.interval(ratio)}): more was inside than in the known-good runs.`,
  "load-not-ruled-out": () =>
    "Only the initial fall is low while the fins cool as usual: goods put in warm would look like that, so the interval reaches from the one witness to the other.",
  "frost-or-moved-probe": () =>
    "Frost on the fins, or an evaporator probe that sits elsewhere than in the known-good runs, would explain that, and then the fall is right; so would a cabinet probe too close to the fins, sun or warm air on the ambient probe, goods put in cold, or warm goods in the known-good runs, and then the fins are. The interval reaches from the one witness to the other.",
  "two-modes": () =>
    "One exponential leaves structure in what the fit misses, contents being slower than air; the numbers serve for comparison with known-good stretches of equal length, not as properties of the fridge.",
  "supply-low": ({ volts, ratedVolts }, hand) =>
    `The supply gave ${hand.quantity(volts, "V", 1)} where ${hand.quantity(ratedVolts, "V", 1)} are rated: ${hand.percent((volts / ratedVolts) ** 2)} of the heat.`,
  "supply-referred": ({ volts, baselineVolts, factor }, hand) =>
    `Supply ${hand.quantity(volts, "V", 1)}, in the known-good runs ${hand.quantity(baselineVolts, "V", 1)}: allowing for that ${byFactor(factor, hand)}.`,
  "ambient-referred": ({ ambient, baselineAmbient, factor }, hand) =>
    `Ambient ${celsius(ambient, hand)}, in the known-good runs ${celsius(baselineAmbient, hand)}: allowing for that ${byFactor(factor, hand)}.`,
  "start-referred": ({ belowAmbient, baselineBelowAmbient, factor }, hand) =>
    `It started ${besideAmbient(belowAmbient, hand)}, the known-good runs ${besideAmbient(baselineBelowAmbient, hand)}: allowing for that ${byFactor(factor, hand)}.`,
  "offset-from-settled": ({ kelvin: offset }, hand) =>
    `The probes' own difference, ${hand.quantity(offset, "K", 2)} in a settled part, is taken off the fin difference.`,
  "offset-unknown": ({ tolerance }, hand) =>
    `No settled part shows the probes' own difference; it is taken as 0 ± ${kelvin(tolerance, hand)}.`,
  // Told of gas, and of a source nobody named, never without what not to do.
  "flame-out": ({ unixMs, minutes, source }, hand) => {
    const when = `at ${hand.clock(unixMs)}, for ${hand.span(minutes / 60)}`;
    if (isElectric(source)) {
      return `Its heat seems to have been lost ${when}; the verdict speaks of the part before.`;
    }
    const what =
      source === "gas" ? "The flame seems to have gone out" : "The flame, or the supply, seems to have gone out";
    return `${what} ${when}; the verdict speaks of the part while it burned. Do not relight from here and do not hurry in; if you smell gas: touch no switches, bring no flame, keep out.`;
  },
  "thermostat-held": ({ source, duty }, hand) =>
    `The thermostat${source === "gas" ? ", or a flame that went out and was lit again," : ""} held it back, heating ${hand.percent(duty)} of the time; what comes after it began to cycle is left out.`,
  "at-least": () => "The thermostat held it back, so it can do at least this, perhaps more.",
  "starts-settled": ({ warms }) =>
    warms
      ? "The cabinet warmed from where it started, so this stretch tells the fin difference, and no rate constant."
      : "It started already so cold that too little of a fall was left to fit: it tells how far below ambient and the fin difference, no rate constant.",
  "switch-tells": ({ from, to, finsBefore, finsAfter, ratio }, hand) =>
    `Switched over while cold: right before, ${onSource(from)}, the fins were ${kelvin(finsBefore, hand)} colder than the air, and once settled ${onSource(to)} ${kelvin(finsAfter, hand)}. Same night, same frost, same probes: ${bareSource(to)} cools with ${hand.value(ratio)} of what ${bareSource(from)} does (${hand.interval(ratio)}).`,
  "switch-drift": ({ drift, from }) =>
    drift === "removed"
      ? `The stretch ${onSource(from)} that followed takes out what frost, room and probes drifted meanwhile.`
      : `What frost, room and probes drift meanwhile is allowed for in the interval; a stretch ${onSource(from)} once more, directly after, would take it out.`,
  "switch-cannot-see": ({ from }) =>
    `What both sources share (level, cooling unit, ventilation) is on both sides of that comparison and cannot be seen in it; nor whether ${bareSource(from)} itself is as it should be.`,
  "switch-cannot-tell": ({ from, why }, hand) => {
    const phrase = unknowns[why.code] as (values: UnknownSaying, hand: Hand) => string;
    return `The switch from ${bareSource(from)} does not tell how the two compare. ${phrase(why, hand)}`;
  },
  "strength-over-switch": ({ from, to, runs: count }, hand) =>
    `The strength comes over the switch: the fall ${onSource(from)} before it, times that ratio, is held against ${runs(count, hand)} ${onSource(to)}. So what both sources share counts here too.`,
  "source-was-found": () => "Start and end of this stretch were found from the curves; nobody told them.",
  "whichever-source": () =>
    "Nobody said which energy source this was; the known-good runs of every source lead to the same verdict, and the strength is that which bears it out least.",
  "source-unknown": () => "Nobody said which energy source this was, and no verdict is the same whichever it was.",
  "stretches-combined": ({ stretches }, hand) =>
    `${hand.count(stretches, { one: "stretch", other: "stretches" })} on this source, taken together.`,
  "stretches-disagree": () =>
    "The stretches on this source disagree by more than their intervals allow; something changed between them.",
  "cool-ambient": ({ ambient }, hand) =>
    `Ambient was only ${celsius(ambient, hand)}: poor ventilation, which shows in heat, may stay unseen.`,
  "offered-as-baseline": () => "This run can be kept as a known-good run of this fridge for next year.",
  "cut-to-equal-length": (values, hand) =>
    `Compared with ${runs(values.runs, hand)}, all cut to the same ${hand.span(values.hours)} from the start of cold.`,
  "late-fins-compared": (values, hand) =>
    `Compared with ${runs(values.runs, hand)} by the fins late in each; without a fall to fit there is no start of cold to cut from.`,
  "condition-one-sided": ({ condition, share }, hand) =>
    `${capital(conditionNames[condition])} is stated for one side only; that leaves ±${hand.percent(share)} open, and the interval is so much wider.`,
  "supply-untold": ({ source, share }, hand) =>
    `Nobody told the volts ${onSource(source)}, and supplies differ from night to night: that alone leaves ±${hand.percent(share)} open. A supply column in the logs, or volts on the run sheets, would take it away.`,
  "condition-differs": (differing, hand) => `${conditionPair(differing)}. ${whatItLeaves(differing, hand)}`,
  "gas-referred": ({ heat, factor, share }, hand) =>
    `Gas kind, pressure and altitude give the burner ${hand.percent(heat)} of the heat of the known-good runs: allowing for that ${byFactor(factor, hand)} and leaves ±${hand.percent(share)} open.`,
  "conditions-taken-equal": ({ conditions }) =>
    `Stated on neither side, and taken as equal: ${list(conditions.map((condition) => conditionNames[condition]))}.`,
  "settled-from": ({ stretches, belowAmbient, ambient }, hand) =>
    `Seen settled ${kelvin(belowAmbient, hand)} below an ambient of ${celsius(ambient, hand)}, in ${hand.count(stretches, { one: "stretch", other: "stretches" })}.`,
  "settled-projected": ({ belowAmbient, ambient }, hand) =>
    `Not seen settled; the fitted curve would end ${kelvin(belowAmbient, hand)} below an ambient of ${celsius(ambient, hand)}.`,
  "slope-default": ({ kelvinPerKelvin, standardError }, hand) =>
    `For hotter days the depth is taken to change by ${hand.number(kelvinPerKelvin, 2)} ± ${hand.number(standardError, 2)}\u00a0${hand.unit("K")} per ${hand.unit("K")} of ambient, a stated default until this fridge's own runs tell.`,
  "usual-depth": ({ belowAmbient, ambient, low, good, side }, hand) => {
    const where = {
      above: "is as deep as a fridge in order gets or deeper",
      below: "is less than a fridge in order reaches",
      across: "lies about where fridges in order begin",
    }[side];
    return `No known-good run stands behind this, only what is usual: ${kelvin(belowAmbient, hand)} below ${celsius(ambient, hand)} ${where}, ${hand.range(hand.figure(low, "K", 0), hand.quantity(25, "K", 0))} at the least and ${hand.range(hand.figure(good, "K", 0), hand.quantity(30, "K", 0))} for a good one (common practice, no source).`;
  },
  "usual-depth-cannot-see": () =>
    "That cannot tell weak cooling from a leaking seal, a load or hot vents, and a fridge that has lost a fifth of its cooling can still lie within the usual range.",
  extrapolated: ({ fromAmbient, toAmbient }, hand) =>
    `The runs were made at ${celsius(fromAmbient, hand)}; ${hand.quantity(toAmbient, "Cel", 0)} lies beyond what they saw.`,
};
