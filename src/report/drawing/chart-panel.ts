// One panel of a chart: a box with axes, into which series are drawn. What to draw is composed in
// stretch-drawing.ts and run-drawing.ts.

import type { Axis } from "./axis.ts";
import type { Ink } from "./inks.ts";
import { type Box, boxPath, type Mark, type PathMark, type Point, pathThrough, type TextMark } from "./scene.ts";
import { thin } from "./thin.ts";

export interface Panel {
  readonly box: Box;
  readonly x: Axis;
  readonly y: Axis;
  /** Name of the clip that is this panel's box. */
  readonly clip: string;
}

/** Letter size of all words in drawings, px. */
export const letterSize = 13;
/** About as wide as a bold text is, at most, in the sans-serif faces that drawings use. */
export const widthOfText = (text: string) => text.length * letterSize * 0.66;

export const acrossOf = ({ box, x }: Panel, value: number) => box.left + x.share(value) * box.width;
export const downOf = ({ box, y }: Panel, value: number) => box.top + (1 - y.share(value)) * box.height;

/** Text in the letter size of drawings. */
export const words = (
  text: string,
  x: number,
  y: number,
  anchor: TextMark["anchor"] = "start",
  ink: Ink = "axis",
  extra: { bold?: boolean; turned?: boolean } = {},
): TextMark => ({ kind: "text", text, x, y, size: letterSize, anchor, ink, ...extra });

/** A straight line. */
export const straight = (ink: Ink, from: Point, to: Point): PathMark => ({
  kind: "path",
  d: pathThrough([from, to]),
  ink,
});

/** Where words stand on the topmost line of a drawing, px: clear of what is written between it and the box. */
export const topLine = letterSize + 1;

/** Grid, frame and figures of the y axis, its title above the box: right above unless stated, px from the top. */
export function yAxis(
  panel: Panel,
  title: string,
  figure: (value: number) => string,
  titleDown = panel.box.top - 10,
): Mark[] {
  const { box, y } = panel;
  return [
    ...y.ticks.flatMap((tick) => {
      const down = downOf(panel, tick);
      return [
        straight("grid", [box.left, down], [box.left + box.width, down]),
        words(figure(tick), box.left - 6, down + letterSize * 0.35, "end"),
      ];
    }),
    straight("axis", [box.left, box.top], [box.left, box.top + box.height]),
    words(title, 2, titleDown),
  ];
}

/** Frame, ticks and figures of the x axis below the box; without `figure` only the ticks. */
export function xAxis(panel: Panel, title: string, figure: ((value: number) => string) | null): Mark[] {
  const { box, x } = panel;
  const bottom = box.top + box.height;
  const ticks = x.ticks.map((tick) => {
    const across = acrossOf(panel, tick);
    return straight("axis", [across, bottom], [across, bottom + 4]);
  });
  const figures =
    figure === null
      ? []
      : [
          ...x.ticks.map((tick) => words(figure(tick), acrossOf(panel, tick), bottom + 18, "middle")),
          words(title, box.left + box.width / 2, bottom + 36, "middle"),
        ];
  return [straight("axis", [box.left, bottom], [box.left + box.width, bottom]), ...ticks, ...figures];
}

/** A line through a series, thinned to what its width can show; missing readings lift the pen. */
export function line(panel: Panel, ink: Ink, xs: Float64Array, ys: Float64Array): PathMark {
  const points = thin(ys, Math.ceil(panel.box.width / 3)).map((i) => pointOf(panel, xs[i], ys[i]));
  return { kind: "path", d: pathThrough(points), ink, clip: panel.clip };
}

/** The area between two series; null where they share no finite stretch. */
export function band(
  panel: Panel,
  ink: Ink,
  xs: Float64Array,
  lows: Float64Array,
  highs: Float64Array,
): PathMark | null {
  const kept = thin(highs, Math.ceil(panel.box.width / 8)).filter((i) => Number.isFinite(lows[i] + highs[i]));
  if (kept.length < 2) return null;
  const upper = kept.map((i) => pointOf(panel, xs[i], highs[i]));
  const lower = kept.map((i) => pointOf(panel, xs[i], lows[i])).reverse();
  return { kind: "path", d: `${pathThrough([...upper, ...lower])}Z`, ink, filled: true, clip: panel.clip };
}

/** A shaded span over the whole height of the panel. */
export const shade = (panel: Panel, ink: Ink, from: number, to: number): PathMark => {
  const left = acrossOf(panel, from);
  const { top, height } = panel.box;
  const path = boxPath({ left, top, width: Math.max(acrossOf(panel, to) - left, 1), height });
  return { kind: "path", d: path, ink, filled: true, clip: panel.clip };
};

/** Something marked at an instant: a dashed line through the panel with its name on top. */
export function upright(panel: Panel, ink: Ink, at: number, name: string, raised: number): Mark[] {
  const across = acrossOf(panel, at);
  const { left, top, height } = panel.box;
  // Over the box alone: left of it stand the figures of the y axis.
  const middle = Math.max(across, left + widthOfText(name) / 2);
  return [
    straight(ink, [across, top - 3], [across, top + height]),
    words(name, middle, top - 6 - raised, "middle", ink),
  ];
}

/** A cross at each point, on the panel's edge where the value lies beyond it or there is none. */
export function crosses(panel: Panel, ink: Ink, xs: Float64Array, ys: Float64Array): PathMark {
  const { top, height, left, width } = panel.box;
  const lowest = top + height - crossReach;
  const arms = Array.from(xs, (x, i): Point[] => {
    const across = acrossOf(panel, x);
    if (!(across >= left && across <= left + width)) return [];
    const wanted = Number.isFinite(ys[i]) ? downOf(panel, ys[i]) : lowest;
    const down = Math.min(Math.max(wanted, top + crossReach), lowest);
    return [
      [across - crossReach, down - crossReach],
      [across + crossReach, down + crossReach],
      null,
      [across - crossReach, down + crossReach],
      [across + crossReach, down - crossReach],
      null,
    ];
  });
  return { kind: "path", d: pathThrough(arms.flat()), ink };
}

/** Half the width of a cross, px. */
const crossReach = 3.5;

/** Names at the right end of the lines, spread so that none covers another. */
export function endNames(panel: Panel, ends: readonly { ink: Ink; name: string; value: number }[]): Mark[] {
  const gap = letterSize + 2;
  const { box } = panel;
  const sorted = ends.map((end) => ({ ...end, y: downOf(panel, end.value) })).sort((a, b) => a.y - b.y);
  // Down the list each name is pushed below the one above; back up, all are kept inside the panel.
  let least = box.top + letterSize / 2;
  for (const end of sorted) {
    end.y = Math.max(end.y, least);
    least = end.y + gap;
  }
  let most = box.top + box.height;
  for (const end of sorted.toReversed()) {
    end.y = Math.min(end.y, most);
    most = end.y - gap;
  }
  const x = box.left + box.width + 7;
  return sorted.map(({ ink, name, y }) => words(name, x, y + letterSize * 0.35, "start", ink, { bold: true }));
}

const pointOf = (panel: Panel, x: number, y: number): Point =>
  Number.isFinite(x) && Number.isFinite(y) ? [acrossOf(panel, x), downOf(panel, y)] : null;
