// A folder for the store files of one test, taken away afterwards.

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

export class StoreFolder {
  readonly path = mkdtempSync(join(tmpdir(), "coldfall-store-"));

  file(name = "workshop.coldfall"): string {
    return join(this.path, name);
  }

  remove(): void {
    rmSync(this.path, { recursive: true, force: true });
  }
}
