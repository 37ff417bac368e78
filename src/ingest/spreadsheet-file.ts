// A spreadsheet program's own file, handed over where its CSV was meant.

import { BadInput } from "../schema/index.ts";

/**
 * First bytes of a ZIP archive, which .xlsx and .ods are (PKWARE APPNOTE 6.3.10, 4.3.7: local file header signature), and of a
 * compound file, which .xls is ([MS-CFB] 2.2: header signature). From memory. No text begins so.
 */
const beginnings = [
  [0x50, 0x4b, 0x03, 0x04],
  [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1],
];

/** @throws BadInput "is-spreadsheet" */
export function refuseSpreadsheet(bytes: Uint8Array, file: string): void {
  if (beginnings.some((beginning) => beginning.every((byte, at) => bytes[at] === byte)))
    throw new BadInput({ code: "is-spreadsheet", file });
}
