// 200 kills at random instants during recording and import: node tests/bench/run.ts kill-study [KILLS] [SEED].

import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { killStudy } from "../workshop/kill-study.ts";
import { printMachine } from "./print.ts";

const [, kills = "200", seed = "7"] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), "coldfall-kills-"));
try {
  const counts = await killStudy(folder, Number(kills), Number(seed));
  const share = counts.amidWriting / counts.kills;
  console.log("| killed while recording and importing | |");
  console.log("| --- | --- |");
  console.log(`| kills, seed ${seed} | ${counts.kills} |`);
  console.log(
    `| of them between the first and the last write (80 % at least, or the study has failed) | ${(100 * share).toFixed(0)} % |`,
  );
  console.log(`| logs that went in whole | ${counts.finished} |`);
  console.log(`| acknowledged readings lost | ${counts.lost} |`);
  console.log(`| stores damaged | ${counts.damaged} |`);
  console.log(`| imports half there | ${counts.halfImported} |`);
  printMachine();
  if (share < 0.8 || counts.lost + counts.damaged + counts.halfImported > 0) process.exitCode = 1;
} finally {
  rmSync(folder, { recursive: true });
}
