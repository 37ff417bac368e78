// A week of a reading a second from three probes at full speed: node tests/bench/run.ts soak [HOURS] [SEED].

import { mkdtempSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { soak } from "../workshop/soak-study.ts";
import { printMachine, printTable } from "./print.ts";

// The collector by name, without asking for a flag on the command line.
setFlagsFromString("--expose-gc");
globalThis.gc = runInNewContext("gc");

const [, hours = "168", seed = "11"] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), "coldfall-soak-"));
const loadBefore = loadavg()[0];
try {
  const { sent, stored, missing, damaged, seconds, heap, resident } = await soak(folder, Number(hours), Number(seed));
  const last = heap.slice(heap.length >> 1);
  const growth = (last[last.length - 1] - last[0]) / 1e6;
  printTable(
    [`${hours} h, three probes at 1 Hz, seed ${seed}`, "measured", "goal"],
    [
      ["readings sent, stored, missing", `${sent}, ${stored}, ${missing}`, "none missing"],
      ["blocks damaged", `${damaged}`, "0"],
      ["took", `${seconds.toFixed(0)} s, ${(sent / seconds / 1000).toFixed(1)} thousand readings/s`, ""],
      [
        "heap in use: begin, half, end",
        `${megabytes(heap[0])}, ${megabytes(last[0])}, ${megabytes(heap[heap.length - 1])}`,
        "",
      ],
      ["its growth over the last half", `${growth.toFixed(1)} MB`, "flat"],
      ["whole process, last half: least, most", range(resident.slice(resident.length >> 1)), "flat"],
      ["load average of the machine, before and after", `${loadBefore.toFixed(1)}, ${loadavg()[0].toFixed(1)}`, ""],
    ],
  );
  printMachine();
  if (missing + damaged > 0 || stored !== sent) process.exitCode = 1;
} finally {
  rmSync(folder, { recursive: true });
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}

function range(bytes: readonly number[]): string {
  return `${megabytes(Math.min(...bytes))}, ${megabytes(Math.max(...bytes))}`;
}
