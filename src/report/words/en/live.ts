// English: a run while it goes on.

import type { Verdict } from "../../../schema/documents/index.ts";
import type { EnergySource, Phrases } from "../../../schema/index.ts";
import type { LiveGoal, LiveHeadSayings, LiveProofSayings } from "../../../science/live/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { bareSource, onSource, startingOf, verdictNames } from "./names.ts";
import { mayHaveStopped } from "./stopped.ts";

const kelvin = (value: number, hand: Hand) => hand.quantity(value, "K", 1);
const subject = (source: EnergySource | null) => (source === null ? "the unnamed source" : bareSource(source));

/** A verdict on a stretch that is not over. */
const soFar: { readonly [V in Verdict]: string } = {
  sound: `${verdictNames.sound} so far`,
  weak: `${verdictNames.weak} so far`,
  "not-cooling": verdictNames["not-cooling"],
  undecided: "not decided yet",
};

const heads: Phrases<LiveHeadSayings, Hand> = {
  "nothing-yet": () => "No reading has come yet.",
  "too-little-yet": ({ source }) => `Too few readings ${onSource(source)} yet to say anything.`,
  "looks-off": () => "The readings look like those of a fridge that is off; nobody said what it runs on.",
  settling: () => "The fridge is off and settles; the readings show how far the probes differ.",
  "warming-back": ({ sinceMs }, hand) =>
    `The fridge has been off since ${hand.clock(sinceMs)} and warms back; keep the door shut.`,
  "heating-up": ({ source, coldFromMs, coldByMs }, hand) =>
    `Heating up ${onSource(source)}. Nothing can be said yet: cold can be proven between ${hand.clock(coldFromMs)} and ${hand.clock(coldByMs)}.`,
  "probes-exchanged": ({ source }) =>
    `The evaporator probe reads warmer than the cabinet air, which it should cool: the two may be exchanged, or one reads wrong. Until that is put right nothing can be said ${onSource(source)}.`,
  "no-cold-yet": ({ source, hours, deadAtMs }, hand) =>
    `No cold yet ${onSource(source)} after ${hand.span(hours)}. ${
      deadAtMs === null
        ? "That is longer than slow starters take, but the readings do not show for sure that it does not cool."
        : `Slow starters exist: only if there is none by ${hand.clock(deadAtMs)} does it not cool.`
    }`,
  "makes-cold": ({ source, strengthByMs }, hand) => {
    const strong =
      strengthByMs === null
        ? "How strong cannot be said without a known-good run of this source."
        : `How strong: known by ${hand.clock(strengthByMs)}.`;
    const leave =
      source === "gas" || source === null
        ? `${capital(subject(source))} makes cold; stay with it.`
        : `You can go home: ${bareSource(source)} makes cold.`;
    return `${leave} ${strong}`;
  },
  "strength-so-far": ({ source, strength, verdict }, hand) =>
    `${capital(onSource(source))} ${soFar[verdict]}: cooling strength ${hand.brief(strength)} of known-good.`,
  "does-not-cool": ({ source, hours }, hand) =>
    `${capital(subject(source))} does not cool: no cold ${hand.span(hours)} after ${startingOf(source)}.`,
  stopped: ({ source, sinceMs, doubt }, hand) =>
    `Cooling has stopped ${onSource(source)}, about ${hand.clock(sinceMs)}. ${mayHaveStopped(source, doubt)}`,
};

/** Completes "heat proven at 13:52: ..." and the like, without a full stop. */
const proofs: Phrases<LiveProofSayings, Hand> = {
  "heat-by-watts": ({ watts }, hand) => `${hand.quantity(watts, "W", 0)} were read at the fridge`,
  "heat-by-boiler": ({ kelvin: above }, hand) => `the boiler probe is ${hand.quantity(above, "K", 0)} above ambient`,
  "heat-by-flue": ({ kelvin: above }, hand) => `the flue probe is ${hand.quantity(above, "K", 0)} above ambient`,
  "heat-by-cold": () => "there is cold, and so there was heat",
  "heat-needs-watts": ({ source }) =>
    `sooner with volts and amperes ${onSource(source)} typed in, or with a boiler probe`,
  "heat-needs-flue-probe": () => "sooner with a flue or boiler probe",
  "cold-by-fins": ({ kelvin: colder }, hand) => `the fins are ${kelvin(colder, hand)} colder than the cabinet air`,
  "cold-by-cabinet": ({ kelvin: fall }, hand) => `the cabinet has fallen ${kelvin(fall, hand)}`,
  "strength-told": ({ strength, verdict }, hand) => `${hand.brief(strength)} of known-good, ${soFar[verdict]}`,
  "no-known-good": ({ source }) => `there is no known-good run ${onSource(source)} to compare with`,
  "source-not-told": () => "nobody said which energy source this is",
  "not-cold-in-time": ({ hours }, hand) => `no cold came within ${hand.span(hours)}`,
  "no-fins-no-ambient": () => "it takes an evaporator probe, or an ambient one",
};

const goals: { readonly [G in LiveGoal]: string } = {
  strength: "fins and initial fall, and so the strength",
  curve: "rate constant and depth",
  "better-curve": "rate constant and depth, well",
};

export const live = {
  heads,
  proofs,
  goals,

  title: (fridge: string | null) => (fridge === null ? "Recording" : `Recording ${fridge}`),
  since: (source: EnergySource | null, since: string, span: string) =>
    source === "off" ? `Off since ${since} (${span})` : `${capital(onSource(source))} since ${since} (${span})`,
  asOf: (moment: string) => `as of ${moment}`,
  proofNames: { heat: "heat", cold: "cold", strength: "strength" },
  proven: (clock: string, by: string) => `proven at ${clock}: ${by}`,
  known: (clock: string, by: string) => `known since ${clock}: ${by}`,
  expectedBetween: (from: string, by: string) => `can be proven between ${from} and ${by}`,
  expectedBy: (clock: string) => `can be known by ${clock}`,
  notComing: (why: string) => `cannot be told: ${why}`,
  numbers: {
    onset: "cold began",
    slope: "initial fall",
    rate: "rate constant",
    settled: "would settle at",
    to5: (hand: Hand) => `at ${hand.degrees(5)}`,
  },
  onset: (clock: string, span: string, starting: string) => `${clock}, ${span} after ${starting}`,
  at5: (clock: string, interval: string) => `${clock} (${interval})`,
  between: (from: string, to: string) => `${from} to ${to}`,
  orLater: (from: string) => `${from} or later, or never`,
  runUntil: (clock: string, goal: string) => `Let it run until ${clock}, for ${goal}.`,
  mayEnd: "The stretch has told what it can; going on does no harm.",
  waitUntil: (clock: string) => `Let it run until ${clock}: before that no source is called dead.`,
  latest: "now",
  alarmsHeading: "Alarms",
} as const;
