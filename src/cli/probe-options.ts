// What the values of the options of probes and boards mean.

import { decimalOf } from "../ingest/index.ts";
import { words } from "../report/index.ts";
import { badOption } from "./option-values.ts";

const { calibrate, boards } = words("en").probes;

/** REFERENCE=READ, °C. @throws BadInput "bad-option" */
export function againstOf(text: string): { readonly reference: number; readonly reading: number } {
  const cut = text.indexOf("=");
  const [reference, reading] = [text.slice(0, Math.max(cut, 0)), text.slice(cut + 1)].map((part) =>
    decimalOf(part.trim()),
  );
  const isTemperature = (value: number) => value >= -60 && value <= 130;
  if (!isTemperature(reference) || !isTemperature(reading)) {
    throw badOption("--against", text, calibrate.expectedAgainst);
  }
  return { reference, reading };
}

/** Whole seconds as a board takes them. @throws BadInput "bad-option" */
export const secondsOf =
  (least: number) =>
  (text: string): number => {
    const seconds = decimalOf(text.trim());
    if (!(Number.isInteger(seconds) && seconds >= least && seconds <= 3600)) {
      throw badOption("--seconds", text, boards.expectedSeconds(least));
    }
    return seconds;
  };

/** A board's id, as its lines may carry it. @throws BadInput "bad-option" */
export function boardIdOf(text: string): string {
  if (!/^[0-9A-Za-z.-]{1,32}$/.test(text)) throw badOption("BOARD", text, boards.expectedBoard);
  return text;
}
