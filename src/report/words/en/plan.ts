// English: the plan of a run, its checklist, and the help of `coldfall plan`.

import type { HeatSource, Phrases } from "../../../schema/index.ts";
import type {
  ChecklistCode,
  PlanProofCode,
  PlanReasonSayings,
  PlanRefusalSayings,
} from "../../../science/plan/index.ts";
import type { Hand } from "../../hand.ts";
import { capital } from "../phrasing.ts";
import { bareSource, list, onSource } from "./names.ts";

const hourOfDay = (hour: number) =>
  `${String(Math.floor(hour)).padStart(2, "0")}:${String(Math.round((hour % 1) * 60)).padStart(2, "0")}`;
const listed = (sources: readonly HeatSource[]) => list(sources.map((source) => bareSource(source)));
const reasons: Phrases<PlanReasonSayings, Hand> = {
  "settling-shows-offset": () =>
    "Logging runs with the fridge off and shut: that shows how far the probes differ from each other.",
  "boiler-must-cool": ({ hours }, hand) =>
    `The boiler needs ${hand.span(hours)} to grow cold: only from a cold boiler does the time until cold say anything, and a warm cabinet leaves a fall to fit.`,
  "warming-tells-seal-from-load": ({ hours }, hand) =>
    `${capital(hand.span(hours))} of warming back, door shut, also tell a leaking seal from a warm load.`,
  "waits-for-a-person": ({ untilMs }, hand) =>
    `It lasts until ${hand.clock(untilMs)}, when someone is there to switch over.`,
  "night-runs-through": ({ source }) =>
    `The night is on electricity: ${bareSource(source)} runs through, since nobody switches over and gas is never left alone.`,
  "gas-by-day-only": ({ fromHour, toHour }) =>
    `Gas is planned only between ${hourOfDay(fromHour)} and ${hourOfDay(toHour)}, with someone beside it the whole time.`,
  "order-changed": ({ asked, planned }) =>
    `Asked for was ${listed(asked)}; the order is now ${listed(planned)}, so that gas burns by day with someone there and no night is lost.`,
  "switched-while-cold": ({ hours }, hand) =>
    `Switched over while cold: no start of cold, rate constant or depth, but the fins show whether this source carries on; the report gives a strength by the fins alone after ${hand.span(hours)}.`,
  "back-to-the-first": ({ source }) =>
    `Back on ${bareSource(source)}: what changed meanwhile (frost, weather) shows between its two parts.`,
  "curve-not-in-time": ({ source }) =>
    `Too short for rate constant and depth ${onSource(source)}; the strength comes from the fins and the initial fall.`,
};

const refusals: Phrases<PlanRefusalSayings, Hand> = {
  "gas-needs-longer-day": ({ fromHour, toHour, neededHours }, hand) =>
    `No plan: gas runs only attended, here from ${hourOfDay(fromHour)} to ${hourOfDay(toHour)}, and it needs ${hand.span(neededHours)} at a time. Give longer hours with --attended, or leave gas out.`,
  "needs-more-time": ({ untilMs, sources, hasGas, hasPauses }, hand) => {
    const why = [
      ...(hasGas ? ["gas only runs attended by day"] : []),
      ...(hasPauses ? ["the boiler has to grow cold between sources"] : []),
    ];
    const since = why.length === 0 ? "" : `, since ${why.join(" and ")}`;
    const ways = [
      "Give a later --until",
      ...(sources > 1 ? ["leave a source out"] : ["begin earlier"]),
      ...(hasPauses ? ["switch over while cold"] : []),
    ];
    return `No plan: it takes until ${hand.moment(untilMs)}${since}. ${ways.slice(0, -1).join(", ")}${ways.length > 2 ? "," : ""} or ${ways.at(-1)}.`;
  },
  "one-source-cannot-switch": () => "No plan: switching over while cold needs two sources or more.",
  "no-electric-source": () =>
    "No plan: switching over while cold begins and ends on an electric source, so that nobody has to stay all day and night.",
  "nothing-fits": () =>
    "No plan fits into the hours when someone is there to switch over. Give longer hours with --attended, or begin earlier.",
};

/** Completes "by 13:45 ..." and "between 14:00 and 14:30 ...". */
const proofs: { readonly [P in PlanProofCode]: (source: HeatSource | null) => string } = {
  heat: (source) =>
    source === "gas" ? "heat proven (flue or boiler probe)" : "heat proven (volts and amperes, or boiler probe)",
  onset: () => "cold begins (common practice, no source)",
  cold: () => "cold proven: fins colder than the cabinet air",
  fins: () => "the fins tell whether it holds the cold",
  strength: () => "strength known, by fins and initial fall",
  dead: () => "no cold by now: it does not cool",
  curve: () => "rate constant and depth known",
  "better-curve": () => "rate constant and depth known well",
};

const blank = "________";

/** Title, what to do, and the blank to fill in. */
const checklist: {
  readonly [C in ChecklistCode]: { readonly title: string; readonly text: string; readonly blank: string };
} = {
  tilt: {
    title: "Tilt",
    text: "Measured with a level on the freezer shelf or the evaporator plate: within 2 to 3 degrees either way, or as the maker states.",
    blank: `sideways ${blank}°, lengthways ${blank}°`,
  },
  "upright-since": {
    title: "Upright since",
    text: "After lying or a rough journey it stands upright for some hours, better a day, before it is heated.",
    blank: `${blank}${blank}`,
  },
  "source-by-hand": {
    title: "Source chosen by hand",
    text: "A fridge that chooses its own source is set to manual, one source at a time; otherwise sources are found from the curves, not told.",
    blank: "",
  },
  vents: {
    title: "Vents",
    text: "Both vents free, nothing stored behind them.",
    blank: `open / part covered / covered`,
  },
  "vent-covers": {
    title: "Vent covers",
    text: "Winter covers off, unless the run is to be with them.",
    blank: "off / on",
  },
  "flue-cap": {
    title: "Flue cap",
    text: "Looked at from outside: there, and free of nests, soot and rust.",
    blank: "clear / blocked / missing",
  },
  "gas-kind": {
    title: "Gas kind",
    text: "What is in the bottle; a change of kind changes the heat by some 12\u00a0%.",
    blank: `propane / butane / mixed, ${blank} mbar if measured`,
  },
  "gas-checked": {
    title: "Flame, flue, leaks and carbon monoxide checked",
    text: "Before the gas stretch, by someone competent: no check, no gas.",
    blank: `on ${blank} by ${blank}`,
  },
  "mains-volts": {
    title: "Mains volts and watts",
    text: "Read from an approved plug-in meter once the fridge heats.",
    blank: `${blank} V, ${blank} W`,
  },
  "dc12-volts": {
    title: "12\u00a0V volts and amperes",
    text: "At the fridge's terminals, while it heats, from a charging supply.",
    blank: `${blank} V, ${blank} A`,
  },
  fans: {
    title: "Fans",
    text: "Inside and at the rear as in the known-good runs, and left so: a fan inside halves the fin difference. No fan near a gas flame.",
    blank: "inside yes / no, rear yes / no",
  },
  fins: { title: "Fins", text: "Free of frost, the probe clipped where it always sits.", blank: "clear / frosted" },
  load: {
    title: "Load",
    text: "Empty is best; else loaded as in the known-good runs, and as warm or cold.",
    blank: "empty / part / full",
  },
  seal: {
    title: "Paper test of the seal",
    text: "A strip of paper in the shut door pulls with a light drag all round; probe cables on the hinge side.",
    blank: `drags / slips at ${blank}`,
  },
  lamp: { title: "Lamp out", text: "It goes out with the door: press the switch by hand and look.", blank: "" },
  dial: { title: "Dial", text: "At coldest, and left there.", blank: `at ${blank}` },
  "checked-by": { title: "Who checked", text: "", blank: `${blank}${blank}` },
};

export const plan = {
  reasons,
  refusals,
  proofs,
  checklist,

  title: (sources: readonly HeatSource[]) => `Plan of a run: ${listed(sources)}`,
  pageTitle: "Plan of a run",
  when: (period: string, offset: string) => `${period}; times are ${offset}`,
  steps: {
    settling: "off, door shut: settling",
    "warming-back": "off, door shut: warming back",
  },
  stretch: (source: HeatSource) => onSource(source),
  attended: "attended the whole time",
  overnight: "overnight",
  by: (clock: string) => `by ${clock}`,
  between: (from: string, to: string) => `${from} to ${to}`,
  stepsHeading: "Hour by hour",
  reasonsHeading: "Why so",
  checklistHeading: "To tick before the first switch-on",
  checklistNote:
    'What is ticked goes on the run sheet (on the run\'s page, with "coldfall sheet RUN --set FIELD=VALUE", or in a file beside the log); what is not ticked is named on the report.',
  otherWay: (isSwitched: boolean) =>
    isSwitched
      ? "The long way, from a cold boiler each time, also shows onset, rate constant and depth: plan it without switching over while cold."
      : "Short of time: switching over while cold plans the sources one after the other without a pause; two to three hours each show by the fins alone whether each holds the cold.",
  care: "Caution",
  careFor: (about: readonly string[]) => `Caution: see ${about.join("; ")}.`,
  tickBox: "[ ]",
  uncheckedHeading: "Not ticked before the run",
  unchecked: (title: string, fields: string) => `${title} (run sheet: ${fields}).`,
  noneUnchecked: "Everything on the checklist was ticked.",

  command: {
    clocksChange: (laterMinutes: number) =>
      `The clocks change while this plan runs, and its times do not: afterwards clocks show ${Math.abs(laterMinutes)} min ${laterMinutes > 0 ? "more" : "less"} than the plan, so also for whoever attends gas.`,
    summary:
      "plan a run over the clock: what each stretch will prove and when, who must be there, and what to check first",
    from: "when logging begins: a clock time (the next one that comes) or YYYY-MM-DDTHH:MM",
    date: "the day of --from, YYYY-MM-DD",
    until: "when all must be over: a clock time, the first one after the beginning, or YYYY-MM-DDTHH:MM",
    sources: "energy sources in the wished order, such as mains,gas,dc12",
    attended:
      "hours of the day when someone is there to switch over; gas only runs within them, and never between 21:00 and 07:00",
    switchWhileCold: "without pauses, the cabinet staying cold: quicker, and shows less",
    json: "print the plan as JSON (coldfall schema plan)",
    html: "also write the plan as a page to print to FILE",
    expectedTime: "a clock time such as 13:00, or a day and time such as 2026-06-04T13:00",
    expectedDate: "a day such as 2026-06-04",
    expectedSources: "each of gas, mains and dc12 at most once, such as mains,gas,dc12",
    expectedAttended: "two clock times, the earlier one first, such as 07:00-21:00",
    expectedUntil: "a time after the beginning",
    examples: [
      "coldfall plan --from 13:00 --sources mains,gas,dc12",
      "coldfall plan --from 16:00 --date 2026-06-04 --sources mains --html plan.html",
      "coldfall plan --from 09:00 --sources mains,gas --switch-while-cold",
    ],
  },
} as const;
