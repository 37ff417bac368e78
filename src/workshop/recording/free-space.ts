// How much room there is where a store lies.

import { statfsSync } from "node:fs";
import { dirname } from "node:path";

/** MB beside the file; null where it cannot be told. */
export function freeMegabytesBeside(file: string): number | null {
  try {
    const { bavail, bsize } = statfsSync(dirname(file));
    return (bavail * bsize) / 1e6;
  } catch {
    return null;
  }
}
