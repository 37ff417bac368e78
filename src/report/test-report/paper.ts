// Paper to draw on, as little of it as a report needs: a PDF is one (pdf-paper.ts), a test's notebook another. Lengths
// are in points of 1/72 inch, y downwards.

import type { Box } from "../drawing/scene.ts";

/** The faces there are. */
export type Face = "text" | "bold" | "title";

export interface TextStyle {
  readonly face: Face;
  readonly size: number;
  readonly colour: string;
  /** Reads upwards. */
  readonly turned?: boolean;
}

export interface Stroke {
  readonly colour: string;
  readonly width: number;
  readonly dash: readonly number[];
}

/** What a part of the paper is, for those who have it read to them. */
export type Role = "H1" | "H2" | "P" | "Figure";

/** Measures text. */
export interface Ruler {
  /** Of a text in one line. */
  widthOf(text: string, face: Face, size: number): number;
}

export interface Paper extends Ruler {
  /** Begins a page of A4. */
  nextPage(): void;
  /** One line of text; `y` is its baseline. */
  write(text: string, x: number, y: number, style: TextStyle): void;
  /** @param path SVG path data with M, L and Z alone */
  line(path: string, stroke: Stroke): void;
  area(path: string, colour: string): void;
  /** Draws with lengths scaled, from a corner of its own. */
  placed(left: number, top: number, scale: number, draw: () => void): void;
  /** Draws only what falls inside the box. */
  within(box: Box, draw: () => void): void;
  /** What is drawn meanwhile is one part of the document. @param alternative stands for a figure that cannot be seen */
  part(role: Role, draw: () => void, alternative?: string): void;
  /** What is drawn meanwhile is no part of the document: page numbers, rules, backgrounds. */
  ornament(draw: () => void): void;
  /** An entry of the document's outline, which leads to this page. */
  entry(title: string): void;
}

/** A4 (ISO 216), points. */
export const a4 = { width: 595.28, height: 841.89 } as const;

/** Breaks a text into lines no wider than `width`; a word that is wider by itself is broken where it must be. */
export function linesOf(text: string, width: number, face: Face, size: number, ruler: Ruler): readonly string[] {
  const space = ruler.widthOf(" ", face, size);
  return text.split("\n").flatMap((paragraph) => {
    const lines: string[] = [];
    let line = "";
    let used = 0;
    for (const word of paragraph.split(" ").flatMap((one) => piecesOf(one, width, face, size, ruler))) {
      const wide = ruler.widthOf(word, face, size);
      if (line !== "" && used + space + wide > width) {
        lines.push(line);
        line = "";
      }
      used = line === "" ? wide : used + space + wide;
      line = line === "" ? word : `${line} ${word}`;
    }
    return [...lines, line];
  });
}

function piecesOf(word: string, width: number, face: Face, size: number, ruler: Ruler): readonly string[] {
  if (ruler.widthOf(word, face, size) <= width) return [word];
  const pieces: string[] = [];
  let piece = "";
  for (const letter of word) {
    if (piece !== "" && ruler.widthOf(piece + letter, face, size) > width) {
      pieces.push(piece);
      piece = "";
    }
    piece += letter;
  }
  return [...pieces, piece];
}
