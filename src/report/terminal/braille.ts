// A small canvas of braille dots: each character cell holds two by four of them, which gives a terminal
// enough points to draw a curve.

/** Dot bits of a braille cell by column and row. Source: The Unicode Standard, Braille Patterns U+2800. */
const dotBits = [
  [0x01, 0x02, 0x04, 0x40],
  [0x08, 0x10, 0x20, 0x80],
] as const;

export interface BrailleCanvas<Ink> {
  readonly dotsWide: number;
  readonly dotsHigh: number;
  /** Sets a dot, counted from the upper left; dots outside are left out. The last ink in a cell shows. */
  dot(x: number, y: number, ink: Ink): void;
  /** Puts a character in the cell of this dot, over whatever is drawn there. */
  mark(x: number, y: number, character: string, ink: Ink): void;
  /** Rows of text, each cell painted in its ink. */
  rows(paint: (text: string, ink: Ink) => string): string[];
}

/** An empty canvas of so many character cells. */
export function brailleCanvas<Ink>(wide: number, high: number): BrailleCanvas<Ink> {
  const bits = new Uint8Array(wide * high);
  const inks: (Ink | undefined)[] = new Array(wide * high).fill(undefined);
  const marks = new Map<number, string>();
  const cellOf = (x: number, y: number) =>
    x >= 0 && y >= 0 && x < wide * 2 && y < high * 4 ? (y >> 2) * wide + (x >> 1) : -1;
  return {
    dotsWide: wide * 2,
    dotsHigh: high * 4,
    dot(x, y, ink) {
      const cell = cellOf(x, y);
      if (cell < 0) return;
      bits[cell] |= dotBits[x & 1][y & 3];
      inks[cell] = ink;
    },
    mark(x, y, character, ink) {
      const cell = cellOf(x, y);
      if (cell < 0) return;
      marks.set(cell, character);
      inks[cell] = ink;
    },
    rows: (paint) =>
      Array.from({ length: high }, (_, row) => {
        const cells = Array.from({ length: wide }, (_, column) => {
          const cell = row * wide + column;
          const ink = inks[cell];
          const character = marks.get(cell) ?? (bits[cell] === 0 ? " " : String.fromCodePoint(0x2800 + bits[cell]));
          return ink === undefined ? character : paint(character, ink);
        });
        return cells.join("");
      }),
  };
}
