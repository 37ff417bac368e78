// Every operation of the table as a route: who may, what goes in, one call, the answer.

import { createHash } from "node:crypto";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import express, { type Express, type Request, type RequestHandler, type Response } from "express";
import { rateLimit } from "express-rate-limit";
import { z } from "zod";
import type { Language } from "../report/index.ts";
import { isMedia, type Operation, type OperationName, operations } from "../schema/api/index.ts";
import { msPerMinute } from "../schema/index.ts";
import { etagOf } from "./etag.ts";
import type { Asked, Handlers, MediaAnswer } from "./handlers.ts";
import { jsonDepth } from "./json-depth.ts";
import { languageOf } from "./language.ts";
import { Problem } from "./problem.ts";
import type { ServiceParts } from "./service-parts.ts";
import { isAllowed } from "./sign-in.ts";
import { visitorOf } from "./visitors.ts";

/** Answers any operation, once its input was checked. */
type AnyHandler = (asked: Asked<OperationName>) => unknown;

/** Mounts every operation of the table, and tells at each path which methods there are. */
export function mountOperations(application: Express, handlers: Handlers, parts: ServiceParts): void {
  const methodsAt = new Map<string, string[]>();
  for (const [name, described] of Object.entries<Operation>(operations)) {
    const [method, path] = name.split(" ");
    const route = path.replace(/\{(\w+)\}/g, ":$1");
    methodsAt.set(route, [...(methodsAt.get(route) ?? []), method]);
    // The table's names pick the handler that was made for them; TypeScript cannot follow that.
    const handler = handlers[name as OperationName] as unknown as AnyHandler;
    const before = [mayUse(described, parts), ...paceOf(described, parts), ...bodyOf(name, described, parts)];
    application[method.toLowerCase() as "get"](route, ...before, async (request, response) => {
      const asked = askedOf(described, request, response);
      await reply(described, await handler(asked), response);
    });
  }
  for (const [route, methods] of methodsAt) {
    application.all(route, (_request, response, next) => {
      response.setHeader("Allow", methods.join(", "));
      next(new Problem("wrong-method"));
    });
  }
}

// Who may

const mayUse =
  ({ may }: Operation, { isOn, refusals, logger }: ServiceParts): RequestHandler =>
  (request, response, next) => {
    const { role } = visitorOf(response);
    const isEnough = may === "anyone" || may === "board" || isAllowed(role, isOn("roles") ? may : "look");
    if (isEnough) return next();
    const code = role === null ? "sign-in-needed" : "not-allowed";
    refusals.count(code);
    logger.warn({ event: code, path: request.path, from: request.socket.remoteAddress });
    next(new Problem(code));
  };

/** Many boards may share one address, so that each is counted by its own name. */
function paceOf({ may }: Operation, { limits, isOn, refusals }: ServiceParts): readonly RequestHandler[] {
  if (may !== "board" || !isOn("request-limit")) return [];
  return [
    rateLimit({
      limit: limits.packsPerMinute,
      windowMs: msPerMinute,
      standardHeaders: "draft-8",
      legacyHeaders: false,
      keyGenerator: (request) => hashOf(`${request.headers.authorization}`),
      handler: (_request, _response, next) => {
        refusals.count("too-many-packs");
        next(new Problem("too-many-requests"));
      },
    }),
  ];
}

const hashOf = (text: string) => createHash("sha256").update(text).digest("base64url");

// What goes in

function bodyOf(name: string, { body }: Operation, { limits, isOn }: ServiceParts): readonly RequestHandler[] {
  if (body === undefined) return [];
  if (isMedia(body)) return [mediaOnly(body.media), notLonger(isOn("upload-limit") ? limits.uploadBytes : Infinity)];
  const limit = name === "POST /api/fridges/{fridgeId}/baselines" ? limits.baselineBytes : limits.jsonBytes;
  const deepest = isOn("json-depth") ? limits.jsonDepth : Infinity;
  return [
    mediaOnly(["application/json", "application/senml+json"]),
    express.json({
      limit: isOn("body-limit") ? limit : Infinity,
      // A small body that unpacks to a large one is not asked for by anyone.
      inflate: false,
      type: () => true,
      verify: (_request, _response, bytes) => {
        if (jsonDepth(bytes) > deepest) throw new Problem("json-too-deep");
      },
    }),
  ];
}

const mediaOnly =
  (media: readonly string[]): RequestHandler =>
  (request, _response, next) =>
    next(request.is([...media]) ? undefined : new Problem("wrong-media"));

/** What says beforehand that it is too long need not be sent at all. */
const notLonger =
  (bytes: number): RequestHandler =>
  (request, _response, next) =>
    next(Number(request.headers["content-length"] ?? 0) > bytes ? new Problem("body-too-large") : undefined);

function askedOf({ query, body }: Operation, request: Request, response: Response): Asked<OperationName> {
  const params = request.params as { readonly [name: string]: string };
  if (Object.values(params).some((value) => value.length > longestParam || hasControl(value)))
    throw new Problem("bad-request");
  const language = languageOf(request.headers);
  const asked = {
    params,
    query: query === undefined ? {} : checked(query, request.query, "bad-request", language),
    body:
      body === undefined ? undefined : isMedia(body) ? request : checked(body, request.body, "wrong-shape", language),
    headers: request.headers,
    visitor: visitorOf(response),
    response,
  };
  return asked as unknown as Asked<OperationName>;
}

const longestParam = 128;
const hasControl = (text: string) => [...text].some((character) => character < " " || character === "\u007f");

/** What the shape makes of the input. @throws Problem naming the parts that are wrong */
function checked(shape: z.ZodType, input: unknown, code: "bad-request" | "wrong-shape", language: Language): unknown {
  const result = shape.safeParse(input, { error: z.locales[language]().localeError });
  if (result.success) return result.data;
  const fields = result.error.issues
    .slice(0, mostFields)
    .map(({ path, message }) => ({ where: path.map(String).join("."), what: () => message }));
  const [{ where }] = fields;
  throw new Problem(code, where === "" ? undefined : (text) => text.field(where), fields);
}

const mostFields = 10;

// The answer

async function reply({ answer, status }: Operation, given: unknown, response: Response): Promise<void> {
  if (answer === null) {
    response.status(204).end();
    return;
  }
  response.status(status ?? 200);
  if (!isMedia(answer)) return sendWhole(JSON.stringify(given), "application/json; charset=utf-8", response);
  const text = given as MediaAnswer;
  if (text instanceof Uint8Array) return sendWhole(text, answer.media[0], response);
  const type = `${answer.media[0]}; charset=utf-8`;
  if (typeof text === "string") {
    if (answer.media[0] === "text/html") response.setHeader("Content-Security-Policy", pagePolicy(text));
    return sendWhole(text, type, response);
  }
  if ("stream" in text) return text.stream(response);
  response.setHeader("Content-Type", type).setHeader("Cache-Control", "no-store");
  // A reader that goes away half-way ends the pieces, too: they hold on to the store.
  await pipeline(Readable.from(text), response);
}

function sendWhole(text: string | Uint8Array, type: string, response: Response): void {
  response.setHeader("Content-Type", type);
  response.setHeader("Cache-Control", "private, no-cache");
  response.setHeader("ETag", etagOf(text));
  // Express compares the tag with If-None-Match and leaves the body out where they agree.
  response.send(text);
}

/** A report page runs no script and fetches nothing; its one style sheet is known by its hash. */
function pagePolicy(page: string): string {
  const style = /<style>([\s\S]*?)<\/style>/.exec(page)?.[1] ?? "";
  const hash = createHash("sha256").update(style).digest("base64");
  return `default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; object-src 'none'; form-action 'none'; frame-ancestors 'none'`;
}
