// HTML by tagged template: whatever is put in is escaped, unless it is HTML already.

declare const markup: unique symbol;

/** Text that is HTML. Made by `html` and `raw` alone. */
export interface Html {
  readonly [markup]: true;
  readonly text: string;
}

type Part = string | number | Html | readonly Part[];

/** `html\`<p>${text}</p>\``: strings are escaped, numbers written, lists joined. */
export const html = (strings: TemplateStringsArray, ...parts: readonly Part[]): Html =>
  raw(strings.map((string, index) => string + (index < parts.length ? textOf(parts[index]) : "")).join(""));

/** Takes text as HTML as it stands: for our own style sheet and for nothing that came from outside. */
export const raw = (text: string): Html => ({ text }) as Html;

const escapeHtml = (text: string) =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");

function textOf(part: Part): string {
  if (typeof part === "number") return String(part);
  if (typeof part === "string") return escapeHtml(part);
  return "text" in part ? part.text : part.map(textOf).join("");
}
