// English: what holds for the whole analysis and must be known before it is believed.

import type { Phrases } from "../../../schema/index.ts";
import type { WarningSayings } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { onSource, positionNames } from "./names.ts";

const whyNotUsed: { readonly [W in WarningSayings["known-good-not-used"]["why"]]: string } = {
  "no-stretch": "it holds no stretch that cools",
  cycling: "its thermostat cycled from the start",
  "too-short": "it is too short after cold began",
};

export const warnings: Phrases<WarningSayings, Hand> = {
  "source-column-absent": ({ log }) =>
    `${log} does not say which energy source was on; stretches were found from the curves. Name them by --source-at.`,
  "warms-while-on": ({ log, source }) => `In ${log} the cabinet warms ${onSource(source)}.`,
  "evaporator-warmer": ({ log }) =>
    `In ${log} the evaporator stays warmer than the cabinet air: either nothing cools, or the probes are swapped or misplaced.`,
  "low-ambient": ({ log, ambient }, hand) =>
    `${log} was recorded at ${hand.quantity(ambient, "Cel", 0)} ambient: it can prove cooling, but says nothing about hot days.`,
  "no-ambient-probe": ({ log }) => `${log} has no ambient probe; the fits and the verdict need one.`,
  "known-good-not-used": ({ log, why }) => `The known-good log ${log} was not used: ${whyNotUsed[why]}.`,
  "different-conditions": ({ condition, here, knownGood }) =>
    `Run sheets differ in ${condition}: here ${here}, known-good ${knownGood}.`,
  "many-rejected": ({ log, position, share }, hand) =>
    `${hand.percent(share)} of the ${positionNames[position]} readings in ${log} had to be set aside.`,
};
