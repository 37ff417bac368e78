// The live side: the stream, and alarms.

import { tellAlarm, tellLive } from "../../report/recording/index.ts";
import type { GivenAnswerOf, Operations } from "../../schema/api/index.ts";
import { msPerHour } from "../../schema/index.ts";
import { isKnown } from "../../science/index.ts";
import type { Run } from "../../store/index.ts";
import { toldAlarm } from "../../workshop/morning.ts";
import { liveEstimateOf } from "../../workshop/recording/index.ts";
import { AnswersKept } from "../answers-kept.ts";
import { streamTo } from "../event-stream.ts";
import type { Handlers } from "../handlers.ts";
import { tellingFor } from "../language.ts";
import { pageOf } from "../page-of.ts";
import { Problem } from "../problem.ts";
import type { ServiceParts } from "../service-parts.ts";

type RunNow = GivenAnswerOf<Operations["GET /api/runs/{runId}/now"], never>;

export function liveRoutes(
  parts: ServiceParts,
): Handlers<
  "GET /api/live" | "GET /api/runs/{runId}/now" | "GET /api/alarms" | "POST /api/alarms/{alarmId}/acknowledge"
> {
  const { store, feed, watch, limits } = parts;
  const pictures = new AnswersKept<Omit<RunNow, "alarms">>(mostPictures);
  return {
    "GET /api/runs/{runId}/now": async ({ params, headers }) => {
      const telling = tellingFor(headers);
      const run = await store.runs.get(params.runId);
      const reader = { ...telling, utcOffsetMinutes: run.utcOffsetMinutes };
      // All who look within a few seconds are shown the same picture: readings come every second, and each picture is a fit.
      const moment = Math.floor(parts.now() / pictureMs);
      const key = JSON.stringify([run, await store.edits.current(run.id), telling, moment]);
      const picture = await pictures.get(key, async () => {
        const estimate = await liveEstimateOf(store, run);
        const { nowMs, sinceMs, source, onset, ahead } = estimate;
        const { since, headline, caution, proofs, numbers, until } = tellLive(estimate, reader);
        return {
          runId: run.id,
          asOfUnixMs: nowMs,
          sinceUnixMs: sinceMs,
          source,
          ...{ since, headline, caution, proofs, numbers, until },
          onsetUnixMs: isKnown(onset) ? sinceMs + onset.value * msPerHour : null,
          ahead:
            ahead === null
              ? null
              : {
                  unixMs: ahead.hours.map((hours) => sinceMs + hours * msPerHour),
                  middle: ahead.middle,
                  low: ahead.low,
                  high: ahead.high,
                },
        };
      });
      const alarms = (await store.alarms.list({ runId: run.id })).map((alarm) => {
        const { text, state, caution } = tellAlarm(toldAlarm(alarm), reader);
        return { id: alarm.id, isWaiting: alarm.acknowledgedUnixMs === null, text, state, caution };
      });
      return { ...picture, alarms };
    },
    "GET /api/live": async ({ query, headers }) => {
      if (feed.viewers >= limits.viewers) throw new Problem("too-many-viewers");
      // Looked at before anyone listens: what is there already is not news.
      await watch.start(limits.watchMs);
      const after = headers["last-event-id"]?.toString() ?? query.after ?? null;
      return { stream: (response) => streamTo(response, feed, after, limits.heartbeatMs) };
    },
    "GET /api/alarms": async ({ query: { runId, state, limit, cursor }, headers }) => {
      const isAcknowledged = state === undefined ? undefined : state === "acknowledged";
      const { page, next } = pageOf(await store.alarms.list({ runId, isAcknowledged }), limit ?? 50, cursor);
      const runs = new Map<string, Promise<Run | null>>();
      const alarms = await Promise.all(
        page.map(async (alarm) => {
          const asked = runs.get(alarm.runId) ?? store.runs.find(alarm.runId);
          runs.set(alarm.runId, asked);
          const run = await asked;
          if (run === null) return [];
          const reader = { ...tellingFor(headers), utcOffsetMinutes: run.utcOffsetMinutes };
          const { text, state, caution } = tellAlarm(toldAlarm(alarm), reader);
          return [{ ...alarm, fridgeId: run.fridgeId, text, state, caution }];
        }),
      );
      return { alarms: alarms.flat(), next };
    },
    "POST /api/alarms/{alarmId}/acknowledge": async ({ params, visitor }) => {
      await store.alarms.acknowledge(params.alarmId, parts.now(), visitor.role ?? undefined);
      await watch.look();
      return undefined;
    },
  };
}

/** Live pictures kept: one of each run that somebody looks at. */
const mostPictures = 30;
/** A picture is shown for so long at most, ms. */
const pictureMs = 5000;
