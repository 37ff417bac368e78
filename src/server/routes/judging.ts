// Verdicts, comparisons, hot days: questions to the workshop, answered with the published documents.

import { createHash } from "node:crypto";
import {
  analysisDocument,
  analysisPage,
  comparisonDocument,
  comparisonPage,
  drawingFile,
  hotDayDocument,
  hotDayPage,
  planPage,
  type TestReport,
  tellPlanRefusal,
  testReportPage,
  testReportPdf,
  words,
} from "../../report/index.ts";
import type { BodyOf, Operations } from "../../schema/api/index.ts";
import {
  type AnalysisDocument,
  type ComparisonDocument,
  type HeatSource,
  type HotDayDocument,
  heatSources,
} from "../../schema/index.ts";
import { planRun } from "../../science/index.ts";
import {
  type Comparison,
  compareKeptRuns,
  type HotDayQuestion,
  type Judgement,
  judgeLogs,
  judgeRuns,
  type Prediction,
  predictFromLogs,
  readRuns,
  runTestReport,
  serviceTestReport,
} from "../../workshop/index.ts";
import { AnswersKept } from "../answers-kept.ts";
import type { Handlers } from "../handlers.ts";
import { Problem } from "../problem.ts";
import { runsRevision } from "../run-revision.ts";
import type { ServiceParts } from "../service-parts.ts";

const { server } = words("en");

type Trip = BodyOf<Operations["POST /api/fridges/{fridgeId}/trip"], never>;
type Judged = Judgement & { readonly document: AnalysisDocument; readonly title: string };
type Predicted = Prediction & { readonly document: HotDayDocument; readonly title: string };
interface ReportAsked {
  readonly margin?: number;
  readonly letterhead?: string;
}
interface ServiceAsked {
  readonly before: string;
  readonly after: string;
}
type Compared = Comparison & { readonly document: ComparisonDocument; readonly title: string };

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
  const comparisons = new AnswersKept<Compared>(mostKept);
  const hotDays = new AnswersKept<Predicted>(mostKept);
  const reports = new AnswersKept<TestReport>(mostKept);

  /** What the answer about these runs rests on: they, and the known-good runs of their fridge. */
  const restsOn = async (runIds: readonly string[], ...besides: readonly unknown[]) => {
    const { fridgeId } = await store.runs.get(runIds[0]);
    const baselines = (await store.baselines.list(fridgeId)).map(({ id }) => id);
    const { runs: knownGood } = await store.runs.list({ fridgeId, purpose: "known-good", limit: mostRuns });
    return runsRevision(store, [...runIds, ...knownGood.map(({ id }) => id)], runIds, baselines, besides);
  };

  const judged = async (id: string, margin: number | undefined): Promise<Judged> => {
    const run = await store.runs.get(id);
    await refuseEmpty(run.id);
    return verdicts.get(await restsOn([run.id], margin), async () => {
      const { name: title } = await store.fridges.get(run.fridgeId);
      // A run that goes on, or another margin, is looked at, not filed.
      if (run.endedUnixMs !== null && margin === undefined)
        return { title, ...(await judgeRuns(store, [run.id], parts.now())) };
      const judgement = judgeLogs(await readRuns(store, [run.id]), { margin });
      return { title, ...judgement, document: analysisDocument(judgement.analysis, judgement.context) };
    });
  };

  const compared = async (asked: { before: string; after: string; margin?: number }): Promise<Compared> => {
    const [before, after] = [idsIn(asked.before), idsIn(asked.after)];
    for (const id of [...before, ...after]) await refuseEmpty((await store.runs.get(id)).id);
    return comparisons.get(await restsOn([...before, ...after], before.length, asked.margin), async () => {
      const { fridgeId } = await store.runs.get(before[0]);
      const { name: title } = await store.fridges.get(fridgeId);
      const comparison = await compareKeptRuns(store, before, after, { margin: asked.margin });
      return { title, ...comparison, document: comparisonDocument(comparison.comparison, comparison.context) };
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
    if (ids.length === 0) throw new Problem("not-now", server.noRuns);
    return hotDays.get(await restsOn(ids, question), async () => {
      const { prediction, context } = predictFromLogs(await readRuns(store, ids), question);
      return { title: fridge.name, prediction, context, document: hotDayDocument(prediction, context) };
    });
  };

  const refuseEmpty = async (runId: string) => {
    if ((await store.runs.extents(runId)).length === 0) throw new Problem("not-now", server.noReadings);
  };

  return {
    "GET /api/fridges/{fridgeId}/verdict": async ({ params }) => {
      await store.fridges.get(params.fridgeId);
      const newest = await store.results.newest({ fridgeId: params.fridgeId });
      if (newest?.kind !== "analysis") return { verdict: null };
      const { id: resultId, runIds, madeUnixMs, document } = newest;
      const sources = document.sources.map(({ source, verdict, reasons }) => ({ source, verdict, reasons }));
      return { verdict: { resultId, runIds, madeUnixMs, sources } };
    },
    "GET /api/fridges/{fridgeId}/hot-day": async ({ params, query }) =>
      (await predicted(params.fridgeId, query)).document,
    "GET /api/fridges/{fridgeId}/hot-day.html": async ({ params, query }) =>
      hotDayPage(await predicted(params.fridgeId, query)),
    "POST /api/fridges/{fridgeId}/trip": async ({ params, body }) =>
      (await predicted(params.fridgeId, questionOf(body))).document,
    "POST /api/fridges/{fridgeId}/trip.html": async ({ params, body }) =>
      hotDayPage(await predicted(params.fridgeId, questionOf(body))),
    "GET /api/plan.html": ({ query: { start, sources, utcOffsetMinutes, isSwitchedWhileCold } }) => {
      const found = planRun({ startMs: start, sources: sourcesIn(sources), utcOffsetMinutes, isSwitchedWhileCold });
      if (found.outcome === "refused")
        throw new Problem("cannot-use", tellPlanRefusal(found.reason, utcOffsetMinutes, "en"));
      return planPage(found.plan, "en");
    },
    "GET /api/runs/{runId}/verdict": async ({ params, query }) => (await judged(params.runId, query.margin)).document,
    "GET /api/runs/{runId}/verdict.html": async ({ params, query }) =>
      analysisPage(await judged(params.runId, query.margin)),
    "GET /api/runs/{runId}/report.pdf": async ({ params, query }) =>
      testReportPdf(await reportedRun(params.runId, query)),
    "GET /api/runs/{runId}/report.html": async ({ params, query }) =>
      testReportPage(await reportedRun(params.runId, query)),
    "GET /api/runs/{runId}/drawing.svg": async ({ params, query }) => {
      const { analysis, context } = await judged(params.runId, undefined);
      const drawing = drawingFile(analysis, context, query);
      if (drawing === null) throw new Problem("no-such-record");
      return drawing;
    },
    "GET /api/comparison/report.pdf": async ({ query }) => testReportPdf(await reportedService(query)),
    "GET /api/comparison/report.html": async ({ query }) => testReportPage(await reportedService(query)),
    "GET /api/comparison": async ({ query }) => (await compared(query)).document,
    "GET /api/comparison.html": async ({ query }) => comparisonPage(await compared(query)),
  };
}

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

function questionOf({ name, utcOffsetMinutes, rows, ...others }: Trip): HotDayQuestion {
  const sha256 = createHash("sha256").update(JSON.stringify(rows)).digest("hex");
  refuseDisorder(rows);
  return { forecast: { name: name ?? server.typedTrip, sha256, utcOffsetMinutes, rows }, ...others };
}

function refuseDisorder(rows: readonly { readonly unixMs: number }[]): void {
  const at = rows.findIndex(({ unixMs }, index) => index > 0 && unixMs <= rows[index - 1].unixMs);
  const days = (rows[rows.length - 1].unixMs - rows[0].unixMs) / 86_400_000;
  if (at >= 0) throw new Problem("wrong-shape", server.tripOrder, [{ where: `rows[${at}]`, what: server.tripOrder }]);
  if (days > mostTripDays) throw new Problem("wrong-shape", server.tripTooLong(mostTripDays));
}

/** Answers of each sort that are kept. */
const mostKept = 30;
/** A hot day stands on the fridge's newest runs; the document names them. */
const mostRuns = 40;
const mostCompared = 10;
/** As for a forecast's file. */
const mostTripDays = 31;
