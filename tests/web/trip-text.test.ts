import { expect, test } from "vitest";
import { readForecast } from "../../src/ingest/index.ts";
import type { ForecastRow } from "../../src/schema/index.ts";
import { readTrip } from "../../web/parts/trip-text.ts";

const summer = () => 120;
const rowsOf = (text: string, degrees: "C" | "F" = "C"): readonly ForecastRow[] => {
  const read = readTrip(text, degrees, summer);
  if ("problem" in read) throw new Error(`${read.problem} in line ${read.line}`);
  return read.rows;
};
const problemOf = (text: string) => {
  const read = readTrip(text, "C", summer);
  return "problem" in read ? [read.problem, read.line] : null;
};

test("a line is a time on this browser's clock, an ambient, a source and what the sun and the road do", () => {
  expect(rowsOf("2026-07-18 09:00, 27, gas, driving\n2026-07-18 13:00, 31.5, mains, sun")).toEqual([
    { unixMs: Date.parse("2026-07-18T07:00:00Z"), ambient: 27, source: "gas", sun: false, driving: true },
    { unixMs: Date.parse("2026-07-18T11:00:00Z"), ambient: 31.5, source: "mains", sun: true, driving: false },
  ]);
});

test("a time alone belongs to the day of the line before, or to the next one where the clock went round", () => {
  const [, evening, morning] = rowsOf("2026-07-18 09:00, 27, gas\n21:00, 22\n08:00, 20");
  expect(evening.unixMs).toBe(Date.parse("2026-07-18T19:00:00Z"));
  expect(morning.unixMs).toBe(Date.parse("2026-07-19T06:00:00Z"));
});

test("a line that names no source goes on with that of the line before", () => {
  expect(rowsOf("2026-07-18 09:00, 27, 12v\n12:00, 29\n15:00, 30, off").map(({ source }) => source)).toEqual([
    "dc12",
    "dc12",
    "off",
  ]);
});

test("columns pasted from a table, with semicolons and decimal commas, are read too", () => {
  expect(rowsOf("2026-07-18 09:00;27,5;gas\n2026-07-18 12:00;29,5;gas").map(({ ambient }) => ambient)).toEqual([
    27.5, 29.5,
  ]);
  expect(rowsOf("time\tambient\tsource\n2026-07-18T09:00:00Z\t27\tgas\n2026-07-18T12:00:00Z\t29\tgas")[0].unixMs).toBe(
    Date.parse("2026-07-18T09:00:00Z"),
  );
});

test("a first line that names the columns otherwise is passed over", () => {
  expect(rowsOf("Time;Temp.;Energy\n2026-07-18 09:00;27;gas\n12:00;29;off")[1]).toMatchObject({
    ambient: 29,
    source: "off",
  });
});

test("who reads in Fahrenheit types in Fahrenheit", () => {
  expect(rowsOf("2026-07-18 09:00, 77, gas\n12:00, 95, gas", "F").map(({ ambient }) => ambient)).toEqual([25, 35]);
});

test("degrees named beside a temperature count, whichever the reader has chosen", () => {
  for (const degrees of ["C", "F"] as const)
    expect(
      rowsOf("2026-07-18 09:00, 50 °F, gas\n12:00, 95F, gas\n15:00, 30°C, gas\n18:00, 22 °C, gas", degrees).map(
        ({ ambient }) => ambient,
      ),
    ).toEqual([10, 35, 30, 22]);
});

for (const [text, problem, line, why] of [
  ["tomorrow, 27, gas", "no-time", 1, "no time"],
  ["09:00, 27, gas", "no-time", 1, "a time alone in the first line"],
  ["2026-07-18 09:00, gas", "no-ambient", 1, "no ambient"],
  ["2026-07-18 09:00, 270, gas", "no-ambient", 1, "an ambient of no place on earth"],
  ["2026-07-18 09:00, 27", "no-source", 1, "no source so far"],
  ["2026-07-18 09:00, 27, coal", "strange-word", 1, "a word that is none of ours"],
  ["2026-07-18 09:00, 27, gas\n2026-07-18 08:00, 27", "not-later", 2, "time going backwards"],
  ["2026-07-18 09:00, 27, gas\n2026-08-19 09:00, 27", "too-long", 2, "more than a month"],
  ["2026-07-18 09:00, 27, gas", "too-few", 1, "a single line"],
] as const) {
  test(`a trip is refused, naming the line, for ${why}`, () => {
    expect(problemOf(text)).toEqual([problem, line]);
  });
}

test("a forecast file as the command line takes it: its columns say what yes and no mean, and it is in °C", () => {
  const file = [
    "time,ambient,source,sun,driving",
    "2026-07-18T09:00:00+02:00,27,gas,no,yes",
    "2026-07-18T13:00:00+02:00,33.5,dc12,yes,no",
    "2026-07-18T18:00:00+02:00,25,off,,",
  ].join("\r\n");
  for (const degrees of ["C", "F"] as const)
    expect(rowsOf(file, degrees)).toEqual([
      { unixMs: Date.parse("2026-07-18T07:00:00Z"), ambient: 27, source: "gas", sun: false, driving: true },
      { unixMs: Date.parse("2026-07-18T11:00:00Z"), ambient: 33.5, source: "dc12", sun: true, driving: false },
      { unixMs: Date.parse("2026-07-18T16:00:00Z"), ambient: 25, source: "off", sun: false, driving: false },
    ]);
});

test("a byte order mark and quoted cells, as spreadsheets write them, are no hindrance", () => {
  expect(
    rowsOf('\ufeff"time";"ambient";"source"\n"2026-07-18 09:00";"27,5";"gas"\n"2026-07-18 12:00";"29";"gas"')[0]
      .ambient,
  ).toBe(27.5);
});

for (const file of [
  "time,ambient,source\n2026-07-18T09:00:00+02:00,27,gas\n2026-07-18T13:00:00+02:00,33.5,12v\n",
  "time,ambient,source,sun,driving\n2026-07-18T09:00:00Z,27,GAS,shade,parked\n2026-07-18T13:00:00Z,-3,dc12,Sun,yes\n",
  "Driving,SOURCE,time,ambient\r\nyes,off,2026-07-18T09:00:00Z,27\r\nno,mains,2026-07-18T13:00:00Z,30\r\n",
]) {
  test(`the page and the command line read a forecast file alike: ${JSON.stringify(file.slice(0, 30))}`, () => {
    expect(rowsOf(file)).toEqual(readForecast(new TextEncoder().encode(file), "trip.csv").rows);
  });
}
