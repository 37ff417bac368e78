// English: what must be proven before a cooling unit is condemned, and how far it has been. The cautions of each stand
// beside it in src/science/causes/before-condemning.ts.

import type { HeatSource, Phrases } from "../../../schema/index.ts";
import type { UnitProofCode, UnitProofSayings } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { onSource } from "./names.ts";

export const proofNames: { readonly [P in UnitProofCode]: string } = {
  "tilt-measured": "It stands level, measured both ways",
  "heat-in-watts": "One electric source takes its rated watts",
  "boiler-hot": "The boiler gets hot and stays hot",
  "fan-at-rear-tried": "A fan at the rear has been tried for two hours",
  "twelve-hours": "It ran for twelve hours without a break on electricity",
  "two-nights": "It came out the same on two nights",
};

export const proofStates = { shown: "shown", "not-shown": "not shown yet" } as const;

const degrees = (value: number, hand: Hand) => `${hand.number(value, 1)}°`;
const watts = (value: number, hand: Hand) => hand.quantity(value, "W", 0);
const taken = (v: { source: HeatSource; watts: number; rated: number }, hand: Hand) =>
  `${watts(v.watts, hand)} ${onSource(v.source)} of ${watts(v.rated, hand)} rated or usual`;

export const proofs: Phrases<UnitProofSayings, Hand> = {
  "tilt-not-measured": () =>
    "A run sheet does not give the tilt in both directions: measure it at the cooling unit with a spirit level and write it down.",
  "stood-level": ({ sideways, lengthways }, hand) =>
    `The run sheets give ${degrees(sideways, hand)} sideways and ${degrees(lengthways, hand)} lengthways, within 3° and 6°; older units bear 2 to 3° any way.`,
  "stood-tilted": ({ sideways, lengthways }, hand) =>
    `A run sheet gives ${degrees(sideways, hand)} sideways and ${degrees(lengthways, hand)} lengthways: more than 3° or 6°. Level it, leave it off for an hour, and repeat.`,
  "watts-not-measured": () =>
    "No run sheet gives measured watts: read them from an approved plug-in meter on mains, or volts times amperes at the fridge on 12\u00a0V.",
  "watts-too-few": (values, hand) =>
    `The run sheet gives ${taken(values, hand)}: too little heat, which must be put right before the unit is looked at.`,
  "watts-taken": (values, hand) => `The run sheet gives ${taken(values, hand)}: the heat is there.`,
  "boiler-not-seen": () =>
    "No log has a boiler probe. One clipped to the boiler's jacket over the last hours would tell; it gets hot, and no hand belongs there.",
  "boiler-not-hot": ({ celsius, needed }, hand) =>
    `Late in the stretch the boiler probe read ${hand.quantity(celsius, "Cel", 0)}; from ${hand.quantity(needed, "Cel", 0)} on it counts as hot.`,
  "boiler-was-hot": ({ celsius }, hand) =>
    `Late in the stretch the boiler probe read ${hand.quantity(celsius, "Cel", 0)}: the heat arrives.`,
  "fan-not-tried": () =>
    "No given run has a fan at the rear on its run sheet: try one for two hours while it runs on electricity; a fan disturbs a gas flame and its flue.",
  "fan-was-tried": ({ hours, log }, hand) =>
    `${log} ran with a fan at the rear for ${hand.span(hours)} on electricity.`,
  "ran-too-short": ({ hours, needed }, hand) =>
    hours === 0
      ? "The given logs hold no stretch on electricity."
      : `The longest stretch on electricity is ${hand.span(hours)}; this needs ${hand.span(needed)}.`,
  "ran-so-long": ({ hours }, hand) => `The longest stretch on electricity is ${hand.span(hours)}.`,
  "nights-seen": ({ nights }, hand) =>
    `The given logs hold ${hand.count(nights, { one: "night", other: "nights" })} of four hours or more on electricity.`,
};
