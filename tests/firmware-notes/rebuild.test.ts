// The kept hex file is what the kept source gives. Where Debian's gcc-avr is not installed, the other tests run the kept file
// all the same.

import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, test } from "vitest";
import { BoardLines } from "../../src/ingest/board-lines.ts";
import { EmulatedBoard, firmwareFolder, keptHex } from "./emulated-board.ts";

const keptCompiler = readFileSync(path.join(firmwareFolder, "probe-board.compiler"), "utf8").trim();
const compiler = spawnSync("avr-gcc", ["-dumpversion"], { encoding: "utf8" });
const compilerHere = compiler.status === 0 ? compiler.stdout.trim() : null;

test("the source, built anew, is the kept hex file where the same compiler is installed, and runs where another is", () => {
  if (compilerHere === null) {
    console.warn(
      `avr-gcc is not installed: the firmware was not rebuilt; the kept hex file (avr-gcc ${keptCompiler}) is tested`,
    );
    expect(readFileSync(keptHex, "utf8")).toMatch(/^(:[0-9A-F]+\r?\n)+:00000001FF\s*$/);
    return;
  }
  const folder = mkdtempSync(path.join(tmpdir(), "coldfall-firmware-"));
  try {
    const built = spawnSync("sh", [path.join(firmwareFolder, "build.sh"), folder], { encoding: "utf8" });
    expect(built.status, built.stderr).toBe(0);
    const hexFile = path.join(folder, "probe-board.hex");
    if (compilerHere === keptCompiler) expect(readFileSync(hexFile, "utf8")).toBe(readFileSync(keptHex, "utf8"));
    else console.warn(`avr-gcc ${compilerHere} is not the kept file's ${keptCompiler}: run, not compared`);
    const board = new EmulatedBoard({ hexFile });
    board.addSensor([1, 2, 3, 4, 5, 6], 4);
    const [hello] = new BoardLines().push(board.run(0.3));
    expect(hello).toMatchObject({ outcome: "good", line: { type: "hello" } });
  } finally {
    rmSync(folder, { recursive: true });
  }
});
