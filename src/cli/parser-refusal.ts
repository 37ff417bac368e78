// What the option parser refuses, in our words and the language asked for: it only has English ones.

import type { Words } from "../report/index.ts";

type ParserWords = Words["cli"]["parser"];

/** The parser's sentences, and what we say instead. Of each, what stands in the brackets of the pattern comes along. */
const sentences: readonly (readonly [RegExp, (text: ParserWords, ...found: string[]) => string])[] = [
  [/^unknown option '(.+?)'/, (text, option) => text.unknownOption(option)],
  [/^unknown command '(.+?)'/, (text, name) => text.unknownCommand(name)],
  [/^missing required argument '(.+?)'/, (text, name) => text.missingArgument(name)],
  [/^option '(.+?)' argument missing/, (text, option) => text.withoutValue(option)],
  [/^required option '(.+?)' not specified/, (text, option) => text.needed(option)],
  [/^option '(.+?)' cannot be used with option '(.+?)'/, (text, one, other) => text.notTogether(one, other)],
  [
    /^too many arguments.*Expected (\d+) arguments? but got (\d+): (.*)/,
    (text, expected, given, words) => text.tooMany(Number(expected), Number(given), words),
  ],
  [
    /^option '(.+?)' argument '(.*?)' is invalid\. Allowed choices are (.*)/,
    (text, option, value, choices) => text.notOneOf(option, value, choices),
  ],
  [
    /^command-argument value '(.*?)' is invalid for argument '(.+?)'\. Allowed choices are (.*)/,
    (text, value, name, choices) => text.notOneOf(name, value, choices),
  ],
];

/**
 * One sentence without a full stop.
 *
 * @param message as the parser wrote it; a sentence that is not known here stays as it is
 */
export function parserRefusal(message: string, text: ParserWords): string {
  const bare = oneLine(message);
  const likely = /\(Did you mean (?:one of )?(.*?)\?\)/.exec(bare)?.[1];
  for (const [pattern, told] of sentences) {
    const found = pattern.exec(bare);
    if (found !== null) return told(text, ...found.slice(1)) + (likely === undefined ? "" : text.didYouMean(likely));
  }
  return bare;
}

/** Without its "error: ", its line breaks and its full stop. */
const oneLine = (message: string) =>
  message
    .replace(/^error: /, "")
    .trim()
    .replace(/\.$/, "")
    .replaceAll(/\s*\n\s*/g, " ");
