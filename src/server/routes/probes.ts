// Probes with their places and calibrations, boards with their tokens and readings.

import { resolveSenml } from "../../ingest/index.ts";
import type { Handlers } from "../handlers.ts";
import { Problem } from "../problem.ts";
import { bearerOf } from "../requests.ts";
import type { ServiceParts } from "../service-parts.ts";

export function probeRoutes(
  parts: ServiceParts,
): Handlers<
  | "GET /api/probes"
  | "PUT /api/probes/{probeId}"
  | "DELETE /api/probes/{probeId}"
  | "PUT /api/probes/{probeId}/roles/{fridgeId}"
  | "DELETE /api/probes/{probeId}/roles/{fridgeId}"
  | "POST /api/probes/{probeId}/calibrations"
  | "DELETE /api/calibrations/{calibrationId}"
  | "GET /api/boards"
  | "PATCH /api/boards/{boardId}"
  | "DELETE /api/boards/{boardId}"
  | "POST /api/boards/{boardId}/token"
  | "POST /api/boards/{boardId}/readings"
> {
  const { store, intake, refusals, watch } = parts;
  const boardWith = (token: string | undefined) => (token === undefined ? null : store.boards.withToken(token));
  return {
    "GET /api/probes": async () => ({
      probes: await store.probes.list(),
      roles: await store.probes.roles(),
      calibrations: await store.probes.calibrations(),
    }),
    "PUT /api/probes/{probeId}": ({ params, body }) => store.probes.put({ ...body, id: params.probeId }),
    "DELETE /api/probes/{probeId}": async ({ params }) => {
      await store.probes.remove(params.probeId);
      return undefined;
    },
    "PUT /api/probes/{probeId}/roles/{fridgeId}": async ({ params, body }) => {
      await store.probes.assign({ ...params, ...body, sinceUnixMs: parts.now() });
      return undefined;
    },
    "DELETE /api/probes/{probeId}/roles/{fridgeId}": async ({ params }) => {
      await store.probes.unassign(params.probeId, params.fridgeId);
      return undefined;
    },
    "POST /api/probes/{probeId}/calibrations": ({ params, body }) =>
      store.probes.calibrate({ ...body, probeId: params.probeId }),
    "DELETE /api/calibrations/{calibrationId}": async ({ params }) => {
      await store.probes.removeCalibration(params.calibrationId);
      return undefined;
    },
    "GET /api/boards": async () => ({ boards: await store.boards.list() }),
    "PATCH /api/boards/{boardId}": async ({ params, body }) => {
      if (body.fridgeId != null) await store.fridges.get(body.fridgeId);
      return store.boards.edit(params.boardId, body);
    },
    "DELETE /api/boards/{boardId}": async ({ params }) => {
      await store.boards.remove(params.boardId);
      return undefined;
    },
    "POST /api/boards/{boardId}/token": async ({ params }) => ({
      token: await store.boards.issueToken(params.boardId),
    }),
    "POST /api/boards/{boardId}/readings": async ({ params, body, headers }) => {
      const board = parts.isOn("board-token")
        ? await boardWith(bearerOf(headers.authorization))
        : (await store.boards.list()).find(({ id }) => id === params.boardId);
      if (board?.id !== params.boardId) {
        refusals.count("unknown-board-token");
        throw new Problem("unknown-board-token");
      }
      const now = parts.now();
      const taken = await intake.take(board, resolveSenml(body, params.boardId, { unixMs: now }), now);
      for (const [reason, times] of Object.entries(taken.refused)) refusals.count(`record-${reason}`, times);
      if (taken.stored > 0 && taken.runId !== null) watch.grew(taken.runId);
      return taken;
    },
  };
}
