// The limits between better, same and worse, as the science draws them (src/science/before-after/source-change.ts), in the
// figures of any language.

import type { Hand } from "../hand.ts";

export const sameLow = (margin: number, hand: Hand) => hand.percent(1 - margin);
export const sameHigh = (margin: number, hand: Hand) => hand.percent(1 / (1 - margin));
export const betterFrom = (margin: number, hand: Hand) => hand.percent(1 / (1 - margin / 2));
export const worseFrom = (margin: number, hand: Hand) => hand.percent(1 - margin / 2);
