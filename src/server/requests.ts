// Is this request meant for us, and did a page of ours send it? Host header against DNS rebinding, origin against forgery.

import type { IncomingHttpHeaders } from "node:http";
import { pageHeader } from "../schema/api/index.ts";

/**
 * Whether the Host header names this service. A page of a stranger whose name was made to lead to our address is same-origin
 * to itself; only the name in the header tells it from ours.
 *
 * @param hosts names and addresses without port, lower case
 */
export function isOurHost(host: string | undefined, hosts: readonly string[]): boolean {
  if (host === undefined) return false;
  const named = /^(\[[0-9a-f:.]+\]|[^:/?#@\s]+)(?::\d{1,5})?$/i.exec(host)?.[1];
  return named !== undefined && hosts.includes(named.toLowerCase().replace(/\.$/, ""));
}

/**
 * Whether a request could have been made by a foreign page in the visitor's browser. Requests that only read are let
 * through when the browser says that a foreign page may not read the answer; those that change need our own header too,
 * which no form, image or link can send and no foreign script without asking first.
 */
export function isForeign(method: string, headers: IncomingHttpHeaders): boolean {
  const site = headers["sec-fetch-site"];
  if (site !== undefined && site !== "same-origin" && site !== "none") return true;
  if (headers.origin !== undefined && !isOwnOrigin(headers.origin, headers.host)) return true;
  return !readingMethods.has(method) && headers[pageHeader.toLowerCase()] === undefined;
}

const readingMethods = new Set(["GET", "HEAD", "OPTIONS"]);

function isOwnOrigin(origin: string, host: string | undefined): boolean {
  try {
    return new URL(origin).host === new URL(`http://${host}`).host || origin === `https://${host}`;
  } catch {
    return false;
  }
}

/** The value of one cookie. */
export function cookieOf(header: string | undefined, name: string): string | undefined {
  for (const part of (header ?? "").split(";")) {
    const cut = part.indexOf("=");
    if (cut > 0 && part.slice(0, cut).trim() === name) return part.slice(cut + 1).trim();
  }
  return undefined;
}

/** The token of `Authorization: Bearer …` (RFC 6750). */
export const bearerOf = (header: string | undefined): string | undefined =>
  /^Bearer ([\w.~+/-]{8,512}=*)$/i.exec(header ?? "")?.[1];
