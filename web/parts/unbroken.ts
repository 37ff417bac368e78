// Keeps figures and their units together.

/** Sentences come from the service with plain spaces, as in its JSON; on a page no line may end between "63" and "%". */
export const unbroken = (text: string) =>
  text.replaceAll(/(\d) (?=(?:%|°[CF]|K|V|A|W|h|min)(?![\p{L}\d]))/gu, "$1\u00a0");
