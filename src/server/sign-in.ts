// Passwords and sessions. Two roles, a password each: the technician changes, the owner looks.

import { createHash, randomBytes, scrypt, timingSafeEqual } from "node:crypto";
import { type Role, roles } from "../schema/api/index.ts";

/** A hash per role, as `hashPassword` makes it. A role without one cannot sign in. */
export type PasswordHashes = { readonly [R in Role]?: string };

/** Who sends a request. */
export interface Visitor {
  readonly role: Role | null;
  readonly expiresUnixMs: number | null;
}

/**
 * Hashes a password by scrypt (RFC 7914). N = 2^15, r = 8, p = 3 takes 32 MiB, which a single-board computer has; it is one of
 * the settings of equal strength in the OWASP Password Storage Cheat Sheet (value from memory).
 *
 * @returns cost, salt and hash in one text
 */
export async function hashPassword(password: string, cost: Cost = usualCost): Promise<string> {
  const salt = randomBytes(16);
  const key = await derive(password, salt, cost);
  return ["scrypt", cost.N, cost.r, cost.p, salt.toString("base64url"), key.toString("base64url")].join("$");
}

/** Whether this is the password that was hashed. */
async function isPassword(password: string, hashed: string): Promise<boolean> {
  const [kind, N, r, p, salt, key] = hashed.split("$");
  if (kind !== "scrypt" || key === undefined) return false;
  const expected = Buffer.from(key, "base64url");
  const derived = await derive(password, Buffer.from(salt, "base64url"), { N: Number(N), r: Number(r), p: Number(p) });
  return derived.length === expected.length && timingSafeEqual(derived, expected);
}

/** What a guess costs: scrypt's N, r and p. */
export interface Cost {
  readonly N: number;
  readonly r: number;
  readonly p: number;
}
const usualCost: Cost = { N: 2 ** 15, r: 8, p: 3 };

/** One at a time: a flood of sign-ins must not take 32 MiB each. */
let lastDerived: Promise<unknown> = Promise.resolve();

function derive(password: string, salt: Buffer, cost: Cost): Promise<Buffer> {
  const work = () =>
    new Promise<Buffer>((resolve, reject) => {
      const { N, r, p } = cost;
      scrypt(password, salt, 32, { N, r, p, maxmem: 256 * N * r }, (error, key) =>
        error === null ? resolve(key) : reject(error),
      );
    });
  const derived = lastDerived.then(work);
  lastDerived = derived.catch(() => undefined);
  return derived;
}

/** Sessions in memory: a restart of the service ends them all. Only a hash of each token is held. */
export class Sessions {
  readonly #sessions = new Map<string, { readonly role: Role; readonly endsUnixMs: number; lastSeenUnixMs: number }>();
  readonly #idleMs: number;
  readonly #longestMs: number;

  constructor(limits: { readonly sessionIdleMs: number; readonly sessionMs: number }) {
    this.#idleMs = limits.sessionIdleMs;
    this.#longestMs = limits.sessionMs;
  }

  /** @returns the token, told this once */
  open(role: Role, nowUnixMs: number): string {
    this.#sweep(nowUnixMs);
    const token = randomBytes(32).toString("base64url");
    this.#sessions.set(hashOf(token), { role, endsUnixMs: nowUnixMs + this.#longestMs, lastSeenUnixMs: nowUnixMs });
    return token;
  }

  /** Whose token this is, which counts as being seen. */
  visitor(token: string, nowUnixMs: number): Visitor | null {
    const key = hashOf(token);
    const session = this.#sessions.get(key);
    if (session === undefined) return null;
    if (this.#isOver(session, nowUnixMs)) {
      this.#sessions.delete(key);
      return null;
    }
    session.lastSeenUnixMs = nowUnixMs;
    return { role: session.role, expiresUnixMs: Math.min(session.endsUnixMs, nowUnixMs + this.#idleMs) };
  }

  close(token: string): void {
    this.#sessions.delete(hashOf(token));
  }

  #sweep(nowUnixMs: number): void {
    for (const [key, session] of this.#sessions) if (this.#isOver(session, nowUnixMs)) this.#sessions.delete(key);
  }

  #isOver(session: { readonly endsUnixMs: number; readonly lastSeenUnixMs: number }, nowUnixMs: number): boolean {
    return nowUnixMs >= session.endsUnixMs || nowUnixMs >= session.lastSeenUnixMs + this.#idleMs;
  }
}

const hashOf = (token: string) => createHash("sha256").update(token).digest("base64url");

/** Which role has this password; null: neither that is asked for. */
export async function signedIn(passwords: PasswordHashes, role: Role, password: string): Promise<Role | null> {
  const hashed = passwords[role];
  return hashed !== undefined && (await isPassword(password, hashed)) ? role : null;
}

/** The fewest characters of a password. OWASP ASVS 5.0, 6.2.1: at least 8, 15 recommended. */
export const shortestPassword = 12;

/** Whether a role may do what an operation asks for. */
export const isAllowed = (role: Role | null, may: "look" | "change"): boolean =>
  may === "look" ? role !== null && roles.includes(role) : role === "technician";
