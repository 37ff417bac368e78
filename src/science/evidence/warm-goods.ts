// Goods put in warm, as a run's own curves show them: the air falls fast, and creeps as long as they cool. The warming back, which
// tells a load from a seal (warming-ratio.ts), needs known-good runs; this needs none, and so is only good for doubt.

import type { RunSheet } from "../../schema/index.ts";
import type { CabinetFit } from "../pull-down/cabinet-fit.ts";
import type { FittedPullDown } from "../pull-down/pull-down-fit.ts";
import { slowEnd } from "../pull-down/slow-end.ts";

/** The curve of one stretch. */
interface Fall {
  readonly cabinetFit: CabinetFit;
}

/** Shorter falls show nothing of goods, h after the onset. */
const leastHours = 4;

/**
 * An empty cabinet's end by two modes lies deeper than that of one by up to this share of the depth: of what was not seen of
 * the curve, `flat`, and more of it the more there is. 19 of 20 empty simulated stretches stay below; three of four with 3 kg
 * lie above, and nearly all with more.
 */
const emptyShare = { flat: 0.1, perUnseen: 2.2 } as const;
/** Under this share of the depth, 0.5 K or so, a day's swing does the same, and a kilogram of goods does more. */
const leastShare = 0.018;

/**
 * A curve of less than 5 h cannot tell its end from its rate: goods then look like a fast fall to a warm end. Over the rate of
 * warming back, which a leaking seal raises as well, empty simulated cabinets fall 1.2 to 1.45 times as fast, those with 3 kg
 * and more 1.4 to 2 times; where nothing warms back, the rate itself has to do, 1/h.
 */
const shortHours = 5;
const fastestOverWarming = 1.5;
const fastestEmpty = 0.38;

/**
 * Finds in which falls of a run goods may still have been cooling. Once in they stay for all of it, so that a long fall that
 * shows them tells of every one; a short one, easily wrong, tells of other short ones, and of stretches without a fall.
 *
 * @param warmingRate how this run's cabinet warms back, 1/h; null where it does not show it.
 * @returns the answer for any of these falls; null stands for a stretch without one.
 */
export function warmGoodsAmong(
  falls: readonly Fall[],
  sheet: RunSheet | null,
  warmingRate: number | null,
): (fall: Fall | null) => boolean {
  const shows = sheet?.load === "empty" ? [] : falls.filter((fall) => showsGoods(fall.cabinetFit, warmingRate));
  const isShort = ({ cabinetFit }: Fall) => cabinetFit.hoursAfterOnset < shortHours;
  const inAll = shows.some((fall) => !isShort(fall));
  return (fall) => inAll || (fall === null || isShort(fall) ? shows.length > 0 : false);
}

function showsGoods({ fit, hoursAfterOnset }: CabinetFit, warmingRate: number | null): boolean {
  if (hoursAfterOnset < leastHours) return false;
  const { rate } = fit.pullDown;
  const isFast = rate > (warmingRate === null ? fastestEmpty : fastestOverWarming * warmingRate);
  return creeps(fit, hoursAfterOnset) || (hoursAfterOnset < shortHours && isFast);
}

function creeps(fit: FittedPullDown, hoursAfterOnset: number): boolean {
  const { rate, depth } = fit.pullDown;
  const unseen = Math.exp(-rate * hoursAfterOnset);
  const further = slowEnd(fit)?.further ?? 0;
  const usual = unseen * (emptyShare.flat + emptyShare.perUnseen * unseen);
  return further > depth * Math.max(leastShare, usual);
}
