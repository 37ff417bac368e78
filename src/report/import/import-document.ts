// How a log is understood, and what became of an import, as JSON: the shapes of src/schema/documents/import-documents.ts.

import type { ImportDocument, UnderstandingDocument } from "../../schema/documents/index.ts";
import { energySources, type LogMapping, type LogUnderstanding, type Position } from "../../schema/index.ts";
import { answerOption } from "../words/import-answers.ts";
import { handOf, type Language, say, words } from "../words/index.ts";
import type { WholeLog } from "./whole-log-text.ts";

/** A log that was looked at, and how it is read; `mapping` null unless it is read through one. */
export interface LookedAt {
  readonly file: string;
  readonly sha256: string;
  readonly way: UnderstandingDocument["way"];
  readonly mapping: LogMapping | null;
  /** Null for our own format, and for a mapping that was stated. */
  readonly understanding: LogUnderstanding | null;
}

/**
 * @param extent from when to when the log reaches; null while a question is open
 * @param whole what one pass over it shows; null while a question is open
 */
export function understandingDocument(
  { file, sha256, way, mapping, understanding }: LookedAt,
  extent: { readonly firstUnixMs: number; readonly lastUnixMs: number } | null,
  whole: WholeLog | null,
  language: Language = "en",
): UnderstandingDocument {
  const { questions = [], firstRows = [] } = understanding ?? {};
  const { importWords } = words(language);
  return {
    format: "coldfall-log-understanding-1",
    file,
    sha256,
    way,
    mapping,
    sure: toldFindings(understanding, language),
    questions: questions.map((question) => ({
      about: question.about,
      line: question.line,
      column: "column" in question ? question.column : null,
      text: "text" in question ? question.text : null,
      sentence: importWords.ask(question),
      option: answerOption(question, "")[0] ?? null,
      answers: importWords.readings(question).flatMap(({ answer, text }) => {
        const [, value] = answerOption(question, answer);
        return value === undefined ? [] : [{ value, text }];
      }),
    })),
    firstRows: firstRows.map(({ line, timeText, unixMs, values }) => ({
      line,
      timeText,
      time: instantText(unixMs),
      values: finiteValues(values),
    })),
    from: instantText(extent?.firstUnixMs),
    to: instantText(extent?.lastUnixMs),
    whole: whole && {
      rows: whole.rows,
      sources: Object.fromEntries(whole.sources),
      unreadable: whole.unreadable.map(unreadableTold),
      ignoredColumns: [...whole.notUsed],
    },
  };
}

/** What was found, each with its sentence. */
export const toldFindings = (
  understanding: LogUnderstanding | null,
  language: Language,
): UnderstandingDocument["sure"] =>
  (understanding?.sure ?? []).map((found) => ({
    code: found.code,
    sentence: say(words(language).importWords.found, found, handOf(language, 0)),
  }));

/** A missing reading is NaN, which JSON cannot say. */
export const finiteValues = (
  values: LogUnderstanding["firstRows"][number]["values"],
): { [P in Position]?: number | null } =>
  Object.fromEntries(Object.entries(values).map(([position, value]) => [position, finite(value)]));

const finite = (value: number | null | undefined) => (Number.isFinite(value) ? (value as number) : null);

const instantText = (unixMs: number | null | undefined) =>
  Number.isFinite(unixMs) ? new Date(unixMs as number).toISOString() : null;

/** What an import did; the store and ingest know it. */
export interface ImportTold {
  readonly log: LookedAt & { readonly way: NonNullable<LookedAt["way"]> };
  readonly fridge: { readonly id: string; readonly name: string };
  readonly runId: string;
  /** Null: the file was in the run already. */
  readonly broughtIn: {
    readonly isNewRun: boolean;
    readonly rows: number;
    readonly received: {
      readonly stored: number;
      readonly repeated: number;
      readonly contradicted: number;
      readonly contradictions: readonly {
        readonly position: Position | "source";
        readonly unixMs: number;
        readonly kept: number;
        readonly refused: number;
      }[];
    };
    readonly end: {
      readonly unreadable: readonly UnreadableGiven[];
      readonly ignoredColumns?: readonly string[];
    };
  } | null;
}

export function importDocument(
  { log, fridge, runId, broughtIn }: ImportTold,
  language: Language = "en",
): ImportDocument {
  const { file, sha256, way, mapping, understanding } = log;
  const where = { file, sha256, fridge: fridge.name, fridgeId: fridge.id, run: runId };
  if (broughtIn === null) return { format: "coldfall-import-1", outcome: "known", ...where };
  const { isNewRun, rows, received, end } = broughtIn;
  const { stored, repeated, contradicted } = received;
  return {
    format: "coldfall-import-1",
    outcome: "brought-in",
    ...where,
    isNewRun,
    way,
    mapping,
    sure: toldFindings(understanding, language),
    rows,
    stored,
    repeated,
    contradicted,
    contradictions: received.contradictions.map(({ position, unixMs, kept, refused }) => {
      const time = new Date(unixMs).toISOString();
      return position === "source"
        ? { position, time, kept: sourceOf(kept), refused: sourceOf(refused) }
        : { position, time, kept, refused };
    }),
    unreadable: end.unreadable.map(unreadableTold),
    ignoredColumns: [...(end.ignoredColumns ?? [])],
  };
}

/** Cells of one column that could not be read, or rows. */
interface UnreadableGiven {
  readonly position: string;
  readonly reason: string;
  readonly readings: number;
  readonly firstLine: number;
  readonly firstText: string;
}

const unreadableTold = ({ position, reason, readings, firstLine, firstText }: UnreadableGiven) => ({
  column: position,
  reason,
  cells: readings,
  firstLine,
  firstText,
});

const sourceOf = (code: number) => energySources[code - 1] ?? null;
