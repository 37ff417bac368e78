// By which names and addresses a service is reached, and with which certificate: what a face needs before it makes one.

import { createPrivateKey, X509Certificate } from "node:crypto";
import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
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
 * The certificate of our own in a file, made anew when there is none, when it cannot be
 * read, when it is about to run out or when a name is missing.
 *
 * @param file readable by its owner alone
 */
export function keptCertificate(
  file: string,
  hosts: readonly string[],
  nowUnixMs: number,
): OwnCertificate & { readonly fingerprint: string } {
  const kept = certificateIn(file);
  const own = kept !== null && stillServes(kept, hosts, nowUnixMs) ? kept : ownCertificate(hosts, nowUnixMs);
  if (own !== kept) writeWhole(file, `${JSON.stringify(own, null, 2)}\n`);
  return { ...own, fingerprint: fingerprintOf(own.cert) };
}

/** What the file holds; null when it is not there, or holds no certificate, as when its writing was cut off. */
function certificateIn(file: string): OwnCertificate | null {
  if (!existsSync(file)) return null;
  const text = readFileSync(file, "utf8");
  try {
    const { key, cert } = JSON.parse(text);
    createPrivateKey(key);
    new X509Certificate(cert);
    return { key, cert };
  } catch {
    return null;
  }
}

/** In place of what was there at once, so that nobody ever reads half of it. */
function writeWhole(file: string, text: string): void {
  const unfinished = `${file}.unfinished`;
  // Begun anew: its rights are given where it is made.
  rmSync(unfinished, { force: true });
  writeFileSync(unfinished, text, { mode: 0o600, flush: true });
  renameSync(unfinished, file);
}
