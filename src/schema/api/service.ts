// The service itself: is it well, who am I, what was refused.

import { z } from "zod";
import { instant } from "./parts.ts";

export const healthSchema = z
  .strictObject({ status: z.literal("well"), version: z.string(), nowUnixMs: instant })
  .meta({ id: "Health" });

export const roles = ["owner", "technician"] as const;
/** The owner looks, the technician changes. */
export type Role = (typeof roles)[number];

export const signInSchema = z
  .strictObject({ role: z.enum(roles), password: z.string().min(1).max(256) })
  .meta({ id: "SignIn" });

export const sessionSchema = z
  .strictObject({
    role: z.enum(roles).nullable().describe("null: not signed in"),
    needsPassword: z.boolean().describe("false where the service only listens to its own machine"),
    expiresUnixMs: instant.nullable(),
  })
  .meta({ id: "Session" });

export const statusSchema = z
  .strictObject({
    version: z.string(),
    startedUnixMs: instant,
    isStoreEmpty: z.boolean(),
    viewers: z.int().describe("live streams open now"),
    refused: z.record(z.string(), z.int()).describe("requests and records refused since the start, by reason"),
  })
  .meta({ id: "Status" });

export const problemInfoSchema = z
  .strictObject({ code: z.string(), title: z.string(), status: z.int() })
  .meta({ id: "ProblemInfo" });
