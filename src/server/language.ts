// In which language a visitor wants to be answered: the first one of his browser's list that we speak.

import type { IncomingHttpHeaders } from "node:http";
import { type Language, languageCodes } from "../report/index.ts";

/** @returns English where none of ours is asked for. Order counts; weights (RFC 9110, 12.5.4) browsers write in that order anyway. */
export function languageOf({ "accept-language": asked = "" }: IncomingHttpHeaders): Language {
  const wanted = asked.split(",").map((one) => one.trim().split(/[-;]/)[0].toLowerCase());
  return (
    languageCodes.find((code) => code === wanted.find((one) => languageCodes.some((ours) => ours === one))) ?? "en"
  );
}
