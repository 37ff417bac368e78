// A drawing as a picture of its own, to be kept as a file or put into a document: the page's drawing on light paper.

import type { Analysis } from "../../science/index.ts";
import { logsOf } from "../analysis/analysis-telling.ts";
import type { ReportContext } from "../context.ts";
import { tellerFor } from "../teller.ts";
import { describeReadings, describeRun, letteredEvents } from "./drawing-words.ts";
import { drawnRun, runDrawing } from "./run-drawing.ts";
import { sceneToSvgFile } from "./scene-to-svg.ts";
import { stretchDrawing } from "./stretch-drawing.ts";

export interface DrawingAsked {
  /** Which of the analysis' stretches; the whole run when left out. */
  readonly stretch?: number;
  /** px; 720 unless stated. */
  readonly width?: number;
}

/** @returns SVG; null when there is no such stretch, or nothing to draw. */
export function drawingFile(
  analysis: Analysis,
  context: ReportContext,
  { stretch, width = 720 }: DrawingAsked = {},
): string | null {
  const teller = tellerFor(context);
  const { chart, stretchHeading } = teller.words.report;
  const events = letteredEvents(analysis);
  const svg = (scene: ReturnType<typeof runDrawing>, title: string, description: string) =>
    scene === null ? null : sceneToSvgFile(scene, { id: "drawing", title, description });
  if (stretch !== undefined) {
    const one = analysis.stretches[stretch];
    if (one === undefined) return null;
    const period = teller.hand.period(one.startMs, one.endMs);
    const title = chart.stretchTitle(stretchHeading(teller.words.names.onSource(one.source), period));
    return svg(stretchDrawing(one, events, teller, width), title, describeReadings(one.curves, teller));
  }
  const [log] = logsOf(analysis);
  if (log === undefined) return null;
  const run = drawnRun(analysis, log, events);
  return svg(runDrawing(run, teller, context.utcOffsetMinutes, width), chart.runTitle(log), describeRun(run, teller));
}
