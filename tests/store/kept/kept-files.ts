// The kept store files: one per version, gzipped, as that version wrote it. They are never written anew.

import { readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gunzipSync, gzipSync } from "node:zlib";

/** Where that version's store is kept. */
export const pathOfKept = (version: number): string =>
  fileURLToPath(new URL(`./version-${version}.coldfall.gz`, import.meta.url));

/** Unpacks the store of that version into a file. */
export const unpackKept = (version: number, file: string): void =>
  writeFileSync(file, gunzipSync(readFileSync(pathOfKept(version))));

/** Keeps a closed store's file as that version's. */
export const keep = (version: number, file: string): void =>
  writeFileSync(pathOfKept(version), gzipSync(readFileSync(file), { level: 9 }), { flag: "wx" });
