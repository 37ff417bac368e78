// How another logger's file is understood, as text for a person who has to confirm or correct it.

import type { LogQuestion, LogUnderstanding, Position } from "../../schema/index.ts";
import { handOf, type Language, say, words } from "../words/index.ts";

/**
 * What was found, the first rows as they would be read, and what is still open.
 *
 * @param file as the user named it
 */
export function understandingText(file: string, understanding: LogUnderstanding, language: Language = "en"): string {
  const { importWords } = words(language);
  const { sure, questions, firstRows } = understanding;
  const hand = handOf(language, 0);
  const found = sure.map((saying) => `  ${say(importWords.found, saying, hand)}`);
  const rows = firstRows.map((row) => `  ${rowText(row, language)}`);
  const open = questions.flatMap((question) => questionLines(question, language).map((line) => `  ${line}`));
  return [
    importWords.heading(file),
    ...found,
    ...(rows.length === 0 ? [] : [importWords.rowsHeading, ...rows]),
    ...(open.length === 0 ? [] : [importWords.openHeading, ...open]),
    "",
  ].join("\n");
}

/** What was found, as one remark. */
export function understoodRemark(log: string, { sure }: LogUnderstanding, language: Language = "en"): string {
  const { importWords } = words(language);
  const sentences = sure.map((saying) => say(importWords.found, saying, handOf(language, 0)));
  // What a board recorded alone is in our own line format.
  return sure[0]?.code === "board-file" ? `${log}: ${sentences.join(" ")}` : importWords.understood(log, sentences);
}

function questionLines(question: LogQuestion, language: Language): string[] {
  const { importWords } = words(language);
  const answer = importWords.answerWith(question);
  return [importWords.ask(question), ...(answer === null ? [] : [answer])];
}

function rowText(row: LogUnderstanding["firstRows"][number], language: Language): string {
  const { importWords, names } = words(language);
  const hand = handOf(language, row.utcOffsetMinutes);
  const time = row.unixMs === null ? importWords.timeOpen(row.timeText) : `${hand.moment(row.unixMs)} ${hand.offset()}`;
  const values = Object.entries(row.values) as [Position, number | null][];
  const texts = values.map(([position, value]) =>
    importWords.value(
      names.positionNames[position],
      value,
      names.handWords.units[position === "supply" ? "V" : "Cel"],
      hand,
    ),
  );
  return importWords.row(row.line, time, texts);
}
