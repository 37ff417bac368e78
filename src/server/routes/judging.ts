// Verdicts, comparisons, hot days: questions to the workshop, answered with the published documents.

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
import { type HeatSource, heatSources, msPerDay } from "../../schema/index.ts";
import { planRun } from "../../science/plan/index.ts";
import { type Comparison, compareKeptRuns } from "../../workshop/compare.ts";
import { baselineRuns } from "../../workshop/fridge-baseline.ts";
import { type Judgement, judgeLogs, keepJudgement } from "../../workshop/judge.ts";
import { readRuns } from "../../workshop/logs-read.ts";
import { newestRun } from "../../workshop/newest-run.ts";
import { type HotDayQuestion, type Prediction, predictFromLogs } from "../../workshop/predict.ts";
import { runTestReport, serviceTestReport } from "../../workshop/test-report.ts";
import { AnswersKept } from "../answers-kept.ts";
import type { Handlers } from "../handlers.ts";
import { languageOf, tellingFor } from "../language.ts";
import { Problem, type Said } from "../problem.ts";
import { runsRevision } from "../run-revision.ts";
import type { ServiceParts } from "../service-parts.ts";

type Trip = BodyOf<Operations["POST /api/fridges/{fridgeId}/trip"], never>;
type Judged = Judgement & { readonly title: string };
type Predicted = Prediction & { readonly title: string };
interface ReportAsked {
  readonly margin?: number;
  readonly letterhead?: string;
}
interface ServiceAsked {
  readonly before: string;
  readonly after: string;
}
type Compared = Comparison & { readonly title: string };

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
  const verdicts = new AnswersKept<Judged>(mostKept);
  /** By run, what its newest filed result rests on: a change taken back is filed too, or the fridge would show the change. */
  const filed = new Map<string, string>();
  const comparisons = new AnswersKept<Compared>(mostKept);
  const hotDays = new AnswersKept<Predicted>(mostKept);
  const reports = new AnswersKept<TestReport>(mostKept);

  /** What the answer about these runs rests on: they, and the known-good runs of their fridge. */
  const restsOn = async (runIds: readonly string[], ...besides: readonly unknown[]) => {
    const { fridgeId } = await store.runs.get(runIds[0]);
    const baseline = await baselineRuns(store, fridgeId, runIds);
    return runsRevision(store, [...runIds, ...baseline.runIds], runIds, baseline.id, besides);
  };

  const judged = async (id: string, margin: number | undefined): Promise<Judged> => {
    const run = await store.runs.get(id);
    await refuseEmpty(run.id);
    const rests = await restsOn([run.id], margin);
    const found = await verdicts.get(rests, async () => {
      const { name: title } = await store.fridges.get(run.fridgeId);
      return { title, ...judgeLogs(await readRuns(store, [run.id]), { margin }) };
    });
    // A run that goes on, or another margin, is looked at, not filed.
    if (run.endedUnixMs !== null && margin === undefined && filed.get(run.id) !== rests) {
      await keepJudgement(store, found, { fridgeId: run.fridgeId, runIds: [run.id], madeUnixMs: parts.now() });
      filed.set(run.id, rests);
    }
    return found;
  };

  const compared = async (asked: { before: string; after: string; margin?: number }): Promise<Compared> => {
    const [before, after] = [idsIn(asked.before), idsIn(asked.after)];
    for (const id of [...before, ...after]) await refuseEmpty((await store.runs.get(id)).id);
    return comparisons.get(await restsOn([...before, ...after], before.length, asked.margin), async () => {
      const { fridgeId } = await store.runs.get(before[0]);
      const { name: title } = await store.fridges.get(fridgeId);
      return { title, ...(await compareKeptRuns(store, before, after, { margin: asked.margin })) };
    });
  };

  /** Written when it is first asked for, and kept with that instant until something it rests on changes. */
  const reportedRun = async (id: string, { margin, letterhead }: ReportAsked): Promise<TestReport> => {
    const run = await store.runs.get(id);
    const judgement = await judged(run.id, margin);
    const fridge = await store.fridges.get(run.fridgeId);
    const key = await restsOn([run.id], "report", margin, letterhead, fridge);
    return reports.get(key, () => runTestReport(store, run.id, judgement, { madeMs: parts.now(), letterhead }));
  };

  const reportedService = async ({ before, after, margin, letterhead }: ReportAsked & ServiceAsked) => {
    const [then, now] = [idsIn(before), idsIn(after)];
    for (const id of [...then, ...now]) await refuseEmpty((await store.runs.get(id)).id);
    const fridge = await store.fridges.get((await store.runs.get(then[0])).fridgeId);
    const key = await restsOn([...then, ...now], "report", then.length, margin, letterhead, fridge);
    return reports.get(key, () => serviceTestReport(store, then, now, { madeMs: parts.now(), margin, letterhead }));
  };

  const predicted = async (fridgeId: string, question: HotDayQuestion): Promise<Predicted> => {
    const fridge = await store.fridges.get(fridgeId);
    const { runs } = await store.runs.list({ fridgeId: fridge.id, limit: mostRuns });
    const extents = await Promise.all(runs.map(({ id }) => store.runs.extents(id)));
    const ids = runs.filter((_, index) => extents[index].length > 0).map(({ id }) => id);
    if (ids.length === 0) throw new Problem("not-now", ({ noRuns }) => noRuns);
    return hotDays.get(await restsOn(ids, question), async () => {
      const { prediction, context } = predictFromLogs(await readRuns(store, ids), question);
      return { title: fridge.name, prediction, context };
    });
  };

  const refuseEmpty = async (runId: string) => {
    if ((await store.runs.extents(runId)).length === 0) throw new Problem("not-now", ({ noReadings }) => noReadings);
  };

  return {
    "GET /api/fridges/{fridgeId}/verdict": async ({ params, headers }) => {
      const { id: fridgeId } = await store.fridges.get(params.fridgeId);
      const run = await newestRun(store, fridgeId);
      if (run === null) return { verdict: null };
      const found = await judged(run.id, undefined);
      const runIds = [run.id];
      const { id: resultId, madeUnixMs } = await keepJudgement(store, found, {
        ...{ fridgeId, runIds },
        madeUnixMs: parts.now(),
      });
      const { analysis, context } = inLanguage(found, headers);
      const { sources } = analysisDocument(analysis, context);
      return {
        verdict: {
          ...{ resultId, runIds, madeUnixMs },
          sources: sources.map(({ source, verdict, reasons }) => ({ source, verdict, reasons })),
        },
      };
    },
    "GET /api/fridges/{fridgeId}/hot-day": async ({ params, query, headers }) => {
      const { prediction, context } = inLanguage(await predicted(params.fridgeId, query), headers);
      return hotDayDocument(prediction, context);
    },
    "GET /api/fridges/{fridgeId}/hot-day.html": async ({ params, query, headers }) =>
      hotDayPage(inLanguage(await predicted(params.fridgeId, query), headers)),
    "POST /api/fridges/{fridgeId}/trip": async ({ params, body, headers }) => {
      const { prediction, context } = inLanguage(await predicted(params.fridgeId, questionOf(body, headers)), headers);
      return hotDayDocument(prediction, context);
    },
    "POST /api/fridges/{fridgeId}/trip.html": async ({ params, body, headers }) =>
      hotDayPage(inLanguage(await predicted(params.fridgeId, questionOf(body, headers)), headers)),
    "GET /api/plan.html": ({ query: { start, sources, utcOffsetMinutes, isSwitchedWhileCold }, headers }) => {
      const language = languageOf(headers);
      const found = planRun({ startMs: start, sources: sourcesIn(sources), utcOffsetMinutes, isSwitchedWhileCold });
      if (found.outcome === "refused")
        throw new Problem("cannot-use", () => tellPlanRefusal(found.reason, utcOffsetMinutes, language));
      return planPage(found.plan, language);
    },
    "GET /api/runs/{runId}/verdict": async ({ params, query, headers }) => {
      const { analysis, context } = inLanguage(await judged(params.runId, query.margin), headers);
      return analysisDocument(analysis, context);
    },
    "GET /api/runs/{runId}/verdict.html": async ({ params, query, headers }) =>
      analysisPage(inLanguage(await judged(params.runId, query.margin), headers)),
    "GET /api/runs/{runId}/report.pdf": async ({ params, query, headers }) =>
      testReportPdf(reportIn(await reportedRun(params.runId, query), headers)),
    "GET /api/runs/{runId}/report.html": async ({ params, query, headers }) =>
      testReportPage(reportIn(await reportedRun(params.runId, query), headers)),
    "GET /api/runs/{runId}/drawing.svg": async ({ params, query, headers }) => {
      const { analysis, context } = inLanguage(await judged(params.runId, undefined), headers);
      const drawing = drawingFile(analysis, context, query);
      if (drawing === null) throw new Problem("no-such-record");
      return drawing;
    },
    "GET /api/comparison/report.pdf": async ({ query, headers }) =>
      testReportPdf(reportIn(await reportedService(query), headers)),
    "GET /api/comparison/report.html": async ({ query, headers }) =>
      testReportPage(reportIn(await reportedService(query), headers)),
    "GET /api/comparison": async ({ query, headers }) => {
      const { comparison, context } = inLanguage(await compared(query), headers);
      return comparisonDocument(comparison, context);
    },
    "GET /api/comparison.html": async ({ query, headers }) =>
      comparisonPage(inLanguage(await compared(query), headers)),
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
  if (days > mostTripDays) throw new Problem("wrong-shape", (text) => text.tripTooLong(mostTripDays));
}

/** Answers of each sort that are kept. */
const mostKept = 30;
/** A hot day stands on the fridge's newest runs; the document names them. */
const mostRuns = 40;
const mostCompared = 10;
/** As for a forecast's file. */
const mostTripDays = 31;
