// Fridges, what they run on, and what they are compared with.

import { tellSourceCaution } from "../../report/recording/index.ts";
import type { Position } from "../../schema/index.ts";
import type { Baseline, NewBaseline } from "../../store/index.ts";
import { refuseOthersBaseline } from "../../workshop/logs-read.ts";
import { noteReadings, sayNowOn } from "../../workshop/recording/index.ts";
import { refuseIfChanged } from "../etag.ts";
import type { Handlers } from "../handlers.ts";
import { tellingFor } from "../language.ts";
import { Problem } from "../problem.ts";
import type { ServiceParts } from "../service-parts.ts";

export function fridgeRoutes(
  parts: ServiceParts,
): Handlers<
  | "GET /api/fridges"
  | "POST /api/fridges"
  | "GET /api/fridges/{fridgeId}"
  | "PATCH /api/fridges/{fridgeId}"
  | "DELETE /api/fridges/{fridgeId}"
  | "POST /api/fridges/{fridgeId}/restore"
  | "GET /api/fridges/{fridgeId}/everything"
  | "POST /api/fridges/{fridgeId}/source"
  | "POST /api/fridges/{fridgeId}/readings"
  | "GET /api/fridges/{fridgeId}/baselines"
  | "POST /api/fridges/{fridgeId}/baselines"
  | "DELETE /api/baselines/{baselineId}"
> {
  const { store, watch } = parts;
  return {
    "GET /api/fridges": async ({ query: { removed } }) => ({
      fridges: await store.fridges.list({ areRemoved: removed ?? false }),
    }),
    "POST /api/fridges": ({ body }) => store.fridges.add(body),
    "GET /api/fridges/{fridgeId}": ({ params }) => store.fridges.get(params.fridgeId),
    "PATCH /api/fridges/{fridgeId}": async ({ params, body, headers }) => {
      refuseIfChanged(headers["if-match"], await store.fridges.get(params.fridgeId));
      return store.fridges.edit(params.fridgeId, body);
    },
    "DELETE /api/fridges/{fridgeId}": async ({ params }) => {
      await store.fridges.remove(params.fridgeId);
      return undefined;
    },
    "POST /api/fridges/{fridgeId}/restore": ({ params }) => store.fridges.restore(params.fridgeId),
    "GET /api/fridges/{fridgeId}/everything": async ({ params }) => {
      await store.fridges.get(params.fridgeId);
      return linesOf(store.fridges.export(params.fridgeId));
    },
    "POST /api/fridges/{fridgeId}/source": async ({ params, body: { source, unixMs, runId }, headers }) => {
      const fridge = await store.fridges.get(params.fridgeId);
      const { run } = await sayNowOn(store, fridge, source, { clockUnixMs: parts.now(), unixMs, runId });
      await watch.look();
      return { ...run, caution: tellSourceCaution(source, { ...tellingFor(headers), utcOffsetMinutes: 0 }) };
    },
    "POST /api/fridges/{fridgeId}/readings": async ({ params, body: { values, unixMs, utcOffsetMinutes } }) => {
      const fridge = await store.fridges.get(params.fridgeId);
      const noted = new Map(Object.entries(values) as [Position, number][]);
      const at = { clockUnixMs: parts.now(), unixMs, utcOffsetMinutes };
      const { run, received } = await noteReadings(store, fridge, noted, at);
      await watch.look();
      return { runId: run.id, ...received };
    },
    "GET /api/fridges/{fridgeId}/baselines": async ({ params }) => {
      await store.fridges.get(params.fridgeId);
      return { baselines: (await store.baselines.list(params.fridgeId)).map(shownBaseline) };
    },
    "POST /api/fridges/{fridgeId}/baselines": async ({ params, body }) => {
      const fridge = await store.fridges.get(params.fridgeId);
      if ("runIds" in body) {
        const runs = await Promise.all(body.runIds.map((id) => store.runs.get(id)));
        const stranger = body.kind === "own" ? runs.find(({ fridgeId }) => fridgeId !== fridge.id) : undefined;
        if (stranger !== undefined) throw new Problem("cannot-use", (text) => text.otherFridge(stranger.name));
      } else refuseOthersBaseline(fridge.name, body.file);
      // The shape was checked; a file's lists are only read.
      const added = { fridgeId: fridge.id, madeUnixMs: parts.now(), ...body } as NewBaseline;
      return shownBaseline(await store.baselines.add(added));
    },
    "DELETE /api/baselines/{baselineId}": async ({ params }) => {
      await store.baselines.remove(params.baselineId);
      return undefined;
    },
  };
}

async function* linesOf(objects: AsyncIterable<unknown>): AsyncIterable<string> {
  for await (const object of objects) yield `${JSON.stringify(object)}\n`;
}

/** A baseline file is megabytes; a list only says that there is one. */
const shownBaseline = (baseline: Baseline) => {
  const { id, fridgeId, kind, madeUnixMs, notes } = baseline;
  return { id, fridgeId, kind, madeUnixMs, notes, runIds: "runIds" in baseline ? baseline.runIds : null };
};
