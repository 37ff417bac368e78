// How a log that was brought in is understood, in words, before anything of it is stored.

import {
  extentOf,
  hintsOfAnswer,
  type ImportHints,
  instantOf,
  type LogWay,
  lookOver,
  wayToRead,
} from "../ingest/index.ts";
import { finiteValues, toldFindings, wholeLogSentences } from "../report/import/index.ts";
import { type Language, words } from "../report/index.ts";
import type { AnswerOf, BodyOf, Operations } from "../schema/api/index.ts";
import { BadInput, type BadInputSaying, type LogFound } from "../schema/index.ts";
import { readWhole } from "./whole-log-in-worker.ts";

type Hints = BodyOf<Operations["POST /api/uploads/{uploadId}/understand"], never>;
type Understanding = NonNullable<AnswerOf<Operations["POST /api/uploads"]>["understanding"]>;

/** The answers of a page as ingest takes them. */
export const hintsOf = ({ columns, sourceWords, startsAt, here, ...others }: Hints): ImportHints => ({
  ...others,
  ...(here === undefined ? {} : { here: () => here }),
  ...(startsAt === undefined ? {} : { startsAt: instantOf(startsAt) }),
  ...(columns === undefined ? {} : { columns: new Map(Object.entries(columns)) }),
  ...(sourceWords === undefined ? {} : { sourceWords: new Map(Object.entries(sourceWords)) }),
});

/**
 * How a log is to be read; null while a question is open.
 *
 * @param file where its bytes lie
 * @param name what people call it
 * @throws BadInput as `wayToRead` does, naming the log as people do
 */
export const wayOf = (file: string, name: string, hints: ImportHints): Promise<LogWay | null> =>
  calledByName(file, name, () => wayToRead(lookOver(file), hints).way);

/**
 * How a log is understood, and what all of it holds.
 *
 * @param language of the sentences
 * @throws BadInput as `wayToRead` and reading it do, naming the log as people do
 */
export const previewOf = (
  file: string,
  name: string,
  hints: ImportHints,
  language: Language = "en",
): Promise<Understanding> =>
  calledByName(file, name, async () => {
    const log = lookOver(file);
    const { way, understanding } = wayToRead(log, hints);
    const extent = way === null ? null : extentOf(log, way);
    const whole = way === null ? null : await readWhole({ file, way, areColumnsTold: understanding !== null });
    const { importWords } = words(language);
    return {
      isOwnFormat: understanding === null,
      columns: (understanding?.sure ?? []).flatMap(columnOf),
      sure: toldFindings(understanding, language).map(({ sentence }) => sentence),
      questions: (understanding?.questions ?? []).map((question) => ({
        about: question.about,
        sentence: importWords.ask(question),
        column: "column" in question ? question.column : null,
        answers: question.readings.map(({ answer }, index) => ({
          answer,
          text: importWords.readings(question)[index].text,
          hints: hintsOfAnswer(question, index),
        })),
      })),
      firstRows: (understanding?.firstRows ?? []).map(({ line, timeText, unixMs, values }) => ({
        line,
        timeText,
        unixMs,
        values: finiteValues(values),
      })),
      firstUnixMs: finite(extent?.firstUnixMs),
      lastUnixMs: finite(extent?.lastUnixMs),
      whole: whole && [...wholeLogSentences(whole, language)],
    };
  });

/** A column as it is read, where that can be told otherwise. */
function columnOf(found: LogFound): Understanding["columns"] {
  if (found.code === "column-left-out") return [{ column: found.column, meaning: "none" }];
  return found.code === "column" ? [{ column: found.column, meaning: found.meaning }] : [];
}

const finite = (value: number | null | undefined) => (Number.isFinite(value) ? (value as number) : null);

/** Does something with a file of our own naming; a refusal then speaks of it by the name that people know. */
async function calledByName<T>(file: string, name: string, work: () => T | Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    throw new BadInput(renamed(error.saying, file, name));
  }
}

/** No path of this machine is anybody's business. */
export const renamed = (saying: BadInputSaying, file: string, name: string): BadInputSaying =>
  JSON.parse(JSON.stringify(saying).replaceAll(JSON.stringify(file).slice(1, -1), JSON.stringify(name).slice(1, -1)));
