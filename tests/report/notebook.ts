// Paper for tests: notes what is drawn on it, page by page and part by part.

import type { Paper, Role } from "../../src/report/test-report/paper.ts";

export interface NotedPart {
  readonly page: number;
  readonly role: Role;
  readonly alternative: string | undefined;
  /** What was written, a line each. */
  readonly texts: string[];
  lines: number;
  areas: number;
}

export interface Notebook {
  readonly paper: Paper;
  readonly parts: readonly NotedPart[];
  /** Right ends and baselines of what was written outside of drawings. */
  readonly corners: readonly {
    readonly page: number;
    readonly right: number;
    readonly y: number;
    readonly text: string;
  }[];
  readonly pages: () => number;
}

/** About as wide as a condensed sans-serif. */
const widthOf = (text: string, _: unknown, size: number) => text.length * size * 0.5;

export function notebook(): Notebook {
  const parts: NotedPart[] = [];
  const corners: { page: number; right: number; y: number; text: string }[] = [];
  let page = 0;
  let part: NotedPart | null = null;
  let isPlaced = false;
  const paper: Paper = {
    widthOf,
    nextPage: () => {
      page++;
    },
    write: (text, x, y, { face, size }) => {
      part?.texts.push(text);
      if (!isPlaced) corners.push({ page, right: x + widthOf(text, face, size), y, text });
    },
    line: () => {
      if (part !== null) part.lines++;
    },
    area: () => {
      if (part !== null) part.areas++;
    },
    placed: (_left, _top, _scale, draw) => {
      isPlaced = true;
      draw();
      isPlaced = false;
    },
    within: (_box, draw) => draw(),
    part: (role, draw, alternative) => {
      part = { page, role, alternative, texts: [], lines: 0, areas: 0 };
      parts.push(part);
      draw();
      part = null;
    },
    ornament: (draw) => draw(),
    entry: () => {},
  };
  return { paper, parts, corners, pages: () => page };
}
