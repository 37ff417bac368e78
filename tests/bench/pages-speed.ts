// A run of a million readings in a real browser: how soon its first curve is there, and how evenly it is panned and zoomed.
// npm run bench pages-speed prints a markdown table. Needs the pages built (npm run pages).

import { performance } from "node:perf_hooks";
import type { Page } from "playwright-core";
import { startBench } from "../browser/bench.ts";
import { launchBrowser } from "../browser/browser.ts";
import { printMachine, printTable } from "./print.ts";

const rows = Math.ceil(1_000_000 / 3);
const start = Date.parse("2026-06-01T19:00:00Z");

/** Three probes at 1 Hz over some four days: noise, and a pull-down every half day. */
function series(position: "evaporator" | "cabinet" | "ambient") {
  const values = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    const hours = (i / 3600) % 12;
    const noise = ((i * 7919) % 97) / 97 / 10;
    const ambient = 25 + 3 * Math.sin(i / 14_000) + noise;
    const cold = 24 * (1 - Math.exp(-0.3 * hours));
    values[i] = position === "ambient" ? ambient : position === "cabinet" ? ambient - cold : ambient - 1.3 * cold;
  }
  return values;
}

/** Frames a second, and the longest pause between two of them, ms, while something is done at every frame. */
const frames = (page: Page, doing: string) =>
  page.evaluate(`new Promise((resolve) => {
    const times = [];
    const plot = document.querySelector(".plot");
    const box = plot.getBoundingClientRect();
    const fire = (kind, x) => plot.dispatchEvent(new PointerEvent(kind, { pointerId: 1, clientX: x, clientY: box.top + 100, bubbles: true }));
    const step = (now) => {
      times.push(now);
      const i = times.length;
      ${doing}
      if (now - times[0] < 3000) requestAnimationFrame(step);
      else {
        const gaps = times.slice(1).map((time, at) => time - times[at]);
        resolve({ perSecond: (gaps.length * 1000) / (times.at(-1) - times[0]), longest: Math.max(...gaps) });
      }
    };
    requestAnimationFrame(step);
  })`) as Promise<{ perSecond: number; longest: number }>;

const bench = await startBench();
const browser = await launchBrowser();
try {
  const fridge = await bench.store.fridges.add({ name: "a million readings" });
  const run = await bench.store.runs.open({
    fridgeId: fridge.id,
    purpose: "test",
    origin: "file",
    startedUnixMs: start,
    utcOffsetMinutes: 120,
    name: "a million",
  });
  const unixMs = Float64Array.from({ length: rows }, (_, i) => start + i * 1000);
  const taking = bench.store.readings.import(run.id);
  taking.add({
    unixMs,
    columns: { evaporator: series("evaporator"), cabinet: series("cabinet"), ambient: series("ambient") },
    sourceCodes: new Uint8Array(rows).fill(2),
  });
  await taking.finish();
  await bench.store.runs.close(run.id, unixMs[rows - 1]);
  const page = await browser.newPage({ viewport: { width: 1200, height: 900 } });
  await page.goto(bench.base);
  await page.getByRole("heading", { name: "a million readings" }).waitFor();
  const began = performance.now();
  await page.goto(`${bench.base}/run/${run.id}`, { waitUntil: "commit" });
  await page.getByRole("img", { name: /Readings of a million.*cabinet/ }).waitFor({ timeout: 60_000 });
  const firstMs = performance.now() - began;
  // The verdict's own work would be measured too.
  await page.getByRole("heading", { name: "To take along" }).waitFor({ timeout: 60_000 });
  await page.waitForTimeout(3000);
  await page.locator(".plot").scrollIntoViewIfNeeded();
  for (let i = 0; i < 5; i++) await page.getByRole("button", { name: "Closer" }).click();
  await page.waitForTimeout(1000);
  await page.evaluate(
    `(() => { const plot = document.querySelector(".plot"); plot.setPointerCapture = () => {}; const box = plot.getBoundingClientRect();
      plot.dispatchEvent(new PointerEvent("pointerdown", { pointerId: 1, clientX: box.left + 300, clientY: box.top + 100, bubbles: true })); })()`,
  );
  const panned = await frames(page, 'fire("pointermove", box.left + 300 + 200 * Math.sin(i / 20));');
  const zoomed = await frames(
    page,
    'plot.dispatchEvent(new WheelEvent("wheel", { deltaY: Math.sin(i / 30) > 0 ? -60 : 60, ctrlKey: true, clientX: box.left + 400, bubbles: true, cancelable: true }));',
  );
  printTable(
    [`${(3 * rows).toLocaleString("en-GB")} readings`, "measured", "goal"],
    [
      ["from navigation to the first curve", `${Math.round(firstMs)} ms`, "1,000 ms"],
      [
        "panning",
        `${panned.perSecond.toFixed(0)} frames/s, longest pause ${panned.longest.toFixed(0)} ms`,
        "30 frames/s",
      ],
      [
        "zooming",
        `${zoomed.perSecond.toFixed(0)} frames/s, longest pause ${zoomed.longest.toFixed(0)} ms`,
        "30 frames/s",
      ],
    ],
  );
  printMachine();
} finally {
  await browser.close();
  await bench.close();
}
