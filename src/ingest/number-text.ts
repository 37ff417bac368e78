// Numbers as other loggers write them: a decimal comma, a unit behind, a true minus sign.

import type { TemperatureUnit } from "../schema/index.ts";
import { decimalOf } from "./text-log.ts";

const numberAndUnit = /^([+-]?[\d.,]+(?:e[+-]?\d+)?)\s*((?:[°º˚]|deg)\s*[CFK]|[CFKV]|℃|℉)$/i;

/** The number in a cell, or NaN; thousands are not separated. */
export const numberOf = (cell: string, decimal: "." | ","): number => quantityOf(cell, decimal).value;

/** The number in a cell with the unit behind it, if there is one. */
export function quantityOf(
  cell: string,
  decimal: "." | ",",
): { readonly value: number; readonly unit: TemperatureUnit | "V" | undefined } {
  const plain = cell.replace("\u2212", "-");
  const parts = endsInUnit(plain) ? numberAndUnit.exec(plain) : null;
  const bare = parts?.[1] ?? plain;
  const value = decimalOf(decimal === "," ? bare.replace(",", ".") : bare);
  return { value, unit: parts === null ? undefined : unitOf(parts[2]) };
}

/** Most cells end in a digit, and need no second look. */
const endsInUnit = (cell: string) => cell !== "" && !(cell.charCodeAt(cell.length - 1) <= 0x39);

function unitOf(text: string): TemperatureUnit | "V" {
  const letter = text.charAt(text.length - 1).toUpperCase();
  if (letter === "C" || letter === "℃") return "Cel";
  if (letter === "F" || letter === "℉") return "[degF]";
  return letter === "K" ? "K" : "V";
}

/** Numbers with a comma for the decimals: "26,9375". */
export const hasDecimalComma = (cell: string) => /^[+\u2212-]?\d*,\d+(?!.*[,.])/.test(cell);
