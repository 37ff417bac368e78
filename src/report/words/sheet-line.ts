// What the lines of a told run sheet are made of, in every language.

import { type HeatSource, heatSources, type RunSheet } from "../../schema/index.ts";
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

/** What a field says, written; null where the sheet does not say. */
export const stated = <V>(value: V | undefined, write: (value: V) => string): string | null =>
  value === undefined ? null : write(value);

/** Of a tilt. */
export const degrees = (value: number, hand: Hand): string => `${hand.number(value, 1)}°`;

/** "gas 170 W, mains 135 W", the sources as a language calls them. */
export const bySourceAs =
  (nameOf: (source: HeatSource) => string) =>
  (values: { readonly [S in HeatSource]?: number | undefined }, unit: "W" | "V", hand: Hand): string | null => {
    const told = heatSources.flatMap(
      (source) =>
        stated(
          values[source],
          (value) => `${nameOf(source)} ${hand.quantity(value, unit, Number.isInteger(value) ? 0 : 1)}`,
        ) ?? [],
    );
    return told.length === 0 ? null : told.join(", ");
  };
