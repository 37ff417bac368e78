// English: what holds for the whole analysis and must be known before it is believed.

import { isElectric, type Phrases } from "../../../schema/index.ts";
import type { ConditionEffect, WarningSayings } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { conditionNames, conditionValue } from "./conditions.ts";
import { causeNames, onSource, positionNames } from "./names.ts";

const whyNotUsed: { readonly [W in WarningSayings["known-good-not-used"]["why"]]: string } = {
  "no-stretch": "it holds no stretch that cools",
  cycling: "its thermostat cycled from the start",
  "probes-exchanged": "its fins read warmer than the air they cool, so that two probes seem exchanged",
  "too-short": "it is too short after cold began",
};

const values = (stated: readonly string[]) => stated.map(conditionValue).join("; ");

const effects: { readonly [E in ConditionEffect]: string } = {
  wider: "They are compared with a wider interval.",
  "slope-silent": "Only the fins are compared, with a wider interval.",
  "fins-silent": "Only the initial fall is compared, with a wider interval.",
  refused: "Such runs are not compared.",
  referred: "It is allowed for, with a wider interval.",
  told: "It is not allowed for.",
};

export const warnings: Phrases<WarningSayings, Hand> = {
  "source-column-absent": ({ log }) =>
    `${log} does not say which energy source was on; stretches were found from the curves. Name them by --source-at, or of a run in the store by "coldfall source".`,
  "warms-while-on": ({ log, source }) => `In ${log} the cabinet warms ${onSource(source)}.`,
  "evaporator-warmer": ({ log }) =>
    `In ${log} the evaporator stays warmer than the cabinet air: either nothing cools, or the probes are swapped or misplaced.`,
  "low-ambient": ({ log, ambient }, hand) =>
    `${log} was recorded at ${hand.quantity(ambient, "Cel", 0)} ambient: it can prove cooling, but says nothing about hot days.`,
  "mark-outside": ({ atMs, source }, hand) =>
    `No log goes on as long as "${hand.moment(atMs)}, ${onSource(source)}", which was told; check the day, and the zone behind the time.`,
  "no-ambient-probe": ({ log }) => `${log} has no ambient probe; the fits and the verdict need one.`,
  "known-good-not-used": ({ log, why }) => `The known-good log ${log} was not used: ${whyNotUsed[why]}.`,
  "known-good-at-odds": ({ source, stronger, weaker, share }, hand) =>
    `The known-good runs ${onSource(source)} contradict each other: in ${weaker} it cooled ${hand.percent(share)} less than in ${stronger}. One of them was not good, or something else differed. Find out which before judging by them: until then the interval takes in both.`,
  "different-conditions": ({ condition, here, knownGood, effect }) =>
    `Run sheets differ in ${conditionNames[condition].replace(/^the /, "")}: here ${values(here)}, known-good ${values(knownGood)}. ${effects[effect]}`,
  "weaker-in-heat": ({ coolest, hottest }, hand) =>
    `The hotter it is, the weaker it cools: ${hand.percent(coolest.strength)} of known-good at ${hand.quantity(coolest.ambient, "Cel", 0)} ambient, ${hand.percent(hottest.strength)} at ${hand.quantity(hottest.ambient, "Cel", 0)}. That points to poor ventilation, sun on the vents, or a charge near the limit of what it can condense, more than to a heat source.`,
  "lamp-suspected": ({ log, kelvin }, hand) =>
    `In ${log} the cabinet would settle ${hand.quantity(kelvin, "K", 1)} above ambient with the fridge off, more than the probes differ by: something inside gives off heat, as a lamp that stays on does, or the room before its door is warmer than the air at the vent (a probe there, "room", would tell).`,
  "causes-differ": ({ stretches }, hand) =>
    `The stretches point to different causes: ${stretches
      .map(
        ({ log, source, startMs, causes }) =>
          `${onSource(source)} from ${hand.moment(startMs)} (${log}) to ${causes.map((cause) => causeNames[cause]).join(" or ")}`,
      )
      .join("; ")}. The list of causes assumes one at a time; here there may be two, or something changed in between.`,
  // Of gas, and of a source nobody named, never without what not to do.
  "cooling-stopped": ({ log, source, times, startMs, minutes }, hand) => {
    const spell = hand.span(minutes / 60);
    const when =
      times === 1
        ? `for ${spell} from ${hand.moment(startMs)}`
        : `${hand.count(times, { one: "time", other: "times" })}, ${spell} in all, first at ${hand.moment(startMs)}`;
    const stopped = `In ${log} cooling stopped ${onSource(source)} ${when}${source === null ? "" : ", while the log says that it was on"}`;
    if (isElectric(source))
      return `${stopped}: the supply seems to have been lost, or a cut-out to have opened. This is no run to call ordinary.`;
    const what = source === "gas" ? "the flame seems" : "the flame, or the supply, seems";
    return `${stopped}: ${what} to have gone out; do not relight from here and do not hurry in; if you smell gas: touch no switches, bring no flame, keep out.`;
  },
  "many-rejected": ({ log, position, share }, hand) =>
    `${hand.percent(share)} of the ${positionNames[position]} readings in ${log} had to be set aside.`,
};
