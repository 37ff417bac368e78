// A scene on paper: the same marks as in the page's drawing (scene-to-svg.ts), in the inks for light paper.

import { inks } from "../drawing/inks.ts";
import type { Mark, Scene } from "../drawing/scene.ts";
import type { Paper } from "./paper.ts";

/**
 * Draws a scene.
 *
 * @param width of the drawing on the paper, points; the scene is scaled to it
 */
export function sceneToPaper(scene: Scene, paper: Paper, left: number, top: number, width: number): void {
  paper.placed(left, top, width / scene.width, () => {
    for (const mark of scene.marks) {
      const box = mark.kind === "path" && mark.clip !== undefined ? scene.clips[mark.clip] : undefined;
      if (box === undefined) drawMark(mark, paper);
      else paper.within(box, () => drawMark(mark, paper));
    }
  });
}

function drawMark(mark: Mark, paper: Paper): void {
  const { light: colour, width, dash } = inks[mark.ink];
  if (mark.kind === "path") {
    if (mark.filled) paper.area(mark.d, colour);
    else paper.line(mark.d, { colour, width, dash });
    return;
  }
  const { text, x, y, size, anchor, bold, turned = false } = mark;
  const face = bold ? "bold" : "text";
  const back = { start: 0, middle: 0.5, end: 1 }[anchor] * paper.widthOf(text, face, size);
  paper.write(text, turned ? x : x - back, turned ? y + back : y, { face, size, colour, turned });
}
