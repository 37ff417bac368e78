import { readFileSync } from "node:fs";
import path from "node:path";
import { fc, test } from "@fast-check/vitest";
import { expect } from "vitest";
import {
  type CalibrationPoint,
  calibrateProbe,
  expandedUncertainty,
  largestUncertainty,
  type ProbeCalibration,
  usualSlopeUncertainty,
} from "../../../src/science/probes/calibration.ts";
import { calibrationDue, calibrationStanding } from "../../../src/science/probes/calibration-due.ts";
import { boilingCelsius, boilingPoint, icePoint } from "../../../src/science/probes/fixed-points.ts";
import type { MeasuredCelsius } from "../../../src/science/sensors/measured.ts";

const readReference = (file: string) =>
  JSON.parse(readFileSync(path.join(import.meta.dirname, `../../reference/${file}`), "utf8"));
const thermo = readReference("thermo.json");

function calibrated(points: readonly CalibrationPoint[], step = 0.0625): ProbeCalibration {
  const found = calibrateProbe(points, step);
  if (found.outcome !== "calibrated") throw new Error(`not calibrated: ${found.outcome}`);
  return found.calibration;
}

/** A reading put right, with the standard uncertainty that the calibration leaves it. */
function corrected({ coefficients: [c0, c1], uncertainty }: ProbeCalibration, raw: number): MeasuredCelsius {
  return { celsius: c0 + c1 * raw, standardUncertainty: largestUncertainty(uncertainty, raw, raw) };
}

// IAPWS-IF97 (2007/2012 release), Table 36 and the python3-iapws package; the copy says how each was obtained.
test("water boils where IAPWS-IF97 says", () => {
  for (const { MPa, K } of thermo.saturation.verificationTsat as { MPa: number; K: number }[]) {
    expect(boilingCelsius(MPa * 1e4) + 273.15).toBeCloseTo(K, 6);
  }
  for (const { hPa, boilingCelsius: celsius } of thermo.saturation.byPressure) {
    expect(boilingCelsius(hPa)).toBeCloseTo(celsius, 3);
  }
});

// ISO 2533:1975.
test("the boiling point falls with the altitude as in the standard atmosphere", () => {
  for (const { geopotentialMetres, boilingCelsius: celsius } of thermo.standardAtmosphere.rows) {
    expect(boilingPoint({ altitudeMetres: geopotentialMetres })?.celsius).toBeCloseTo(celsius, 2);
  }
});

test("a stated pressure makes the boiling point surer than an altitude, which leaves the weather open", () => {
  const stated = boilingPoint({ hectopascals: 1013.25, standardUncertainty: 1 });
  const byAltitude = boilingPoint({ altitudeMetres: 0 });
  expect(stated?.standardUncertainty).toBeCloseTo(Math.hypot(0.0278, 0.1), 3);
  expect(byAltitude?.standardUncertainty).toBeCloseTo(Math.hypot(0.278, 0.1), 2);
  expect(boilingPoint({ hectopascals: 101325, standardUncertainty: 1 })).toBeNull();
  expect(boilingPoint({ altitudeMetres: Number.NaN })).toBeNull();
});

// JCGM 100:2008 (GUM), Annex H.3, Table H.6: a thermometer calibrated by a straight line.
test("a calibration at several temperatures gives the numbers of the GUM's example H.3", () => {
  const { readings, corrections, t0, published } = readReference("statistics.json").gumH3;
  const points = (readings as number[]).map((reading, i) => ({
    reference: { celsius: reading + corrections[i], standardUncertainty: 0 },
    readings: [reading],
  }));
  const calibration = calibrated(points, 0);
  const { coefficients, uncertainty } = calibration;
  expect(coefficients[0] + (coefficients[1] - 1) * t0).toBeCloseTo(published.y1, 4);
  expect(coefficients[1] - 1).toBeCloseTo(published.y2, 5);
  expect(uncertainty.perKelvin).toBeCloseTo(published.u_y2, 5);
  expect(corrected(calibration, t0).standardUncertainty).toBeCloseTo(published.u_y1, 4);
  const at30 = corrected(calibration, 30);
  expect(at30.celsius - 30).toBeCloseTo(published.b30, 4);
  expect(at30.standardUncertainty).toBeCloseTo(published.u_b30, 4);
  expect(uncertainty.degreesOfFreedom).toBeCloseTo(9, 6);
  // t(0.975, 9) = 2.262.
  expect(expandedUncertainty(uncertainty, 30) / at30.standardUncertainty).toBeCloseTo(2.262, 3);
});

test("the ice point alone gives an offset, least uncertain there and less sure with distance", () => {
  const calibration = calibrated([{ reference: icePoint, readings: [0.375, 0.4375, 0.375, 0.4375] }]);
  expect(calibration.coefficients[0]).toBeCloseTo(-0.40625, 10);
  expect(calibration.coefficients[1]).toBe(1);
  // Type A: s/√4 = 0.0361/2; Type B: 0.05 of the ice and 0.0625/√12 of the step.
  const atIce = corrected(calibration, 0.40625);
  expect(atIce.celsius).toBeCloseTo(0, 10);
  expect(atIce.standardUncertainty).toBeCloseTo(Math.hypot(0.018042, 0.05, 0.018042), 5);
  // Welch and Satterthwaite: u⁴ over the Type A part's u⁴/3.
  expect(calibration.uncertainty.degreesOfFreedom).toBeCloseTo((3 * atIce.standardUncertainty ** 4) / 0.018042 ** 4, 0);
  const at30 = corrected(calibration, 30.40625).standardUncertainty;
  expect(at30).toBeCloseTo(Math.hypot(atIce.standardUncertainty, 30 * usualSlopeUncertainty), 10);
  expect(largestUncertainty(calibration.uncertainty, -10, 30.40625)).toBe(at30);
});

test("ice and boiling water together give offset and slope, and between them no less doubt than the points' own", () => {
  const boiling = { celsius: 98.312, standardUncertainty: 0.15 };
  const calibration = calibrated([
    { reference: boiling, readings: [98.875] },
    { reference: icePoint, readings: [0.25] },
  ]);
  expect(corrected(calibration, 0.25).celsius).toBeCloseTo(0, 10);
  expect(corrected(calibration, 98.875).celsius).toBeCloseTo(98.312, 10);
  expect(corrected(calibration, 0.25).standardUncertainty).toBeCloseTo(Math.hypot(0.05, 0.018042), 5);
  expect(corrected(calibration, 98.875).standardUncertainty).toBeCloseTo(Math.hypot(0.15, 0.018042), 5);
  // Half way, u² = (u1² + u2²)/4.
  const middle = corrected(calibration, (0.25 + 98.875) / 2).standardUncertainty;
  expect(middle).toBeCloseTo(Math.hypot(0.05, 0.15, 0.018042, 0.018042) / 2, 5);
});

test.prop([
  fc.double({ min: -3, max: 3, noNaN: true }),
  fc.double({ min: 0.95, max: 1.05, noNaN: true }),
  fc.uniqueArray(fc.integer({ min: -3, max: 12 }), { minLength: 2, maxLength: 8 }),
])(
  "whatever a probe's offset and slope are, calibrating it against a reference probe takes them out",
  (offset, slope, tens) => {
    const points = tens.map((ten) => ({
      reference: { celsius: ten * 10, standardUncertainty: 0.05 },
      readings: [ten * 10 * slope + offset],
    }));
    const calibration = calibrated(points);
    expect(corrected(calibration, 21 * slope + offset).celsius).toBeCloseTo(21, 6);
    expect(calibration.points).toBe(tens.length);
  },
);

// Invented probes, 400 of them with a scatter of 0.1 K: a 95 % interval that holds the truth much more or less often is wrong.
test("the 95 % interval of a calibration holds the truth 95 times in a hundred", () => {
  let seed = 20_260_604;
  const uniform = () => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return (seed + 0.5) / 2 ** 32;
  };
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  let held = 0;
  for (let i = 0; i < 400; i++) {
    const points = [-10, 0, 10, 20, 30].map((celsius) => ({
      reference: { celsius, standardUncertainty: 0 },
      readings: [celsius + 0.3 + 0.1 * normal()],
    }));
    const calibration = calibrated(points, 0);
    const { celsius } = corrected(calibration, 5.3);
    if (Math.abs(celsius - 5) <= expandedUncertainty(calibration.uncertainty, 5.3)) held++;
  }
  // 380 expected, standard deviation 4.4.
  expect(held).toBeGreaterThan(365);
  expect(held).toBeLessThan(395);
});

test("a reference probe's own uncertainty stays, however many points are taken against it", () => {
  const points = Array.from({ length: 40 }, (_, i) => ({
    reference: { celsius: i, standardUncertainty: 0.2 },
    readings: [i + 0.4 + (i % 2 === 0 ? 0.03 : -0.03)],
  }));
  expect(corrected(calibrated(points), 20).standardUncertainty).toBeGreaterThan(0.2);
  expect(corrected(calibrated(points), 20).standardUncertainty).toBeLessThan(0.21);
});

test("points closer than 2 K, or readings that wander, are sent back", () => {
  const near = [
    { reference: icePoint, readings: [0.1] },
    { reference: { celsius: 1.5, standardUncertainty: 0.1 }, readings: [1.6] },
  ];
  expect(calibrateProbe(near, 0.0625)).toEqual({ outcome: "too-close", spanKelvin: expect.closeTo(1.5, 10) });
  const wandering = [{ reference: icePoint, readings: [3, 2, 1, 0.2] }];
  expect(calibrateProbe(wandering, 0.0625)).toMatchObject({ outcome: "not-settled", point: 0 });
});

test("a calibration without points, without readings or with a missing number is refused", () => {
  expect(() => calibrateProbe([], 0.0625)).toThrow(/at least one/);
  expect(() => calibrateProbe([{ reference: icePoint, readings: [] }], 0.0625)).toThrow(/point 1 has no reading/);
  expect(() => calibrateProbe([{ reference: icePoint, readings: [Number.NaN] }], 0.0625)).toThrow(/not finite/);
});

test("a calibration falls due after a year unless stated, on the same day or the month's last", () => {
  const on = (day: string) => Date.parse(`${day}T10:00:00Z`);
  expect(calibrationDue(on("2026-06-04"))).toBe(on("2027-06-04"));
  expect(calibrationDue(on("2025-08-31"), 6)).toBe(on("2026-02-28"));
  expect(calibrationDue(on("2024-02-29"), 12)).toBe(on("2025-02-28"));
  expect(() => calibrationDue(Number.NaN)).toThrow(RangeError);
  expect(() => calibrationDue(0, 0)).toThrow(RangeError);
});

test("the reminder begins thirty days before, and says by how much the day has passed", () => {
  const day = 86_400_000;
  const dates = { madeUnixMs: 0, dueUnixMs: 365 * day };
  expect(calibrationStanding(dates, 300 * day)).toEqual({ standing: "valid", days: 65 });
  expect(calibrationStanding(dates, 340 * day)).toEqual({ standing: "due-soon", days: 25 });
  expect(calibrationStanding(dates, 375 * day)).toEqual({ standing: "overdue", days: 10 });
  expect(calibrationStanding(dates, -1)).toEqual({ standing: "from-the-future" });
});
