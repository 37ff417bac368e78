// Conversions against published tables: IEC 60751 (Pt100), IEC 60584 (type K), IEC 60539-1 and Steinhart & Hart
// (thermistors). tests/reference/sensors.json says of each how it was obtained.

import { readFileSync } from "node:fs";
import path from "node:path";
import { fc, test } from "@fast-check/vitest";
import { expect } from "vitest";
import { lineUnits } from "../../../src/ingest/probe-line.ts";
import type { MeasuredCelsius } from "../../../src/science/sensors/measured.ts";
import { celsiusOfOneWireCode, oneWireUncertainty } from "../../../src/science/sensors/one-wire.ts";
import { measuredByPlatinum, platinumCelsius, platinumOhms } from "../../../src/science/sensors/platinum.ts";
import { type ProbeSensor, sensorCelsius, sensorRaw, sensorUnits } from "../../../src/science/sensors/probe-sensor.ts";
import {
  measuredByB,
  measuredBySteinhartHart,
  ohmsBySteinhartHart,
  thermistorByB,
  thermistorBySteinhartHart,
  thermistorOhmsByB,
} from "../../../src/science/sensors/thermistor.ts";
import { measuredByTypeK, typeKCelsius, typeKMillivolts } from "../../../src/science/sensors/type-k.ts";

const reference = JSON.parse(readFileSync(path.join(import.meta.dirname, "../../reference/sensors.json"), "utf8"));
type Row = Record<string, number>;

function known(measured: MeasuredCelsius | null): MeasuredCelsius {
  if (measured === null) throw new Error("expected a temperature");
  return measured;
}

for (const { celsius, hex } of reference.oneWire.temperatureCodes.rows as { celsius: number; hex: string }[]) {
  test(`the one-wire code ${hex} is ${celsius} °C`, () => {
    expect(known(celsiusOfOneWireCode(Number.parseInt(hex, 16)))).toEqual({
      celsius,
      standardUncertainty: oneWireUncertainty(celsius),
    });
  });
}

test("a one-wire code outside -55 to 125 °C is no temperature, and the power-on code is that of 85 °C", () => {
  expect(celsiusOfOneWireCode(0x07d1)).toBeNull();
  expect(celsiusOfOneWireCode(0xfc8f)).toBeNull();
  expect(celsiusOfOneWireCode(0x0550)?.celsius).toBe(85);
  expect(() => celsiusOfOneWireCode(-1)).toThrow(RangeError);
});

test("an uncalibrated one-wire probe is uncertain by its tolerance and its step", () => {
  // 0.5/√3 and 0.03125/√3 in squares; 2/√3 outside -10 to 85 °C.
  expect(oneWireUncertainty(4)).toBeCloseTo(0.28924, 4);
  expect(oneWireUncertainty(-11)).toBeCloseTo(1.15484, 4);
});

test("Pt100: every entry of IEC 60751 Table 1 to its last digit, and back within what that digit holds", () => {
  for (const { celsius, ohm, ohmFull } of reference.pt100.table as Row[]) {
    expect(platinumOhms(celsius)).toBeCloseTo(ohmFull, 5);
    expect(Math.abs(platinumOhms(celsius) - ohm)).toBeLessThanOrEqual(0.00501);
    // The last entry's rounded digits lie beyond the range.
    if (celsius < 850) expect(platinumCelsius(ohmFull)).toBeCloseTo(celsius, 4);
  }
  for (const { ohm, celsius } of reference.pt100.inverse as Row[]) expect(platinumCelsius(ohm)).toBeCloseTo(celsius, 5);
});

test.prop([fc.double({ min: -200, max: 850, noNaN: true })])("Pt100: there and back is where it began", (celsius) => {
  expect(Math.abs((platinumCelsius(platinumOhms(celsius)) ?? Number.NaN) - celsius)).toBeLessThan(1e-6);
});

test("Pt100: an open or shorted wire is no temperature, and none is asked outside the standard's range", () => {
  expect(platinumCelsius(5)).toBeNull();
  expect(platinumCelsius(Infinity)).toBeNull();
  expect(platinumCelsius(Number.NaN)).toBeNull();
  expect(() => platinumOhms(851)).toThrow(RangeError);
});

test("Pt100: the tolerance of class B and an ohm's tenth of lead resistance make up the uncertainty", () => {
  const measured = known(measuredByPlatinum(138.5055, { toleranceClass: "B", ohmsUncertainty: 0.1 }));
  // Class B at 100 °C: 0.8 K, over √3; 0.1 Ω over 0.3793 Ω/K.
  expect(measured.celsius).toBeCloseTo(100, 3);
  expect(measured.standardUncertainty).toBeCloseTo(Math.hypot(0.8 / Math.sqrt(3), 0.1 / 0.3793), 3);
  expect(measuredByPlatinum(1, { toleranceClass: "B", ohmsUncertainty: 0.1 })).toBeNull();
});

test("type K: every entry of the ITS-90 table to its last digit, and back", () => {
  for (const { celsius, mV, mVFull } of reference.typeK.table as Row[]) {
    expect(typeKMillivolts(celsius)).toBeCloseTo(mVFull, 8);
    expect(Math.abs(typeKMillivolts(celsius) - mV)).toBeLessThanOrEqual(0.000501);
    // The last entry's rounded digits lie beyond the range.
    if (celsius < 1372) expect(typeKCelsius(mVFull, 0)).toBeCloseTo(celsius, 5);
  }
});

test.prop([fc.double({ min: -195, max: 1370, noNaN: true }), fc.double({ min: -20, max: 60, noNaN: true })])(
  "type K: whatever the cold junction, the hot one comes back",
  (hot, cold) => {
    const between = typeKMillivolts(hot) - typeKMillivolts(cold);
    expect(Math.abs((typeKCelsius(between, cold) ?? Number.NaN) - hot)).toBeLessThan(1e-4);
  },
);

test("type K: the worked example with its cold junction at 25 °C gives 250 °C", () => {
  const { coldJunctionCelsius, measured_mV, resultCelsius } = reference.typeK.coldJunctionExample;
  expect(typeKCelsius(measured_mV, coldJunctionCelsius)).toBeCloseTo(resultCelsius, 3);
});

test("type K: an open couple's voltage is no temperature", () => {
  expect(typeKCelsius(60, 20)).toBeNull();
  expect(typeKCelsius(-7, 20)).toBeNull();
  expect(typeKCelsius(Number.NaN, 20)).toBeNull();
});

test("type K: the cold junction's uncertainty passes to the hot one in the ratio of the couple's steepness at both", () => {
  const cold = { celsius: 25, standardUncertainty: 0.5 };
  const options = { toleranceClass: 1, millivoltsUncertainty: 0 } as const;
  const measured = known(measuredByTypeK(9.153126, cold, options));
  const steepness = (t: number) => (typeKMillivolts(t + 0.01) - typeKMillivolts(t - 0.01)) / 0.02;
  expect(measured.standardUncertainty).toBeCloseTo(
    Math.hypot(1.5 / Math.sqrt(3), (0.5 * steepness(25)) / steepness(250)),
    4,
  );
});

const { R25, B, table, inverse } = reference.ntc.bEquation;
const curve = { ohmsAt25: R25 as number, b: B as number };

test("thermistor by B: every entry of the table, both ways", () => {
  for (const { celsius, ohm } of table as Row[]) {
    expect(thermistorOhmsByB(celsius, curve) / ohm).toBeCloseTo(1, 7);
    expect(thermistorByB(ohm, curve)).toBeCloseTo(celsius, 4);
  }
  for (const { ohm, celsius } of inverse as Row[]) expect(thermistorByB(ohm, curve)).toBeCloseTo(celsius, 5);
});

const { points, A, B: bOfThree, C, at } = reference.ntc.steinhartHart.threePoint;
const steinhartHart = { a: A as number, b: bOfThree as number, c: C as number };

test("thermistor by Steinhart and Hart: the published points, and what lies between them", () => {
  for (const { ohm, celsius } of [...points, ...at] as Row[]) {
    expect(thermistorBySteinhartHart(ohm, steinhartHart)).toBeCloseTo(celsius, 5);
  }
});

test("thermistor: the uncertainty follows what its parts do to the temperature when each is shifted", () => {
  const parts = { ohms: 0.003, ohmsAt25: 0.01, b: 0.01 };
  const at5 = thermistorOhmsByB(5, curve);
  const shifts = [
    thermistorByB(at5 * (1 + parts.ohms), curve),
    thermistorByB(at5, { ...curve, ohmsAt25: curve.ohmsAt25 * (1 + parts.ohmsAt25) }),
    thermistorByB(at5, { ...curve, b: curve.b * (1 + parts.b) }),
  ].map((shifted) => shifted - 5);
  expect(measuredByB(at5, curve, parts).standardUncertainty).toBeCloseTo(Math.hypot(...shifts), 2);
});

test("a thermistor without resistance is a fault and no temperature", () => {
  for (const ohms of [0, -5, Number.NaN, Infinity]) expect(() => thermistorByB(ohms, curve)).toThrow(RangeError);
});

test("each kind of sensor is converted from the unit of its line, and a value it cannot give is no temperature", () => {
  const sensors: readonly [ProbeSensor, value: number, celsius: number, impossible: number][] = [
    [{ kind: "one-wire" }, -10.125, -10.125, Number.NaN],
    [{ kind: "thermistor-b", curve }, thermistorOhmsByB(5, curve), 5, 0],
    [{ kind: "thermistor-steinhart-hart", curve: steinhartHart }, 10_000, 25, -1],
    [{ kind: "pt100", toleranceClass: "A" }, 138.5055, 100, 500],
    [{ kind: "type-k", toleranceClass: 1, coldJunction: { celsius: 25, standardUncertainty: 0.5 } }, 9.153126, 250, 70],
  ];
  for (const [sensor, value, celsius, impossible] of sensors) {
    const measured = known(sensorCelsius(sensor, value));
    expect(measured.celsius, sensor.kind).toBeCloseTo(celsius, 3);
    expect(measured.standardUncertainty, sensor.kind).toBeGreaterThan(0.01);
    // A one-wire probe below -10 °C is good to 2 K only.
    expect(measured.standardUncertainty, sensor.kind).toBeLessThan(1.2);
    expect(lineUnits, sensor.kind).toContain(sensorUnits[sensor.kind]);
    expect(sensorCelsius(sensor, impossible), sensor.kind).toBeNull();
  }
});

test("what each kind should send at a temperature is what means that temperature", () => {
  const curves: readonly Exclude<ProbeSensor, { kind: "one-wire" }>[] = [
    { kind: "thermistor-b", curve },
    { kind: "thermistor-steinhart-hart", curve: steinhartHart },
    { kind: "pt100", toleranceClass: "A" },
    { kind: "type-k", toleranceClass: 1, coldJunction: { celsius: 25, standardUncertainty: 0.5 } },
  ];
  for (const sensor of curves) {
    for (const celsius of [-30, 0, 25, 100]) {
      const raw = sensorRaw(sensor, celsius);
      expect(known(sensorCelsius(sensor, raw ?? Number.NaN)).celsius, sensor.kind).toBeCloseTo(celsius, 6);
    }
  }
  // The published points themselves.
  for (const { ohm, celsius } of points as Row[]) expect(sensorRaw(curves[1], celsius)).toBeCloseTo(ohm, 2);
});

test("coefficients that describe no thermistor give no resistance", () => {
  expect(ohmsBySteinhartHart(25, { a: 1.129e-3, b: -2.341e-4, c: 8.775e-8 })).toBeNull();
  expect(ohmsBySteinhartHart(25, { a: 1, b: 2.341e-4, c: 8.775e-8 })).toBeNull();
});

test("thermistor by Steinhart and Hart: the uncertainty follows what a shifted resistance does", () => {
  const shift = 15 - thermistorBySteinhartHart(ohmsAt(15) * 1.001, steinhartHart);
  expect(measuredBySteinhartHart(ohmsAt(15), steinhartHart, 0.001).standardUncertainty).toBeCloseTo(Math.abs(shift), 4);
});

/** By bisection, apart from the program's own formulas. */
function ohmsAt(celsius: number): number {
  let [low, high] = [100, 1e6];
  for (let i = 0; i < 60; i++) {
    const middle = Math.sqrt(low * high);
    if (thermistorBySteinhartHart(middle, steinhartHart) > celsius) low = middle;
    else high = middle;
  }
  return low;
}
