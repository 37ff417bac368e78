// Problem details (RFC 9457): how the interface says that something went wrong.

import { z } from "zod";

/** The interface's own problems, each with the HTTP status it comes with. Input refused by lower floors adds its own codes. */
export const problems = {
  "bad-request": 400,
  "not-json": 400,
  "json-too-deep": 400,
  "sign-in-needed": 401,
  "wrong-password": 401,
  "unknown-board-token": 401,
  "not-allowed": 403,
  "foreign-request": 403,
  "no-such-record": 404,
  "no-such-address": 404,
  "wrong-method": 405,
  "too-slow": 408,
  "changed-meanwhile": 412,
  "not-now": 409,
  "body-too-large": 413,
  "wrong-media": 415,
  "unknown-host": 421,
  "wrong-shape": 422,
  "cannot-use": 422,
  "too-many-requests": 429,
  "too-many-sign-ins": 429,
  "internal-fault": 500,
  "too-many-viewers": 503,
  "store-busy": 503,
  "store-disk-full": 507,
} as const;

export type ProblemCode = keyof typeof problems;

/** Where a problem's type leads: a relative address of the same service, stable from version to version. */
export const problemTypePrefix = "/api/problems/";

export const problemSchema = z
  .strictObject({
    type: z.string().describe(`${problemTypePrefix}CODE`),
    title: z.string(),
    status: z.int(),
    detail: z.string().optional().describe("what was wrong this time, and what to do"),
    code: z.string().describe("the end of type, for programs"),
    fields: z
      .array(z.strictObject({ where: z.string(), what: z.string() }))
      .optional()
      .describe("which parts of the request are wrong"),
  })
  .meta({ id: "Problem", description: "application/problem+json (RFC 9457)" });

export type ProblemDocument = z.infer<typeof problemSchema>;

/** The media type of a problem. */
export const problemMedia = "application/problem+json";
