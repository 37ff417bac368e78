// English: why a number cannot be given. Each a full sentence.

import type { Phrases } from "../../../schema/index.ts";
import type { UnknownSayings } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { conditionPair } from "./conditions.ts";
import { bareSource, onSource } from "./names.ts";

export const unknowns: Phrases<UnknownSayings, Hand> = {
  "no-cabinet": () => "The log has no cabinet readings here.",
  "no-evaporator": () => "The log has no evaporator readings here.",
  "no-ambient": () => "The log has no ambient readings here, and the fit rests on them.",
  "no-onset": () => "Cold never began in this stretch.",
  "too-early": ({ hoursAfterOnset, neededHours }, hand) =>
    `Only ${hand.span(hoursAfterOnset)} since cold began; this needs ${hand.span(neededHours)}.`,
  "too-short": ({ hours, neededHours }, hand) =>
    `Only ${hand.span(hours)} of usable readings; this needs ${hand.span(neededHours)}.`,
  "too-few-readings": ({ readings, needed }, hand) =>
    `${readings === 0 ? "No usable reading" : `Only ${hand.count(readings, { one: "usable reading", other: "usable readings" })}`}; this needs ${hand.number(needed, 0)}.`,
  "starts-settled": ({ warms }) =>
    warms
      ? "The cabinet warmed from where it started, so there is no fall to fit."
      : "It started already so cold that too little of a fall was left to fit.",
  "switched-while-cold": () =>
    "The fridge was switched over while already cold: there is no start of cold and no fall to fit in such a stretch.",
  "held-back-at-switch": () =>
    "The thermostat, or a lost flame or supply, held the cooling back on one side of the switch, so the fins do not show what that source can do.",
  "fins-warmer-than-air": () =>
    "The evaporator probe reads warmer than the cabinet air it should cool: the two probes may be exchanged, or one is wrong.",
  "time-unreliable": ({ share }, hand) =>
    `${hand.percent(share)} of the rows are not in the order of time, so nothing that rests on time can be believed: put the log right, or sort it, and analyse again.`,
  "warm-boiler": () => "The boiler was still warm at the start, so the time until cold is not comparable.",
  "open-profile": ({ hours }, hand) =>
    `${hand.span(hours)} of the fall do not yet tell how fast it falls from how deep it would go.`,
  "soft-start-possible": ({ hours }, hand) =>
    `In ${hand.span(hours)} a slow build-up of the cooling would look the same and give other numbers.`,
  "not-settled": () => "The cabinet had not settled.",
  "goods-may-have-cooled": ({ belowAmbient, ambient }, hand) =>
    `The cabinet fell as with goods put in warm that were still cooling at the end, ${hand.quantity(belowAmbient, "K", 1)} below ambient (${hand.quantity(ambient, "Cel", 0)}): it had not settled, and goes deeper once they are cold. Run it empty and say so on the run sheet, or go on until the goods are cold, a day or more.`,
  "goods-hide-the-end": ({ celsius }, hand) =>
    `Goods put in warm may still have been cooling, so nothing tells when it would be at ${hand.quantity(celsius, "Cel", 0)}.`,
  "no-cycling": () => "The thermostat did not cycle.",
  "no-known-good": ({ source }) => `There is no known-good run ${onSource(source)} to compare with.`,
  "known-good-unusable": ({ source }) =>
    `The known-good run ${onSource(source)} has no part of equal length and kind to compare with.`,
  "not-reached": ({ celsius, settles }, hand) =>
    `${hand.quantity(celsius, "Cel", 0)} would not be reached: it would settle at ${hand.quantity(settles, "Cel", 1)}.`,
  "fall-ended": () => "The fall ended before that: heat was lost, or the thermostat held it.",
  "already-below": ({ celsius }, hand) =>
    `The cabinet was already below ${hand.quantity(celsius, "Cel", 0)} when the stretch began.`,
  "not-warming-back": () => "Only a stretch that warms back tells this.",
  "frost-melting": (_, hand) => `Frost was melting on the fins, which holds the temperature near ${hand.degrees(0)}.`,
  "ambient-too-low": ({ ambient, needed }, hand) =>
    `Ambient was ${hand.quantity(ambient, "Cel", 0)}; a run below ${hand.quantity(needed, "Cel", 0)} proves cooling, but says nothing about hot days.`,
  "is-off": () => "The fridge was off.",
  "source-unknown": () => "Nobody said which energy source this was.",
  "no-stretch": () => "The log has no such stretch.",
  "source-not-run": ({ source }) =>
    `The fridge did not run ${onSource(source)} in the given logs, so nothing can be said of it.`,
  "holds-at-any": ({ celsius, ambient }, hand) =>
    `${hand.quantity(celsius, "Cel", 0)} would be held even at ${hand.quantity(ambient, "Cel", 0)}, beyond which nothing is predicted.`,
  "holds-at-none": ({ celsius, ambient }, hand) =>
    `${hand.quantity(celsius, "Cel", 0)} would not even be held at ${hand.quantity(ambient, "Cel", 0)} ambient.`,
  "never-crosses": ({ celsius, settles, falling }, hand) =>
    falling
      ? `It does not come down to ${hand.quantity(celsius, "Cel", 0)}; it ends at ${hand.quantity(settles, "Cel", 1)}.`
      : `It stays below ${hand.quantity(celsius, "Cel", 0)}; it ends at ${hand.quantity(settles, "Cel", 1)}.`,
  "no-numbers": () => "The readings do not hold this number.",
  "not-run": ({ source, when }) =>
    `The fridge did not run ${onSource(source)} ${when === "before" ? "in the log before" : "in the log after"}.`,
  "run-before-unusable": ({ source }) =>
    `The log before has no pull-down ${onSource(source)} of two hours after cold began to compare with.`,
  "conditions-differ": (differing) =>
    `${conditionPair(differing)}: no honest width stands for that, so the two are not compared. Repeat the run in the conditions of the known-good ones, nights on electricity only, gas attended.`,
  "nothing-cooled": () => "Where a source does not cool at all, there is no ratio.",
  "no-untouched-source": () =>
    "No run sheet names a source that nobody touched, so there is nothing to hold it against.",
  "is-untouched-source": () => "Nobody touched this source: the others are held against it.",
  "untouched-not-comparable": ({ source }) =>
    `The source that nobody touched, ${bareSource(source)}, gives no ratio to hold this against: both have to run in the same logs, before and after.`,
};
