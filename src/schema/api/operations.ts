// The whole interface in one table. Routes, validation, the OpenAPI document and the pages' client all follow from it.

import { z } from "zod";
import { analysisDocumentSchema } from "../documents/analysis-document.ts";
import { comparisonDocumentSchema } from "../documents/comparison-document.ts";
import { hotDayDocumentSchema } from "../documents/hot-day-document.ts";
import { alarmListSchema, alarmQuery } from "./alarms.ts";
import {
  baselineListSchema,
  baselineSchema,
  fridgeChangesSchema,
  fridgeDetailsSchema,
  fridgeListSchema,
  fridgeSchema,
  newBaselineSchema,
} from "./fridges.ts";
import { importSchema, jobListSchema, jobSchema, logHintsSchema, uploadQuery, uploadSchema } from "./jobs.ts";
import {
  comparisonQuery,
  comparisonReportQuery,
  drawingQuery,
  hotDayQuery,
  newestVerdictSchema,
  planQuery,
  reportQuery,
  tripSchema,
  verdictQuery,
} from "./judging.ts";
import { liveQuery, runNowSchema } from "./live.ts";
import { type Operation, operation } from "./operation.ts";
import {
  boardChangesSchema,
  boardListSchema,
  boardSchema,
  boardTokenSchema,
  calibrationSchema,
  newCalibrationSchema,
  newRoleSchema,
  probeDetailsSchema,
  probeListSchema,
  probeSchema,
  senmlPackSchema,
  takenSchema,
} from "./probes.ts";
import {
  curveQuery,
  curveSchema,
  editStepSchema,
  handReadingsSchema,
  newRunSchema,
  notedSourceSchema,
  nowOnSchema,
  receivedSchema,
  runChangesSchema,
  runEditsSchema,
  runEventListSchema,
  runListSchema,
  runQuery,
  runSchema,
  runWithExtentsSchema,
} from "./runs.ts";
import { healthSchema, problemInfoSchema, sessionSchema, signInSchema, statusSchema } from "./service.ts";

const html = { media: ["text/html"] } as const;
const pdf = { media: ["application/pdf"] } as const;
const svg = { media: ["image/svg+xml"] } as const;
const csv = { media: ["text/csv"] } as const;
const eventStream = { media: ["text/event-stream"] } as const;
const openApi = { media: ["application/json"] } as const;

/** Every operation by its method and path. */
export const operations = {
  // The service itself
  "GET /api/health": operation({ summary: "is the service well", may: "anyone", answer: healthSchema }),
  "GET /api/openapi.json": operation({ summary: "this interface as OpenAPI 3.1", may: "anyone", answer: openApi }),
  "GET /api/problems/{code}": operation({
    summary: "what a problem's type means",
    may: "anyone",
    answer: problemInfoSchema,
  }),
  "GET /api/session": operation({ summary: "who am I", may: "anyone", answer: sessionSchema }),
  "POST /api/session": operation({
    summary: "sign in; sets the session's cookie",
    may: "anyone",
    body: signInSchema,
    answer: sessionSchema,
  }),
  "DELETE /api/session": operation({ summary: "sign out", may: "anyone", answer: null }),
  "GET /api/status": operation({ summary: "how the service stands", may: "look", answer: statusSchema }),

  // Fridges
  "GET /api/fridges": operation({
    summary: "the workshop's fridges, by name",
    may: "look",
    query: z.strictObject({ removed: z.stringbool().optional().describe("the removed ones instead") }),
    answer: fridgeListSchema,
  }),
  "POST /api/fridges": operation({
    summary: "add a fridge",
    may: "change",
    body: fridgeDetailsSchema,
    answer: fridgeSchema,
    status: 201,
  }),
  "GET /api/fridges/{fridgeId}": operation({ summary: "one fridge", may: "look", answer: fridgeSchema }),
  "PATCH /api/fridges/{fridgeId}": operation({
    summary: "change what is given of a fridge",
    may: "change",
    body: fridgeChangesSchema,
    answer: fridgeSchema,
  }),
  "DELETE /api/fridges/{fridgeId}": operation({
    summary: "take a fridge with its runs out of sight; can be restored",
    may: "change",
    answer: null,
  }),
  "POST /api/fridges/{fridgeId}/restore": operation({
    summary: "bring a removed fridge back",
    may: "change",
    answer: fridgeSchema,
  }),
  "GET /api/fridges/{fridgeId}/everything": operation({
    summary: "all that is kept about a fridge, a JSON object a line",
    may: "look",
    answer: { media: ["application/x-ndjson"] },
  }),
  "GET /api/fridges/{fridgeId}/verdict": operation({
    summary: "the newest verdict on a fridge",
    may: "look",
    answer: newestVerdictSchema,
  }),
  "GET /api/fridges/{fridgeId}/hot-day": operation({
    summary: "where the cabinet settles at a chosen ambient, from all runs of the fridge",
    may: "look",
    query: hotDayQuery,
    answer: hotDayDocumentSchema,
  }),
  "POST /api/fridges/{fridgeId}/trip": operation({
    summary: "the cabinet hour by hour through a trip; stores nothing",
    may: "look",
    body: tripSchema,
    answer: hotDayDocumentSchema,
  }),
  "GET /api/fridges/{fridgeId}/hot-day.html": operation({
    summary: "the same as a page of its own, with drawings",
    may: "look",
    query: hotDayQuery,
    answer: html,
  }),
  "POST /api/fridges/{fridgeId}/trip.html": operation({
    summary: "a trip as a page of its own, with its strip of hours",
    may: "look",
    body: tripSchema,
    answer: html,
  }),
  "POST /api/fridges/{fridgeId}/source": operation({
    summary: "now on gas, on mains, on 12 V or off",
    may: "change",
    body: nowOnSchema,
    answer: notedSourceSchema,
    status: 201,
  }),
  "POST /api/fridges/{fridgeId}/readings": operation({
    summary: "note readings taken by hand",
    may: "change",
    body: handReadingsSchema,
    answer: receivedSchema,
    status: 201,
  }),
  "GET /api/fridges/{fridgeId}/baselines": operation({
    summary: "what the fridge is compared with",
    may: "look",
    answer: baselineListSchema,
  }),
  "POST /api/fridges/{fridgeId}/baselines": operation({
    summary: "choose known-good runs, or bring a baseline file",
    may: "change",
    body: newBaselineSchema,
    answer: baselineSchema,
    status: 201,
  }),
  "DELETE /api/baselines/{baselineId}": operation({ summary: "forget a baseline", may: "change", answer: null }),

  // Runs
  "GET /api/runs": operation({ summary: "runs, newest first", may: "look", query: runQuery, answer: runListSchema }),
  "POST /api/runs": operation({
    summary: "open a run",
    may: "change",
    body: newRunSchema,
    answer: runSchema,
    status: 201,
  }),
  "GET /api/runs/{runId}": operation({ summary: "one run", may: "look", answer: runWithExtentsSchema }),
  "PATCH /api/runs/{runId}": operation({
    summary: "change what is given of a run: notes, run sheet, purpose, its end",
    may: "change",
    body: runChangesSchema,
    answer: runWithExtentsSchema,
  }),
  "DELETE /api/runs/{runId}": operation({
    summary: "take a run out of sight; can be restored",
    may: "change",
    answer: null,
  }),
  "POST /api/runs/{runId}/restore": operation({
    summary: "bring a deleted run back",
    may: "change",
    answer: runSchema,
  }),
  "POST /api/runs/{runId}/end": operation({ summary: "end a run now", may: "change", answer: runSchema }),
  "GET /api/runs/{runId}/readings": operation({
    summary: "one position's readings, reduced so that extremes stay",
    may: "look",
    query: curveQuery,
    answer: curveSchema,
  }),
  "GET /api/runs/{runId}/edits": operation({
    summary: "how the run is read: sources, exclusions, notes",
    may: "look",
    answer: runEditsSchema,
  }),
  "POST /api/runs/{runId}/edits": operation({
    summary: "change how the run is read",
    may: "change",
    body: editStepSchema,
    answer: runEditsSchema,
    status: 201,
  }),
  "POST /api/runs/{runId}/edits/undo": operation({
    summary: "take back the last change",
    may: "change",
    answer: runEditsSchema,
  }),
  "POST /api/runs/{runId}/edits/redo": operation({
    summary: "bring back the change taken back last",
    may: "change",
    answer: runEditsSchema,
  }),
  "GET /api/runs/{runId}/events": operation({
    summary: "what happened during the run",
    may: "look",
    answer: runEventListSchema,
  }),
  "GET /api/runs/{runId}/verdict": operation({
    summary: "the run judged, against the fridge's baseline",
    may: "look",
    query: verdictQuery,
    answer: analysisDocumentSchema,
  }),
  "GET /api/runs/{runId}/verdict.html": operation({
    summary: "the same as a page of its own, with drawings",
    may: "look",
    query: verdictQuery,
    answer: html,
  }),
  "GET /api/runs/{runId}/report.pdf": operation({
    summary: "the run's test report for customer and workshop, one or two A4 pages",
    may: "look",
    query: reportQuery,
    answer: pdf,
  }),
  "GET /api/runs/{runId}/report.html": operation({
    summary: "the same as a page to print",
    may: "look",
    query: reportQuery,
    answer: html,
  }),
  "GET /api/runs/{runId}/drawing.svg": operation({
    summary: "the run, or one stretch of it, as a picture on light paper",
    may: "look",
    query: drawingQuery,
    answer: svg,
  }),
  "GET /api/runs/{runId}/log.csv": operation({
    summary: "the run's raw readings as a log",
    may: "look",
    answer: csv,
  }),
  "GET /api/comparison": operation({
    summary: "runs before and after a service compared",
    may: "look",
    query: comparisonQuery,
    answer: comparisonDocumentSchema,
  }),
  "GET /api/comparison.html": operation({
    summary: "the same as a page of its own, with drawings",
    may: "look",
    query: comparisonQuery,
    answer: html,
  }),

  "GET /api/comparison/report.pdf": operation({
    summary: "the test report on a service, one or two A4 pages",
    may: "look",
    query: comparisonReportQuery,
    answer: pdf,
  }),
  "GET /api/comparison/report.html": operation({
    summary: "the same as a page to print",
    may: "look",
    query: comparisonReportQuery,
    answer: html,
  }),

  "GET /api/plan.html": operation({
    summary: "a run laid out over the clock, with what to check first, as a page of its own",
    may: "look",
    query: planQuery,
    answer: html,
  }),

  // Live
  "GET /api/runs/{runId}/now": operation({
    summary: "what a run shows so far, and where it goes",
    may: "look",
    answer: runNowSchema,
  }),
  "GET /api/live": operation({
    summary: "readings, alarms and changes as they come, as server-sent events",
    may: "look",
    query: liveQuery,
    answer: eventStream,
  }),
  "GET /api/alarms": operation({
    summary: "alarms, newest first",
    may: "look",
    query: alarmQuery,
    answer: alarmListSchema,
  }),
  "POST /api/alarms/{alarmId}/acknowledge": operation({
    summary: "say that an alarm was seen",
    may: "change",
    answer: null,
  }),

  // Probes and boards
  "GET /api/probes": operation({
    summary: "probes, where they sit, and their calibrations",
    may: "look",
    answer: probeListSchema,
  }),
  "PUT /api/probes/{probeId}": operation({
    summary: "add a probe or say more about it",
    may: "change",
    body: probeDetailsSchema,
    answer: probeSchema,
  }),
  "DELETE /api/probes/{probeId}": operation({ summary: "forget a probe", may: "change", answer: null }),
  "PUT /api/probes/{probeId}/roles/{fridgeId}": operation({
    summary: "say where a probe sits on a fridge",
    may: "change",
    body: newRoleSchema,
    answer: null,
  }),
  "DELETE /api/probes/{probeId}/roles/{fridgeId}": operation({
    summary: "the probe sits on that fridge no more",
    may: "change",
    answer: null,
  }),
  "POST /api/probes/{probeId}/calibrations": operation({
    summary: "keep a calibration",
    may: "change",
    body: newCalibrationSchema,
    answer: calibrationSchema,
    status: 201,
  }),
  "DELETE /api/calibrations/{calibrationId}": operation({
    summary: "forget a calibration",
    may: "change",
    answer: null,
  }),
  "GET /api/boards": operation({ summary: "boards that were seen", may: "look", answer: boardListSchema }),
  "PATCH /api/boards/{boardId}": operation({
    summary: "name a board, or say on which fridge it is",
    may: "change",
    body: boardChangesSchema,
    answer: boardSchema,
  }),
  "DELETE /api/boards/{boardId}": operation({ summary: "forget a board and its token", may: "change", answer: null }),
  "POST /api/boards/{boardId}/token": operation({
    summary: "give a board a new token; the old one is void",
    may: "change",
    answer: boardTokenSchema,
    status: 201,
  }),
  "POST /api/boards/{boardId}/readings": operation({
    summary: "a board hands in readings (SenML), with its token as bearer",
    may: "board",
    body: senmlPackSchema,
    answer: takenSchema,
  }),

  // Logs brought in
  "POST /api/uploads": operation({
    summary: "bring in a log's bytes; nothing is stored in a run yet",
    may: "change",
    query: uploadQuery,
    body: { media: ["text/csv", "application/octet-stream", "application/senml+json"] },
    answer: uploadSchema,
    status: 201,
  }),
  "POST /api/uploads/{uploadId}/understand": operation({
    summary: "how the log is understood with these answers",
    may: "change",
    body: logHintsSchema,
    answer: uploadSchema,
  }),
  "POST /api/uploads/{uploadId}/import": operation({
    summary: "store the log as a run, after which the upload is forgotten; answers with a job",
    may: "change",
    body: importSchema,
    answer: jobSchema,
    status: 202,
  }),
  "DELETE /api/uploads/{uploadId}": operation({ summary: "forget the bytes", may: "change", answer: null }),
  "POST /api/samples": operation({
    summary: "fill an empty store with the invented sample logs; answers with a job",
    may: "change",
    answer: jobSchema,
    status: 202,
  }),
  "GET /api/jobs": operation({ summary: "long work, newest first", may: "look", answer: jobListSchema }),
  "GET /api/jobs/{jobId}": operation({ summary: "how far a job is", may: "look", answer: jobSchema }),
  "DELETE /api/jobs/{jobId}": operation({ summary: "cancel a job", may: "change", answer: jobSchema }),
} satisfies { readonly [name: `${"GET" | "POST" | "PUT" | "PATCH" | "DELETE"} /api/${string}`]: Operation };

export type Operations = typeof operations;
export type OperationName = keyof Operations;
