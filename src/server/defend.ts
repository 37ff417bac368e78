// What stands in front of every route, in this order: headers that bind the browser, the host's name, the request's origin, the
// pace, the visitor.

import compression from "compression";
import type { Express, Request, RequestHandler } from "express";
import { rateLimit } from "express-rate-limit";
import helmet from "helmet";
import { msPerMinute } from "../schema/index.ts";
import { Problem } from "./problem.ts";
import { isForeign, isOurHost } from "./requests.ts";
import type { Defence } from "./server-options.ts";
import type { ServiceParts } from "./service-parts.ts";
import { watchBody } from "./slow-body.ts";
import { findVisitor } from "./visitors.ts";

/** Puts every defence that is on before the routes. */
export function defendBefore(application: Express, parts: ServiceParts): void {
  const { options, limits, refusals, isOn } = parts;
  const use = (defence: Defence, handler: RequestHandler) => {
    if (isOn(defence)) application.use(handler);
  };
  use("content-policy", browserHeaders(options.tls !== undefined && !options.tls.isOwn));
  use("host-check", (request, _, next) => {
    if (isOurHost(request.headers.host, options.hosts)) return next();
    refusals.count("unknown-host");
    next(new Problem("unknown-host"));
  });
  use("same-origin", (request, _, next) => {
    // A board is no browser: what it may do, its token says and nothing else.
    const isBoard = request.headers.authorization !== undefined && request.headers.cookie === undefined;
    if (isBoard || !isForeign(request.method, request.headers)) return next();
    // A link from elsewhere may open the first page; only what lies behind it is ours alone.
    if (
      request.headers["sec-fetch-mode"] === "navigate" &&
      !request.path.startsWith("/api/") &&
      request.method === "GET"
    )
      return next();
    refusals.count("foreign-request");
    next(new Problem("foreign-request"));
  });
  application.use("/api", findVisitor(parts));
  use(
    "request-limit",
    tooMany(limits.requestsPerMinute, msPerMinute, "too-many-requests", parts, (request) => !isPack(request)),
  );
  // Hundreds of boards may share one address; of them only what is refused counts.
  use("request-limit", tooMany(limits.requestsPerMinute, msPerMinute, "too-many-requests", parts, isPack, true));
  if (isOn("sign-in-limit")) {
    const signIns = tooMany(limits.signInsPer15Minutes, 15 * msPerMinute, "too-many-sign-ins", parts);
    application.post("/api/session", signIns);
  }
  use("slow-body", (request, response, next) => {
    watchBody(request, limits.slowBody, () => {
      refusals.count("too-slow");
      response.once("finish", () => request.destroy());
      if (response.headersSent) request.destroy();
      else next(new Problem("too-slow"));
    });
    next();
  });
  // An event stream must leave at once, where a compressor waits until it has enough: event-stream.ts says no-transform.
  application.use(compression());
}

/**
 * Nothing from elsewhere, no script or style within a page, in no frame.
 *
 * @param isHsts only where a browser knows who signed the certificate: else its owner could not pass the warning
 */
const browserHeaders = (isHsts: boolean) =>
  helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'", "data:", "blob:"],
        fontSrc: ["'self'"],
        connectSrc: ["'self'"],
        manifestSrc: ["'self'"],
        workerSrc: ["'self'"],
        objectSrc: ["'none'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
      },
    },
    strictTransportSecurity: isHsts ? { maxAge: 31_536_000, includeSubDomains: true } : false,
    referrerPolicy: { policy: "no-referrer" },
    crossOriginOpenerPolicy: { policy: "same-origin" },
    crossOriginResourcePolicy: { policy: "same-origin" },
  });

/** A board handing in readings. */
export const isPack = ({ path }: Request) => /^\/api\/boards\/[^/]+\/readings$/.test(path);

const tooMany = (
  limit: number,
  windowMs: number,
  code: "too-many-requests" | "too-many-sign-ins",
  { refusals, logger }: ServiceParts,
  counts: (request: Request) => boolean = () => true,
  skipSuccessfulRequests = false,
): RequestHandler =>
  rateLimit({
    limit,
    windowMs,
    skip: (request) => !counts(request),
    skipSuccessfulRequests,
    standardHeaders: "draft-8",
    legacyHeaders: false,
    handler: (request, _, next) => {
      refusals.count(code);
      logger.warn({ event: code, from: request.socket.remoteAddress });
      next(new Problem(code));
    },
  });
