// Another file handed over where a log was meant: a spreadsheet program's own, one of ours, a page.

import { BadInput, type NoLog } from "../schema/index.ts";
import { encodingOf } from "./text-encoding.ts";

/**
 * First bytes of a ZIP archive, which .xlsx and .ods are (PKWARE APPNOTE 6.3.10, 4.3.7: local file header signature), and of a
 * compound file, which .xls is ([MS-CFB] 2.2: header signature). From memory. No text begins so.
 */
const ofSpreadsheets = ["PK\u0003\u0004", "\u00d0\u00cf\u0011\u00e0\u00a1\u00b1\u001a\u00e1"];

/** What else is no log, by how it begins; the first that fits. SenML, the JSON that is one, begins with a bracket. */
const beginnings: readonly (readonly [RegExp, NoLog])[] = [
  // The SQLite database file format, 1.3: the header string.
  [/^SQLite format 3\0/, "store"],
  [/^%PDF-/, "page"],
  [/^\s*<(!doctype html|html)\b/i, "page"],
  [/^\s*\{.*?"coldfall-baseline-\d/s, "baseline"],
  [/^\s*\{.*?"coldfall-log-mapping-\d/s, "mapping"],
  [/^\s*\{.*?"coldfall-run-sheet-\d/s, "run-sheet"],
  [/^\s*\{.*?"coldfall-fridge-\d/s, "fridge-export"],
  [/^\s*\{.*?"coldfall-[a-z-]+-\d/s, "result"],
  [/^\s*\{\s*"/, "json"],
];

/** So much tells what a file is. */
const lookedAt = 400;

/** @throws BadInput "is-spreadsheet", "is-no-log" */
export function refuseNoLog(bytes: Uint8Array, file: string): void {
  const begin = String.fromCharCode(...bytes.subarray(0, lookedAt)).replace(/^\u00ef\u00bb\u00bf/, "");
  if (ofSpreadsheets.some((signature) => begin.startsWith(signature)))
    throw new BadInput({ code: "is-spreadsheet", file });
  const found = beginnings.find(([beginning]) => beginning.test(begin));
  if (found !== undefined) throw new BadInput({ code: "is-no-log", file, is: found[1] });
  if (!isText(bytes.subarray(0, lookedAt))) throw new BadInput({ code: "is-no-log", file, is: "no-text" });
}

/** Text has hardly any control characters; a logger that lost its power may leave a few zeros. */
const mostControls = 0.05;

function isText(begin: Uint8Array): boolean {
  if (encodingOf(begin).encoding.startsWith("utf-16")) return true;
  const controls = begin.filter((byte) => (byte < 0x20 && !whiteSpace.has(byte)) || byte === 0x7f).length;
  return controls <= mostControls * begin.length;
}

/** Tab, line feed, vertical tab, form feed, carriage return, and the end of a file on old disks. */
const whiteSpace = new Set([0x09, 0x0a, 0x0b, 0x0c, 0x0d, 0x1a]);
