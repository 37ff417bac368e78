// The service put together: one Express application over a store, its defences in front, an operation's handler behind
// each. Routes are in routes/, the table of operations in src/schema/api.

import { createServer as createHttp, type Server } from "node:http";
import { createServer as createHttps } from "node:https";
import type { AddressInfo } from "node:net";
import express, { type Express } from "express";
import { pino } from "pino";
import { degreesHeader, type OperationName } from "../schema/api/index.ts";
import { msPerMinute } from "../schema/index.ts";
import { readAssets } from "./assets.ts";
import { BoardIntake } from "./board-intake.ts";
import { defendBefore, isPack } from "./defend.ts";
import { handleErrors, nothingHere } from "./error-handler.ts";
import type { Handlers } from "./handlers.ts";
import { Jobs } from "./jobs.ts";
import { LiveFeed } from "./live-feed.ts";
import { mountAssets } from "./mount-assets.ts";
import { mountOperations } from "./mount-operations.ts";
import { NetworkAlarms } from "./network-alarms.ts";
import { Refusals } from "./refusals.ts";
import { logRequests } from "./request-log.ts";
import { fridgeRoutes } from "./routes/fridges.ts";
import { judgingRoutes } from "./routes/judging.ts";
import { liveRoutes } from "./routes/live.ts";
import { probeRoutes } from "./routes/probes.ts";
import { runRoutes } from "./routes/runs.ts";
import { serviceRoutes } from "./routes/service.ts";
import { uploadRoutes } from "./routes/uploads.ts";
import { type Defence, type ServerOptions, usualLimits } from "./server-options.ts";
import type { ServiceParts } from "./service-parts.ts";
import { Sessions } from "./sign-in.ts";
import { StoreWatch } from "./store-watch.ts";
import { Uploads } from "./uploads.ts";

/** A service that can listen. */
export interface Service {
  /** @param host the address to listen on @returns the port, which was chosen where 0 was asked for */
  listen(port: number, host: string): Promise<number>;
  /** Ends streams, jobs and connections; the store stays open, it is not ours. */
  close(): Promise<void>;
}

/**
 * @param defencesOff for a test that shows what a defence is good for; nothing else hands it over
 */
export function createServer(options: ServerOptions, defencesOff: readonly Defence[] = []): Service {
  const parts = partsOf(options, defencesOff);
  const server = httpServer(options, applicationOf(parts), parts);
  return {
    listen: (port, host) =>
      new Promise((resolve, reject) => {
        server.once("error", reject);
        server.listen(port, host, () => {
          parts.alarms.start();
          resolve((server.address() as AddressInfo).port);
        });
      }),
    close: async () => {
      const closed = new Promise((resolve) => server.close(resolve));
      server.closeAllConnections();
      await closed;
      await parts.alarms.stop();
      await parts.jobs.close();
      await parts.watch.stop();
      parts.uploads.close();
    },
  };
}

function partsOf(options: ServerOptions, defencesOff: readonly Defence[]): ServiceParts {
  const limits = { ...usualLimits, ...options.limits };
  const isOn = (defence: Defence) => !defencesOff.includes(defence);
  const { store, logger = pino({ enabled: false }), now = Date.now } = options;
  const feed = new LiveFeed(limits.liveEvents);
  const unlimited = { uploadBytes: Infinity, waitingUploadBytes: Infinity };
  const endless = { sessionIdleMs: Infinity, sessionMs: Infinity };
  const alarms = new NetworkAlarms(options, now, logger);
  const believable = { aheadMs: limits.boardAheadMs, behindMs: limits.boardBehindMs };
  return {
    options,
    limits,
    store,
    logger,
    feed,
    watch: new StoreWatch(store, feed, (error) => logger.error({ err: error, event: "store-watch-failed" })),
    jobs: new Jobs(
      (job) => feed.publish({ kind: "job", data: { job } }),
      (id, error) => logger.error({ event: "job-failed", id, err: error }),
    ),
    uploads: new Uploads(options.uploadFolder, isOn("upload-limit") ? limits : unlimited),
    intake: new BoardIntake(store, isOn("board-times") ? believable : null, (pack) => alarms.watch.took(pack)),
    alarms,
    refusals: new Refusals(),
    sessions: new Sessions(isOn("session-expiry") ? limits : endless),
    startedUnixMs: now(),
    now,
    isOn,
  };
}

function applicationOf(parts: ServiceParts): Express {
  const application = express();
  application.disable("x-powered-by");
  // No header of a stranger says who he is; and a question has one value a name.
  application.set("trust proxy", false);
  application.set("query parser", "simple");
  application.set("etag", false);
  application.use(logRequests(parts));
  defendBefore(application, parts);
  // What packs need to know is remembered for a moment; a change made here counts at once.
  application.use((request, response, next) => {
    if (request.method !== "GET" && !isPack(request))
      response.once("finish", () => {
        parts.intake.forget();
        parts.alarms.watch.lookAgain();
      });
    next();
  });
  const handlers: Handlers<OperationName> = {
    ...serviceRoutes(parts),
    ...fridgeRoutes(parts),
    ...runRoutes(parts),
    ...judgingRoutes(parts),
    ...liveRoutes(parts),
    ...probeRoutes(parts),
    ...uploadRoutes(parts),
  };
  application.use("/api", (_, response, next) => {
    // The same question is answered in several languages and two sorts of degrees.
    response.vary(`Accept-Language, ${degreesHeader}`);
    next();
  });
  mountOperations(application, handlers, parts);
  if (parts.options.pages !== undefined) mountAssets(application, readAssets(parts.options.pages));
  application.use(nothingHere);
  if (parts.isOn("quiet-faults")) application.use(handleErrors(parts));
  return application;
}

function httpServer({ tls }: ServerOptions, application: Express, { limits }: ServiceParts): Server {
  const timing = {
    headersTimeout: limits.headersMs,
    requestTimeout: longestRequestMs,
    connectionsCheckingInterval: 1000,
  };
  const server =
    tls === undefined
      ? createHttp(timing, application)
      : createHttps({ ...timing, key: tls.key, cert: tls.cert, minVersion: "TLSv1.2" }, application);
  server.maxConnections = limits.connections;
  return server;
}

/** A large log over a slow line takes minutes; slow-body.ts sees to it that it keeps coming. */
const longestRequestMs = 30 * msPerMinute;
