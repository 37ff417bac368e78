// 200 boards at one reading a second, three probes each: most over the network, a few on ptys, for two minutes. `npm run bench
// board-load`; LOAD_SECONDS shortens it, LOAD_VIEWERS pages look on. The load average stands beside the figures, since
// both run on the same machine.

import { loadavg } from "node:os";
import { boardLoad } from "../server/board-load-study.ts";
import { printMachine, printTable } from "./print.ts";

const seconds = Number(process.env.LOAD_SECONDS ?? 120);
const viewers = Number(process.env.LOAD_VIEWERS ?? 0);
const ptyBoards = 6;
const loadBefore = loadavg()[0];
const figures = await boardLoad({ networkBoards: 200 - ptyBoards, ptyBoards, seconds, seed: 1, viewers });
const { sent, kept, refused, networkMs, ptyMs, serviceShare, recorderShare, firstAnswerMs, shownMs, shown } = figures;

printTable(
  [`200 boards, ${seconds} s`, "measured", "goal"],
  [
    ["readings sent, and kept", `${sent}, ${kept}`, "all"],
    ["answers other than kept, by status (the pack was sent again)", JSON.stringify(refused), "none"],
    ["network, due to durable: median, 99th percentile, most", spread(networkMs), "99th below 1 s"],
    ["pty, due to durable: median, 99th percentile, most", spread(ptyMs), "99th below 1 s"],
    ...(firstAnswerMs === null || shown === null
      ? []
      : [
          [`live stream answers a further page, ${viewers} look on`, `${Math.round(firstAnswerMs)} ms`, ""],
          ["a reading is on a page, since its instant: median, 99th percentile, most", spread(shownMs), ""],
          ["readings that came to the page that got least", `${shown.least} of ${shown.all}`, "all"],
        ]),
    ["processor, of one core: service, recorders", `${percent(serviceShare)}, ${percent(recorderShare)}`, ""],
    ["load average of the machine, before and after", `${loadBefore.toFixed(1)}, ${loadavg()[0].toFixed(1)}`, ""],
  ],
);
printMachine();
if (kept !== sent) process.exitCode = 1;

function spread(ms: readonly number[]): string {
  const sorted = ms.toSorted((one, other) => one - other);
  const at = (share: number) => Math.round(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]);
  return `${at(0.5)}, ${at(0.99)}, ${at(1)} ms`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(0)} %`;
}
