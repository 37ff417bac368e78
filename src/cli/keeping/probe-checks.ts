// `coldfall probes slush` and `coldfall probes warm`: checks of probes on what they said.

import { existsSync } from "node:fs";
import { handOf, plain } from "../../report/index.ts";
import type { ProbeChecks } from "../../schema/documents/index.ts";
import { BadInput } from "../../schema/index.ts";
import { handWarmings, slushFindings } from "../../workshop/check-probes.ts";
import { type ProbesRead, probesOfBoardFile, probesOfLog, probesOfRun } from "../../workshop/probe-readings.ts";
import { wordsFor } from "../language-option.ts";
import { asLog } from "../logs.ts";
import { badOption } from "../option-values.ts";
import { storeFileOf } from "../store-option.ts";
import type { Terminal } from "../terminal.ts";
import { ofEveryLog, readToldLog, refuseForRuns, type ToldOfLogs, toldOptions } from "../told-of-logs.ts";
import { table } from "./table.ts";
import { type StoreOptions, withStore } from "./with-store.ts";

/** What a check may be told of the log it looks at. */
export interface CheckOptions extends StoreOptions, ToldOfLogs {}

export interface SlushOptions extends CheckOptions {
  readonly in?: readonly string[];
}

/** @throws BadInput when it is neither a file nor a run, or a probe named is not in it */
export async function slushTest(log: string, options: SlushOptions, terminal: Terminal): Promise<void> {
  const { probes } = await probesIn(log, options);
  const text = wordsFor(options).probes.slush;
  const known = probes.flatMap(({ probeId, position }) => [probeId, ...(position === null ? [] : [position])]);
  for (const name of options.in ?? []) {
    if (!known.includes(name)) throw badOption("--in", name, text.unknown([...new Set(known)]));
  }
  const findings = slushFindings(probes, options.in);
  if (options.json) {
    return printJson({ format: "coldfall-slush-1", probes: findings.map((finding) => ({ ...finding })) }, terminal);
  }
  const rows = findings.map((finding) => [finding.probeId, findingText(finding, options)]);
  terminal.print(table(text.headings, rows, text.none));
  terminal.tell(`${text.caution}\n`);
}

/** @throws BadInput when it is neither a file nor a run */
export async function warmedProbes(log: string, options: CheckOptions, terminal: Terminal): Promise<void> {
  const read = await probesIn(log, options);
  const found = handWarmings(read.probes);
  if (options.json) {
    const { utcOffsetMinutes } = read;
    const list = found.map(({ fromUnixMs, toUnixMs, ...warming }) => ({
      outcome: warming.outcome,
      probes: warming.outcome === "found" ? [warming.probeId] : [...warming.probeIds],
      roseKelvin: warming.outcome === "found" ? warming.roseKelvin : null,
      from: utcOffsetMinutes === null ? null : new Date(fromUnixMs).toISOString(),
      to: utcOffsetMinutes === null ? null : new Date(toUnixMs).toISOString(),
      fromMs: fromUnixMs,
      toMs: toUnixMs,
    }));
    return printJson({ format: "coldfall-warmed-1", warmings: list }, terminal);
  }
  const text = wordsFor(options).probes.warm;
  const hand = handOf(options.language ?? "en", 0);
  const rows = found.map((warming) => [
    clockText(warming.fromUnixMs, read),
    clockText(warming.toUnixMs, read),
    warming.outcome === "found" ? warming.probeId : "",
    plain(warming.outcome === "found" ? text.rose(warming.roseKelvin, hand) : text.several(warming.probeIds)),
  ]);
  terminal.print(table(text.headings, rows, text.none));
  const placeable = new Set(found.flatMap((one) => (one.outcome === "found" ? [one.probeId] : [])));
  for (const probeId of placeable) terminal.print(`${text.place(probeId)}\n`);
  terminal.tell(`${found.length > 0 ? `${text.ownHeat} ` : ""}${text.caution}\n`);
}

/** What probes said in a file, else in a run of the store. */
async function probesIn(log: string, options: CheckOptions): Promise<ProbesRead> {
  const told = toldOptions(options, ofEveryLog);
  const isFile = existsSync(log);
  refuseForRuns(told, [isFile]);
  if (!isFile)
    return withStore(options, (store) => asLog(log, storeFileOf(options.store), () => probesOfRun(store, log)));
  const ofBoard = probesOfBoardFile(log);
  if (ofBoard === null) return probesOfLog((await readToldLog(log, options)).recording);
  const [option] = told;
  if (option !== undefined) throw new BadInput({ code: "option-unfit", option, needs: "other-logger" });
  return ofBoard;
}

const printJson = (document: ProbeChecks[keyof ProbeChecks], terminal: Terminal) =>
  terminal.print(`${JSON.stringify(document, null, 2)}\n`);

function findingText(finding: ReturnType<typeof slushFindings>[number], options: CheckOptions): string {
  const hand = handOf(options.language ?? "en", 0);
  const { findings } = wordsFor(options).probes.slush;
  switch (finding.finding) {
    case "good":
      return plain(findings.good(finding.probeId, finding.offsetKelvin, hand));
    case "far-off":
      return plain(findings["far-off"](finding.offsetKelvin, hand));
    case "wet-or-loose":
      return plain(findings["wet-or-loose"](finding.scatterKelvin, finding.faults, hand));
    case "not-settled":
      return plain(findings["not-settled"](finding.kelvinPerMinute, hand));
    case "not-in-slush":
      return findings["not-in-slush"](finding.instead);
    default:
      return findings[finding.finding];
  }
}

/** The clock of the place; hours, minutes and seconds since the board's start where nobody knows more. */
const clockText = (unixMs: number, { utcOffsetMinutes }: ProbesRead) =>
  utcOffsetMinutes === null
    ? `+${new Date(unixMs).toISOString().slice(11, 19)}`
    : new Date(unixMs + utcOffsetMinutes * 60_000).toISOString().slice(0, 19).replace("T", " ");
