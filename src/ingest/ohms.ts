// Ohms where °C are wanted: a logger of resistances writes numbers too, and 11,441 of them are no temperature. What a header
// names is found while a log is understood; what no header names shows in the values.

import { BadInput, type LogUnderstanding, type Position } from "../schema/index.ts";
import { celsiusOf, hottestCelsius } from "./temperature-unit.ts";
import { showable } from "./unreadable-cells.ts";

/** Whether a header names ohms. */
export const namesOhms = (text: string) =>
  /(?<!\p{L})(?:[kM]?ohms?|resistance|widerstand)(?!\p{L})|[\u03a9\u2126]/iu.test(text);

/**
 * Whether numbers are too high for the hottest place in °C, °F and kelvin alike. One and the same number all along is what a
 * logger writes where no probe is.
 */
export const areBeyondUnits = (values: readonly number[]) =>
  values.some((value) => value !== values[0]) &&
  values.every((value) => units.every((unit) => celsiusOf(value, unit) > hottestCelsius));

const units = ["Cel", "[degF]", "K"] as const;

/** @throws BadInput "looks-like-ohms" for a log one of whose probes is in ohms, as its header says */
export function refuseOhms({ ohms }: LogUnderstanding, file: string): void {
  if (ohms !== undefined) throw new BadInput({ code: "looks-like-ohms", file, ...ohms });
}

interface Values {
  readonly columns: { readonly [P in Position]?: ArrayLike<number> };
}

/** Looks at all values of a log, piece by piece: whether there is a probe none of whose readings can be °C. */
export class HotColumns {
  readonly #seen = new Map<Position, { first: number; isSteady: boolean; isHot: boolean }>();

  see({ columns }: Values): void {
    for (const [name, values] of Object.entries(columns) as [Position, ArrayLike<number>][]) {
      if (name === "supply") continue;
      for (let row = 0; row < values.length; row++) {
        const value = values[row];
        if (Number.isNaN(value)) continue;
        const seen = this.#seen.get(name);
        if (seen === undefined) this.#seen.set(name, { first: value, isSteady: true, isHot: value > hottestCelsius });
        else if (!seen.isHot) break;
        else {
          seen.isHot = value > hottestCelsius;
          if (value !== seen.first) seen.isSteady = false;
        }
      }
    }
  }

  /** @throws BadInput "looks-like-ohms"; one and the same number all along is what a logger writes where no probe is */
  refuse(file: string): void {
    for (const [column, { first, isSteady, isHot }] of this.#seen)
      if (isHot && !isSteady) throw new BadInput({ code: "looks-like-ohms", file, column, text: showable(`${first}`) });
  }
}
