// Verdicts, comparisons, hot days: what kept-findings.ts holds ready, answered as the published documents, pages and drawings in
// the visitor's language.

import { createHash } from "node:crypto";
import type { IncomingHttpHeaders } from "node:http";
import { analysisPage } from "../../report/analysis/analysis-page.ts";
import { analysisDocument } from "../../report/analysis/index.ts";
import { comparisonDocument, comparisonPage } from "../../report/comparison/index.ts";
import { drawingFile } from "../../report/drawing/index.ts";
import { hotDayDocument, hotDayPage } from "../../report/hot-day/index.ts";
import { type Language, words } from "../../report/index.ts";
import { planPage, tellPlanRefusal } from "../../report/plan/index.ts";
import { type TestReport, testReportPage, testReportPdf } from "../../report/test-report/index.ts";
import type { BodyOf, Operations } from "../../schema/api/index.ts";
import { type HeatSource, heatSources, mostForecastDays, msPerDay } from "../../schema/index.ts";
import { planRun } from "../../science/plan/index.ts";
import { newestRun } from "../../workshop/newest-run.ts";
import type { HotDayQuestion } from "../../workshop/predict.ts";
import type { Handlers } from "../handlers.ts";
import { KeptFindings, type ServiceRuns } from "../kept-findings.ts";
import { languageOf, tellingFor } from "../language.ts";
import { Problem, type Said } from "../problem.ts";
import type { ServiceParts } from "../service-parts.ts";

type Trip = BodyOf<Operations["POST /api/fridges/{fridgeId}/trip"], never>;

export function judgingRoutes(
  parts: ServiceParts,
): Handlers<
  | "GET /api/fridges/{fridgeId}/verdict"
  | "GET /api/fridges/{fridgeId}/hot-day"
  | "POST /api/fridges/{fridgeId}/trip"
  | "GET /api/fridges/{fridgeId}/hot-day.html"
  | "POST /api/fridges/{fridgeId}/trip.html"
  | "GET /api/plan.html"
  | "GET /api/runs/{runId}/verdict"
  | "GET /api/runs/{runId}/verdict.html"
  | "GET /api/runs/{runId}/report.pdf"
  | "GET /api/runs/{runId}/report.html"
  | "GET /api/runs/{runId}/drawing.svg"
  | "GET /api/comparison"
  | "GET /api/comparison.html"
  | "GET /api/comparison/report.pdf"
  | "GET /api/comparison/report.html"
> {
  const { store } = parts;
  const findings = new KeptFindings(parts);
  return {
    "GET /api/fridges/{fridgeId}/verdict": async ({ params, headers }) => {
      const { id: fridgeId } = await store.fridges.get(params.fridgeId);
      const run = await newestRun(store, fridgeId);
      if (run === null) return { verdict: null };
      const found = await findings.verdict(run.id);
      const { id: resultId, runIds, madeUnixMs } = await findings.file(found, run);
      const { analysis, context } = inLanguage(found, headers);
      const sources = analysisDocument(analysis, context).sources.map(({ source, verdict, reasons }) => ({
        source,
        verdict,
        reasons,
      }));
      return { verdict: { resultId, runIds, madeUnixMs, sources } };
    },
    "GET /api/fridges/{fridgeId}/hot-day": async ({ params, query, headers }) => {
      const { prediction, context } = inLanguage(await findings.hotDay(params.fridgeId, query), headers);
      return hotDayDocument(prediction, context);
    },
    "GET /api/fridges/{fridgeId}/hot-day.html": async ({ params, query, headers }) =>
      hotDayPage(inLanguage(await findings.hotDay(params.fridgeId, query), headers)),
    "POST /api/fridges/{fridgeId}/trip": async ({ params, body, headers }) => {
      const { prediction, context } = inLanguage(
        await findings.hotDay(params.fridgeId, questionOf(body, headers)),
        headers,
      );
      return hotDayDocument(prediction, context);
    },
    "POST /api/fridges/{fridgeId}/trip.html": async ({ params, body, headers }) =>
      hotDayPage(inLanguage(await findings.hotDay(params.fridgeId, questionOf(body, headers)), headers)),
    "GET /api/plan.html": ({ query: { start, sources, utcOffsetMinutes, isSwitchedWhileCold }, headers }) => {
      const language = languageOf(headers);
      const found = planRun({ startMs: start, sources: sourcesIn(sources), utcOffsetMinutes, isSwitchedWhileCold });
      if (found.outcome === "refused")
        throw new Problem("cannot-use", () => tellPlanRefusal(found.reason, utcOffsetMinutes, language));
      return planPage(found.plan, language);
    },
    "GET /api/runs/{runId}/verdict": async ({ params, query, headers }) => {
      const { analysis, context } = inLanguage(await findings.verdict(params.runId, query.margin), headers);
      return analysisDocument(analysis, context);
    },
    "GET /api/runs/{runId}/verdict.html": async ({ params, query, headers }) =>
      analysisPage(inLanguage(await findings.verdict(params.runId, query.margin), headers)),
    "GET /api/runs/{runId}/report.pdf": async ({ params, query, headers }) =>
      testReportPdf(reportIn(await findings.runReport(params.runId, query), headers)),
    "GET /api/runs/{runId}/report.html": async ({ params, query, headers }) =>
      testReportPage(reportIn(await findings.runReport(params.runId, query), headers)),
    "GET /api/runs/{runId}/drawing.svg": async ({ params, query, headers }) => {
      const { analysis, context } = inLanguage(await findings.verdict(params.runId), headers);
      const drawing = drawingFile(analysis, context, query);
      if (drawing === null) throw new Problem("no-such-record");
      return drawing;
    },
    "GET /api/comparison/report.pdf": async ({ query, headers }) =>
      testReportPdf(reportIn(await findings.serviceReport(serviceRuns(query), query), headers)),
    "GET /api/comparison/report.html": async ({ query, headers }) =>
      testReportPage(reportIn(await findings.serviceReport(serviceRuns(query), query), headers)),
    "GET /api/comparison": async ({ query, headers }) => {
      const { comparison, context } = inLanguage(await findings.comparison(serviceRuns(query), query.margin), headers);
      return comparisonDocument(comparison, context);
    },
    "GET /api/comparison.html": async ({ query, headers }) =>
      comparisonPage(inLanguage(await findings.comparison(serviceRuns(query), query.margin), headers)),
  };
}

/** A finding speaks no language and knows one sort of degrees; it is told in the visitor's. */
const inLanguage = <F extends { readonly context: { readonly language: Language } }>(
  finding: F,
  headers: IncomingHttpHeaders,
): F => ({ ...finding, context: { ...finding.context, ...tellingFor(headers) } });

const reportIn = (report: TestReport, headers: IncomingHttpHeaders): TestReport => ({
  ...inLanguage(report, headers),
  service: report.service === null ? null : inLanguage(report.service, headers),
});

const serviceRuns = ({ before, after }: { readonly before: string; readonly after: string }): ServiceRuns => ({
  before: idsIn(before),
  after: idsIn(after),
});

const idsIn = (text: string): readonly string[] => {
  const ids = text.split(",").map((id) => id.trim());
  if (ids.some((id) => id === "") || ids.length > mostCompared) throw new Problem("bad-request");
  return ids;
};

function sourcesIn(text: string): readonly HeatSource[] {
  const asked = text.split(",").map((name) => heatSources.find((source) => source === name.trim()));
  const sources = asked.flatMap((source) => source ?? []);
  if (sources.length < asked.length || new Set(sources).size < asked.length) throw new Problem("bad-request");
  return sources;
}

function questionOf({ name, utcOffsetMinutes, rows, ...others }: Trip, headers: IncomingHttpHeaders): HotDayQuestion {
  const sha256 = createHash("sha256").update(JSON.stringify(rows)).digest("hex");
  refuseDisorder(rows);
  return {
    forecast: { name: name ?? words(languageOf(headers)).server.typedTrip, sha256, utcOffsetMinutes, rows },
    ...others,
  };
}

const inOrder: Said = ({ tripOrder }) => tripOrder;

function refuseDisorder(rows: readonly { readonly unixMs: number }[]): void {
  const at = rows.findIndex(({ unixMs }, index) => index > 0 && unixMs <= rows[index - 1].unixMs);
  const days = (rows[rows.length - 1].unixMs - rows[0].unixMs) / msPerDay;
  if (at >= 0) throw new Problem("wrong-shape", inOrder, [{ where: `rows[${at}]`, what: inOrder }]);
  if (days > mostForecastDays) throw new Problem("wrong-shape", (text) => text.tripTooLong(mostForecastDays));
}

const mostCompared = 10;
