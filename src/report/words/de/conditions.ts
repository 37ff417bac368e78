// German: the conditions of a run sheet and what they can be, for every sentence that speaks of them. Names stand
// without article, so that sentences can list them.

import type { ConditionPair, HeatCondition, SheetCondition } from "../../../science/index.ts";

export const conditionNames: { readonly [C in SheetCondition | HeatCondition | "dial" | "level"]: string } = {
  setting: "Aufstellung",
  load: "Beladung",
  vents: "Lüftungsgitter",
  "fan-inside": "Lüfter innen",
  "fan-at-rear": "Lüfter hinten",
  dial: "Reglerstellung",
  level: "Schräglage",
  supply: "Versorgungsspannung",
  gas: "Gasart",
  "gas-pressure": "Gasdruck",
  altitude: "Höhenlage",
};

export const settings = {
  bench: "auf der Werkbank",
  "vehicle-indoors": "im Fahrzeug, in der Halle",
  "vehicle-outdoors": "im Fahrzeug, im Freien",
  driving: "während der Fahrt",
};
export const vents = { open: "frei", "part-covered": "teilweise abgedeckt", covered: "abgedeckt" };

const values: { readonly [value: string]: string } = {
  ...settings,
  ...vents,
  empty: "leer",
  part: "teilweise voll",
  full: "voll",
  propane: "Propan",
  butane: "Butan",
  mixed: "Gemisch",
  yes: "ja",
  no: "nein",
};

/** "auf der Werkbank"; what a sheet does not say is said to be so. */
export const conditionValue = (value: string | null): string =>
  value === null ? "nicht angegeben" : (values[value] ?? value);

/** "Lüfter innen: hier ja, in den Bezugsläufen nein" */
export const conditionPair = ({ condition, here, knownGood }: ConditionPair): string =>
  `${conditionNames[condition]}: hier ${conditionValue(here)}, in den Bezugsläufen ${conditionValue(knownGood)}`;
