// What to check next: for each check the causes it tells apart, about how long it takes, and the
// cautions that must stand beside it. Its words are in src/report/words.

import type { Cause } from "../../schema/documents/index.ts";
import type { HeatSource } from "../../schema/index.ts";
import type { NextCheck } from "../findings.ts";
import type { CautionCode, CheckCode } from "../sayings.ts";

/**
 * A check, with its cautions in the same object.
 *
 * @param source the source the check is about, when it is one: a check that has the fridge run again
 *   then carries that source's cautions alone; without it, those of all three.
 */
export function checkFor(code: CheckCode, source: HeatSource | null = null): NextCheck {
  const { separates, minutes, cautions, runsAgain } = checkTable[code];
  return {
    check: code,
    separates,
    minutes,
    cautions: runsAgain ? [...new Set([...cautions, ...runningCautions(source)])] : cautions,
  };
}

interface CheckRow {
  readonly separates: readonly Cause[];
  /** Minutes of work at the fridge, waiting not counted. Common practice, no source. */
  readonly minutes: number;
  readonly cautions: readonly CautionCode[];
  /** The check is itself a run: whatever holds for running on a source holds for it. */
  readonly runsAgain: boolean;
}

const heatCauses = ["burner", "flue", "gas-supply"] as const satisfies readonly Cause[];

const checkTable: { readonly [C in CheckCode]: CheckRow } = {
  "clean-flue-and-burner": { separates: heatCauses, minutes: 60, cautions: ["gas", "cooling-unit"], runsAgain: false },
  "measure-gas-pressure": { separates: heatCauses, minutes: 20, cautions: ["gas"], runsAgain: false },
  "measure-element": {
    separates: ["mains-element", "dc12-element", "supply-voltage", "thermostat"],
    minutes: 15,
    cautions: ["mains", "dc12"],
    runsAgain: false,
  },
  "measure-supply-voltage": {
    separates: ["supply-voltage", "mains-element", "dc12-element"],
    minutes: 10,
    cautions: ["dc12", "mains"],
    runsAgain: false,
  },
  "check-level": { separates: ["not-level", "cooling-unit"], minutes: 10, cautions: ["no-cold"], runsAgain: true },
  "fan-at-rear": {
    separates: ["ventilation", "cooling-unit"],
    minutes: 20,
    cautions: ["mains", "dc12", "gas", "road"],
    runsAgain: false,
  },
  "paper-test-of-seal": { separates: ["door-seal", "warm-load"], minutes: 5, cautions: ["food"], runsAgain: false },
  "wait-for-load": { separates: ["warm-load", "door-seal"], minutes: 10, cautions: ["food"], runsAgain: true },
  "check-lamp": { separates: ["lamp", "warm-load"], minutes: 5, cautions: [], runsAgain: false },
  "seat-probes": { separates: ["probe"], minutes: 10, cautions: ["cooling-unit", "mains"], runsAgain: false },
  defrost: { separates: ["frost", "cooling-unit"], minutes: 15, cautions: ["cooling-unit", "food"], runsAgain: true },
  "record-known-good": { separates: [], minutes: 15, cautions: [], runsAgain: true },
  "record-longer": { separates: [], minutes: 5, cautions: ["no-cold"], runsAgain: true },
  "sort-the-log": { separates: [], minutes: 10, cautions: [], runsAgain: false },
  "say-the-source": { separates: [], minutes: 5, cautions: [], runsAgain: false },
  "exchange-probes": { separates: ["probe"], minutes: 5, cautions: ["cooling-unit", "mains"], runsAgain: false },
  "add-ambient-probe": { separates: [], minutes: 10, cautions: ["cooling-unit", "mains"], runsAgain: true },
  "record-another-night": { separates: [], minutes: 5, cautions: [], runsAgain: true },
  "prove-heat-in-watts": {
    separates: ["mains-element", "dc12-element", "supply-voltage", "thermostat", "cooling-unit"],
    minutes: 15,
    cautions: ["mains", "dc12", "no-cold"],
    runsAgain: false,
  },
  "ask-a-fitter": {
    separates: ["cooling-unit", "boiler-insulation", ...heatCauses],
    minutes: 5,
    cautions: ["gas", "mains", "cooling-unit", "no-cold"],
    runsAgain: false,
  },
  "why-flame-went-out": { separates: heatCauses, minutes: 15, cautions: ["stopped-on-gas", "gas"], runsAgain: false },
  // A fridge that chooses its own source may have lit gas when its supply failed: that stands with the cautions of a night.
  "why-supply-was-lost": {
    separates: ["supply-voltage", "mains-element", "dc12-element"],
    minutes: 15,
    cautions: ["mains", "dc12", "night", "gas"],
    runsAgain: false,
  },
  "dial-to-coldest": { separates: ["thermostat"], minutes: 2, cautions: [], runsAgain: true },
};

/** Cautions of leaving a fridge to run. */
function runningCautions(source: HeatSource | null): readonly CautionCode[] {
  const ofSource: readonly CautionCode[] = source === null ? ["gas", "mains", "dc12"] : [source];
  return ["night", ...ofSource, "two-sources"];
}
