// A drawing as plain data: paths and texts in named inks, and boxes to clip them to. scene-to-svg.ts turns
// it into SVG; a PDF can draw the same scene. Lengths are in px of a drawing `width` wide, y downwards.

import type { Ink } from "./inks.ts";

export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly clips: { readonly [name: string]: Box };
  readonly marks: readonly Mark[];
}

/** "low": for paper that is full; only what matters most, in letters of the same size. */
export type Tallness = "usual" | "low";

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export type Mark = PathMark | TextMark;

export interface PathMark {
  readonly kind: "path";
  /** SVG path data with M, L and Z alone. */
  readonly d: string;
  readonly ink: Ink;
  /** Filled instead of stroked. */
  readonly filled?: boolean;
  /** Name of the clip it stays in. */
  readonly clip?: string;
}

export interface TextMark {
  readonly kind: "text";
  readonly x: number;
  /** The baseline. */
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly anchor: "start" | "middle" | "end";
  readonly ink: Ink;
  readonly bold?: boolean;
  /** Reads upwards. */
  readonly turned?: boolean;
}

/** A corner of a path; null lifts the pen. */
export type Point = readonly [x: number, y: number] | null;

/** Path data through the points; a lone point between two gaps becomes a dot. */
export function pathThrough(points: readonly Point[]): string {
  const parts: string[] = [];
  points.forEach((point, index) => {
    if (point === null) return;
    const here = `${tidy(point[0])} ${tidy(point[1])}`;
    const starts = (points[index - 1] ?? null) === null;
    const alone = starts && (points[index + 1] ?? null) === null;
    parts.push(`${starts ? "M" : "L"}${here}${alone ? `L${tidy(point[0] + 0.1)} ${tidy(point[1])}` : ""}`);
  });
  return parts.join("");
}

/** A closed box as path data. */
export const boxPath = ({ left, top, width, height }: Box) =>
  `${pathThrough([
    [left, top],
    [left + width, top],
    [left + width, top + height],
    [left, top + height],
  ])}Z`;

const tidy = (value: number) => String(Math.round(value * 10) / 10);
