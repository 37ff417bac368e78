// English: what happened during a run. Each a full sentence.

import { isElectric, type Phrases } from "../../../schema/index.ts";
import type { EventSayings } from "../../../science/index.ts";
import type { Hand } from "../../hand.ts";
import { cautionClose, cautions } from "./cautions.ts";
import { onSource } from "./names.ts";
import { mayHaveStopped } from "./stopped.ts";

const kelvin = (value: number, hand: Hand) => hand.quantity(value, "K", 1);
const minutesLong = (minutes: number, hand: Hand) => hand.span(minutes / 60);

export const events: Phrases<EventSayings, Hand> = {
  "door-opened": ({ riseKelvin, minutes }, hand) =>
    `The cabinet rose ${kelvin(riseKelvin, hand)} within ${minutesLong(minutes, hand)}, as when the door is opened.`,
  // The caution stands in the sentence: a flame that went out must never be told without it.
  "cooling-stopped": ({ source, finDifferenceBefore, finDifferenceAfter, doubt }, hand) => {
    const seen = `Cooling stopped ${onSource(source)}: the fins went from ${kelvin(finDifferenceBefore, hand)} to ${kelvin(finDifferenceAfter, hand)} colder than the cabinet air.`;
    const why = mayHaveStopped(source, doubt);
    if (isElectric(source)) return `${seen} ${why}`;
    return `${seen} ${why} Caution: ${cautions["stopped-on-gas"].text} ${cautionClose}`;
  },
  "thermostat-cycles": ({ source, duty, periodMinutes, cycles }, hand) => {
    const seen = `${hand.count(cycles, { one: "time", other: "times" })}, every ${minutesLong(periodMinutes, hand)}, heating ${hand.percent(duty)} of the time`;
    if (source !== "gas") return `The thermostat cycled ${seen}.`;
    return `Cooling came and went ${seen}, as a thermostat makes it; a flame that went out and was lit again looks the same.`;
  },
  "no-rows": ({ minutes }, hand) => `The log has no row for ${minutesLong(minutes, hand)}.`,
  "probe-silent": ({ minutes }, hand) => `No reading came from this probe for ${minutesLong(minutes, hand)}.`,
  "probe-stuck": ({ celsius, minutes }, hand) =>
    `The probe stood still at ${hand.quantity(celsius, "Cel", 2)} for ${minutesLong(minutes, hand)} while the others moved.`,
  "probe-unbelievable": ({ celsius, minutes }, hand) =>
    `The probe read ${hand.quantity(celsius, "Cel", 1)} and the like for ${minutesLong(minutes, hand)}, which cannot be.`,
  "probe-stepped": ({ kelvin: step }, hand) =>
    `This probe alone stepped by ${kelvin(step, hand)} and stayed there, as when it is moved or falls off.`,
  "sun-on-ambient": ({ kelvin: rise, minutes }, hand) =>
    `The ambient probe read ${kelvin(rise, hand)} too warm for ${minutesLong(minutes, hand)}, as with sun on it.`,
  "exhaust-on-ambient": ({ kelvin: rise, isProven }, hand) =>
    isProven
      ? `The ambient probe rose ${kelvin(rise, hand)} with the heating and fell with it: it hangs in the warm air that leaves the fridge. This is taken off, with a width; move the probe to the air that enters the lower vent. If it hangs there already, the warm air comes back to it: check the vents.`
      : `The ambient probe changed by ${kelvin(rise, hand)} with the heating: it may hang in the warm air that leaves the fridge. Whether it does stays open, and widens what is told; move the probe to the air that enters the lower vent, and log an hour with the fridge off before and after.`,
  "clock-jumped": ({ seconds }, hand) =>
    `The log's clock jumped ${seconds < 0 ? "back" : "ahead"} by ${hand.span(Math.abs(seconds) / 3600)}.`,
};
