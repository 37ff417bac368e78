// The drawing as a file of its own: everything it needs is in it, and it is the page's drawing.

import { expect, test } from "vitest";
import { analysisPage } from "../../src/report/analysis/analysis-page.ts";
import { drawingFile } from "../../src/report/drawing/index.ts";
import { inks } from "../../src/report/drawing/inks.ts";
import { context, nothingHeated, weakOnGas } from "./fixture.ts";

const pathsIn = (svg: string) => [...svg.matchAll(/ d="([^"]+)"/g)].map(([, d]) => d);

test("the picture of a run holds its colours, its name and a description, and nothing to fetch", () => {
  const svg = drawingFile(weakOnGas, context) ?? "";
  expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="720"/);
  expect(svg).toMatch(/<title id="drawing-title">The whole of june-service\.csv<\/title>/);
  expect(svg).toMatch(/<desc id="drawing-description">Cabinet from /);
  expect(svg).toContain(`stroke="${inks.cabinet.light}"`);
  expect(svg).not.toMatch(/class=|<style|<script|href|url\((?!#drawing-)/);
});

test("its lines are those of the page", () => {
  const page = analysisPage({ title: "Larch", analysis: weakOnGas, context });
  const paths = pathsIn(drawingFile(weakOnGas, context) ?? "");
  expect(paths.length).toBeGreaterThan(10);
  for (const path of paths) expect(page).toContain(` d="${path}"`);
});

test("one stretch is drawn by its number, narrower where asked; what is not there is no picture", () => {
  const svg = drawingFile(weakOnGas, context, { stretch: 0, width: 340 }) ?? "";
  expect(svg).toMatch(/width="340".*\n<title[^>]*>On gas, 4\sJune/);
  expect(drawingFile(weakOnGas, context, { stretch: 99 })).toBeNull();
  expect(drawingFile(nothingHeated, context)).toBeNull();
});
