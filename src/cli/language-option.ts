// `--language CODE`, which every command takes, and `--fahrenheit`, for those that tell temperatures. Help stays English.

import { Option } from "commander";
import { type Language, languageCodes, type Reader, type Words, words } from "../report/index.ts";

const { cli } = words("en");

/** What a command may be told of the language and the degrees it answers in; English and °C unless stated. */
export interface LanguageOptions {
  readonly language?: Language;
  readonly fahrenheit?: boolean;
}

/** The option; its help names the languages there are. */
export const languageOption = () => new Option("--language <code>", cli.language).choices(languageCodes).default("en");

/** Takes effect on what is told; what is typed and read stays in °C. */
export const fahrenheitOption = () => new Option("--fahrenheit", cli.fahrenheit);

/** The language and the degrees to answer in, as reports take them. */
export const tellingOf = ({ language = "en", fahrenheit }: LanguageOptions): Pick<Reader, "language" | "degrees"> => ({
  language,
  degrees: fahrenheit ? "F" : "C",
});

/** The words that a command answers in. */
export const wordsFor = ({ language = "en" }: LanguageOptions): Words => words(language);

/** The language asked for, read before the parser has its say: it may refuse, and does so in that language. */
export function languageIn(args: readonly string[]): Language {
  const at = args.findIndex((word) => word === "--language" || word.startsWith("--language="));
  const asked = at < 0 ? undefined : (args[at].split("=")[1] ?? args[at + 1]);
  return languageCodes.find((code) => code === asked) ?? "en";
}
