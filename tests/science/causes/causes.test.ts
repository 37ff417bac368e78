import { test as property } from "@fast-check/vitest";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { HeatSource } from "../../../src/schema/index.ts";
import { weighCauses } from "../../../src/science/causes/causes.ts";
import type { Observations } from "../../../src/science/causes/observed.ts";

const seen = (source: HeatSource, strength: number, minutes: number | null = 0) => ({
  source,
  logStrength: Math.log(strength),
  standardError: 0.05,
  against: null,
  isDead: false,
  ranBeforeStop: false,
  onsetShift: minutes === null ? null : { minutes, atLeast: false },
  supplyShare: null,
  isSupplyReferred: false,
  isBySlopeAlone: false,
});

const nowhere = { first: null, later: null };

const observed = (change: Partial<Observations>): Observations => ({
  sources: [seen("mains", 1), seen("gas", 1)],
  logWarming: { value: 0, standardError: 0.03 },
  logApart: { first: { value: 0, standardError: 0.05 }, later: null },
  logRate: nowhere,
  frost: null,
  lag: null,
  lift: null,
  inHeat: null,
  lowSupply: null,
  ...change,
});

const leading = (change: Partial<Observations>) => weighCauses(observed(change))[0];
const sumOf = (found: readonly { probability: number }[]) => found.reduce((sum, cause) => sum + cause.probability, 0);

describe("first causes", () => {
  test("a fridge that is as known-good in everything points to nothing unusual", () => {
    expect(leading({}).cause).toBe("none");
    expect(leading({}).probability).toBeGreaterThan(0.7);
  });

  test("one weak source with a late onset is its heat; burner, flue and gas supply stay tied", () => {
    const found = weighCauses(observed({ sources: [seen("mains", 1), seen("gas", 0.65, 14)] }));
    const heat = found.filter(({ cause }) => ["burner", "flue", "gas-supply"].includes(cause));
    expect(sumOf(heat)).toBeGreaterThan(0.9);
    expect(Math.min(...heat.map(({ probability }) => probability))).toBeGreaterThan(0.2);
  });

  test("all sources weak with the onset as usual is the unit, its level or its air, as one group", () => {
    const found = weighCauses(observed({ sources: [seen("mains", 0.7), seen("gas", 0.7)] }));
    const group = found.filter(({ cause }) => ["cooling-unit", "not-level", "ventilation"].includes(cause));
    expect(sumOf(group)).toBeGreaterThan(0.7);
  });

  test("faster warming back alone is the door seal, slower a warm load: neither is a weak source", () => {
    expect(leading({ logWarming: { value: Math.log(1.67), standardError: 0.04 } }).cause).toBe("door-seal");
    expect(leading({ logWarming: { value: Math.log(0.57), standardError: 0.04 } }).cause).toBe("warm-load");
  });

  test("a few kilograms of goods raise the rate and lower the slope in the first stretch alone; a seal does in both", () => {
    const shown = (value: number) => ({ value, standardError: 0.04 });
    const first = { logWarming: null, sources: [seen("mains", 1), seen("gas", 1)] };
    const ofGoods = {
      logRate: { first: shown(0.22), later: shown(0.08) },
      logApart: { first: shown(0.12), later: shown(0) },
    };
    const ofSeal = {
      logRate: { first: shown(0.38), later: shown(0.36) },
      logApart: { first: shown(0.1), later: shown(0.1) },
    };
    expect(leading({ ...first, ...ofGoods }).cause).toBe("warm-load");
    expect(leading({ ...first, ...ofSeal, logWarming: shown(0.4) }).cause).toBe("door-seal");
  });

  test("cold that begins an hour late points to the heat, with no strength to go by", () => {
    const late = { ...seen("mains", 1, 55), logStrength: null };
    const found = weighCauses(observed({ sources: [late, seen("gas", 1)] }));
    const heat = found.filter(({ cause }) => ["mains-element", "supply-voltage"].includes(cause));
    expect(sumOf(heat)).toBeGreaterThan(0.6);
  });

  test("volts known to be near the rated ones nearly rule the supply out; unknown ones leave it", () => {
    const supplied = (supplyShare: number | null) => {
      const sources = [{ ...seen("mains", 0.65, 14), supplyShare }, seen("gas", 1)];
      return weighCauses(observed({ sources })).find(({ cause }) => cause === "supply-voltage")?.probability ?? 0;
    };
    expect(supplied(null)).toBeGreaterThan(0.08);
    expect(supplied(1.004)).toBeLessThan(0.01);
    // A tenth of the volts is a quarter of the cooling, and no more.
    expect(supplied(0.91)).toBeGreaterThan(supplied(0.97));
  });

  test("a source with hardly any cooling left is not nothing unusual because no loss is listed that far", () => {
    const found = weighCauses(observed({ sources: [seen("mains", 1), seen("gas", 0.05, null)] }));
    expect(found.find(({ cause }) => cause === "none")?.probability).toBeLessThan(0.05);
  });

  test("a dead source is its heat even without an onset to look at", () => {
    const dead = {
      source: "dc12" as const,
      logStrength: null,
      standardError: 0,
      against: null,
      isDead: true,
      ranBeforeStop: false,
      onsetShift: null,
      supplyShare: null,
      isSupplyReferred: false,
      isBySlopeAlone: false,
    };
    expect(["dc12-element", "supply-voltage"]).toContain(leading({ sources: [seen("mains", 1), dead] }).cause);
  });

  test("a source without any cold when its stretch ended, long after it should have begun, is its heat", () => {
    const waited = { ...seen("mains", 1, null), logStrength: null, onsetShift: { minutes: 120, atLeast: true } };
    expect(leading({ sources: [waited, seen("gas", 1)] }).cause).toBe("mains-element");
    // What ended before the cold was due tells nothing.
    const short = { ...waited, onsetShift: { minutes: -20, atLeast: true } };
    expect(leading({ sources: [short, seen("gas", 1)] }).cause).toBe("none");
  });

  test("a late onset that is too late or too early for the loss speaks against the heat", () => {
    const heatShare = (minutes: number) =>
      sumOf(
        weighCauses(observed({ sources: [seen("mains", 1), seen("gas", 0.5, minutes)] })).filter(({ cause }) =>
          ["burner", "flue", "gas-supply"].includes(cause),
        ),
      );
    // Half the cooling is 61 % of the heat: the boiler takes 29 min longer.
    expect(heatShare(29)).toBeGreaterThan(heatShare(2));
    expect(heatShare(29)).toBeGreaterThan(heatShare(90));
  });

  test("told against another source, a low one is its own heat: what both share cannot be seen, and is not blamed", () => {
    const among = { ...seen("mains", 0.7, null), standardError: 0.1, against: "gas" as const };
    const found = weighCauses({ ...observed({}), sources: [among], logWarming: null, logApart: nowhere });
    const shareOf = (...named: readonly string[]) => sumOf(found.filter(({ cause }) => named.includes(cause)));
    expect(shareOf("mains-element", "supply-voltage")).toBeGreaterThan(0.5);
    expect(shareOf("cooling-unit", "not-level", "ventilation")).toBeLessThan(0.1);
  });

  test("only causes of sources that ran are named", () => {
    const named = weighCauses(observed({ sources: [seen("mains", 0.6, 10)] })).map(({ cause }) => cause);
    expect(named).not.toContain("flue");
    expect(named).not.toContain("dc12-element");
  });

  property.prop([
    fc.double({ min: 0.01, max: 3, noNaN: true }),
    fc.double({ min: 0.01, max: 3, noNaN: true }),
    fc.double({ min: -60, max: 120, noNaN: true }),
    fc.option(fc.double({ min: -3, max: 3, noNaN: true }), { nil: null }),
  ])("whatever is seen, the probabilities add to 1 and `other` keeps at least 2 %", (mains, gas, shift, warming) => {
    const found = weighCauses(
      observed({
        sources: [seen("mains", mains), seen("gas", gas, shift)],
        logWarming: warming === null ? null : { value: warming, standardError: 0.05 },
      }),
    );
    expect(sumOf(found)).toBeCloseTo(1, 9);
    expect(found.find(({ cause }) => cause === "other")?.probability).toBeGreaterThanOrEqual(0.02);
    expect(found.every(({ probability }) => probability >= 0 && probability <= 1)).toBe(true);
  });
});
