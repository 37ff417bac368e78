import { describe, expect, test } from "vitest";
import { readLog } from "../../src/ingest/index.ts";
import type { LogMapping } from "../../src/schema/index.ts";
import { bytesOf, listed } from "./log-texts.ts";

const mapping: LogMapping = {
  format: "coldfall-log-mapping-2",
  time: "time",
  timeZone: "Europe/Berlin",
  positions: { cabinet: "cabinet" },
};

const read = (times: readonly string[], timeZone = "Europe/Berlin") =>
  readLog(bytesOf(["time,cabinet", ...times.map((time) => `${time},4`), ""].join("\n")), {
    file: "a.csv",
    mapping: { ...mapping, timeZone },
  });
const iso = (times: readonly string[], timeZone?: string) =>
  listed(read(times, timeZone).unixMs).map((unixMs) => new Date(unixMs).toISOString().slice(5, 16));

// Source: tz database. Europe/Berlin falls back on 25 October 2026 at 03:00 summer time, 01:00 UTC, and springs
// forward on 29 March 2026 at 02:00, 01:00 UTC; America/New_York falls back on 1 November 2026 at 06:00 UTC.
describe("in a named zone", () => {
  test("summer and winter have their own offsets", () => {
    expect(iso(["2026-06-04 07:00", "2026-12-04 07:00"])).toEqual(["06-04T05:00", "12-04T06:00"]);
  });

  test("the hour that occurs twice comes out in the order of the rows", () => {
    expect(
      iso([
        "2026-10-25 01:30",
        "2026-10-25 02:00",
        "2026-10-25 02:30",
        "2026-10-25 02:00",
        "2026-10-25 02:30",
        "2026-10-25 03:00",
      ]),
    ).toEqual(["10-24T23:30", "10-25T00:00", "10-25T00:30", "10-25T01:00", "10-25T01:30", "10-25T02:00"]);
  });

  test("rows an hour apart go through it once each", () => {
    expect(
      iso(["2026-10-25 00:00", "2026-10-25 01:00", "2026-10-25 02:00", "2026-10-25 02:00", "2026-10-25 03:00"]),
    ).toEqual(["10-24T22:00", "10-24T23:00", "10-25T00:00", "10-25T01:00", "10-25T02:00"]);
  });

  test("a clock set back by a minute within that hour is not taken for the hour's end", () => {
    expect(
      iso(["2026-10-25 01:59", "2026-10-25 02:00", "2026-10-25 02:01", "2026-10-25 02:00", "2026-10-25 02:01"]),
    ).toEqual(["10-24T23:59", "10-25T00:00", "10-25T00:01", "10-25T00:00", "10-25T00:01"]);
  });

  test("elsewhere too", () => {
    expect(
      iso(["2026-11-01 00:30", "2026-11-01 01:30", "2026-11-01 01:30", "2026-11-01 02:30"], "America/New_York"),
    ).toEqual(["11-01T04:30", "11-01T05:30", "11-01T06:30", "11-01T07:30"]);
  });

  test("a log that begins within that hour has no instants there, rather than wrong ones", () => {
    const log = read(["2026-10-25 02:30", "2026-10-25 02:45", "2026-10-25 03:00"]);
    expect(listed(log.unixMs)).toEqual([Date.UTC(2026, 9, 25, 2)]);
    expect(log.unreadable).toMatchObject([{ reason: "unreadable-time", readings: 2 }]);
  });

  test("an hour that is left out holds no instant", () => {
    const log = read(["2026-03-29 01:59", "2026-03-29 02:30", "2026-03-29 03:00"]);
    expect(listed(log.unixMs)).toEqual([Date.UTC(2026, 2, 29, 0, 59), Date.UTC(2026, 2, 29, 1)]);
  });

  test("every minute of both nights comes back from what the zone's own clock shows", () => {
    const shown = new Intl.DateTimeFormat("sv-SE", {
      timeZone: "Europe/Berlin",
      dateStyle: "short",
      timeStyle: "short",
    });
    for (const start of [Date.UTC(2026, 9, 24, 20), Date.UTC(2026, 2, 28, 20)]) {
      const minutes = Array.from({ length: 600 }, (_, minute) => start + minute * 60_000);
      expect(listed(read(minutes.map((unixMs) => shown.format(unixMs))).unixMs)).toEqual(minutes);
    }
  });
});
