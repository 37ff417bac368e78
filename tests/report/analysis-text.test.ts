import { stripVTControlCharacters } from "node:util";
import { describe, expect, test } from "vitest";
import { analysisPage } from "../../src/report/analysis/analysis-page.ts";
import { analysisText } from "../../src/report/analysis/index.ts";
import { type Estimate, unknown } from "../../src/science/numbers/estimate.ts";
import { context, nothingHeated, weakOnGas, withoutKnownGood } from "./fixture.ts";

const print = (analysis = weakOnGas, width = 80, colour = false) => analysisText(analysis, context, { colour, width });

describe("the printed verdict", () => {
  for (const width of [60, 80, 100]) {
    test(`keeps within ${width} characters, trailing spaces left out`, () => {
      for (const analysis of [weakOnGas, withoutKnownGood, nothingHeated]) {
        for (const line of print(analysis, width).split("\n")) {
          expect(line.length, line).toBeLessThanOrEqual(width);
          expect(line).toBe(line.trimEnd());
        }
      }
    });
  }

  test("says the verdicts first, each as a word", () => {
    const [, , , gas, mains, dc12] = print().split("\n");
    expect(gas).toMatch(/On gas +WEAK +cooling strength 62 % of known-good \(57 to 68\)/);
    expect(mains).toMatch(/On mains +GOOD +cooling strength 98 %/);
    expect(dc12).toMatch(/On 12 V +CANNOT SAY YET +Only 24 min since cold began; this needs 1 h\./);
  });

  test("says beside the strength of a source that stopped that it did", () => {
    const [gas, mains, ...others] = weakOnGas.sources;
    const unixMs = Date.parse("2026-06-02T01:15:00Z");
    const stopped = { code: "stopped-for-good", estimate: mains.coolingStrength as Estimate, unixMs } as const;
    const sources = [gas, { ...mains, verdict: "undecided", reasons: [stopped] } as const, ...others];
    expect(print({ ...weakOnGas, sources }, 100)).toMatch(
      /On mains +CANNOT SAY YET +cooling strength 98 % of known-good \(92 to 105\) until it stopped and did\s+not come back/,
    );
  });

  test("says the same with colour as without", () => {
    const coloured = print(weakOnGas, 80, true);
    expect(coloured).toContain("\u001b[");
    expect(stripVTControlCharacters(coloured).replace(/ +$/gm, "")).toBe(print());
    expect(print()).not.toContain("\u001b[");
  });

  test("sets k, D, S and dead time of stretch and known-good side by side, with what they show and do not", () => {
    const text = print();
    expect(text).toMatch(
      /rate constant +0\.251 ± 0\.011 +0\.279 ± 0\.009 +90 %\n +per hour +0\.231 to 0\.272 +0\.262 to 0\.296 +81 to 100/,
    );
    for (const name of ["depth", "initial fall", "dead time"])
      expect(text).toMatch(new RegExp(`^ +${name} +[\\d.]+ ±`, "m"));
    expect(text.replace(/\s+/g, " ")).toContain(
      "It does not show how strong the cooling is: a starved burner lowers it by only about a tenth",
    );
  });

  test("draws each stretch with names at the lines and marks on the fit", () => {
    const chart = print().split("On gas: weak")[1].split("Cold began")[0];
    expect(chart).toContain("temperature, °C");
    expect(chart).toContain("hours after lighting");
    for (const name of ["ambient", "cabinet", "evaporator"]) expect(chart).toMatch(new RegExp(`[⠀-⣿].* ${name}$`, "m"));
    expect(chart).toMatch(/\+ \+ \+ fitted/);
    const plot = chart
      .split("\n")
      .filter((line) => /[│┤].*[⠀-⣿]/.test(line))
      .join("");
    expect(plot.match(/\+/g)?.length).toBeGreaterThan(8);
  });

  test("puts every caution directly under its check", () => {
    const lines = print().split("\n");
    const first = lines.findIndex((line) => line.includes("1. Look at flame, flue and burner"));
    const second = lines.findIndex((line) => line.includes("2. Have the gas pressure"));
    expect(first).toBeGreaterThan(0);
    expect(lines.slice(first, second).filter((line) => line.includes("! Caution, "))).toHaveLength(2);
    expect(lines.slice(second).find((line) => line.includes("! Caution as above: "))).toContain(
      "gas, flame, carbon monoxide",
    );
  });

  test("lists causes by likelihood, and leaves out what would read 0 %", () => {
    const causes = [...print().matchAll(/^ +(\d+) % {2}(.+)$/gm)].map(([, share, name]) => `${share} ${name}`);
    expect(causes[0]).toBe("38 blocked or sooted flue, on gas");
    expect(causes).toHaveLength(6);
    expect(print()).not.toContain("failing cooling unit");
  });

  test("says what a known-good run would add, only where there was none", () => {
    expect(print(withoutKnownGood)).toContain("What a known-good run would add");
    expect(print()).not.toContain("What a known-good run would add");
  });

  test("says why a stretch was not compared where known-good runs are there, and not that there are none", () => {
    const coolingStrength = unknown({ code: "no-ambient" });
    const [stretch] = withoutKnownGood.stretches;
    const text = print({
      ...withoutKnownGood,
      sources: [{ ...withoutKnownGood.sources[0], coolingStrength, reasons: [] }],
      stretches: [{ ...stretch, coolingStrength, reasons: [] }],
      nextChecks: [],
      keepsUp: [],
    });
    expect(text.replace(/\s+/g, " ")).toContain("not compared: the log has no ambient readings here");
    expect(text).not.toMatch(/no known-good run|What a known-good run would add/i);
    expect(print(withoutKnownGood)).not.toContain("known-good      ");
  });

  test("of a log with nothing heated says so", () => {
    expect(print(nothingHeated)).toContain("The logs hold no stretch in which the fridge was heated");
  });

  test("counts the readings set aside and says that they were kept", () => {
    expect(print()).toMatch(/12 readings of cabinet in june-service\.csv: power-on value 85\.0/);
    expect(print()).toContain("They stay in the log");
  });
});

test("where cooling stopped while the source said on, the causes do not say that nothing was unusual", () => {
  const sound = { cause: "none", source: null, probability: 0.96 } as const;
  const stop = {
    log: "x.csv",
    kind: "cooling-stopped",
    startMs: 0,
    endMs: 7_200_000,
    position: null,
    size: 2,
    sizeUnit: "h",
    reason: { code: "cooling-stopped", source: "mains", finDifferenceBefore: 8, finDifferenceAfter: 0, doubt: null },
  } as const;
  expect(print({ ...nothingHeated, causes: [sound] })).toMatch(/96 % {2}nothing unusual\n/);
  expect(print({ ...nothingHeated, causes: [sound], events: [stop] })).toMatch(
    /96 % {2}nothing unusual while it was heated\n/,
  );
});

test("without a list of causes one sentence says that nothing can be said of them yet", () => {
  const noCauses = { ...weakOnGas, causes: [] };
  for (const text of [print(noCauses), analysisPage({ title: "x", analysis: noCauses, context })]) {
    expect(text).toContain("Nothing can be said of causes yet");
    expect(text).not.toContain("the shares add up");
  }
});
