import { expect, test } from "vitest";
import { boardLoad } from "./board-load-study.ts";

// The bench of the same name does two minutes with 200 boards; how fast is its question, here it is only that nothing is lost.
test("boards over the network and on ptys write into one store at the same time, and nothing is lost", async () => {
  const figures = await boardLoad({ networkBoards: 20, ptyBoards: 2, seconds: 3, seed: 5 });
  expect(figures.sent).toBe(22 * 3 * 3);
  expect(figures).toMatchObject({ kept: figures.sent, refused: {} });
  expect(figures.networkMs).toHaveLength(60);
  expect(figures.ptyMs.every((ms) => ms >= 0)).toBe(true);
}, 30_000);
