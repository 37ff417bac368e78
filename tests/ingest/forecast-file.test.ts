import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { readForecast } from "../../src/ingest/index.ts";
import { handOf, say, words } from "../../src/report/index.ts";
import { BadInput } from "../../src/schema/index.ts";
import { bytesOf, refusal } from "./log-texts.ts";

const file = "trips/trip.csv";
const read = (...lines: readonly string[]) => readForecast(bytesOf(lines.join("\n")), file);
const first = "2026-07-10T08:00:00+02:00,25,mains";
const second = "2026-07-10T09:00:00+02:00,27.5,off";

test("a forecast's rows hold time, ambient and source; sun and driving are no unless said", () => {
  const { name, utcOffsetMinutes, rows } = read("time,ambient,source", first, second, "");
  expect({ name, utcOffsetMinutes }).toEqual({ name: "trip.csv", utcOffsetMinutes: 120 });
  expect(rows).toEqual([
    { unixMs: Date.parse("2026-07-10T06:00:00Z"), ambient: 25, source: "mains", sun: false, driving: false },
    { unixMs: Date.parse("2026-07-10T07:00:00Z"), ambient: 27.5, source: "off", sun: false, driving: false },
  ]);
});

for (const [sun, is] of [
  ["sun", true],
  ["yes", true],
  ["Sun", true],
  ["shade", false],
  ["no", false],
  ["", false],
] as const) {
  test(`"${sun}" in the sun column is ${is ? "sun" : "shade"}`, () => {
    expect(read("time,ambient,source,sun", `${first},${sun}`, `${second},no`).rows[0].sun).toBe(is);
  });
}

test("columns may come in any order and in either case, lines may end as on any system, cells may be quoted", () => {
  const { rows } = read(
    "Driving,SOURCE,time,ambient\r",
    `yes,dc12,"2026-07-10T08:00:00Z",-3\r`,
    `no,gas,2026-07-10T09:00:00Z,31\r`,
  );
  expect(rows.map(({ source, ambient, driving }) => ({ source, ambient, driving }))).toEqual([
    { source: "dc12", ambient: -3, driving: true },
    { source: "gas", ambient: 31, driving: false },
  ]);
});

describe("what cannot be used is refused in one sentence with file, line and value", () => {
  const cases: readonly (readonly [string, readonly string[], RegExp])[] = [
    ["an empty file", [""], /no row/],
    ["a header alone", ["time,ambient,source"], /no row/],
    ["one row", ["time,ambient,source", first], /only one row/],
    ["a missing column", ["time,source", "x,y", "x,y"], /line 1: .*"ambient".*"time,source"/],
    ["a misspelt column", ["time,ambient,source,sunny", `${first},yes`], /line 1: "sunny"/],
    ["semicolons", ["time;ambient;source", first.replaceAll(",", ";")], /put commas between/],
    ["a doubled column", ["time,ambient,source,ambient", `${first},3`], /"ambient" is there twice/],
    [
      "a time without offset",
      ["time,ambient,source", "2026-07-10T08:00:00,25,mains", second],
      /line 2: "2026-07-10T08:00:00"/,
    ],
    ["an ambient that is no number", ["time,ambient,source", first, "2026-07-10T09:00:00Z,27;5,off"], /line 3: "27;5"/],
    ["an ambient nobody camps in", ["time,ambient,source", "2026-07-10T08:00:00Z,250,mains", second], /line 2: "250"/],
    ["a source that is none", ["time,ambient,source", first, "", "2026-07-10T09:00:00Z,27,diesel"], /line 4: "diesel"/],
    ["a sun that is neither", ["time,ambient,source,sun", `${first},maybe`, `${second},no`], /line 2: "maybe"/],
    ["a driving that is neither", ["time,ambient,source,driving", `${first},1`, `${second},no`], /line 2: "1"/],
    ["a row too short", ["time,ambient,source,sun", `${first}`, `${second},no`], /line 2: 3 cells/],
    [
      "a time that goes backwards",
      ["time,ambient,source", second, first],
      /line 3: 2026-07-10T06:00:00Z does not come after 2026-07-10T07:00:00Z/,
    ],
    ["a time twice", ["time,ambient,source", first, first], /line 3: /],
    ["more than a month", ["time,ambient,source", first, "2026-09-10T09:00:00Z,27,off"], /line 3: .*more than 31 days/],
  ];
  for (const [name, lines, wanted] of cases) {
    test(name, () => {
      const sentence = say(
        words("en").badInput,
        refusal(() => read(...lines)),
        handOf("en", 0),
      );
      expect(sentence).toMatch(wanted);
      expect(sentence).toContain(`"${file}"`);
      expect(sentence).toMatch(/^[^\n]+\.$/);
    });
  }
});

property.prop([
  fc.oneof(
    fc.string(),
    fc
      .array(fc.constantFrom("time", "ambient", "source", ",", "\n", "gas", first, second, '"', "25", "\r"))
      .map((parts) => parts.join("")),
  ),
])("any text is read or refused, never a crash", (text) => {
  try {
    const { rows } = readForecast(bytesOf(text), file);
    expect(rows.length).toBeGreaterThanOrEqual(2);
  } catch (error) {
    expect(error).toBeInstanceOf(BadInput);
  }
});
