// Bytes of logs that wait to be understood and imported. They lie in files of our own naming in a folder of our own; what the
// sender calls the file is a word to show, never a path.

import { createHash, randomUUID } from "node:crypto";
import { mkdirSync, rmSync } from "node:fs";
import { open, rm } from "node:fs/promises";
import { join } from "node:path";
import type { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { msPerHour } from "../schema/index.ts";
import { Problem } from "./problem.ts";

export interface Upload {
  readonly id: string;
  /** As the sender calls it, for people. */
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly receivedUnixMs: number;
}

/** Files that were handed in and wait to be brought in, each under a name of ours. */
export class Uploads {
  readonly #folder: string;
  readonly #limits: { readonly uploadBytes: number; readonly waitingUploadBytes: number };
  readonly #uploads = new Map<string, Upload>();
  /** Those that something is being done with, each once for each who does. */
  readonly #inUse: string[] = [];
  /** Bytes being received, which count as waiting too. */
  #arriving = 0;

  /** @param folder is emptied */
  constructor(folder: string, limits: { readonly uploadBytes: number; readonly waitingUploadBytes: number }) {
    this.#folder = folder;
    this.#limits = limits;
    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder, { recursive: true, mode: 0o700 });
  }

  /**
   * Receives bytes up to the limits; what nobody came back for makes room.
   *
   * @throws Problem "body-too-large"; nothing is left behind then
   */
  async receive(name: string, body: Readable, nowUnixMs: number): Promise<Upload> {
    for (const upload of [...this.#uploads.values()]) {
      if (nowUnixMs - upload.receivedUnixMs > longestWaitMs) await this.#discard(upload.id);
    }
    const id = randomUUID();
    const file = this.#file(id);
    const hash = createHash("sha256");
    let bytes = 0;
    const counted = async function* (this: Uploads, chunks: AsyncIterable<Buffer>) {
      for await (const chunk of chunks) {
        bytes += chunk.length;
        this.#arriving += chunk.length;
        const waiting = [...this.#uploads.values()].reduce((sum, upload) => sum + upload.bytes, this.#arriving);
        if (bytes > this.#limits.uploadBytes || waiting > this.#limits.waitingUploadBytes)
          throw new Problem("body-too-large");
        hash.update(chunk);
        yield chunk;
      }
    };
    try {
      // The request stays whole, so that a refusal can be answered.
      const chunks = body.iterator({ destroyOnReturn: false });
      // Opened before it is written: a file that is still being opened when all is over would outlive its removal.
      const handle = await open(file, "wx", 0o600);
      await pipeline(chunks, counted.bind(this), handle.createWriteStream());
    } catch (error) {
      await rm(file, { force: true });
      throw error;
    } finally {
      this.#arriving -= bytes;
    }
    const upload = { id, name, bytes, sha256: hash.digest("hex"), receivedUnixMs: nowUnixMs };
    this.#uploads.set(id, upload);
    return upload;
  }

  /** @throws Problem "no-such-record" */
  get(id: string): Upload {
    const upload = this.#uploads.get(id);
    if (upload === undefined) throw new Problem("no-such-record");
    return upload;
  }

  /** Where the bytes lie. */
  file(id: string): string {
    return this.#file(this.get(id).id);
  }

  async forget(id: string): Promise<void> {
    const { id: known } = this.get(id);
    this.#uploads.delete(known);
    await rm(this.#file(known), { force: true });
  }

  /** Does work that needs the bytes. They stay until it is over, and are forgotten when it went well. */
  async usedUp<T>(id: string, work: () => Promise<T>): Promise<T> {
    this.#inUse.push(id);
    const result = await work().finally(() => this.#inUse.splice(this.#inUse.indexOf(id), 1));
    await this.#discard(id);
    return result;
  }

  close(): void {
    this.#uploads.clear();
    rmSync(this.#folder, { recursive: true, force: true });
  }

  /** Forgets it, if it is there and nobody needs it. */
  async #discard(id: string): Promise<void> {
    if (this.#uploads.has(id) && !this.#inUse.includes(id)) await this.forget(id);
  }

  #file(id: string): string {
    return join(this.#folder, `${id}.upload`);
  }
}

/** An upload waits so long to be imported, ms; then the next one may take its room. Our own choice. */
const longestWaitMs = msPerHour;
