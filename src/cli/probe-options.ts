// What the values of the options of probes and boards mean.

import { decimalOf } from "../ingest/index.ts";
import { curveChecks } from "../science/sensors/index.ts";
import { badOption } from "./option-values.ts";

/** REFERENCE=READ, °C. @throws BadInput "bad-option" */
export function againstOf(text: string): { readonly reference: number; readonly reading: number } {
  const cut = text.indexOf("=");
  const [reference, reading] = [text.slice(0, Math.max(cut, 0)), text.slice(cut + 1)].map((part) =>
    decimalOf(part.trim()),
  );
  const isTemperature = (value: number) => value >= -60 && value <= 130;
  if (!isTemperature(reference) || !isTemperature(reading)) {
    throw badOption("--against", text, ({ probes }) => probes.calibrate.expectedAgainst);
  }
  return { reference, reading };
}

const numbersOf = (text: string) => text.split(",").map((part) => decimalOf(part.trim()));

/** OHMS,B: resistance at 25 °C in Ω, and the B parameter in K. @throws BadInput "bad-option" */
export function thermistorOf(text: string): { readonly ohmsAt25: number; readonly b: number } {
  const [ohmsAt25, b, ...rest] = numbersOf(text);
  if (rest.length > 0 || curveChecks({ kind: "thermistor-b", curve: { ohmsAt25, b } }) === null) {
    throw badOption("--thermistor", text, ({ probes }) => probes.curve.expectedThermistor);
  }
  return { ohmsAt25, b };
}

/** A,B,C of Steinhart and Hart. @throws BadInput "bad-option" */
export function coefficientsOf(text: string): { readonly a: number; readonly b: number; readonly c: number } {
  const [a, b, c, ...rest] = text.split(",").map((part) => (/^[-+.\deE\s]+$/.test(part) ? Number(part) : Number.NaN));
  if (![a, b, c].every(Number.isFinite) || rest.length > 0) {
    throw badOption("--steinhart-hart", text, ({ probes }) => probes.curve.expectedCoefficients);
  }
  return { a, b, c };
}

/** 1 or 2. @throws BadInput "bad-option" */
export function coupleClassOf(text: string): 1 | 2 {
  if (text !== "1" && text !== "2") throw badOption("--type-k", text, ({ probes }) => probes.curve.expectedCouple);
  return text === "1" ? 1 : 2;
}

/** Whole seconds as a board takes them. @throws BadInput "bad-option" */
export const secondsOf =
  (least: number) =>
  (text: string): number => {
    const seconds = decimalOf(text.trim());
    if (!(Number.isInteger(seconds) && seconds >= least && seconds <= 3600)) {
      throw badOption("--seconds", text, ({ probes }) => probes.boards.expectedSeconds(least));
    }
    return seconds;
  };

/** What a probe calls itself: something, not only blanks. @throws BadInput "bad-option" */
export function probeIdOf(text: string): string {
  const id = text.trim();
  if (id === "") throw badOption("PROBE", text, ({ keeping }) => keeping.probes.expectedId);
  return id;
}

/** A board's id, as its lines may carry it. @throws BadInput "bad-option" */
export function boardIdOf(text: string): string {
  if (!/^[0-9A-Za-z.-]{1,32}$/.test(text)) throw badOption("BOARD", text, ({ probes }) => probes.boards.expectedBoard);
  return text;
}
