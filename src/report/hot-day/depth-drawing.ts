// Kelvin below ambient against ambient: the runs as points, what is predicted between and beyond them, its band, and the
// line above which the cabinet is at 8 °C or below.

import type { DepthCurve, HotDaySource, SettledDepth } from "../../science/hot-days/index.ts";
import { isKnown } from "../../science/index.ts";
import { roundAxisOf, tickFigure } from "../drawing/axis.ts";
import {
  acrossOf,
  band,
  downOf,
  endNames,
  line,
  type Panel,
  topLine,
  upright,
  widthOfText,
  xAxis,
  yAxis,
} from "../drawing/chart-panel.ts";
import { type Mark, pathThrough, type Scene } from "../drawing/scene.ts";
import type { Teller } from "../teller.ts";

/**
 * @param ambient asked for.
 * @param width of the drawing, px; 340 serves a telephone, 720 paper and screens.
 * @returns null when no run tells a depth.
 */
export function depthDrawing(one: HotDaySource, ambient: number, teller: Teller, width: number): Scene | null {
  const { curve, points } = one;
  if (curve === null || !isKnown(one.belowAmbient)) return null;
  const { depths } = teller.words.hotDay;
  const left = 42;
  const right =
    Math.max(widthOfText(depths.lines.law), widthOfText(depths.lines.beyond), widthOfText(depths.holds8(teller.hand))) +
    14;
  const plotWidth = width - left - right;
  const xs = curve.ambient;
  const seen = [...curve.low, ...curve.high, ...points.map(({ depth }) => depth)];
  const panel: Panel = {
    box: { left, top: 50, width: plotWidth, height: width < 500 ? 220 : 280 },
    x: roundAxisOf("Cel", teller.hand, xs[0], xs[xs.length - 1], Math.floor(plotWidth / 55)),
    y: roundAxisOf("K", teller.hand, Math.min(...seen), Math.max(...seen), 7),
    clip: "main",
  };
  const within = part(curve, (celsius) => celsius >= curve.seenFrom && celsius <= curve.seenTo);
  const before = part(curve, (celsius) => celsius <= curve.seenFrom + 0.5);
  const beyond = part(curve, (celsius) => celsius >= curve.seenTo - 0.5);
  const holding8 = xs.map((celsius) => celsius - 8);
  const area = band(panel, "band", xs, curve.low, curve.high);
  const last = (values: Float64Array) => values.findLast(Number.isFinite) ?? 0;
  return {
    width,
    height: panel.box.top + panel.box.height + 46,
    clips: { main: panel.box },
    marks: [
      ...yAxis(panel, depths.y(teller.hand), tickFigure(panel.y, teller.hand), topLine),
      ...(area === null ? [] : [area]),
      line(panel, "knownGood", xs, holding8),
      line(panel, "fitted", xs, before),
      line(panel, "fitted", xs, beyond),
      line(panel, "cabinet", xs, within),
      ...points.flatMap((point) => pointMarks(panel, point)),
      ...xAxis(panel, depths.x(teller.hand), tickFigure(panel.x, teller.hand)),
      ...upright(panel, "axis", ambient, depths.asked, 0),
      ...endNames(panel, [
        {
          ink: "fitted",
          name: beyond.some(Number.isFinite) ? depths.lines.beyond : depths.lines.law,
          value: last(curve.depth),
        },
        { ink: "knownGood", name: depths.holds8(teller.hand), value: Math.min(panel.y.high, last(holding8)) },
      ]),
    ],
  };
}

/** The curve where `isIn` holds, NaN elsewhere. */
const part = ({ ambient, depth }: DepthCurve, isIn: (celsius: number) => boolean) =>
  depth.map((value, i) => (isIn(ambient[i]) ? value : Number.NaN));

const pointHalf = 3.5;

/** A diamond with its error as an upright. */
function pointMarks(panel: Panel, { ambient, depth, standardError }: SettledDepth): Mark[] {
  const [x, y] = [acrossOf(panel, ambient), downOf(panel, depth)];
  const reach = (kelvin: number) => downOf(panel, depth + kelvin);
  const diamond = `${pathThrough([
    [x, y - pointHalf],
    [x + pointHalf, y],
    [x, y + pointHalf],
    [x - pointHalf, y],
  ])}Z`;
  return [
    {
      kind: "path",
      d: pathThrough([
        [x, reach(2 * standardError)],
        [x, reach(-2 * standardError)],
      ]),
      ink: "axis",
      clip: panel.clip,
    },
    { kind: "path", d: diamond, ink: "cabinet", filled: true, clip: panel.clip },
  ];
}
