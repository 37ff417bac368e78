// What a whole log holds, as text for a person who looks before it is kept: rows, span, sources, and what cannot be read.

import { type EnergySource, energySources, type Position, type UnreadableCells } from "../../schema/index.ts";
import { handOf, type Language, words } from "../words/index.ts";

/** What one pass over a log shows. */
export interface WholeLog {
  readonly rows: number;
  readonly firstUnixMs: number;
  readonly lastUnixMs: number;
  readonly utcOffsetMinutes: number;
  /** Rows that name each source. */
  readonly sources: ReadonlyMap<EnergySource, number>;
  readonly unreadable: readonly UnreadableCells[];
  readonly notUsed: readonly string[];
}

export function wholeLogText(log: WholeLog, language: Language = "en"): string {
  const { importWords } = words(language);
  const lines = [...wholeLogSentences(log, language), ...(log.sources.size > 0 ? [] : [importWords.tellSources])];
  return [importWords.wholeHeading, ...lines.map((line) => `  ${line}`), ""].join("\n");
}

/** Rows, span and sources; of each column what cannot be read. */
export function wholeLogSentences(log: WholeLog, language: Language = "en"): readonly string[] {
  const { importWords, names } = words(language);
  const hand = handOf(language, log.utcOffsetMinutes);
  const sources = energySources.flatMap((source) => {
    const rows = log.sources.get(source);
    return rows === undefined ? [] : [importWords.rowsOn(names.bareSource(source), hand.number(rows, 0))];
  });
  const nameOf = (position: UnreadableCells["position"]) =>
    position === "time" ? null : names.positionNames[position as Position | "source"];
  return [
    importWords.wholeFile(
      hand.number(log.rows, 0),
      `${hand.period(log.firstUnixMs, log.lastUnixMs, "with year")} ${hand.offset()}`,
    ),
    importWords.sourcesTold(sources),
    ...log.unreadable.map(({ position, readings, firstLine, firstText }) =>
      importWords.unreadableIn(nameOf(position), readings, firstLine, firstText),
    ),
    ...(log.notUsed.length === 0 ? [] : [importWords.notUsed(log.notUsed)]),
  ];
}
