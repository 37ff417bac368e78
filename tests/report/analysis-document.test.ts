import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { analysisDocument } from "../../src/report/analysis/index.ts";
import { program } from "../../src/report/index.ts";
import { analysisDocumentSchema } from "../../src/schema/documents/index.ts";
import { context, nothingHeated, weakOnGas, withoutKnownGood } from "./fixture.ts";

const ajv = new Ajv2020({ strict: false, allErrors: true });
addFormats.default(ajv);
const published = ajv.compile(z.toJSONSchema(analysisDocumentSchema));

for (const [name, analysis] of Object.entries({ weakOnGas, withoutKnownGood, nothingHeated })) {
  describe(`the JSON of ${name}`, () => {
    const document = JSON.parse(JSON.stringify(analysisDocument(analysis, context)));
    test("fits the schema, and the published JSON Schema", () => {
      expect(() => analysisDocumentSchema.parse(document)).not.toThrow();
      expect(published(document), JSON.stringify(published.errors)).toBe(true);
    });
    test("has a reason beside every missing number, and none beside a number", () => {
      let answers = 0;
      const walk = (value: unknown): void => {
        if (typeof value !== "object" || value === null) return;
        for (const [key, inner] of Object.entries(value)) {
          walk(inner);
          const reason = (value as Record<string, unknown>)[`${key}Reason`];
          if (estimateNames.has(key) && !Array.isArray(value)) {
            answers++;
            if (inner === null) expect(reason, key).toMatch(/\.$/);
            else expect(reason, key).toBeUndefined();
          }
        }
      };
      const { stretches, sources, keepsUp } = document;
      walk({ stretches, sources, keepsUp });
      expect(answers).toBeGreaterThanOrEqual(analysis.stretches.length * 20);
    });
  });
}

/** The estimates of the schema: those names that have a `…Reason` beside them. */
const estimateNames = new Set(
  [...JSON.stringify(z.toJSONSchema(analysisDocumentSchema)).matchAll(/"(\w+)Reason"/g)].map(([, name]) => name),
);

test("instants are RFC 3339 in UTC, whatever clock the log was on", () => {
  const [gas] = analysisDocument(weakOnGas, context).stretches;
  expect([gas.start, gas.end]).toEqual(["2026-06-04T05:00:00.000Z", "2026-06-04T12:00:00.000Z"]);
});

test("the result names program, method, options and inputs", () => {
  const marked = { ...context, sourceMarks: [{ unixMs: Date.UTC(2026, 5, 4), source: "gas" as const }] };
  const document = analysisDocument(weakOnGas, marked);
  expect(document.program).toEqual({ name: "coldfall", version: program.version, method: "5" });
  expect(document.options).toEqual({ margin: 0.15, sourceMarks: [{ at: "2026-06-04T00:00:00.000Z", source: "gas" }] });
  expect(document.inputs).toEqual(context.inputs);
});

test("sentences hold ordinary spaces, so that a search for a number with its unit finds it", () => {
  const text = JSON.stringify(analysisDocument(weakOnGas, context));
  expect(text).not.toContain("\u00a0");
  expect(text).toContain("62 % of known-good (57 to 68)");
});
