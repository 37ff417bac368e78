// What all languages do alike with their words: a capital at the beginning of a sentence, several things in one breath.

/** The text with its first letter a capital. */
export const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** A sentence as it goes on after a colon, its first letter small. */
export const lowered = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);

/** "a, b and c". @param word what joins the last two, in the language of the items */
export const joined = (items: readonly string[], word: string) =>
  items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} ${word} ${items.at(-1)}`;
