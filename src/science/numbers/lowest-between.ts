// The lowest point of a smooth function between two others, by parabolas through its three lowest points.

export interface Point {
  readonly at: number;
  readonly cost: number;
}

/** Parabolas drawn: the third is right to six digits where a function bends like those of the scan. */
const mostParabolas = 4;

/**
 * The lowest point of `costAt` strictly between two points, from one between them; one minimum assumed.
 *
 * @param enough the share of the way between the two below which another parabola is not worth it.
 */
export function lowestBetween(
  low: Point,
  between: Point,
  high: Point,
  enough: number,
  costAt: (at: number) => number,
): Point {
  let left = low;
  let middle = between;
  let right = high;
  for (let drawn = 0; drawn < mostParabolas; drawn++) {
    const at = vertex(left, middle, right);
    if (!(at > left.at && at < right.at) || Math.abs(at - middle.at) < enough * (high.at - low.at)) break;
    const tried = { at, cost: costAt(at) };
    const [lower, upper] = tried.cost < middle.cost ? [tried, middle] : [middle, tried];
    // The lowest stays in the middle; the other becomes its neighbour on its side.
    if (upper.at < lower.at) left = upper;
    else right = upper;
    middle = lower;
  }
  return middle;
}

/** Where the parabola through three points turns. */
function vertex(left: Point, middle: Point, right: Point): number {
  const fromLeft = (middle.at - left.at) * (middle.cost - right.cost);
  const fromRight = (middle.at - right.at) * (middle.cost - left.cost);
  return (
    middle.at - ((middle.at - left.at) * fromLeft - (middle.at - right.at) * fromRight) / (2 * (fromLeft - fromRight))
  );
}
