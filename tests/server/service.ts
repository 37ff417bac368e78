// A service over a store of its own in a temporary folder, and ways to speak with it.

import { mkdtempSync, rmSync } from "node:fs";
import { type IncomingHttpHeaders, request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { onTestFinished } from "vitest";
import type { ProblemDocument } from "../../src/schema/api/index.ts";
import { type CallInput, callApi, type OperationName, ProblemAnswer } from "../../src/schema/api/index.ts";
import { createServer } from "../../src/server/create-server.ts";
import type { Defence, ServerOptions } from "../../src/server/server-options.ts";
import { openStore, type Store } from "../../src/store/index.ts";

export interface Running {
  readonly store: Store;
  readonly port: number;
  /** "http://127.0.0.1:PORT" */
  readonly base: string;
  readonly folder: string;
  /** Calls an operation as a page does. */
  readonly call: <N extends OperationName>(
    name: N,
    ...input: Record<never, never> extends CallInput<N> ? [CallInput<N>?] : [CallInput<N>]
  ) => ReturnType<typeof callApi<N>>;
  /** The problem that a call ends with. */
  readonly problem: (call: Promise<unknown>) => Promise<ProblemDocument>;
  /** Another service over the same store, as after the program was started again. */
  readonly again: () => Promise<Pick<Running, "call">>;
  /** The service ended, and another begun over the same store. @param meanwhile while none runs */
  readonly restarted: (meanwhile?: () => void) => Promise<Pick<Running, "base" | "call">>;
  readonly close: () => Promise<void>;
}

export interface Settings extends Partial<ServerOptions> {
  readonly defencesOff?: readonly Defence[];
  /** Headers of every call, such as a cookie. */
  readonly headers?: { readonly [name: string]: string };
}

export const sampleLogs = fileURLToPath(new URL("../../sample-logs", import.meta.url));

/** Ends with the test. */
export async function running({ defencesOff, headers, ...options }: Settings = {}): Promise<Running> {
  const folder = mkdtempSync(join(tmpdir(), "coldfall-server-"));
  const storeFile = join(folder, "store.coldfall");
  const store = await openStore(storeFile, { groupWaitMs: 1 });
  const begin = async () => {
    const service = createServer(
      {
        store,
        storeFile,
        version: "0.0.0-test",
        hosts: ["127.0.0.1", "localhost", "[::1]"],
        passwords: null,
        uploadFolder: join(folder, "uploads"),
        ...options,
      },
      defencesOff,
    );
    const port = await service.listen(0, "127.0.0.1");
    const base = `http://127.0.0.1:${port}`;
    const caller = { base, send: (address: string, init: RequestInit) => fetch(address, withHeaders(init, headers)) };
    const call: Running["call"] = (name, ...input) => callApi(caller, name, ...input);
    return { service, port, base, call };
  };
  const first = await begin();
  const { port, base, call } = first;
  let { service } = first;
  let isOpen = true;
  const close = async () => {
    if (!isOpen) return;
    isOpen = false;
    await service.close();
    await store.close();
    rmSync(folder, { recursive: true, force: true });
  };
  onTestFinished(close);
  return {
    store,
    port,
    base,
    folder,
    close,
    call,
    restarted: async (meanwhile = () => {}) => {
      await service.close();
      meanwhile();
      const next = await begin();
      service = next.service;
      return next;
    },
    again: async () => {
      const next = await begin();
      onTestFinished(() => next.service.close());
      return next;
    },
    problem: problemOfCall,
  };
}

const withHeaders = (init: RequestInit, headers: Settings["headers"]): RequestInit => ({
  ...init,
  headers: { ...(init.headers as Record<string, string>), ...headers },
});

async function problemOfCall(call: Promise<unknown>): Promise<ProblemDocument> {
  try {
    await call;
  } catch (error) {
    if (error instanceof ProblemAnswer) return error.problem;
    throw error;
  }
  throw new Error("the call went well");
}

export interface RawAnswer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

/** A request as no browser would send it: any header, the Host too. */
export function raw(
  port: number,
  method: string,
  path: string,
  headers: { readonly [name: string]: string | undefined } = {},
  body?: string | Uint8Array,
): Promise<RawAnswer> {
  return new Promise((resolve, reject) => {
    const sent = request({ host: "127.0.0.1", port, method, path, headers, agent: false }, (response) => {
      const chunks: Buffer[] = [];
      response.on("data", (chunk: Buffer) => chunks.push(chunk));
      response.on("end", () =>
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          body: Buffer.concat(chunks).toString(),
        }),
      );
      response.on("error", reject);
    });
    sent.on("error", reject);
    sent.end(body);
  });
}

/** What a page of ours sends with a change. */
export const asPage = { "Coldfall-Request": "1", "Content-Type": "application/json" };
