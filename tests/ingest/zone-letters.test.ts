import { describe, expect, test } from "vitest";
import { type LogHints, readLog, understandLog } from "../../src/ingest/index.ts";
import { isZoneLetters, meaningOfLetters, offsetsOfLetters } from "../../src/ingest/zone-letters.ts";
import reference from "../reference/zone-letters.json" with { type: "json" };
import { bytesOf, listed } from "./log-texts.ts";

/** Written where the tz database has numbers or other letters now, and the German names. */
const besides: { readonly [letters: string]: readonly number[] } = { AST: [180], BST: [360], EDT: [660], EST: [600] };

// Source: tz database (IANA), release 2025b, tests/reference/zone-letters.json.
describe("letters stand for the offsets that the tz database has for them", () => {
  for (const [letters, offsets] of Object.entries(reference.letters.offsets)) {
    test(letters, () => {
      expect(new Set(offsetsOfLetters(letters))).toEqual(new Set([...offsets, ...(besides[letters] ?? [])]));
    });
  }

  test("MEZ and MESZ are CET and CEST", () => {
    expect([offsetsOfLetters("MEZ"), offsetsOfLetters("MESZ")]).toEqual([[60], [120]]);
  });

  test("am and pm, and words that are no zone, are none", () => {
    expect(["AM", "PM", "UHR", "XYZ"].filter(isZoneLetters)).toEqual([]);
  });
});

const summer = Date.UTC(2026, 6, 1, 7);
const winter = Date.UTC(2026, 0, 7, 7);

describe("what letters mean in a log", () => {
  for (const [what, letters, walls, told, zone] of [
    ["one offset in all the world", "CEST", [summer], undefined, "+02:00"],
    ["winter's letters in winter", "CET", [winter], undefined, "+01:00"],
    ["offsets of other years do not count", "MSK", [summer], undefined, "+03:00"],
    ["the zone told has these letters then", "BST", [summer], "Europe/London", "+01:00"],
    ["another zone told that has them", "BST", [summer], "Asia/Dhaka", "+06:00"],
    ["the offset told is one of theirs", "CST", [winter], "+08:00", "+08:00"],
    ["winter's letters all year, told by the zone", "CET", [winter, summer], "Europe/Berlin", "Europe/Berlin"],
    ["a clock never put forward, told by the offset", "CET", [winter, summer], "+01:00", "+01:00"],
    ["a zone told that keeps winter's time all year", "CET", [summer], "Africa/Algiers", "+01:00"],
    ["a zone told that never has them changes nothing", "CEST", [summer], "America/New_York", "+02:00"],
  ] as const) {
    test(`${what}: ${letters} is ${zone}`, () => {
      expect(meaningOfLetters(letters, walls, { told })).toMatchObject({ outcome: "settled", zone });
    });
  }

  for (const [what, letters, walls, zones] of [
    ["several zones", "BST", [summer], ["Europe/London", "Asia/Dhaka"]],
    ["winter's letters in summer", "CET", [winter, summer], ["+01:00", "Europe/Paris"]],
    ["summer's letters in winter", "CEST", [winter], ["+02:00", "Europe/Paris"]],
  ] as const) {
    test(`${what}: ${letters} is asked about`, () => {
      expect(meaningOfLetters(letters, walls, {})).toMatchObject({ outcome: "open", zones });
    });
  }

  test("the zone of this computer is named first where it goes by the letters, and decides nothing", () => {
    const open = meaningOfLetters("EST", [summer], { here: "America/Toronto" });
    expect(open).toMatchObject({ outcome: "open", zones: ["America/Toronto", "-05:00", "Australia/Brisbane"] });
  });
});

const log = (...times: string[]) => ["Time,Fridge °C", ...times.map((time) => `${time},4.5`), ""].join("\n");
const iso = (text: string, hints: LogHints = {}) => {
  const mapping = understandLog(bytesOf(text), hints)?.mapping ?? undefined;
  return listed(readLog(bytesOf(text), { file: "a.csv", mapping }).unixMs).map((unixMs) =>
    new Date(unixMs).toISOString().slice(0, 16),
  );
};

describe("a log with letters behind its times", () => {
  test("is read without a question where they have one meaning", () => {
    expect(iso(log("2026-07-01 07:00 CEST", "2026-07-01 07:01 CEST"))).toEqual([
      "2026-07-01T05:00",
      "2026-07-01T05:01",
    ]);
    expect(iso(log("01.07.2026 07:00:10 (MESZ)", "31.07.2026 07:00:20 MESZ"))[0]).toBe("2026-07-01T05:00");
  });

  test("UTC, GMT and Z are plain", () => {
    expect(iso(log("2026-07-01 07:00 UTC", "2026-07-01 07:01 GMT", "2026-07-01 07:02Z"))).toEqual([
      "2026-07-01T07:00",
      "2026-07-01T07:01",
      "2026-07-01T07:02",
    ]);
  });

  test("tells the hour that occurs twice apart", () => {
    const twice = log("2026-10-25 02:30 CEST", "2026-10-25 02:30 CET");
    expect(iso(twice)).toEqual(["2026-10-25T00:30", "2026-10-25T01:30"]);
    expect(iso(log("2026-10-25 01:30 BST", "2026-10-25 01:30 GMT"), { zone: "Europe/London" })).toEqual([
      "2026-10-25T00:30",
      "2026-10-25T01:30",
    ]);
  });

  test("is asked about where they have several, with the instants", () => {
    const understanding = understandLog(bytesOf(log("2026-07-01 07:00 BST")));
    expect(understanding).toMatchObject({
      mapping: null,
      questions: [
        {
          about: "zone",
          letters: "BST",
          line: 2,
          readings: [
            { answer: "Europe/London", unixMs: Date.UTC(2026, 6, 1, 6) },
            { answer: "Asia/Dhaka", unixMs: Date.UTC(2026, 6, 1, 1) },
          ],
        },
      ],
    });
    expect(() => readLog(bytesOf(log("2026-07-01 07:00 BST")), { file: "a.csv" })).toThrow(
      expect.objectContaining({ code: "two-readings" }),
    );
  });

  test("is asked about both day and zone where both are open", () => {
    const asked = understandLog(bytesOf(log("03/04/2026 07:00 BST")))?.questions.map(({ about }) => about);
    expect(asked).toEqual(["date-order", "zone"]);
  });

  test("is read through its mapping, whose letters mean what was told, further down too", () => {
    const head = log("2026-10-24 07:00 EDT");
    const mapping = understandLog(bytesOf(head), { zone: "America/New_York" })?.mapping ?? undefined;
    expect(mapping).toMatchObject({ timeZone: "America/New_York", zoneNames: { EDT: "-04:00" } });
    const whole = log("2026-10-24 07:00 EDT", "2026-11-02 07:00 EST");
    expect(listed(readLog(bytesOf(whole), { file: "a.csv", mapping }).unixMs)).toEqual([
      Date.UTC(2026, 9, 24, 11),
      Date.UTC(2026, 10, 2, 12),
    ]);
  });

  test("that nobody explained are no times, and are counted", () => {
    const mapping = understandLog(bytesOf(log("2026-07-01 07:00Z")))?.mapping ?? undefined;
    const mixed = log("2026-07-01 07:00Z", "2026-07-01 07:01 BST");
    expect(readLog(bytesOf(mixed), { file: "a.csv", mapping }).unreadable).toMatchObject([
      { position: "time", reason: "unreadable-time", firstText: "2026-07-01 07:01 BST" },
    ]);
  });
});

describe("a column of zones alone", () => {
  for (const [what, header, zones, expected] of [
    ["letters", "Zone", ["CEST", "CET"], ["2026-10-25T00:30", "2026-10-25T01:30"]],
    ["offsets", "Time zone", ["+02:00", "+01:00"], ["2026-10-25T00:30", "2026-10-25T01:30"]],
    ["a zone's name", "tz", ["Europe/Helsinki", "Europe/Helsinki"], ["2026-10-24T23:30", "2026-10-24T23:30"]],
    ["UTC", "Zeitzone", ["UTC", "UTC"], ["2026-10-25T02:30", "2026-10-25T02:30"]],
  ] as const) {
    test(`is read with the times: ${what}`, () => {
      const rows = zones.map((zone) => `2026-10-25,02:30,${zone},4.5`);
      expect(iso(["Date,Time,".concat(header, ",Fridge °C"), ...rows, ""].join("\n"))).toEqual(expected);
    });
  }

  test("of which one cell is empty leaves that row's zone open", () => {
    const rows = Array.from({ length: 40 }, (_, minute) => {
      const clock = `0${6 + Math.floor(minute / 60)}:${String(minute).padStart(2, "0")}`;
      return `2026-06-04 ${clock},${minute === 20 ? "" : "+02:00"},4.5`;
    });
    const text = ["Time,Time zone,Fridge °C", ...rows, ""].join("\n");
    expect(understandLog(bytesOf(text))?.questions.map(({ about }) => about)).toEqual(["zone"]);
  });

  test("under a header that is no zone's is a probe without a place", () => {
    const text = "Time (UTC),Zone 1 °C\n2026-06-04 07:00,4.5\n";
    expect(understandLog(bytesOf(text))?.questions.map(({ about }) => about)).toEqual(["column"]);
  });
});
