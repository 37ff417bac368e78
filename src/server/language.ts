// How a visitor wants to be told: in the first language of his browser's list that we speak, and in the degrees he asks for.

import type { IncomingHttpHeaders } from "node:http";
import { type Language, languageCodes, type Reader } from "../report/index.ts";
import { degreesHeader } from "../schema/api/index.ts";

/** @returns English where none of ours is asked for. Order counts; weights (RFC 9110, 12.5.4) browsers write in that order anyway. */
export function languageOf({ "accept-language": asked = "" }: IncomingHttpHeaders): Language {
  const wanted = asked.split(",").map((one) => one.trim().split(/[-;]/)[0].toLowerCase());
  return (
    languageCodes.find((code) => code === wanted.find((one) => languageCodes.some((ours) => ours === one))) ?? "en"
  );
}

/** Language and degrees, as reports take them. */
export const tellingFor = (headers: IncomingHttpHeaders): Pick<Reader, "language" | "degrees"> => ({
  language: languageOf(headers),
  degrees: headers[degreesHeader.toLowerCase()] === "F" ? "F" : "C",
});
