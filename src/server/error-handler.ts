// The one place where an error becomes an answer: a problem (RFC 9457), and nothing that is nobody's business.

import type { ErrorRequestHandler, RequestHandler } from "express";
import { problemMedia } from "../schema/api/index.ts";
import { languageOf } from "./language.ts";
import { Problem, problemOf } from "./problem.ts";
import type { ServiceParts } from "./service-parts.ts";

/** No route answered. */
export const nothingHere: RequestHandler = (_request, _response, next) => next(new Problem("no-such-address"));

/** Turns whatever was thrown into problem details; only faults of the program go into the log. */
export const handleErrors =
  ({ logger, refusals }: Pick<ServiceParts, "logger" | "refusals">): ErrorRequestHandler =>
  // Express tells an error handler by its four arguments.
  (error, request, response, _next) => {
    const language = languageOf(request.headers);
    const problem = problemOf(error, language);
    if (problem.status >= 500) logger.error({ id: response.locals.requestId, err: error, path: request.path });
    if (problem.code === "body-too-large" || problem.code === "json-too-deep" || problem.code === "not-json")
      refusals.count(problem.code);
    if (response.headersSent) {
      // Half an answer cannot be taken back; cut off, it is at least known as half.
      response.destroy();
      return;
    }
    // What of the body has not come yet is not waited for.
    if (!request.complete) response.setHeader("Connection", "close");
    response.status(problem.status).setHeader("Cache-Control", "no-store").setHeader("Content-Language", language);
    response.type(problemMedia).send(JSON.stringify(problem));
  };
