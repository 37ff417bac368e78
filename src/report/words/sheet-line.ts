// What the lines of a told run sheet are made of, in every language.

import type { RunSheet } from "../../schema/index.ts";
import type { Hand } from "../hand.ts";

/** A line of a run sheet as it is read; no text where the sheet does not say. */
export interface SheetLine {
  readonly name: string;
  readonly value: (sheet: RunSheet, hand: Hand) => string | null | undefined;
}

/** A moment of a run sheet on the clock of its run; one that names no clock was meant on that one. */
export const sheetMoment = (text: string, hand: Hand): string =>
  namesItsClock.test(text)
    ? // In a narrow column the time of day may go on the next line.
      hand.period(Date.parse(text), Date.parse(text), "with year").replace(/\u00a0(?=\d+:)/, " ")
    : text.slice(0, 16).replace("T", " ");

const namesItsClock = /(Z|[+-]\d\d:\d\d)$/;
