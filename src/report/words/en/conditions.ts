// English: the conditions of a run sheet and what they can be, for every sentence that speaks of them.

import type { ConditionPair, HeatCondition, SheetCondition } from "../../../science/index.ts";
import { capital } from "../phrasing.ts";

export const conditionNames: { readonly [C in SheetCondition | HeatCondition | "dial" | "level"]: string } = {
  setting: "the setting",
  load: "the load",
  vents: "the vents",
  "fan-inside": "a fan inside",
  "fan-at-rear": "a fan at the rear",
  dial: "the dial",
  level: "how level it stood",
  supply: "the supply voltage",
  gas: "the kind of gas",
  "gas-pressure": "the gas pressure",
  altitude: "the altitude",
};

export const settings = {
  bench: "on the bench",
  "vehicle-indoors": "in the vehicle, indoors",
  "vehicle-outdoors": "in the vehicle, outdoors",
  driving: "driving",
} as const;
export const vents = { open: "open", "part-covered": "partly covered", covered: "covered" } as const;

const values: { readonly [value: string]: string } = { ...settings, ...vents, part: "partly full" };

/** "on the bench"; what a sheet does not say is said to be so. */
export const conditionValue = (value: string | null): string =>
  value === null ? "not stated" : (values[value] ?? value);

/** "A fan inside: yes here, no in the known-good runs". */
export const conditionPair = ({ condition, here, knownGood }: ConditionPair): string =>
  `${capital(conditionNames[condition].replace(/^the /, ""))}: ${conditionValue(here)} here, ${conditionValue(knownGood)} in the known-good runs`;
