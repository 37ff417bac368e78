// One structured line a request: who, what, how it ended, how long it took. No question, body, cookie or token is in it.

import { randomUUID } from "node:crypto";
import type { RequestHandler } from "express";
import type { ServiceParts } from "./service-parts.ts";
import { visitorOf } from "./visitors.ts";

/** Gives each request an id and logs how it ended. */
export const logRequests =
  ({ logger }: Pick<ServiceParts, "logger">): RequestHandler =>
  (request, response, next) => {
    const began = performance.now();
    const id = randomUUID();
    response.locals.requestId = id;
    // Asked now: a connection that broke has no address any more.
    const from = request.socket.remoteAddress;
    response.once("close", () => {
      logger.info({
        id,
        method: request.method,
        path: request.path,
        status: response.statusCode,
        ms: Math.round(performance.now() - began),
        role: visitorOf(response).role,
        from,
        isWhole: response.writableFinished,
      });
    });
    next();
  };
