// A certificate of our own for TLS on a workshop's network, written in DER (X.690) as RFC 5280 lays it out and signed by
// Node's crypto, so that no other program is needed. Nobody vouches for it: people compare its fingerprint once.

import { createPrivateKey, generateKeyPairSync, randomBytes, sign, X509Certificate } from "node:crypto";
import { isIP } from "node:net";
import { msPerDay } from "../schema/index.ts";

/** PEM. */
export interface OwnCertificate {
  readonly key: string;
  readonly cert: string;
}

/**
 * @param hosts names and addresses it is for
 * @param nowUnixMs it holds from a day before, for clocks that are slow, to `validDays` after
 */
export function ownCertificate(hosts: readonly string[], nowUnixMs: number): OwnCertificate {
  const { privateKey, publicKey } = generateKeyPairSync("ec", { namedCurve: "P-256" });
  const name = sequence(set(sequence(oid("2.5.4.3"), utf8("Coldfall"))));
  const algorithm = sequence(oid("1.2.840.10045.4.3.2")); // ecdsa-with-SHA256, RFC 5758
  const toBeSigned = sequence(
    tagged(0, integer(Buffer.from([2]))), // version 3
    integer(Buffer.concat([Buffer.from([0x01]), randomBytes(15)])),
    algorithm,
    name,
    sequence(time(nowUnixMs - msPerDay), time(nowUnixMs + validDays * msPerDay)),
    name,
    publicKey.export({ type: "spki", format: "der" }),
    tagged(
      3,
      sequence(
        extension("2.5.29.19", sequence(), true), // basic constraints: no authority
        extension("2.5.29.15", Buffer.from([0x03, 0x02, 0x07, 0x80]), true), // key usage: digital signature
        extension("2.5.29.37", sequence(oid("1.3.6.1.5.5.7.3.1"))), // for servers
        extension("2.5.29.17", sequence(...hosts.map(alternativeName))),
      ),
    ),
  );
  const signature = sign("sha256", toBeSigned, privateKey);
  const der = sequence(toBeSigned, algorithm, bitString(signature));
  const lines = der.toString("base64").match(/.{1,64}/g) ?? [];
  return {
    key: privateKey.export({ type: "pkcs8", format: "pem" }).toString(),
    cert: `-----BEGIN CERTIFICATE-----\n${lines.join("\n")}\n-----END CERTIFICATE-----\n`,
  };
}

/** Some phones refuse server certificates that hold longer than 825 days (value from memory). */
const validDays = 800;

/** SHA-256 over the certificate, as browsers show it. */
export const fingerprintOf = (cert: string): string => new X509Certificate(cert).fingerprint256;

/** Whether a certificate still serves: its key fits, it holds for a month at least, and is for all these names. */
export function stillServes({ key, cert }: OwnCertificate, hosts: readonly string[], nowUnixMs: number): boolean {
  const read = new X509Certificate(cert);
  const isFor = (host: string) => (isIP(host) === 0 ? read.checkHost(host) : read.checkIP(host)) !== undefined;
  return (
    read.checkPrivateKey(createPrivateKey(key)) &&
    Date.parse(read.validTo) > nowUnixMs + 30 * msPerDay &&
    hosts.every(isFor)
  );
}

// DER: a tag, a length, the content.

function der(tag: number, ...contents: readonly Uint8Array[]): Buffer {
  const content = Buffer.concat(contents);
  const { length } = content;
  const size = length < 0x80 ? [length] : length < 0x100 ? [0x81, length] : [0x82, length >> 8, length & 0xff];
  return Buffer.concat([Buffer.from([tag, ...size]), content]);
}

const sequence = (...parts: readonly Uint8Array[]) => der(0x30, ...parts);
const set = (...parts: readonly Uint8Array[]) => der(0x31, ...parts);
const tagged = (number: number, content: Uint8Array) => der(0xa0 + number, content);
const integer = (bytes: Uint8Array) => der(0x02, bytes);
const utf8 = (text: string) => der(0x0c, Buffer.from(text));
const bitString = (bytes: Uint8Array) => der(0x03, Buffer.from([0]), bytes);

function oid(dotted: string): Buffer {
  const [first, second, ...others] = dotted.split(".").map(Number);
  return der(0x06, Buffer.from([40 * first + second, ...others.flatMap(base128)]));
}

function base128(value: number): number[] {
  const bytes = [value & 0x7f];
  for (let rest = value >> 7; rest > 0; rest >>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
}

/** UTCTime, which RFC 5280 wants up to 2049. */
const time = (unixMs: number) =>
  der(0x17, Buffer.from(`${new Date(unixMs).toISOString().slice(2, 19).replace(/[-T:]/g, "")}Z`));

const extension = (id: string, content: Uint8Array, isCritical = false) =>
  sequence(oid(id), ...(isCritical ? [Buffer.from([0x01, 0x01, 0xff])] : []), der(0x04, content));

/** A name (dNSName) or an address (iPAddress) of the subject. */
const alternativeName = (host: string) =>
  isIP(host) === 0 ? der(0x82, Buffer.from(host, "ascii")) : der(0x87, addressBytes(host));

function addressBytes(address: string): Buffer {
  if (isIP(address) === 4) return Buffer.from(address.split(".").map(Number));
  const [head, tail = ""] = address.split("::");
  const groups = (text: string) => (text === "" ? [] : text.split(":").map((group) => Number.parseInt(group, 16)));
  const [before, after] = [groups(head), address.includes("::") ? groups(tail) : []];
  const all = [...before, ...new Array<number>(8 - before.length - after.length).fill(0), ...after];
  return Buffer.from(all.flatMap((group) => [group >> 8, group & 0xff]));
}
