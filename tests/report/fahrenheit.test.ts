// The same letters in both degrees: the same sentences, other figures. A temperature has its zero moved, a difference and a
// rate have not. Source of the conversion: NIST Special Publication 811 (2008), appendix B.8, "degree Fahrenheit":
// t/°C = (t/°F - 32)/1.8, and 1 °F of a difference is 1/1.8 K.

import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { analysisPage } from "../../src/report/analysis/analysis-page.ts";
import { analysisDocument, analysisText } from "../../src/report/analysis/index.ts";
import { comparisonPage, comparisonText } from "../../src/report/comparison/index.ts";
import { roundAxisOf } from "../../src/report/drawing/axis.ts";
import { runDrawing } from "../../src/report/drawing/run-drawing.ts";
import { hotDayPage, hotDayText } from "../../src/report/hot-day/index.ts";
import type { Reader } from "../../src/report/index.ts";
import { handOf, languageCodes, say, words } from "../../src/report/index.ts";
import { testReportPage } from "../../src/report/test-report/index.ts";
import { estimate } from "../../src/science/numbers/estimate.ts";
import { comparisonContext, serviced } from "./comparison-fixture.ts";
import { context, weakOnGas } from "./fixture.ts";
import { predictions } from "./hot-day-fixture.ts";
import { eventSamples, reasonSamples, unitProofSamples, unknownSamples, warningSamples } from "./samples.ts";

const plain = (text: string) => text.replaceAll("\u00a0", " ");

test("no unit of the other degrees stands in what a reader in Fahrenheit is told of hot days", () => {
  for (const language of languageCodes)
    for (const { prediction, context: asked } of Object.values(predictions)) {
      const reader = { ...asked, language, degrees: "F" } as const;
      expect(hotDayText(prediction, reader, { colour: false, width: 80 })).not.toMatch(/kelvin/i);
    }
});

describe("the hand", () => {
  const [celsius, fahrenheit] = [handOf("en", 0), handOf("en", 0, "F")];

  test("moves the zero of a temperature: ice, boiling water, and where the scales meet", () => {
    expect([0, 100, -40].map((value) => plain(fahrenheit.quantity(value, "Cel", 1)))).toEqual([
      "32.0 °F",
      "212.0 °F",
      "−40.0 °F",
    ]);
  });

  test("leaves the zero of a difference and of a rate where it is", () => {
    expect(plain(fahrenheit.quantity(0, "K", 1))).toBe("0.0 °F");
    expect(plain(fahrenheit.quantity(-10, "K", 0))).toBe("−18 °F");
    expect(plain(fahrenheit.quantity(5, "K/h", 1))).toBe("9.0 °F per hour");
  });

  test("writes an estimate with error and interval in the same scale, its error without the offset", () => {
    const settled = estimate("Cel", 4.6, 3.8, 5.4, { standardError: 0.4, readings: 214 });
    expect(plain(fahrenheit.full(settled))).toBe("40.3 ± 0.7 °F, 95 % interval 38.8 to 41.7, 214 readings");
    expect(plain(fahrenheit.brief(estimate("K", 10, 8, null, { standardError: 1 })))).toBe("18.0 °F (14.4 or more)");
  });

  test("writes a stated limit as exactly as it was stated", () => {
    expect([0, 4, 5, 8, 32].map((limit) => plain(fahrenheit.degrees(limit)))).toEqual([
      "32 °F",
      "39.2 °F",
      "41 °F",
      "46.4 °F",
      "89.6 °F",
    ]);
    expect(plain(celsius.degrees(8))).toBe("8 °C");
  });

  test("leaves volts, hours, watts, shares and rate constants alone", () => {
    for (const unit of ["V", "h", "W", "1", "1/h"] as const)
      expect(fahrenheit.full(estimate(unit, 0.7, 0.6, 0.8))).toBe(celsius.full(estimate(unit, 0.7, 0.6, 0.8)));
  });

  property.prop([fc.double({ min: -40, max: 60, noNaN: true }), fc.double({ min: 0.5, max: 60, noNaN: true })])(
    "gives axes whose ticks are round in Fahrenheit and lie where their temperatures lie",
    (low, span) => {
      const axis = roundAxisOf("Cel", fahrenheit, low, low + span, 7);
      for (const tick of axis.ticks) {
        const figure = tick * 1.8 + 32;
        expect(Math.abs(figure - Number(figure.toFixed(axis.decimals)))).toBeLessThan(1e-6);
        expect(axis.share(tick)).toBeCloseTo((tick - axis.low) / (axis.high - axis.low), 9);
      }
      expect(axis.low).toBeLessThanOrEqual(low + 1e-6);
      expect(axis.high).toBeGreaterThanOrEqual(low + span - 1e-6);
    },
  );
});

/** Figures with the unit that follows them, and the text without figures and units. A kelvin per kelvin is no difference. */
function apart(text: string) {
  const unit = "°C|°F|K per hour|°F per hour|K pro Stunde|°F pro Stunde|K";
  const figure = "−?\\d+(?:[.,]\\d+)*";
  const temperatures = [
    ...plain(text).matchAll(new RegExp(`(${figure}) (${unit})(?![\\w/(]| (?:per|pro) (?:K|°F))`, "g")),
  ].map(([, value, name]) => ({
    value: Number(value.replace("−", "-").replace(",", ".")),
    name,
    decimals: value.split(/[.,]/)[1]?.length ?? 0,
  }));
  const skeleton = plain(text)
    .replaceAll(new RegExp(`\\b(?:${unit})(?![\\w/(])|°[CF]`, "g"), "@")
    .replaceAll(/@ (per hour|pro Stunde)/g, "@")
    .replaceAll(new RegExp(figure, "g"), "#")
    // What is too small for the last digit in one scale may reach it in the other.
    .replaceAll(/(?:<|&lt;)#/g, "#")
    .replaceAll(/\s+/g, " ");
  return { temperatures, skeleton };
}

/** What of a page is read, of its drawings only what stands for them: their axes have other ticks. */
const read = (page: string) =>
  page
    .replaceAll(/<style>[\s\S]*?<\/style>/g, "")
    .replaceAll(/<svg[\s\S]*?<desc[^>]*>([\s\S]*?)<\/desc>[\s\S]*?<\/svg>/g, "$1")
    .replaceAll(/<[^>]+>/g, " ");

/** The one sentence that names both scales and their laws whatever the reader's. */
const bothScales = /40 °F, (which is|das sind) 4[.,]4 °C/g;

function expectTheSame(inCelsius: string, inFahrenheit: string): void {
  const [one, other] = [inCelsius, inFahrenheit].map((text) => apart(plain(text).replace(bothScales, "")));
  expect(other.skeleton).toBe(one.skeleton);
  expect(one.temperatures.length).toBeGreaterThan(0);
  expect(other.temperatures).toHaveLength(one.temperatures.length);
  expect(plain(inFahrenheit).replace(bothScales, "")).not.toMatch(/°C|\d K(?![\p{L}/()])/u);
  one.temperatures.forEach(({ value, name, decimals }, i) => {
    const shown = other.temperatures[i];
    // Both figures are rounded, each to its own decimals.
    const slack = 0.5 * 1.8 * 10 ** -decimals + 0.5 * 10 ** -shown.decimals + 1e-9;
    expect(
      Math.abs(shown.value - (name === "°C" ? value * 1.8 + 32 : value * 1.8)),
      `${value} ${name}`,
    ).toBeLessThanOrEqual(slack);
  });
}

for (const language of languageCodes) {
  describe(`in "${language}" the same letter in both degrees:`, () => {
    const options = { colour: false, width: 90 };
    const both = (tell: (telling: Pick<Reader, "language" | "degrees">) => string) =>
      expectTheSame(tell({ language, degrees: "C" }), tell({ language, degrees: "F" }));

    test("a verdict", () =>
      both((telling) => read(analysisPage({ title: "t", analysis: weakOnGas, context: { ...context, ...telling } }))));
    test("before and after", () =>
      both((telling) =>
        read(comparisonPage({ title: "t", comparison: serviced, context: { ...comparisonContext, ...telling } })),
      ));
    for (const [name, { prediction, context: asked }] of Object.entries(predictions))
      test(`a hot day ${name}`, () =>
        both((telling) => read(hotDayPage({ title: "t", prediction, context: { ...asked, ...telling } }))));
    test("a test report", () =>
      both((telling) =>
        read(
          testReportPage({
            ...{ madeMs: 0, letterhead: null, fridge: null, runs: [], service: null },
            ...{ analysis: weakOnGas, context: { ...context, ...telling } },
          }),
        ),
      ));

    test("every sentence the science can say", () => {
      const own = words(language);
      const lists = [
        [own.reasons, reasonSamples],
        [own.unknowns, unknownSamples],
        [own.warnings, warningSamples],
        [own.events, eventSamples],
        [own.condemning.proofs, unitProofSamples],
      ] as const;
      const told = (degrees: "C" | "F") =>
        lists
          .flatMap(([phrases, samples]) =>
            // How the depth goes with the ambient is a kelvin per kelvin: the same number.
            Object.entries(samples)
              .filter(([code]) => code !== "slope-default")
              .map(([code, values]) =>
                say(phrases as never, { code, ...(values as object) } as never, handOf(language, 120, degrees)),
              ),
          )
          .join("\n");
      expectTheSame(told("C"), told("F"));
    });

    test("the terminal's texts hold no degree Celsius and no kelvin", () => {
      const telling = { language, degrees: "F" } as const;
      const texts = [
        analysisText(weakOnGas, { ...context, ...telling }, options),
        comparisonText(serviced, { ...comparisonContext, ...telling }, options),
        ...Object.values(predictions).map(({ prediction, context: asked }) =>
          hotDayText(prediction, { ...asked, ...telling }, options),
        ),
      ];
      for (const text of texts)
        expect(plain(text).replaceAll(/\s+/g, " ").replaceAll(bothScales, "")).not.toMatch(/°C|\d K(?![\p{L}/()])/u);
    });
  });
}

test("the drawing's axis is in Fahrenheit, and the curves stand where they stood", () => {
  const run = { stretches: weakOnGas.stretches, events: [], rejected: [] };
  const scene = (degrees: "C" | "F") =>
    runDrawing(run, { words: words("en"), hand: handOf("en", 120, degrees) }, 120, 720);
  const texts = (degrees: "C" | "F") =>
    scene(degrees)?.marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : []));
  expect(texts("F")).toContain("temperature, °F");
  expect(texts("F")).toEqual(expect.arrayContaining(["20", "40", "60", "80"]));
  expect(texts("C")).toContain("temperature, °C");
});

test("numbers for programs stay in the units they name, whatever is read", () => {
  const document = (degrees: "C" | "F") => analysisDocument(weakOnGas, { ...context, degrees });
  const [stretchC, stretchF] = [document("C").stretches[0], document("F").stretches[0]];
  expect(stretchF.fit).toEqual(stretchC.fit);
  expect(stretchF.belowAmbient).toEqual(stretchC.belowAmbient);
});
