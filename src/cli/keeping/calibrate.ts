// `coldfall probes calibrate`: what a probe read at known temperatures becomes its correction.

import { handOf, plain } from "../../report/index.ts";
import type { BadInput } from "../../schema/index.ts";
import {
  type CalibrationGiven,
  type CalibrationResult,
  type CalibrationTold,
  calibrate,
  rangeOfUse,
} from "../../workshop/calibrating.ts";
import { wordsFor } from "../language-option.ts";
import { badOption } from "../option-values.ts";
import type { Terminal } from "../terminal.ts";
import { type StoreOptions, withStore } from "./with-store.ts";

export interface CalibrateOptions extends StoreOptions {
  readonly icePoint?: readonly number[];
  readonly boiling?: readonly number[];
  readonly altitude?: number;
  readonly pressure?: number;
  readonly against?: readonly { readonly reference: number; readonly reading: number }[];
  readonly uncertainty?: number;
  /** Instants of the days' beginnings. */
  readonly made?: number;
  readonly due?: number;
}

/** How far a barometer at the place is right, one standard deviation, hPa (common practice, no source). */
const barometerHectopascals = 2;

/** @throws BadInput "bad-option" for points that make no calibration; "no-such-record" */
export async function calibrateFromOptions(
  probe: string,
  options: CalibrateOptions,
  terminal: Terminal,
): Promise<void> {
  const given = givenBy(options, terminal.nowUnixMs());
  const text = wordsFor(options).probes.calibrate;
  await withStore(options, async (store) => {
    const result = await calibrate(store, probe, given);
    if (result.outcome !== "calibrated") throw refusalOf(result, options);
    const { madeUnixMs } = given;
    for (const sentence of sentencesOf(probe, result.told, { madeUnixMs, nowUnixMs: terminal.nowUnixMs(), options })) {
      terminal.print(`${plain(sentence)}\n`);
    }
    if (given.boiling !== null) terminal.print(`${text.boilingCaution}\n`);
  });
}

/** @throws BadInput "bad-option" */
function givenBy(options: CalibrateOptions, nowUnixMs: number): CalibrationGiven {
  const text = wordsFor(options).probes.calibrate;
  const { icePoint = [], boiling = [], altitude, pressure, against = [], uncertainty, made, due } = options;
  const statedPressure = altitude ?? pressure;
  if (boiling.length > 0 && (altitude === undefined) === (pressure === undefined)) {
    throw badOption("--boiling", boiling.join(", "), text.onePressure);
  }
  if (boiling.length === 0 && statedPressure !== undefined) {
    throw badOption(altitude === undefined ? "--pressure" : "--altitude", `${statedPressure}`, text.withoutBoiling);
  }
  if (uncertainty !== undefined && against.length === 0) {
    throw badOption("--uncertainty", `${uncertainty}`, text.withoutReference);
  }
  if (made !== undefined && made > nowUnixMs) throw badOption("--made", dayText(made), text.notYet);
  const madeUnixMs = made ?? nowUnixMs;
  if (due !== undefined && due <= madeUnixMs) throw badOption("--due", dayText(due), text.dueFirst);
  return {
    icePoint,
    boiling: boiling.length === 0 ? null : { readings: boiling, pressure: pressureOf(altitude, pressure) },
    against,
    madeUnixMs,
    ...(uncertainty === undefined ? {} : { referenceUncertainty: uncertainty }),
    ...(due === undefined ? {} : { dueUnixMs: due }),
  };
}

const pressureOf = (altitudeMetres: number | undefined, hectopascals = Number.NaN) =>
  altitudeMetres === undefined ? { hectopascals, standardUncertainty: barometerHectopascals } : { altitudeMetres };

function refusalOf(result: Exclude<CalibrationResult, { outcome: "calibrated" }>, options: CalibrateOptions): BadInput {
  const text = wordsFor(options).probes.calibrate;
  const hand = handOf(options.language ?? "en", 0);
  const said = (expected: string) => badOption(optionsSaid(options), readingsSaid(options), expected);
  switch (result.outcome) {
    case "no-boiling-point":
      return badOption("--pressure", `${options.pressure ?? options.altitude}`, text.expectedPressure);
    case "too-close":
      return said(text.tooClose(hand.quantity(result.spanKelvin, "K", 2)));
    case "not-settled":
      return said(
        text.notSettled(hand.quantity(result.reference, "Cel", 1), hand.quantity(result.standardDeviation, "K", 1)),
      );
    case "too-far-off":
      return said(text.tooFar(hand.quantity(result.reference, "Cel", 1)));
  }
}

const optionsSaid = ({ icePoint, boiling, against }: CalibrateOptions) =>
  [icePoint && "--ice-point", boiling && "--boiling", against && "--against"].filter(Boolean).join(", ");

const readingsSaid = ({ icePoint = [], boiling = [], against = [] }: CalibrateOptions) =>
  [...icePoint, ...boiling, ...against.map(({ reference, reading }) => `${reference}=${reading}`)].join(", ");

function sentencesOf(
  probe: string,
  { method, points, least, widest, dueUnixMs }: CalibrationTold,
  { madeUnixMs, nowUnixMs, options }: { madeUnixMs: number; nowUnixMs: number; options: CalibrateOptions },
): readonly string[] {
  const text = wordsFor(options).probes.calibrate;
  const hand = handOf(options.language ?? "en", 0);
  const due = dayText(dueUnixMs);
  return [
    text.found({ probe, method, points }, hand),
    text.uncertain({ least, widest, ...rangeOfUse }, hand),
    text.holdsFor(dayText(madeUnixMs)),
    dueUnixMs <= nowUnixMs ? text.overdueAlready(due) : text.dueAgain(due),
  ];
}

/** The day on this computer's calendar. */
export function dayText(unixMs: number): string {
  const local = new Date(unixMs - new Date(unixMs).getTimezoneOffset() * 60_000);
  return local.toISOString().slice(0, 10);
}
