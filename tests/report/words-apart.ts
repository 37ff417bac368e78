// Whether the words of a drawing can be read: inside it, and none over another.

import { expect } from "vitest";
import type { Scene, TextMark } from "../../src/report/drawing/scene.ts";

/** Boxes of a scene's horizontal words, as wide as a sans-serif makes them. */
const boxesOf = (scene: Scene) =>
  scene.marks
    .filter((mark): mark is TextMark => mark.kind === "text" && !mark.turned)
    .map(({ text, x, y, size, anchor, bold }) => {
      const width = text.length * size * (bold ? 0.62 : 0.55);
      const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
      return { text, left, right: left + width, top: y - size * 0.75, bottom: y };
    });

export function expectWordsApart(scene: Scene): void {
  const boxes = boxesOf(scene);
  expect(boxes.length).toBeGreaterThan(5);
  boxes.forEach((box, i) => {
    expect(box.left, box.text).toBeGreaterThanOrEqual(-1);
    expect(box.right, box.text).toBeLessThanOrEqual(scene.width + 1);
    expect(box.bottom, box.text).toBeLessThanOrEqual(scene.height);
    for (const other of boxes.slice(i + 1)) {
      const apart =
        box.right <= other.left || other.right <= box.left || box.bottom <= other.top || other.bottom <= box.top;
      expect(apart, `"${box.text}" and "${other.text}"`).toBe(true);
    }
  });
}
