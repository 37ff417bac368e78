// `coldfall serve`: the bench in a browser, until it is told to stop.

import { existsSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { pino } from "pino";
import { readWholeFile } from "../ingest/index.ts";
import { program } from "../report/index.ts";
import {
  createServer,
  hashPassword,
  inAddress,
  keptCertificate,
  loopbackHosts,
  type PasswordHashes,
  reachableHosts,
  type Service,
  shortestPassword,
} from "../server/index.ts";
import { openStore, type Store } from "../store/index.ts";
import type { AlarmOrders } from "../workshop/recording/index.ts";
import { type LanguageOptions, tellingOf, wordsFor } from "./language-option.ts";
import { badOption } from "./option-values.ts";
import { storeFileOf } from "./store-option.ts";
import type { Terminal } from "./terminal.ts";
import { webhookWithSecret } from "./webhook-secret.ts";

export interface ServeOptions extends AlarmOrders, LanguageOptions {
  /** 0 takes a free one. */
  readonly port: number;
  /** The address to listen on; this machine alone when left out. */
  readonly host?: string;
  readonly hostName?: readonly string[];
  readonly store?: string;
  readonly tlsCert?: string;
  readonly tlsKey?: string;
  /** Files whose first line is a password. */
  readonly technicianPassword?: string;
  readonly ownerPassword?: string;
  /** Where alarms of network boards are sent. */
  readonly webhook?: string;
}

/** A service that listens. */
export interface Serving extends AsyncDisposable {
  /** As a browser on this machine reaches it. */
  readonly address: string;
}

/** Serves until the process is told to stop. @throws BadInput as `startServing` does */
export async function runServe(options: ServeOptions, terminal: Terminal): Promise<void> {
  await using _ = await startServing(options, terminal);
  await new Promise<void>((stop) => {
    process.once("SIGINT", stop);
    process.once("SIGTERM", stop);
  });
  terminal.tell(`${wordsFor(options).server.stopped}\n`);
}

/** @throws BadInput when an option cannot be used, the port is taken, or the store cannot be opened */
export async function startServing(options: ServeOptions, terminal: Terminal): Promise<Serving> {
  refuseMisfits(options);
  const { server: text } = wordsFor(options);
  const storeFile = storeFileOf(options.store);
  const store = await openStore(storeFile);
  try {
    const passwords = await passwordsOf(options, store);
    const hosts = options.host === undefined ? loopbackHosts : reachableHosts(options.host, options.hostName ?? []);
    const tls = options.host === undefined ? undefined : tlsOf(options, storeFile, hosts);
    const service = createServer({
      store,
      storeFile,
      version: program.version,
      hosts: hosts.map(inAddress),
      passwords,
      ...(tls === undefined ? {} : { tls }),
      uploadFolder: `${storeFile}.uploads`,
      pages: builtPages(),
      sampleLogs: fileURLToPath(new URL("../../sample-logs", import.meta.url)),
      alarms: {
        orders: options,
        hook: webhookWithSecret(options, terminal),
        reader: tellingOf(options),
        tell: (line) => terminal.tell(`${line}\n`),
      },
      logger: pino({ level: terminal.isWatched ? "error" : "info" }, pino.destination(2)),
    });
    const port = await listening(service, options);
    const shown = options.host === undefined ? "127.0.0.1" : shownHost(options.host);
    const address = `${tls === undefined ? "http" : "https"}://${inAddress(shown)}:${port}/`;
    terminal.print(`${text.serving(address)}\n`);
    if (tls === undefined) terminal.print(`${text.thisMachineOnly}\n`);
    if (tls?.isOwn) terminal.print(`${text.fingerprint(tls.fingerprint)}\n`);
    return {
      address,
      [Symbol.asyncDispose]: async () => {
        await service.close();
        await store.close();
      },
    };
  } catch (error) {
    await store.close();
    throw error;
  }
}

function refuseMisfits({ host, hostName, tlsCert, tlsKey, technicianPassword, ownerPassword }: ServeOptions): void {
  if ((tlsCert === undefined) !== (tlsKey === undefined))
    throw badOption(
      tlsCert === undefined ? "--tls-key" : "--tls-cert",
      tlsCert ?? tlsKey ?? "",
      ({ server }) => server.expectedBoth,
    );
  if (host !== undefined) return;
  const needHost = {
    "--host-name": hostName?.join(", "),
    "--tls-cert": tlsCert,
    "--technician-password": technicianPassword,
    "--owner-password": ownerPassword,
  };
  for (const [option, value] of Object.entries(needHost))
    if (value !== undefined) throw badOption(option, value, ({ server }) => server.expectedWithHost);
}

/** Those given now replace those kept; null where nobody but this machine can reach the service. */
async function passwordsOf(options: ServeOptions, store: Pick<Store, "settings">): Promise<PasswordHashes | null> {
  const { host, technicianPassword, ownerPassword } = options;
  if (host === undefined) return null;
  const given = { ...(await hashOf("technician", technicianPassword)), ...(await hashOf("owner", ownerPassword)) };
  const kept = ((await store.settings.get(passwordSetting)) ?? {}) as PasswordHashes;
  const all: PasswordHashes = { ...kept, ...given };
  if (all.technician === undefined) throw badOption("--host", host, ({ server }) => server.passwordNeeded);
  if (Object.keys(given).length > 0) await store.settings.set(passwordSetting, { ...all });
  return all;
}

const passwordSetting = "service-passwords";

async function hashOf(role: "technician" | "owner", file: string | undefined): Promise<PasswordHashes> {
  if (file === undefined) return {};
  const [password = ""] = new TextDecoder().decode(readWholeFile(file)).split(/\r?\n/);
  if ([...password].length < shortestPassword)
    throw badOption(`--${role}-password`, file, ({ server }) => server.expectedPassword(shortestPassword));
  return { [role]: await hashPassword(password) };
}

function tlsOf({ tlsCert, tlsKey }: ServeOptions, storeFile: string, hosts: readonly string[]) {
  if (tlsCert === undefined || tlsKey === undefined)
    return { ...keptCertificate(`${storeFile}.certificate.json`, hosts, Date.now()), isOwn: true };
  const read = (file: string) => new TextDecoder().decode(readWholeFile(file));
  return { cert: read(tlsCert), key: read(tlsKey), isOwn: false, fingerprint: "" };
}

async function listening(service: Service, { port, host = "127.0.0.1" }: ServeOptions): Promise<number> {
  try {
    return await service.listen(port, host);
  } catch (error) {
    await service.close();
    const { code } = error as NodeJS.ErrnoException;
    if (code === "EADDRINUSE" || code === "EACCES")
      throw badOption("--port", `${port}`, ({ server }) => server.freePort);
    if (code === "EADDRNOTAVAIL" || code === "ENOTFOUND")
      throw badOption("--host", host, ({ server }) => server.ownAddress);
    throw error;
  }
}

/** An address that stands for all is no address to type into a browser. */
const shownHost = (host: string) => (host === "0.0.0.0" || host === "::" ? "localhost" : host);

/** Where the build puts the pages: beside the built program, or in dist when run as written. */
const builtPages = () =>
  ["../web", "../../dist/web"]
    .map((folder) => fileURLToPath(new URL(folder, import.meta.url)))
    .find((folder) => existsSync(join(folder, "index.html")));
