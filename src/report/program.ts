// Which program and which method made a result: stated in every result, so that figures of different
// methods are recomputed before they are compared.

import { readFileSync } from "node:fs";

interface Package {
  readonly version: string;
}

const ownPackage = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as Package;

/** Name and version of the program, and the version of the way it judges: counted up by whatever moves a figure of a result. */
export const program = { name: "coldfall", version: ownPackage.version, method: "5" } as const;
