import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { readLog, resolveSenml } from "../../src/ingest/index.ts";
import { BadInput } from "../../src/schema/index.ts";
import reference from "../reference/senml.json" with { type: "json" };
import { bytesOf, listed, refusal } from "./log-texts.ts";

const read = (pack: unknown) => readLog(bytesOf(JSON.stringify(pack)), { file: "night.senml" });
const at = Date.UTC(2026, 5, 4, 7) / 1000;

// Source: RFC 8428 (2018), sections 2 and 5.1, packs with their resolved form.
describe("the examples of RFC 8428", () => {
  for (const { rfcSection, pack, resolved, now } of reference.senml.examples as readonly {
    readonly rfcSection: string;
    readonly pack: readonly { readonly bver?: number }[];
    readonly resolved: readonly object[];
    readonly now?: number;
  }[]) {
    test(`section ${rfcSection} resolves as the RFC says`, () => {
      const records = resolveSenml(pack, "rfc.senml", now === undefined ? {} : { unixMs: now * 1000 });
      // Section 4.6 wants a version other than 10 in every resolved record; the working group's file leaves it out.
      const version = pack[0].bver === undefined ? {} : { bver: pack[0].bver };
      expect(inOrder(records)).toEqual(inOrder(resolved.map((record) => ({ ...record, ...version }))));
    });

    if (now !== undefined) {
      test(`section ${rfcSection} has times relative to now, and is refused while nobody says when that was`, () => {
        expect(refusal(() => resolveSenml(pack, "rfc.senml"))).toMatchObject({
          code: "not-senml",
          problem: "relative-time",
        });
      });
    }
  }
});

/** Resolved records are in order of time (section 4.6); sums of floating numbers may differ in the last digit. */
const inOrder = (records: readonly object[]) =>
  records
    .map((record) => Object.fromEntries(Object.entries(record).map(([label, value]) => [label, rounded(value)])))
    .sort(
      (a, b) =>
        Number(a.t) - Number(b.t) || String(a.n).localeCompare(String(b.n)) || String(a.u).localeCompare(String(b.u)),
    );
const rounded = (value: unknown) => (typeof value === "number" ? Math.round(value * 1e6) / 1e6 : value);

describe("refused, naming the record", () => {
  for (const [what, pack, record, problem] of [
    ["what is no list", { n: "a" }, 0, "no-pack"],
    ["a record that is none", [{ n: "a", v: 1, t: at }, 3], 2, "no-record"],
    ["a label that must be understood and is not", [{ n: "a", v: 1, t: at, new_: 1 }], 1, "must-understand"],
    ["a value of the wrong type", [{ n: "a", v: "1", t: at }], 1, "wrong-type"],
    ["two values in one record", [{ n: "a", v: 1, vs: "b", t: at }], 1, "several-values"],
    ["no value", [{ n: "a", t: at }], 1, "no-value"],
    ["no name", [{ v: 1, t: at }], 1, "no-name"],
    ["a name with a blank", [{ n: "a b", v: 1, t: at }], 1, "no-name"],
    ["a newer version", [{ bver: 11, n: "a", v: 1, t: at }], 1, "newer-version"],
    ["a time relative to now", [{ n: "a", v: 1, t: -5 }], 1, "relative-time"],
  ] as const) {
    test(what, () => {
      expect(refusal(() => resolveSenml(pack, "a.senml"))).toEqual(
        expect.objectContaining({ code: "not-senml", file: "a.senml", record, problem }),
      );
    });
  }

  test("labels nobody knows are passed over", () => {
    expect(resolveSenml([{ n: "a", v: 1, t: at, note: "hello" }], "a.senml")).toEqual([{ n: "a", v: 1, t: at }]);
  });
});

describe("as a log", () => {
  test("names become positions, base fields hold, rows are in order of time", () => {
    const log = read([
      { bn: "urn:dev:ow:1:", bt: at, bu: "Cel", n: "cabinet", v: 5, t: 10 },
      { n: "fins", v: -8 },
      { n: "cabinet", v: 5.5 },
      { n: "outside", u: "K", v: 293.15 },
      { n: "supply", u: "V", v: 12.8 },
      { n: "source", u: "", vs: "gas" },
    ]);
    expect(listed(log.unixMs)).toEqual([at * 1000, at * 1000 + 10_000]);
    expect(listed(log.columns.cabinet)).toEqual([5.5, 5]);
    expect(listed(log.columns.evaporator)).toEqual([-8, Number.NaN]);
    expect(log.columns.ambient?.[0]).toBeCloseTo(20, 9);
    expect(listed(log.columns.supply)).toEqual([12.8, Number.NaN]);
    expect(listed(log.sourceCodes)).toEqual([1, 0]);
  });

  test("a temperature whose name says no place is asked about", () => {
    expect(refusal(() => read([{ n: "probe1", u: "Cel", t: at, v: 5 }]))).toMatchObject({
      code: "two-readings",
      question: { about: "column", column: "probe1" },
    });
  });

  test("a reading in another unit is not taken", () => {
    expect(
      listed(
        read([
          { n: "cabinet", u: "Cel", t: at, v: 5 },
          { n: "fins", u: "degF", t: at, v: 5 },
        ]).columns.evaporator,
      ),
    ).toEqual([Number.NaN]);
  });

  test("without a reading of ours it is refused", () => {
    expect(refusal(() => read([{ n: "lamp", u: "lx", t: at, v: 5 }]))).toMatchObject({
      code: "not-senml",
      problem: "no-reading",
    });
  });
});

const label = fc.constantFrom(
  "bn",
  "bt",
  "bu",
  "bv",
  "bs",
  "bver",
  "n",
  "u",
  "v",
  "vs",
  "vb",
  "vd",
  "s",
  "t",
  "ut",
  "x",
  "x_",
);
const value = fc.oneof(
  fc.double(),
  fc.constantFrom(at, "cabinet", "fins", "Cel", "K", "V", 10, true, null),
  fc.string(),
);
property.prop([fc.oneof(fc.jsonValue(), fc.array(fc.dictionary(label, value, { maxKeys: 5 }), { maxLength: 5 }))], {
  numRuns: 500,
})("whatever the JSON: a log or a refusal", (pack) => {
  try {
    const { unixMs, columns } = read(pack);
    for (const column of Object.values(columns)) expect(column.length).toBe(unixMs.length);
  } catch (error) {
    expect(error).toBeInstanceOf(BadInput);
  }
});
