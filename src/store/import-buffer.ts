// One position's readings on their way in: gathered into blocks and packed at once, so that a long log takes little memory.

import type { RawUnit } from "../schema/index.ts";
import type { ReceivedCount } from "./received.ts";
import type { SeriesPart } from "./records.ts";
import { blockOfPart, chosen, isAscending, mostInBlock, placesInOrder, type SeriesName } from "./series-part.ts";
import type { BlockRow } from "./tables.ts";

/** Whose readings they are, and what they are in, where that is known. */
export interface ImportedOrigin {
  readonly probeId: string | null;
  readonly unit: RawUnit | null;
}

/** What came of one position, packed block by block. */
export class ImportBuffer {
  readonly #runId: string;
  readonly #position: SeriesName;
  readonly #origin: ImportedOrigin;
  readonly #count: ReceivedCount;
  readonly #unixMs = new Float64Array(mostInBlock);
  readonly #raw = new Float64Array(mostInBlock);
  #filled = 0;
  readonly #blocks: BlockRow[] = [];

  /** @param count is told of readings that repeat or contradict one in the same block */
  constructor(runId: string, position: SeriesName, origin: ImportedOrigin, count: ReceivedCount) {
    this.#runId = runId;
    this.#position = position;
    this.#origin = origin;
    this.#count = count;
  }

  /** @param missing is the value that stands for no reading: NaN, or source code 0 */
  add(unixMs: Float64Array, raw: Float64Array | Uint8Array, missing: number): void {
    const [instants, values] = [this.#unixMs, this.#raw];
    let filled = this.#filled;
    for (let row = 0; row < raw.length; row++) {
      const value = raw[row];
      const instant = unixMs[row];
      if (value === missing || Number.isNaN(value) || Number.isNaN(instant)) continue;
      if (filled === mostInBlock) {
        this.#pack(filled);
        filled = 0;
      }
      instants[filled] = instant;
      values[filled] = value;
      filled++;
    }
    this.#filled = filled;
  }

  /** All blocks, in the order their readings came. */
  finish(): readonly BlockRow[] {
    if (this.#filled > 0) this.#pack(this.#filled);
    this.#filled = 0;
    return this.#blocks;
  }

  #pack(filled: number): void {
    const part: SeriesPart = {
      position: this.#position,
      ...this.#origin,
      boardId: null,
      boot: 0,
      unixMs: this.#unixMs.subarray(0, filled),
      raw: this.#raw.subarray(0, filled),
      sequence: null,
      uptimeMs: null,
      hostUnixMs: null,
    };
    this.#blocks.push(blockOfPart(this.#runId, isAscending(part.unixMs) ? part : this.#inOrder(part)));
  }

  /** In order of time, each instant once: of several readings at one instant the first is kept. */
  #inOrder(part: SeriesPart): SeriesPart {
    const places: number[] = [];
    for (const place of placesInOrder(part.unixMs)) {
      const before = places.at(-1);
      const unixMs = part.unixMs[place];
      if (before === undefined || part.unixMs[before] !== unixMs) places.push(place);
      else {
        const [kept, refused] = [part.raw[before], part.raw[place]];
        this.#count.meet({ position: part.position, unixMs, kept, refused }, part.raw);
      }
    }
    return chosen(part, places);
  }
}
