// What must be proven before a cooling unit is condemned: told the same in text, page and JSON, its cautions with it.

import { describe, expect, test } from "vitest";
import { analysisPage } from "../../src/report/analysis/analysis-page.ts";
import { analysisDocument, analysisText } from "../../src/report/analysis/index.ts";
import { words } from "../../src/report/index.ts";
import { analysisDocumentSchema } from "../../src/schema/documents/index.ts";
import type { Analysis } from "../../src/science/findings.ts";
import type { CautionCode, UnitProofCode } from "../../src/science/sayings.ts";
import { judged, simulated } from "../science/simulated-runs.ts";
import { context, nothingHeated } from "./fixture.ts";

const weakUnit = judged(simulated(14, { faults: [{ name: "cooling-unit", size: 0.35 }] }));
const spaced = (text: string) => text.replaceAll("\u00a0", " ").replace(/\s+/g, " ");
const textOf = (analysis: Analysis) =>
  spaced(analysisText(analysis, context, { colour: false, width: 80 }).replace(/^ *! /gm, ""));
const pageOf = (analysis: Analysis) =>
  spaced(analysisPage({ title: "x", analysis, context }).replace(/<[^>]+>/g, "")).replaceAll("&#39;", "'");

describe("the list of what must be proven before a cooling unit is condemned", () => {
  const { condemning, cautions, report } = words("en");
  const document = analysisDocument(weakUnit, context);
  const inText = textOf(weakUnit);
  const onPage = pageOf(weakUnit);

  test("stands in text, page and JSON, each proof with its state in words", () => {
    expect(analysisDocumentSchema.parse(document).beforeCondemning).toHaveLength(6);
    for (const told of [inText, onPage]) {
      expect(told).toContain(report.condemningHeading);
      for (const name of Object.values(condemning.proofNames))
        expect(told).toContain(spaced(`${name}: ${condemning.proofStates["not-shown"]}`));
    }
  });

  test("holds each proof's cautions below its title, in full or, where they stand further up, by name; in JSON always whole", () => {
    expect(weakUnit.beforeCondemning.length).toBe(6);
    for (const { proof, cautions: codes } of weakUnit.beforeCondemning) {
      const inJson = document.beforeCondemning.find((one) => one.proof === proof);
      for (const code of codes) {
        expect(inJson?.caution).toContain(spaced(cautions[code].text));
        for (const told of [inText, onPage]) {
          const from = told.indexOf(spaced(condemning.proofNames[proof]));
          const full = told.indexOf(spaced(cautions[code].text));
          expect(full).toBeGreaterThan(0);
          const named = /Caution as above: ([^.]*)\./.exec(told.slice(from))?.[1] ?? "";
          if (full < from) expect(named).toContain(spaced(cautions[code].about));
        }
      }
    }
  });

  test("is left out, heading and all, where the unit is not among the causes", () => {
    expect(textOf(nothingHeated)).not.toContain(report.condemningHeading);
    expect(pageOf(nothingHeated)).not.toContain(report.condemningHeading);
    expect(analysisDocument(nothingHeated, context).beforeCondemning).toEqual([]);
  });

  for (const [proof, caution, why] of [
    ["tilt-measured", "no-cold", "a tilted unit under heat"],
    ["heat-in-watts", "mains", "a meter at the plug"],
    ["boiler-hot", "gas", "the boiler stands beside burner and flue"],
    ["heat-in-watts", "dc12", "a clamp meter at the element"],
    ["boiler-hot", "mains", "a probe lead near mains wiring"],
    ["boiler-hot", "cooling-unit", "a probe on a unit under pressure"],
    ["fan-at-rear-tried", "gas", "a fan at flame and flue"],
    ["fan-at-rear-tried", "night", "the fridge runs on"],
    ["twelve-hours", "night", "a run over night"],
    ["twelve-hours", "no-cold", "hours of heat without cold"],
    ["two-nights", "night", "runs over night"],
    ["two-nights", "food", "food left in a doubtful fridge"],
  ] as const satisfies readonly (readonly [UnitProofCode, CautionCode, string])[]) {
    test(`"${proof}" carries the caution "${caution}": ${why}`, () => {
      const found = weakUnit.beforeCondemning.find((one) => one.proof === proof);
      expect(found?.cautions).toContain(caution);
    });
  }
});
