import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { sampleFiles } from "../sample-logs/make.ts";

const folder = fileURLToPath(new URL("../sample-logs", import.meta.url));

test("the sample logs are what their recipe makes", () => {
  const files = [...sampleFiles()];
  expect(files.length).toBeGreaterThan(10);
  const other = files.filter(([path, text]) => readFileSync(join(folder, path), "utf8") !== text).map(([path]) => path);
  expect(other).toEqual([]);
});

test("no sample runs gas in the night: every gas row lies between 7:00 and 21:00 local time", () => {
  const gasHours = [...sampleFiles()]
    .filter(([path]) => path.endsWith(".csv"))
    .flatMap(([, text]) => text.split("\r\n").filter((line) => line.endsWith(",gas")))
    .map((line) => Number(line.slice(11, 13)));
  expect(gasHours.length).toBeGreaterThan(500);
  expect(Math.min(...gasHours)).toBeGreaterThanOrEqual(7);
  expect(Math.max(...gasHours)).toBeLessThan(21);
});

test("every sample that burned gas says in its sheet's own field that flame, flue, leaks and carbon monoxide were checked", () => {
  const files = sampleFiles();
  const onGas = [...files].filter(([path, text]) => path.endsWith(".csv") && /,gas\r?$/m.test(text));
  expect(onGas.length).toBeGreaterThan(10);
  const unsaid = onGas
    .map(([path]) => path.replace(/\.csv$/, ".sheet.json"))
    .filter((path) => JSON.parse(files.get(path) ?? "{}").gasChecked !== true);
  expect(unsaid).toEqual([]);
});
