// The drawing of curves that are panned, zoomed or still growing: Chart.js with what we need of it, our inks, an axis with
// the times of the run's own clock, and bands, stretches and events drawn beneath and above the lines.

import {
  Chart,
  type ChartDataset,
  LinearScale,
  LineController,
  LineElement,
  type Plugin,
  PointElement,
} from "chart.js";
import { atLeast, inks, leastTemperatureSpan, namePlaces, stepDecimals } from "../../src/report/for-pages.ts";
import { degreeSign, handFor, shownCelsius } from "../words.ts";
import { roomForBands } from "./room-for-bands.ts";
import { isMidnight, roundInstants, type Span } from "./span.ts";

Chart.register(LineController, LineElement, PointElement, LinearScale);

export type InkName = keyof typeof inks;

/** A line to draw; values in °C, or in `unit` where that is given. A missing value lifts the pen. */
export interface CurveLine {
  readonly name: string;
  readonly ink: InkName;
  readonly unixMs: readonly number[];
  readonly values: readonly number[];
}

/** Readings marked with a cross where they are, or on the edge where they lie beyond it; at the foot without a value. */
export interface CurveCrosses {
  /** Whose they are, in words. */
  readonly name: string;
  readonly unixMs: readonly number[];
  /** NaN where there is none. */
  readonly values: readonly number[];
}

export interface CurveBand {
  readonly ink: InkName;
  readonly unixMs: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** A span named along the top, shaded where nothing heated. */
export interface CurveStretch {
  readonly fromMs: number;
  readonly toMs: number;
  readonly name: string;
  readonly isOff: boolean;
}

/** An instant marked with a letter. */
export interface CurveMark {
  readonly unixMs: number;
  readonly letter: string;
}

export interface CurvePicture {
  readonly lines: readonly CurveLine[];
  readonly bands: readonly CurveBand[];
  readonly stretches: readonly CurveStretch[];
  readonly marks: readonly CurveMark[];
  readonly crosses: readonly CurveCrosses[];
  readonly span: Span;
  readonly utcOffsetMinutes: number;
  /** What is shown at the pointer, if anything. */
  readonly at: number | null;
  /** For volts; temperatures otherwise. */
  readonly unit?: "V";
}

/** A drawing on a canvas. */
export class CurveChart {
  readonly #chart: Chart<"line", { x: number; y: number }[]>;
  #picture: CurvePicture;
  #drawn: readonly CurveLine[] | null = null;
  #frame: number | null = null;

  constructor(canvas: HTMLCanvasElement, picture: CurvePicture) {
    this.#picture = picture;
    this.#chart = new Chart(canvas, {
      type: "line",
      data: { datasets: [] },
      plugins: [this.#beneath(), this.#above()],
      options: {
        animation: false,
        responsive: true,
        maintainAspectRatio: false,
        parsing: false,
        normalized: true,
        events: [],
        layout: { padding: { top: 34, right: 6 } },
        elements: { point: { radius: 0 }, line: { borderJoinStyle: "round" } },
        scales: {
          x: {
            type: "linear",
            afterBuildTicks: (axis) => {
              const most = Math.max(2, Math.floor(axis.width / 66));
              axis.ticks = roundInstants(this.#picture.span, this.#picture.utcOffsetMinutes, most).map((value) => ({
                value,
              }));
            },
            ticks: { autoSkip: false, maxRotation: 0, callback: (value) => this.#instant(Number(value)) },
          },
          y: {
            type: "linear",
            afterDataLimits: (axis) => {
              if (this.#picture.unit !== undefined) return;
              const bands = this.#picture.bands.map(({ low, high }) => ({
                low: low.map(this.#shown),
                high: high.map(this.#shown),
              }));
              [axis.min, axis.max] = roomForBands(atLeast(leastSpan(), axis.min, axis.max), bands);
            },
            ticks: {
              maxTicksLimit: 7,
              callback: (value, _, ticks) => figure(Number(value), ticks[1]?.value - ticks[0].value),
            },
          },
        },
      },
    });
    this.show(picture);
  }

  /** Draws another picture with the screen's next frame, however many come before it. */
  show(picture: CurvePicture): void {
    this.#picture = picture;
    this.#frame ??= requestAnimationFrame(() => {
      this.#frame = null;
      this.#draw();
    });
  }

  #draw(): void {
    const picture = this.#picture;
    const { scales } = this.#chart.options;
    if (scales?.x === undefined || scales.y === undefined) return;
    Object.assign(scales.x, { min: picture.span.from, max: picture.span.to });
    for (const { border, grid } of [scales.x, scales.y]) {
      if (border) border.color = ink("axis");
      if (grid) grid.color = ink("grid");
    }
    if (scales.x.ticks) Object.assign(scales.x.ticks, { color: ink("axis"), font: letters });
    if (scales.y.ticks) Object.assign(scales.y.ticks, { color: ink("axis"), font: letters });
    if (this.#drawn !== picture.lines) {
      this.#drawn = picture.lines;
      this.#chart.data.datasets = picture.lines.map((line) => this.#dataset(line));
    }
    this.#chart.update("none");
  }

  /** The instant under a place across the canvas, px. */
  instantAt(across: number): number {
    return this.#chart.scales.x.getValueForPixel(across) ?? this.#picture.span.from;
  }

  /** Lets its colours be those of the paper now. */
  repaint(): void {
    colours.clear();
    this.#drawn = null;
    this.show(this.#picture);
  }

  /** Draws it at once in the inks of light paper: what is printed is, whatever the screen is. `repaint` brings the screen's back. */
  paintForPrint(): void {
    for (const name of Object.keys(inks) as InkName[]) colours.set(name, inks[name].light);
    this.#drawn = null;
    this.#draw();
  }

  close(): void {
    if (this.#frame !== null) cancelAnimationFrame(this.#frame);
    this.#chart.destroy();
  }

  #shown = (value: number) => (this.#picture.unit === undefined ? shownCelsius(value) : value);

  #instant(unixMs: number): string {
    const hand = handFor(this.#picture.utcOffsetMinutes);
    return isMidnight(unixMs, this.#picture.utcOffsetMinutes)
      ? hand.moment(unixMs).replace(/\u00a0\d\d:\d\d$/, "")
      : hand.clock(unixMs);
  }

  #dataset({ name, ink: inkName, unixMs, values }: CurveLine): ChartDataset<"line", { x: number; y: number }[]> {
    const { width, dash } = inks[inkName];
    return {
      label: name,
      data: unixMs.map((x, i) => ({ x, y: this.#shown(values[i]) })),
      borderColor: ink(inkName),
      borderWidth: width,
      borderDash: [...dash],
      spanGaps: false,
    };
  }

  /** Stretches and bands lie under the lines. */
  #beneath(): Plugin<"line"> {
    return {
      id: "beneath",
      beforeDatasetsDraw: ({ ctx, chartArea: { left, right, top, bottom }, scales: { x, y } }) => {
        const across = (unixMs: number) => Math.min(Math.max(x.getPixelForValue(unixMs), left), right);
        ctx.save();
        ctx.font = `600 ${letters.size}px ${letters.family}`;
        ctx.textAlign = "center";
        const spans = this.#picture.stretches
          .map(({ fromMs, toMs, name, isOff }) => {
            const [from, to] = [across(fromMs), across(toMs)];
            return { name, from, to, half: ctx.measureText(name).width / 2, isOff };
          })
          .filter(({ from, to }) => to > from);
        const places = namePlaces(spans, left, right, 8);
        spans.forEach(({ name, from, to, isOff }, index) => {
          if (isOff) {
            ctx.fillStyle = ink("stretch");
            ctx.fillRect(from, top, to - from, bottom - top);
          }
          ctx.strokeStyle = ink("axis");
          ctx.lineWidth = 1;
          ctx.strokeRect(from, top - 4, 0.01, bottom - top + 4);
          const middle = places[index];
          if (middle === null) return;
          ctx.fillStyle = ink("axis");
          ctx.fillText(name, middle, top - 20);
        });
        ctx.beginPath();
        ctx.rect(left, top, right - left, bottom - top);
        ctx.clip();
        for (const { ink: inkName, unixMs, low, high } of this.#picture.bands) {
          ctx.beginPath();
          for (const [i, at] of unixMs.entries())
            ctx.lineTo(x.getPixelForValue(at), y.getPixelForValue(this.#shown(high[i])));
          for (let i = unixMs.length - 1; i >= 0; i--)
            ctx.lineTo(x.getPixelForValue(unixMs[i]), y.getPixelForValue(this.#shown(low[i])));
          ctx.fillStyle = ink(inkName);
          ctx.fill();
        }
        ctx.restore();
      },
    };
  }

  /** Crosses of rejected readings, letters of events, and the upright at the pointer. */
  #above(): Plugin<"line"> {
    return {
      id: "above",
      afterDatasetsDraw: ({ ctx, chartArea: { left, right, top, bottom }, scales: { x, y } }) => {
        ctx.save();
        ctx.strokeStyle = ink("rejected");
        ctx.lineWidth = inks.rejected.width;
        ctx.beginPath();
        for (const { unixMs, values } of this.#picture.crosses) {
          unixMs.forEach((at, i) => {
            const across = x.getPixelForValue(at);
            if (across < left || across > right) return;
            const foot = bottom - crossReach;
            const wanted = Number.isNaN(values[i]) ? foot : y.getPixelForValue(this.#shown(values[i]));
            const down = Math.min(Math.max(wanted, top + crossReach), foot);
            for (const lean of [-crossReach, crossReach]) {
              ctx.moveTo(across - crossReach, down - lean);
              ctx.lineTo(across + crossReach, down + lean);
            }
          });
        }
        ctx.stroke();
        ctx.lineWidth = 1;
        ctx.font = `600 ${letters.size}px ${letters.family}`;
        ctx.textAlign = "center";
        ctx.strokeStyle = ink("event");
        ctx.fillStyle = ink("event");
        ctx.setLineDash([3, 3]);
        const upright = (across: number) => {
          ctx.beginPath();
          ctx.moveTo(across, top);
          ctx.lineTo(across, bottom);
          ctx.stroke();
        };
        for (const { unixMs, letter } of this.#picture.marks) {
          const across = x.getPixelForValue(unixMs);
          if (across < left || across > right) continue;
          upright(across);
          ctx.fillText(letter, across, top - 5);
        }
        const { at } = this.#picture;
        if (at !== null && at >= this.#picture.span.from && at <= this.#picture.span.to) {
          ctx.strokeStyle = ink("axis");
          ctx.setLineDash([]);
          upright(x.getPixelForValue(at));
        }
        ctx.textAlign = "left";
        ctx.fillStyle = ink("axis");
        ctx.fillText(this.#picture.unit ?? degreeSign(), 2, 12);
        ctx.restore();
      },
    };
  }
}

const letters = { size: 13, family: 'system-ui, -apple-system, "Segoe UI", "DejaVu Sans", Arial, sans-serif' };

/** Half the width of a cross, px. */
const crossReach = 3.5;

/** What stands beside a tick: with the decimals that its distance from the next one needs; a lone tick's is unknown. */
const figure = (value: number, step: number) =>
  handFor(0).number(value, Number.isFinite(step) ? stepDecimals(Number(step.toPrecision(6))) : 1);

/** The smallest span of temperatures, in the degrees shown. */
const leastSpan = () => shownCelsius(leastTemperatureSpan) - shownCelsius(0);

/** The ink's colour on the paper now. Asked of the page once until it is repainted: asking costs more than drawing. */
function ink(name: InkName): string {
  const known = colours.get(name);
  if (known !== undefined) return known;
  const colour = getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();
  colours.set(name, colour);
  return colour;
}

const colours = new Map<InkName, string>();
