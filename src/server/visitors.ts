// Who sends a request, found once and remembered beside the answer.

import type { RequestHandler, Response } from "express";
import { cookieOf } from "./requests.ts";
import type { ServiceParts } from "./service-parts.ts";
import { cookieName } from "./session-cookie.ts";
import type { Visitor } from "./sign-in.ts";

const nobody: Visitor = { role: null, expiresUnixMs: null };
/** Whoever sits at the machine itself, where nobody else can reach the service. */
const atThisMachine: Visitor = { role: "technician", expiresUnixMs: null };

/** Who asks, as `findVisitor` found out. */
export const visitorOf = (response: Response): Visitor => (response.locals.visitor as Visitor | undefined) ?? nobody;

/** Finds out who asks by the session cookie; everyone is at this machine where no password is set. */
export const findVisitor = ({ options, sessions, now, isOn }: ServiceParts): RequestHandler => {
  const name = isOn("cookie-flags") ? cookieName(options.tls !== undefined) : cookieName(false);
  return (request, response, next) => {
    const token = cookieOf(request.headers.cookie, name);
    const isOpen = options.passwords === null || !isOn("password");
    response.locals.visitor = isOpen
      ? atThisMachine
      : ((token === undefined ? null : sessions.visitor(token, now())) ?? nobody);
    next();
  };
};
