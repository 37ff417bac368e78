// English: what each thing is called on screens and paper, and the words between numbers.

import type { BaselineKind, Cause, EventKind, StartState, Verdict } from "../../../schema/documents/index.ts";
import type { EnergySource, HeatSource, Position } from "../../../schema/index.ts";
import type { RejectionCode } from "../../../science/index.ts";
import type { HandWords } from "../../hand.ts";
import { joined } from "../phrasing.ts";

export const handWords: HandWords = {
  locale: "en-GB",
  units: { Cel: "°C", K: "K", "1/h": "per hour", "K/h": "K per hour", h: "h", V: "V", W: "W", "1": "%" },
  fahrenheitUnits: { Cel: "°F", K: "°F", "K/h": "°F per hour" },
  minutes: "min",
  range: (low, high) => `${low} to ${high}`,
  noLess: (low) => `${low} or more`,
  noMore: (high) => `${high} or less`,
  unbounded: "no limit found",
  interval: (range) => `95\u00a0% interval ${range}`,
  readings: { one: "reading", other: "readings" },
};

/** "on gas", "off"; null is a source nobody named. */
const onSources: { readonly [S in EnergySource]: string } = {
  gas: "on gas",
  mains: "on mains",
  dc12: "on 12\u00a0V",
  off: "off",
};
export const onSource = (source: EnergySource | null) => (source === null ? "on an unnamed source" : onSources[source]);

/** "the gas stretch" and the like. */
const bareSources: { readonly [S in EnergySource]: string } = {
  gas: "gas",
  mains: "mains",
  dc12: "12\u00a0V",
  off: "off",
};
export const bareSource = (source: EnergySource | null) => (source === null ? "unnamed" : bareSources[source]);

/** What starts the boiler on a source. */
export const startingOf = (source: HeatSource | null) => (source === "gas" ? "lighting" : "switching on");

export const verdictNames: { readonly [V in Verdict]: string } = {
  sound: "good",
  weak: "weak",
  "not-cooling": "no cooling",
  undecided: "cannot say yet",
};

export const baselineNames: { readonly [K in BaselineKind]: string } = {
  own: "known-good runs of this fridge",
  kind: "known-good runs of its kind",
  "other-sources": "the other sources of the same run",
  generic: "a general stand-in",
  none: "no known-good run",
};

export const startStateNames: { readonly [S in StartState]: string } = {
  "cold-boiler": "started from a cold boiler",
  "warm-boiler": "started with the boiler still warm",
  "switched-while-cold": "switched over while already cold",
};

export const positionNames: { readonly [P in Position | "time" | "source"]: string } = {
  evaporator: "evaporator",
  cabinet: "cabinet",
  ambient: "ambient",
  room: "room",
  freezer: "freezer",
  ventOut: "upper vent",
  flue: "flue",
  boiler: "boiler",
  supply: "supply voltage",
  time: "time",
  source: "energy source",
};

export const causeNames: { readonly [C in Cause]: string } = {
  burner: "weak burner (jet or flame)",
  flue: "blocked or sooted flue",
  "gas-supply": "weak gas supply (pressure, regulator, bottle)",
  "mains-element": "failed or weak mains element",
  "dc12-element": "failed or weak 12\u00a0V element",
  "supply-voltage": "low supply voltage",
  thermostat: "thermostat or dial holding it back",
  "boiler-insulation": "heat lost from the boiler (insulation)",
  ventilation: "poor ventilation behind the fridge",
  "not-level": "fridge not level",
  "cooling-unit": "failing cooling unit",
  "door-seal": "leaking door seal",
  "warm-load": "warm load put in (no fault)",
  frost: "frost on the fins (no fault of a source)",
  lamp: "lamp burning behind the closed door",
  probe: "a probe that moved or misreads",
  other: "something else",
  none: "nothing unusual",
};

export const eventNames: { readonly [K in EventKind]: string } = {
  "door-opening": "door opened",
  "cooling-stopped": "cooling stopped",
  cycling: "thermostat cycling",
  gap: "gap in the log",
  "probe-fault": "probe fault",
  "probe-moved": "probe moved",
  "sun-on-probe": "sun on the ambient probe",
  "exhaust-on-probe": "warm exhaust air on the ambient probe",
  "clock-jump": "clock jump",
};

/** Completes "12 readings of the cabinet probe: ...". */
export const rejections: { readonly [R in RejectionCode]: string } = {
  "power-on-value": "power-on value 85.0 of a one-wire sensor, not a temperature",
  "disconnected-value": "\u2212127, what a one-wire reader reports for a disconnected sensor",
  "out-of-range": "outside what this probe can see in a fridge",
  "too-fast": "changed faster than a probe in air or on metal can",
  spike: "a single spike between steady neighbours",
  stuck: "stuck at one value while the others moved",
  "duplicate-instant": "second reading for the same instant",
  "out-of-order": "earlier than the reading before it",
  "clock-jump": "logged across a jump of the clock",
  "not-a-number": "not a number",
  "unreadable-time": "time not readable",
  "wrong-column-count": "row with the wrong number of cells",
  "unknown-source": "energy source not known",
};

/** Several things in one breath. */
export const list = (items: readonly string[]) => joined(items, "and");
