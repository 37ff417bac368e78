// What the pages in a browser may import of this floor: their words, the names of things, and the hand that writes numbers.
// The rest of the floor stays on the server.

export { atLeast, leastTemperatureSpan, stepDecimals } from "./drawing/axis.ts";
export { faces, inks, papers } from "./drawing/inks.ts";
export { namePlaces } from "./drawing/name-places.ts";
export { createHand, type Degrees, degreesKinds } from "./hand.ts";
export { benchWords } from "./words/bench.ts";
