// By which names and addresses a service is reached, and with which certificate: what a face needs before it makes one.

import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { isIPv6 } from "node:net";
import { hostname, networkInterfaces } from "node:os";
import { fingerprintOf, type OwnCertificate, ownCertificate, stillServes } from "./certificate.ts";

/** This machine as it calls itself. */
export const loopbackHosts: readonly string[] = ["localhost", "127.0.0.1", "::1"];

/**
 * Names and addresses that others may reach this machine by.
 *
 * @param listened the address listened on; one that stands for all (0.0.0.0, ::) adds nothing
 * @param stated further names
 */
export function reachableHosts(listened: string, stated: readonly string[]): readonly string[] {
  const addresses = Object.values(networkInterfaces()).flatMap((all) => (all ?? []).map(({ address }) => address));
  const own = hostname().toLowerCase();
  const named = own === "" || own.includes(".") ? [own] : [own, `${own}.local`];
  const all = [...loopbackHosts, ...addresses, ...named, listened, ...stated.map((name) => name.toLowerCase())];
  const standsForAll = new Set(["0.0.0.0", "::", ""]);
  return [...new Set(all.map((host) => host.replace(/%.*$/, "")))].filter((host) => !standsForAll.has(host));
}

/** As it stands in an address: IPv6 in brackets. */
export const inAddress = (host: string): string => (isIPv6(host) ? `[${host}]` : host);

/**
 * The certificate of our own in a file, made anew when there is none, when it is about to run out or when a name is missing.
 *
 * @param file readable by its owner alone
 */
export function keptCertificate(
  file: string,
  hosts: readonly string[],
  nowUnixMs: number,
): OwnCertificate & { readonly fingerprint: string } {
  const kept = existsSync(file) ? (JSON.parse(readFileSync(file, "utf8")) as OwnCertificate) : null;
  const own = kept !== null && stillServes(kept, hosts, nowUnixMs) ? kept : ownCertificate(hosts, nowUnixMs);
  if (own !== kept) writeFileSync(file, `${JSON.stringify(own, null, 2)}\n`, { mode: 0o600 });
  return { ...own, fingerprint: fingerprintOf(own.cert) };
}
