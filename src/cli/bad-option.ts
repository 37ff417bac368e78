// An option's value that cannot be used. Options are read before anybody knows which language to answer in: what the option
// takes instead is put into words when the refusal is told.

import { type Language, type Words, words } from "../report/index.ts";
import { BadInput, type BadInputSaying } from "../schema/index.ts";

/** What an option takes; in English where the command answers in no other language. */
export type Expected = string | ((words: Words) => string);

export class BadOption extends BadInput {
  readonly sayingIn: (language: Language) => BadInputSaying;

  constructor(option: string, value: string, expected: Expected) {
    const sayingIn = (language: Language): BadInputSaying => ({
      code: "bad-option",
      option,
      value,
      expected: typeof expected === "string" ? expected : expected(words(language)),
    });
    super(sayingIn("en"));
    this.sayingIn = sayingIn;
  }
}
