// Runs: listed, changed, read anew, drawn.

import { nativeLogText } from "../../ingest/index.ts";
import { keepExtremes } from "../../science/index.ts";
import type { EditStep, Store } from "../../store/index.ts";
import { nowOf } from "../../workshop/recording/index.ts";
import { AnswersKept } from "../answers-kept.ts";
import { type BelievedSeries, believedSeries } from "../believed-series.ts";
import { refuseIfChanged } from "../etag.ts";
import type { Handlers } from "../handlers.ts";
import { runsRevision } from "../run-revision.ts";
import type { ServiceParts } from "../service-parts.ts";

export function runRoutes(
  parts: ServiceParts,
): Handlers<
  | "GET /api/runs"
  | "POST /api/runs"
  | "GET /api/runs/{runId}"
  | "PATCH /api/runs/{runId}"
  | "DELETE /api/runs/{runId}"
  | "POST /api/runs/{runId}/restore"
  | "POST /api/runs/{runId}/end"
  | "GET /api/runs/{runId}/readings"
  | "GET /api/runs/{runId}/edits"
  | "POST /api/runs/{runId}/edits"
  | "POST /api/runs/{runId}/edits/undo"
  | "POST /api/runs/{runId}/edits/redo"
  | "GET /api/runs/{runId}/events"
  | "GET /api/runs/{runId}/log.csv"
> {
  const { store, watch } = parts;
  const series = new AnswersKept<BelievedSeries>(mostSeriesBytes, ({ bytes }) => bytes);
  const afterEdit = async (runId: string) => {
    await watch.look();
    return store.edits.current(runId);
  };
  return {
    "GET /api/runs": ({ query: { state, ...query } }) =>
      store.runs.list({
        ...query,
        ...(state === "open" || state === "closed" ? { isOpen: state === "open" } : {}),
        ...(state === "deleted" ? { areDeleted: true } : {}),
      }),
    "POST /api/runs": async ({ body }) => {
      await store.fridges.get(body.fridgeId);
      const run = await store.runs.open({ ...body, startedUnixMs: body.startedUnixMs ?? parts.now(), origin: "hand" });
      await watch.look();
      return run;
    },
    "GET /api/runs/{runId}": ({ params }) => runWithExtents(store, params.runId),
    "PATCH /api/runs/{runId}": async ({ params, body, headers }) => {
      refuseIfChanged(headers["if-match"], await runWithExtents(store, params.runId));
      await store.runs.edit(params.runId, body);
      await watch.look();
      return runWithExtents(store, params.runId);
    },
    "DELETE /api/runs/{runId}": async ({ params }) => {
      await store.runs.delete(params.runId);
      await watch.look();
      return undefined;
    },
    "POST /api/runs/{runId}/restore": ({ params }) => store.runs.restore(params.runId),
    "POST /api/runs/{runId}/end": async ({ params }) => {
      const before = await store.runs.get(params.runId);
      // Pressed a second time, perhaps in the morning, it must not make the night longer.
      if (before.endedUnixMs !== null) return before;
      const at = await nowOf(store, before, parts.now());
      const run = await store.runs.close(params.runId, at);
      await watch.look();
      return run;
    },
    "GET /api/runs/{runId}/readings": async ({ params: { runId }, query: { position, from, to, points } }) => {
      const run = await store.runs.get(runId);
      const ofRun = await series.get(await runsRevision(store, [run.id]), async () =>
        believedSeries(await store.readings.recording(run.id)),
      );
      const { unixMs, values, rejected } = ofRun.of(position);
      const span = { fromUnixMs: from ?? -Infinity, toUnixMs: to ?? Infinity };
      const { indices, readings, gaps } = keepExtremes(unixMs, values, span, points ?? usualPoints);
      const marked = keepExtremes(rejected.unixMs, rejected.values, span, (points ?? usualPoints) / pointsPerMark);
      return {
        runId: run.id,
        position,
        readings,
        isReduced: indices.length < readings,
        unixMs: Array.from(indices, (i) => unixMs[i]),
        values: Array.from(indices, (i) => values[i]),
        gaps: gaps.map(([before, after]) => ({ fromUnixMs: unixMs[before], toUnixMs: unixMs[after] })),
        rejected: {
          readings: marked.readings,
          unixMs: Array.from(marked.indices, (i) => rejected.unixMs[i]),
          values: Array.from(marked.indices, (i) => rejected.values[i]),
        },
      };
    },
    "GET /api/runs/{runId}/edits": async ({ params }) => {
      await store.runs.get(params.runId);
      return store.edits.current(params.runId);
    },
    "POST /api/runs/{runId}/edits": async ({ params: { runId }, body, visitor }) => {
      await store.runs.get(runId);
      await store.edits.make(runId, body as EditStep, { unixMs: parts.now(), by: visitor.role ?? undefined });
      return afterEdit(runId);
    },
    "POST /api/runs/{runId}/edits/undo": async ({ params: { runId } }) => {
      await store.runs.get(runId);
      await store.edits.undo(runId);
      return afterEdit(runId);
    },
    "POST /api/runs/{runId}/edits/redo": async ({ params: { runId } }) => {
      await store.runs.get(runId);
      await store.edits.redo(runId);
      return afterEdit(runId);
    },
    "GET /api/runs/{runId}/events": async ({ params }) => {
      await store.runs.get(params.runId);
      return { events: await store.events.list(params.runId) };
    },
    "GET /api/runs/{runId}/log.csv": async ({ params, response }) => {
      const run = await store.runs.get(params.runId);
      // Named by ourselves: what a person calls the run may hold anything.
      response.setHeader("Content-Disposition", `attachment; filename="run-${run.id.replace(/[^\w-]/g, "")}.csv"`);
      const whole = { values: "raw", exclusions: "kept", sources: "in-rows" } as const;
      return nativeLogText(await store.readings.recording(run.id, whole));
    },
  };
}

async function runWithExtents(store: Pick<Store, "runs">, runId: string) {
  const run = await store.runs.get(runId);
  return { ...run, extents: await store.runs.extents(run.id), files: await store.runs.files(run.id) };
}

const usualPoints = 2000;
/** A mark is a symbol several points wide. */
const pointsPerMark = 8;
/** Series kept for panning and zooming: some four million readings. */
const mostSeriesBytes = 64_000_000;
