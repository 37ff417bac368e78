// German: sensors that send no °C, and what they should send.

import type { ProbeCurve, RawUnit } from "../../../schema/index.ts";
import type { CurveCheck } from "../../../science/sensors/index.ts";
import type { Hand } from "../../hand.ts";
import { list } from "./names.ts";

const celsius = (value: number, hand: Hand) => hand.quantity(value, "Cel", 0);

/** Millivolts and the ohms of a Pt100 need their decimals; a thermistor's do not. */
const withSign = (value: number, unit: RawUnit, hand: Hand) =>
  unit === "mV" ? `${hand.number(value, 3)}\u00a0mV` : `${hand.number(value, value < 1000 ? 2 : 0)}\u00a0Ω`;

/** What a probe with this curve is. B is a constant of its material, in kelvins whatever degrees the reader wants. */
export function sensorOf(curve: ProbeCurve, hand: Hand): string {
  switch (curve.kind) {
    case "thermistor-b":
      return `ein Heißleiter von ${withSign(curve.curve.ohmsAt25, "Ohm", hand)} bei ${celsius(25, hand)}, B ${hand.number(curve.curve.b, 0)}\u00a0K`;
    case "thermistor-steinhart-hart":
      return "ein Heißleiter nach Steinhart und Hart";
    case "pt100":
      return `ein Pt100 der Klasse ${curve.toleranceClass}`;
    case "type-k":
      return `ein Thermoelement Typ K der Klasse ${curve.toleranceClass}, Vergleichsstelle bei ${celsius(curve.coldJunction.celsius, hand)}`;
  }
}

/** What it should send; stands before "senden". */
export function valuesOf(checks: readonly CurveCheck[], hand: Hand): string {
  const at = checks.map(
    ({ celsius: there, raw, unit, within }) =>
      `${withSign(raw, unit, hand)} bei ${celsius(there, hand)} (auf ${hand.quantity(within, "K", 1)})`,
  );
  return `${list(at)} (95\u00a0%, nicht kalibriert)`;
}
