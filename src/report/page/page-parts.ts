// The parts that pages are made of: the page itself, headings, lists, tables of numbers, drawings with their readings.

import { type CautionTelling, type CheckTelling, cautionParts } from "../advice-telling.ts";
import type { Telling } from "../analysis/analysis-telling.ts";
import type { NumberRow } from "../analysis/stretch-telling.ts";
import type { Scene } from "../drawing/scene.ts";
import { sceneToSvg } from "../drawing/scene-to-svg.ts";
import type { Teller } from "../teller.ts";
import { type Language, words } from "../words/index.ts";
import { type Html, html, raw } from "./html.ts";
import { pageStyle } from "./page-style.ts";

/** One letter of a page: about one fridge, or about one service. */
export interface PageLetter {
  readonly title: string;
  readonly language: Language;
  /** @param level of the letter's own heading; `id` is unlike any other letter's on the page. */
  readonly write: (level: number, id: string) => Html;
}

/** A page of one letter or several. The first one's language is that of the page. @throws RangeError for none at all. */
export function lettersPage(letters: readonly PageLetter[]): string {
  if (letters.length === 0) throw new RangeError("a page needs at least one letter");
  const [{ language, title }] = letters;
  const { pageTitle } = words(language).report;
  const many = letters.length > 1;
  const written = letters.map((letter, index) => letter.write(many ? 2 : 1, `f${index + 1}`));
  const body = many ? html`<h1>${pageTitle}</h1>\n${written}` : written;
  return pageOf(
    language,
    many ? pageTitle : title,
    html`<main${many ? raw(' class="many"') : raw("")}>
${body}
</main>`,
  );
}

/** A whole page that fetches nothing and runs no script. */
const pageOf = (language: Language, title: string, body: Html): string =>
  html`<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}</title>
<style>${raw(pageStyle)}</style>
</head>
<body>
${body}
</body>
</html>
`.text;

/** What every part of one letter needs. */
export interface PageWriter extends Teller {
  readonly report: Teller["words"]["report"];
  /** Level of the letter's own heading. */
  readonly level: number;
  /** Unlike any other letter's on the page. */
  readonly id: string;
}

/** A heading so many steps below the letter's own; h6 is the lowest there is. */
export function heading({ level }: PageWriter, below: number, text: string, id?: string): Html {
  const tag = raw(`h${Math.min(level + below, 6)}`);
  const name = id === undefined ? raw("") : html` id="${id}"`;
  return html`<${tag}${name}>${text}</${tag}>`;
}

export const section = (writer: PageWriter, title: string, body: Html) => html`<section>
${heading(writer, 1, title)}
${body}
</section>
`;

/** A section that is left out when it has nothing to say; a single sentence needs no list. */
export function listed(writer: PageWriter, title: string, texts: readonly string[]): Html {
  return texts.length === 0 ? raw("") : section(writer, title, sentences(texts));
}

/** A sentence each; a single one needs no list, and none leaves nothing. */
export function sentences(texts: readonly string[]): Html {
  if (texts.length === 0) return raw("");
  return texts.length === 1 ? html`<p>${texts[0]}</p>` : html`<ul>${texts.map((text) => html`<li>${text}</li>`)}</ul>`;
}

/** A piece of advice as an item of a list, its caution within it. */
export function checkItem({ title, text, note, caution }: CheckTelling, { report }: PageWriter): Html {
  const careful = caution === null ? raw("") : cautionBox(caution, report);
  return html`<li><strong>${title}</strong> ${text}${note === "" ? "" : html` <span class="note">${note}</span>`}${careful}</li>
`;
}

/** A caution in full; what stands in full further up is only named. */
export function cautionBox(caution: CautionTelling, report: PageWriter["report"]): Html {
  const { full, again } = cautionParts(caution);
  return html`<div class="caution">${full.map(
    ({ about, text }) => html`<p><b>${report.cautionAbout(about)}</b> ${text}</p>`,
  )}${full.length === 0 ? "" : html`<p>${caution.close}</p>`}${
    again.length === 0 ? "" : html`<p><b>${report.cautionAgain(again)}</b></p>`
  }</div>`;
}

/** Where it all comes from. */
export function footer(writer: PageWriter, { foot, inputs }: Pick<Telling, "foot" | "inputs">): Html {
  return html`<footer>
${heading(writer, 1, writer.report.footHeading)}
<p>${foot.join(" ")}</p>
${inputs.length === 0 ? "" : html`<ul>${inputs.map((input) => html`<li><code>${input}</code></li>`)}</ul>`}
</footer>`;
}

/** Numbers side by side, and the notes that belong to them. */
export function numbersTable(
  caption: string,
  { numbers, numberNotes }: { readonly numbers: readonly NumberRow[]; readonly numberNotes: readonly string[] },
  { report }: PageWriter,
): Html {
  const notes = numberNotes.length === 0 ? raw("") : html`<p class="note">${numberNotes.join(" ")}</p>`;
  if (numbers.length === 0) return notes;
  const columnNames = [report.numberColumn, ...numbers[0].cells.map(({ column }) => column)];
  return html`<table class="numbers">
<caption>${caption}</caption>
<thead><tr>${columnNames.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
${numbers.map((row) => numberRows(row, report))}</table>
${notes}`;
}

/** The figures, and under them what they show and what not. */
function numberRows({ name, unit, cells, phrase, shows, hides }: NumberRow, report: PageWriter["report"]): Html {
  const figures = cells.map(({ column, value, interval }) => {
    const under = interval === "" ? raw("") : html` <span class="interval">${interval}</span>`;
    return html`<td data-label="${column}">${value}${under}</td>`;
  });
  const plainly = phrase === "" ? "" : `${report.sentence(phrase)} `;
  return html`<tbody><tr><th scope="row">${name} <span class="unit">${unit}</span></th>${figures}</tr>
<tr class="shows"><td colspan="${cells.length + 1}">${plainly}${report.showsShort(shows, hides)}</td></tr></tbody>
`;
}

/** Wide for paper and screens, narrow for telephones: the style sheet shows one of them. */
const drawingWidths = { wide: 720, narrow: 340 } as const;
export const tableRows = 25;

/** A drawing with all that stands for it where it cannot be seen. */
export interface Figure {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly caption: string;
  readonly draw: (width: number) => Scene | null;
  readonly table: Html;
  /** What opens the table; usually that it holds the readings, thinned. */
  readonly summary?: string;
}

export function figureOf(figure: Figure, { report, hand }: PageWriter): Html {
  const { id, title, description, caption, draw, table } = figure;
  const wide = draw(drawingWidths.wide);
  const narrow = draw(drawingWidths.narrow);
  if (wide === null || narrow === null) return raw("");
  const summary = figure.summary ?? report.chart.dataSummary(hand.count(tableRows, report.chart.rows));
  return html`<figure>
${sceneToSvg(wide, { id: `${id}-wide`, title, description, className: "wide" })}
${sceneToSvg(narrow, { id: `${id}-narrow`, title, description, className: "narrow" })}
<figcaption>${caption}</figcaption>
<details><summary>${summary}</summary>
<div class="scroll" tabindex="0" role="group" aria-label="${title}">${table}</div>
</details>
</figure>
`;
}

export const readingsTable = (caption: string, head: readonly string[], rows: readonly (readonly string[])[]) =>
  html`<table class="readings"><caption>${caption}</caption>
<thead><tr>${head.map((name) => html`<th scope="col">${name}</th>`)}</tr></thead>
<tbody>${rows.map((cells) => html`<tr>${cells.map((text) => html`<td>${text}</td>`)}</tr>\n`)}</tbody></table>`;
