// The rows of a CSV file without quotes, as places in its bytes: where each cell begins and ends.
// native-log.ts reads the numbers there.

/** Steps through the rows of a file. Line ends may be LF, CR LF or CR; blank lines are passed over. */
export class RowBytes {
  /** Line of the present row, from 1. */
  line: number;
  /** Cells in the present row. */
  cells = 0;
  readonly bytes: Uint8Array;
  readonly #text = new TextDecoder("utf-8", { ignoreBOM: true });
  /** Where the next row begins. */
  #at = 0;
  /** Where each cell's comma or line end is; the first entry is the byte before the row. */
  #ends: Int32Array = new Int32Array(64);

  /** @param linesBefore lines of the file before these bytes */
  constructor(bytes: Uint8Array, linesBefore = 0) {
    this.bytes = bytes;
    this.line = linesBefore;
  }

  /** Moves to the next row that is not blank; false at the end of the file. */
  next(): boolean {
    while (this.#at < this.bytes.length) {
      this.#findCells();
      if (this.cells > 1 || this.start(0) < this.end(0)) return true;
    }
    return false;
  }

  /** Where a cell begins, spaces passed over. In a blank cell that is its end. */
  start(cell: number): number {
    const end = this.#ends[cell + 1];
    let at = this.#ends[cell] + 1;
    while (at < end && isBlank(this.bytes[at])) at++;
    return at;
  }

  /** Where a cell ends, spaces left out. In a blank cell that is its beginning: no more than `start`. */
  end(cell: number): number {
    const start = this.#ends[cell] + 1;
    let at = this.#ends[cell + 1];
    while (at > start && isBlank(this.bytes[at - 1])) at--;
    return at;
  }

  cellText(cell: number): string {
    return this.#text.decode(this.bytes.subarray(this.start(cell), this.end(cell)));
  }

  cellTexts(): string[] {
    return Array.from({ length: this.cells }, (_, cell) => this.cellText(cell));
  }

  #findCells(): void {
    const { bytes } = this;
    const { length } = bytes;
    let ends = this.#ends;
    let at = this.#at;
    let cells = 0;
    ends[0] = at - 1;
    for (; at < length; at++) {
      const byte = bytes[at];
      if (byte > comma) continue;
      if (byte === lineFeed || byte === carriageReturn) break;
      if (byte !== comma) continue;
      ends[++cells] = at;
      if (cells + 1 === ends.length) ends = this.#makeRoom();
    }
    ends[++cells] = at;
    this.cells = cells;
    this.line++;
    const isPair = bytes[at] === carriageReturn && bytes[at + 1] === lineFeed;
    this.#at = at + (isPair ? 2 : 1);
  }

  #makeRoom(): Int32Array {
    const longer = new Int32Array(this.#ends.length * 2);
    longer.set(this.#ends);
    this.#ends = longer;
    return longer;
  }
}

const lineFeed = 0x0a;
const carriageReturn = 0x0d;
const comma = 0x2c;
const space = 0x20;
const tab = 0x09;

const isBlank = (byte: number) => byte === space || byte === tab;
