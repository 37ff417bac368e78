// The service itself: health, sign-in, how it stands.

import { words } from "../../report/index.ts";
import { openApiDocument, type ProblemCode, problems } from "../../schema/api/index.ts";
import type { Handlers } from "../handlers.ts";
import { Problem } from "../problem.ts";
import { cookieOf } from "../requests.ts";
import type { ServiceParts } from "../service-parts.ts";
import { cookieName, sessionCookie } from "../session-cookie.ts";
import { signedIn, type Visitor } from "../sign-in.ts";

const { server } = words("en");

export function serviceRoutes(
  parts: ServiceParts,
): Handlers<
  | "GET /api/health"
  | "GET /api/openapi.json"
  | "GET /api/problems/{code}"
  | "GET /api/session"
  | "POST /api/session"
  | "DELETE /api/session"
  | "GET /api/status"
> {
  const { options, sessions, refusals, logger } = parts;
  const openApi = JSON.stringify(openApiDocument(options.version));
  const isTls = options.tls !== undefined;
  const session = ({ role, expiresUnixMs }: Visitor) => ({
    role,
    expiresUnixMs,
    needsPassword: options.passwords !== null,
  });
  return {
    "GET /api/health": () => ({ status: "well", version: options.version, nowUnixMs: parts.now() }),
    "GET /api/openapi.json": () => openApi,
    "GET /api/problems/{code}": ({ params: { code } }) => {
      const known = Object.hasOwn(problems, code) ? (code as ProblemCode) : null;
      // Input that a lower floor refuses has codes of its own; what they mean stands in each problem's detail.
      const meaning = known ?? "cannot-use";
      if (!/^[a-z0-9-]{1,60}$/.test(code)) throw new Problem("no-such-record");
      return { code, title: server.problemTitles[meaning], status: problems[meaning] };
    },
    "GET /api/session": ({ visitor }) => session(visitor),
    "POST /api/session": async ({ body: { role, password }, headers, response }) => {
      if (options.passwords === null) return session({ role: "technician", expiresUnixMs: null });
      const who = await signedIn(options.passwords, role, password);
      if (who === null) {
        refusals.count("wrong-password");
        logger.warn({ event: "sign-in-refused", role, from: response.req.socket.remoteAddress });
        throw new Problem("wrong-password");
      }
      const before = cookieOf(headers.cookie, cookieName(isTls));
      if (before !== undefined) sessions.close(before);
      const token = sessions.open(who, parts.now());
      response.setHeader("Set-Cookie", sessionCookie(token, isTls, parts.isOn("cookie-flags")));
      logger.info({ event: "signed-in", role: who, from: response.req.socket.remoteAddress });
      return session(sessions.visitor(token, parts.now()) ?? { role: who, expiresUnixMs: null });
    },
    "DELETE /api/session": ({ headers, response }) => {
      const token = cookieOf(headers.cookie, cookieName(isTls));
      if (token !== undefined) sessions.close(token);
      response.setHeader("Set-Cookie", `${sessionCookie("", isTls, true)}; Max-Age=0`);
      return undefined;
    },
    "GET /api/status": async () => ({
      version: options.version,
      startedUnixMs: parts.startedUnixMs,
      isStoreEmpty: (await parts.store.fridges.list()).length === 0,
      viewers: parts.feed.viewers,
      refused: refusals.all(),
    }),
  };
}
