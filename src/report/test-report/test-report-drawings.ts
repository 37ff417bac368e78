// The drawings of a test report: a run with its stretches, or before and after a service.

import type { Analysis, SourceFinding } from "../../science/index.ts";
import { logsOf } from "../analysis/analysis-telling.ts";
import { curvesDrawing, ratiosDrawing } from "../comparison/comparison-drawing.ts";
import { type ComparisonTelling, curveLines } from "../comparison/comparison-telling.ts";
import { describeAligned, describeReadings, describeRun, letteredEvents } from "../drawing/drawing-words.ts";
import { drawnRun, runDrawing, runPatterns } from "../drawing/run-drawing.ts";
import type { Scene, Tallness } from "../drawing/scene.ts";
import { linesToDraw, stretchDrawing } from "../drawing/stretch-drawing.ts";
import type { Teller } from "../teller.ts";
import type { TestReport } from "./test-report-matter.ts";
import type { ReportDrawing, ReportPart } from "./test-report-parts.ts";

/** Each log, and the longest stretch of each source; none where there is nothing to draw. */
export function runDrawings({ analysis, context }: TestReport, teller: Teller): readonly ReportPart[] {
  const { chart, stretchHeading } = teller.words.report;
  const events = letteredEvents(analysis);
  const ofRuns = logsOf(analysis).map((log, index): ReportDrawing => {
    const run = drawnRun(analysis, log, events);
    return {
      id: `run${index + 1}`,
      title: chart.runTitle(log),
      description: describeRun(run, teller),
      givesWay: index,
      patterns: runPatterns(run).map((ink) => chart.patterns[ink]),
      draw: (width, tallness) => runDrawing(run, teller, context.utcOffsetMinutes, width, tallness),
    };
  });
  // What is good gives way first: its drawing has the least to show.
  const ranked = [...analysis.sources].sort((a, b) => Number(a.verdict === "sound") - Number(b.verdict === "sound"));
  const ofStretches = analysis.sources.map((source, index): ReportDrawing => {
    const stretch = longest(source, analysis);
    const period = teller.hand.period(stretch.startMs, stretch.endMs);
    return {
      id: `stretch${index + 1}`,
      title: stretchHeading(teller.words.names.onSource(stretch.source), period),
      description: describeReadings(stretch.curves, teller),
      givesWay: 1 + ranked.indexOf(source),
      patterns: linesToDraw(stretch).map(({ ink }) => chart.patterns[ink]),
      draw: (width, tallness) => stretchDrawing(stretch, events, teller, width, tallness),
    };
  });
  return drawingsPart([...ofRuns, ...ofStretches], teller, (patterns) => chart.caption(patterns));
}

const longest = ({ stretches: own }: SourceFinding, { stretches }: Analysis) =>
  own
    .map((index) => stretches[index])
    .reduce((best, one) => (one.endMs - one.startMs > best.endMs - best.startMs ? one : best));

/** How strongly each source cools after over before, and its curves laid on each other. */
export function serviceDrawings(
  { service }: TestReport,
  { bars, sources }: ComparisonTelling,
  teller: Teller,
): readonly ReportPart[] {
  if (service === null) return [];
  const { margin } = service.comparison;
  const { comparison } = teller.words;
  const ratios: ReportDrawing = {
    id: "ratios",
    title: comparison.ratiosTitle,
    description: bars.map(({ name, ratio }) => comparison.barIs(name, ratio, teller.hand)).join(" "),
    givesWay: 0,
    patterns: [],
    draw: (width) => ratiosDrawing(bars, margin, teller, width),
  };
  const curves = sources.map(({ finding }, index): ReportDrawing => {
    const lines = curveLines(finding, teller).filter(({ curve }) => curve.belowAmbient.some(Number.isFinite));
    const drawn = (["before", "after"] as const).filter((when) => lines.some((line) => line.when === when));
    return {
      id: `source${index + 1}`,
      title: comparison.curvesTitle(finding.source),
      description: lines.map((line) => describeAligned(line, teller)).join(" "),
      givesWay: index,
      patterns: drawn.map((when) => comparison.patterns[when]),
      draw: (width, tallness) => curvesDrawing(finding, teller, width, tallness),
    };
  });
  return drawingsPart([ratios, ...curves], teller, (patterns) =>
    [
      ...(bars.length === 0 ? [] : [comparison.ratiosCaption(margin, teller.hand)]),
      ...(patterns.length === 0 ? [] : [comparison.curvesCaption(patterns)]),
    ].join(" "),
  );
}

function drawingsPart(
  all: readonly ReportDrawing[],
  { words: { testReport } }: Teller,
  caption: (patterns: readonly string[]) => string,
): readonly ReportPart[] {
  const drawings = all
    .map((drawing) => ({ ...drawing, draw: keptBySize(drawing.draw) }))
    .filter(({ draw }) => draw(narrowestDrawing) !== null);
  const captionOf = (shown: readonly ReportDrawing[]) =>
    caption([...new Set(shown.flatMap(({ patterns }) => patterns))]);
  return drawings.length === 0
    ? []
    : [{ kind: "drawings", drawings, captionOf, furtherHeading: testReport.furtherCurvesHeading }];
}

const narrowestDrawing = 340;

/** A layout may try several sizes of type; it need not draw anew for each. */
function keptBySize(draw: ReportDrawing["draw"]): ReportDrawing["draw"] {
  const scenes = new Map<string, Scene | null>();
  return (width, tallness: Tallness = "usual") => {
    const size = `${width} ${tallness}`;
    if (!scenes.has(size)) scenes.set(size, draw(width, tallness));
    return scenes.get(size) ?? null;
  };
}
