// What the program can say, as a code with its values. The words for each code stand in one place per
// language (src/report/words), so the lower floors speak no language at all.

/** One thing to say: `{ code: "...", ...values }`, for every code that `Values` lists. */
export type SayingOf<Values> = { [C in keyof Values]: { readonly code: C } & Readonly<Values[C]> }[keyof Values];

/** Words for every code of `Values`; `Hand` writes numbers, instants and units the language's way. */
export type Phrases<Values, Hand> = {
  readonly [C in keyof Values]: (values: Readonly<Values[C]>, hand: Hand) => string;
};

/** No values go with this code. */
export type Nothing = Record<never, never>;
