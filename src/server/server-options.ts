// What a service is started with.

import type { Logger } from "pino";
import { msPerDay, msPerHour, msPerMinute } from "../schema/index.ts";
import type { Store } from "../store/index.ts";
import type { AlarmOptions } from "./network-alarms.ts";
import type { PasswordHashes } from "./sign-in.ts";

export interface ServerOptions {
  readonly store: Store;
  /** Where it lies, for imports in a thread of their own. */
  readonly storeFile: string;
  /** The program's version. */
  readonly version: string;
  /** Names and addresses, without port, that requests may ask for; anything else is refused. */
  readonly hosts: readonly string[];
  /** Needed by everyone who does not sit at this machine; null where the service listens to its own machine alone. */
  readonly passwords: PasswordHashes | null;
  /** PEM. Plain HTTP when left out. `isOwn`: made by ourselves, so no browser knows who signed it. */
  readonly tls?: { readonly key: string; readonly cert: string; readonly isOwn: boolean };
  /** Where bytes of logs wait to be imported; emptied at start and end. */
  readonly uploadFolder: string;
  /** Folder of the built pages; none when left out. */
  readonly pages?: string;
  /** Folder of the sample logs, a sub-folder for each fridge. */
  readonly sampleLogs?: string;
  /** What is said of the alarms of boards over the network. They are watched in any case. */
  readonly alarms?: AlarmOptions;
  readonly logger?: Logger;
  /** The host's clock, unixMs. */
  readonly now?: () => number;
  readonly limits?: Partial<Limits>;
}

/** What a single client may cost. */
export interface Limits {
  readonly jsonBytes: number;
  /** Of a baseline file, which holds whole nights. */
  readonly baselineBytes: number;
  readonly uploadBytes: number;
  /** Of all uploads that wait at the same time. */
  readonly waitingUploadBytes: number;
  /** How deep JSON may be nested. */
  readonly jsonDepth: number;
  /** Requests a minute from one address. */
  readonly requestsPerMinute: number;
  /** Packs a minute from one board. */
  readonly packsPerMinute: number;
  readonly signInsPer15Minutes: number;
  readonly connections: number;
  readonly viewers: number;
  /** A body has to bring so many bytes in each so many ms. */
  readonly slowBody: { readonly bytes: number; readonly withinMs: number };
  /** Head of a request, ms. */
  readonly headersMs: number;
  readonly heartbeatMs: number;
  /** Events kept for viewers that come back. */
  readonly liveEvents: number;
  /** How often the store is asked for new readings while someone looks on, ms. */
  readonly watchMs: number;
  /** A session ends after so long without a request, and after so long in any case. */
  readonly sessionIdleMs: number;
  readonly sessionMs: number;
  /** Readings of a board may lie so far ahead of the host's clock, and so far back. */
  readonly boardAheadMs: number;
  readonly boardBehindMs: number;
}

/** A phone or two, a printer's computer and a few hundred boards. */
export const usualLimits: Limits = {
  jsonBytes: 500_000,
  baselineBytes: 30_000_000,
  uploadBytes: 400_000_000,
  waitingUploadBytes: 1_000_000_000,
  jsonDepth: 20,
  requestsPerMinute: 1500,
  packsPerMinute: 120,
  signInsPer15Minutes: 10,
  connections: 1000,
  viewers: 250,
  slowBody: { bytes: 2000, withinMs: 8000 },
  headersMs: 10_000,
  heartbeatMs: 15_000,
  liveEvents: 5000,
  watchMs: 1000,
  sessionIdleMs: 2 * msPerHour,
  sessionMs: 12 * msPerHour,
  boardAheadMs: 5 * msPerMinute,
  boardBehindMs: 31 * msPerDay,
};

/**
 * The defences that a test can switch off, one at a time, to see its attack succeed. Nothing but a test hands this over:
 * neither the command line nor a setting can.
 */
export const defences = [
  "host-check",
  "same-origin",
  "content-policy",
  "password",
  "roles",
  "cookie-flags",
  "session-expiry",
  "sign-in-limit",
  "request-limit",
  "body-limit",
  "upload-limit",
  "json-depth",
  "slow-body",
  "board-token",
  "board-times",
  "quiet-faults",
] as const;
export type Defence = (typeof defences)[number];
