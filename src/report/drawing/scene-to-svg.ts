// A scene as SVG. Inside a page colours come from its style sheet (`ink-…` classes of page-style.ts), so that one drawing
// serves light and dark paper; a file of its own holds the colours of light paper. Widths and dashes are the ink's own.

import { type Html, html, raw } from "../page/html.ts";
import { faces, type Ink, inks, papers } from "./inks.ts";
import type { Mark, Scene } from "./scene.ts";

export interface SvgNaming {
  /** Unlike any other on the page; letters, digits and hyphens. */
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly className: string;
}

/** @returns an `<svg role="img">` whose title and description stand for it where it cannot be seen. */
export const sceneToSvg = (scene: Scene, naming: SvgNaming): Html =>
  drawn(scene, naming, html`class="${naming.className}"`, raw(""), byClass);

/** @returns a whole SVG file that fetches nothing and holds no style sheet. */
export function sceneToSvgFile(scene: Scene, naming: Omit<SvgNaming, "className">): string {
  const attributes = html`xmlns="http://www.w3.org/2000/svg" width="${scene.width}" height="${scene.height}" font-family="${faces}"`;
  const paper = html`<rect width="100%" height="100%" fill="${papers.light}"/>\n`;
  return drawn(scene, naming, attributes, paper, byValue).text;
}

/** How a mark gets its colour. */
type Colouring = (kind: "words" | "line" | "area", ink: Ink) => Html;
const byClass: Colouring = (kind, ink) => html`class="${kind} ink-${ink}"`;
const byValue: Colouring = (kind, ink) =>
  kind === "line"
    ? html`fill="none" stroke-linejoin="round" stroke="${inks[ink].light}"`
    : html`fill="${inks[ink].light}"`;

function drawn(
  scene: Scene,
  { id, title, description }: Omit<SvgNaming, "className">,
  attributes: Html,
  under: Html,
  colour: Colouring,
): Html {
  const clips = Object.entries(scene.clips).map(
    ([name, { left, top, width, height }]) =>
      html`<clipPath id="${id}-${name}"><rect x="${left}" y="${top}" width="${width}" height="${height}"/></clipPath>`,
  );
  return html`<svg ${attributes} viewBox="0 0 ${scene.width} ${scene.height}" role="img" aria-labelledby="${id}-title ${id}-description">
<title id="${id}-title">${title}</title>
<desc id="${id}-description">${description}</desc>
<defs>${clips}</defs>
${under}${scene.marks.map((mark) => markToSvg(mark, id, colour))}
</svg>`;
}

function markToSvg(mark: Mark, id: string, colour: Colouring): Html {
  if (mark.kind === "text") {
    const turn = mark.turned ? html` transform="rotate(-90 ${mark.x} ${mark.y})"` : raw("");
    const weight = mark.bold ? raw(' font-weight="600"') : raw("");
    return html`<text ${colour("words", mark.ink)} x="${round(mark.x)}" y="${round(mark.y)}" font-size="${mark.size}" text-anchor="${mark.anchor}"${weight}${turn}>${mark.text}</text>
`;
  }
  const clip = mark.clip === undefined ? raw("") : html` clip-path="url(#${id}-${mark.clip})"`;
  if (mark.filled)
    return html`<path ${colour("area", mark.ink)} d="${mark.d}"${clip}/>
`;
  const { width, dash } = inks[mark.ink];
  const dashes = dash.length === 0 ? raw("") : html` stroke-dasharray="${dash.join(" ")}"`;
  return html`<path ${colour("line", mark.ink)} stroke-width="${width}"${dashes} d="${mark.d}"${clip}/>
`;
}

const round = (value: number) => Math.round(value * 10) / 10;
