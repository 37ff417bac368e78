// A run while it goes on, for a terminal that is redrawn, and as one line at a time where nothing can be redrawn.

import type { CautionCode } from "../../science/index.ts";
import type { Alarm, LiveEstimate, LiveProofs } from "../../science/live/index.ts";
import { type CheckTelling, tellCautions } from "../advice-telling.ts";
import type { Reader } from "../context.ts";
import { hoursBetween } from "../hand.ts";
import { tellerFor } from "../teller.ts";
import { terminalChart } from "../terminal/terminal-chart.ts";
import { hang, padEnd, plain, wrap } from "../terminal/text-layout.ts";
import { margin, type Printer, printer, section, type TextOptions, textOf } from "../terminal/text-parts.ts";
import { say } from "../words/index.ts";
import { tellAlarmWith } from "./alarm-telling.ts";
import { numbersOf, proofNames, proofText, untilOf } from "./live-telling.ts";

export interface LiveContext extends Reader {
  /** The workshop's name for the fridge; null where nobody named it. */
  readonly fridge: string | null;
}

/** The whole picture, ending with a line break. @param alarms the latched ones. */
export function liveText(
  estimate: LiveEstimate,
  context: LiveContext,
  alarms: readonly Alarm[],
  options: TextOptions,
): string {
  const page = printer(context, options);
  const { live } = page.words;
  const { hand, colours, width } = page;
  const { nowMs, sinceMs, source, head } = estimate;
  return textOf([
    colours.bold(live.title(context.fridge)),
    colours.dim(
      `${live.since(source, hand.clock(sinceMs), hand.span(hoursBetween(sinceMs, nowMs)))}, ${live.asOf(hand.moment(nowMs))}`,
    ),
    "",
    ...wrap(say(live.heads, head.saying, hand), width).map(colours.bold),
    ...cautionLines(tellCautions(head.cautions, page), page),
    ...proofLines(estimate.proofs, page),
    ...numberLines(estimate, page),
    ...latestLine(estimate, page),
    ...chartLines(estimate, page),
    ...alarmLines(alarms, head.cautions, page),
  ]);
}

/**
 * One line for a log, or a terminal that cannot be redrawn. Its cautions stand in full whenever the line says something
 * else than the one before.
 *
 * @param before what the line before told; null for the first.
 */
export function liveLine(estimate: LiveEstimate, context: LiveContext, before: LiveEstimate | null): string {
  const teller = tellerFor(context);
  const { hand } = teller;
  const numbers = numbersOf(estimate, teller).map(({ name, text }) => `${name} ${text}`);
  const isNew = before?.head.saying.code !== estimate.head.saying.code;
  const caution = isNew ? tellCautions(estimate.head.cautions, teller) : null;
  const parts = [
    hand.moment(estimate.nowMs),
    say(teller.words.live.heads, estimate.head.saying, hand),
    ...(numbers.length === 0 ? [] : [teller.words.report.sentence(numbers.join("; "))]),
    ...(caution === null ? [] : [...caution.subjects.map(({ text }) => text), caution.close]),
  ];
  return `${plain(parts.join(" "))}\n`;
}

function cautionLines(caution: CheckTelling["caution"], { report, width, colours }: Printer): string[] {
  if (caution === null) return [];
  const lines = caution.subjects.flatMap(({ about, text }) =>
    hang("! ", `${report.cautionAbout(about)} ${text}`, width),
  );
  return [...lines, ...hang("  ", caution.close, width)].map(colours.yellow);
}

function proofLines(proofs: LiveProofs | null, page: Printer): string[] {
  if (proofs === null) return [];
  const { live } = page.words;
  const nameWidth = Math.max(...proofNames.map((name) => live.proofNames[name].length));
  return [
    "",
    ...proofNames.flatMap((name) =>
      hang(
        `${margin}${proofs[name].state === "proven" ? "●" : proofs[name].state === "expected" ? "○" : "–"} ${padEnd(live.proofNames[name], nameWidth)}  `,
        proofText(proofs[name], name, page),
        page.width,
      ),
    ),
  ];
}

function numberLines(estimate: LiveEstimate, page: Printer): string[] {
  const { width } = page;
  const until = untilOf(estimate, page);
  const numbers = numbersOf(estimate, page);
  const nameWidth = Math.max(0, ...numbers.map(({ name }) => name.length));
  const lines = numbers.flatMap(({ name, text }) => hang(`${margin}${padEnd(name, nameWidth)}  `, text, width));
  return [
    ...(lines.length === 0 ? [] : ["", ...lines]),
    ...(until === null ? [] : ["", ...hang(margin, until, width)]),
  ];
}

function latestLine({ latest }: LiveEstimate, { words: { live, names }, hand, width, colours }: Printer): string[] {
  const values = (["evaporator", "cabinet", "ambient", "boiler", "flue", "supply"] as const).flatMap((position) => {
    const reading = latest[position];
    if (reading === undefined) return [];
    return [`${names.positionNames[position]} ${hand.quantity(reading.value, position === "supply" ? "V" : "Cel", 1)}`];
  });
  return values.length === 0
    ? []
    : ["", ...hang(margin, `${live.latest}: ${values.join(", ")}`, width).map(colours.dim)];
}

function chartLines({ finding }: LiveEstimate, page: Printer): string[] {
  if (finding === null) return [];
  const { colours } = page;
  const inks = { cabinet: colours.bold, evaporator: colours.cyan, ambient: colours.yellow, fitted: colours.magenta };
  const chart = terminalChart(finding, page, page.width - margin.length, (text, ink) => inks[ink](text));
  return chart.length === 0 ? [] : ["", ...chart.map((line) => margin + line)];
}

/** @param said cautions that stand in full above. */
function alarmLines(alarms: readonly Alarm[], said: readonly CautionCode[], page: Printer): string[] {
  if (alarms.length === 0) return [];
  const { words: own, width, colours } = page;
  return [
    ...section(own.live.alarmsHeading, page),
    ...alarms.flatMap((alarm) => {
      const { text, state, caution } = tellAlarmWith(alarm, page);
      const isSaid = alarm.cautions.every((code) => said.includes(code));
      const care =
        caution !== null && isSaid
          ? hang(`${margin}  `, own.plan.careFor(caution.subjects.map(({ about }) => about)), width).map(colours.yellow)
          : cautionLines(caution, page);
      return [...hang(`${margin}! `, `${text} ${state}`, width).map(colours.red), ...care];
    }),
  ];
}
