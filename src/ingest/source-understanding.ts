// Which column of a log says the energy source, and what its words mean.

import type { EnergySource, LogQuestion } from "../schema/index.ts";
import { saysOf, sourceMeant } from "./column-meaning.ts";
import { type Column, columnQuestion, type LogHints, sourceWordQuestion } from "./log-findings.ts";
import type { LogParts } from "./log-rows.ts";

/** The column, and the words in it that are not our own names of sources. */
export interface SourceFound {
  readonly column: Column;
  readonly names: Record<string, EnergySource>;
}

/** What holds the energy sources, and what is unsure about it: by its header, by its cells where the header is silent. */
export function sourceColumn(
  columns: readonly Column[],
  { sourceWords = new Map() }: LogHints,
  parts: LogParts,
): { readonly found: SourceFound | null; readonly question: LogQuestion | null } {
  const told = new Map([...sourceWords].map(([word, source]) => [word.trim().toLowerCase(), source] as const));
  const meantBy = (word: string) => told.get(word.toLowerCase()) ?? sourceMeant(word);
  const candidates = columns.map((column) => ({ column, says: saysOf(column) }));
  const named = candidates.find(({ says }) => says.kind === "meaning" && says.meaning === "source")?.column;
  const silent = candidates.find(
    ({ column, says }) => says.kind === "nothing" && holdsSources(column, meantBy),
  )?.column;
  const column = named ?? silent;
  if (column === undefined) return { found: null, question: null };
  const words = wordsIn(column);
  const known = words.flatMap((word) => {
    const source = meantBy(word);
    return source === undefined ? [] : [[word, source] as const];
  });
  // A logger itself may run on mains or a battery, but never on gas.
  if (named === undefined && (known.length < words.length || known.every(([, source]) => source !== "gas")))
    return { found: null, question: columnQuestion(column, ["source"], parts) };
  // "Energy (Wh)" is a measure, and no list of words.
  if (known.length === 0 && words.length > mostSourceWords && column.told === undefined)
    return { found: null, question: null };
  const unknown = words.find((word) => meantBy(word) === undefined);
  const names = [...known, ...sourceWords].filter(([word, source]) => word.toLowerCase() !== source);
  return {
    found: { column, names: Object.fromEntries(names) },
    question: unknown === undefined ? null : sourceWordQuestion(column, unknown, parts),
  };
}

const wordsIn = ({ cells }: Column) => [...new Set(cells.filter((cell) => cell !== ""))].slice(0, 100);

/** There are four sources, and a logger may have a word or two of its own besides. */
const mostSourceWords = 8;

/** Whether most cells name a source, and not only that something is off: a lamp or a fan is that too. */
function holdsSources({ cells }: Column, meantBy: (word: string) => EnergySource | undefined): boolean {
  const filled = cells.filter((cell) => cell !== "");
  const sources = filled.map(meantBy).filter((source) => source !== undefined);
  return sources.length * 2 >= filled.length && sources.some((source) => source !== "off");
}
