// `--language CODE`, which every command takes that tells results in sentences. Help stays English.

import { type Command, Option } from "commander";
import { type Language, languageCodes, type Words, words } from "../report/index.ts";

const { cli } = words("en");

/** What a command may be told of the language it answers in; English unless stated. */
export interface LanguageOptions {
  readonly language?: Language;
}

/** The option; its help names the languages there are. */
export const languageOption = () => new Option("--language <code>", cli.language).choices(languageCodes).default("en");

/** The words that a command answers in. */
export const wordsFor = ({ language = "en" }: LanguageOptions): Words => words(language);

/** The language that a command was asked to answer in. */
export const languageOf = (asked: Command): Language => asked.opts<LanguageOptions>().language ?? "en";
