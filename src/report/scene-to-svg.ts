// A scene as inline SVG. Colours come from the style sheet (`ink-…` classes of page-style.ts), so that one
// drawing serves light and dark paper; widths and dashes are the ink's own.

import { type Html, html, raw } from "./html.ts";
import { inks } from "./inks.ts";
import type { Mark, Scene } from "./scene.ts";

export interface SvgNaming {
  /** Unlike any other on the page; letters, digits and hyphens. */
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly className: string;
}

/** @returns an `<svg role="img">` whose title and description stand for it where it cannot be seen. */
export function sceneToSvg(scene: Scene, { id, title, description, className }: SvgNaming): Html {
  const clips = Object.entries(scene.clips).map(
    ([name, { left, top, width, height }]) =>
      html`<clipPath id="${id}-${name}"><rect x="${left}" y="${top}" width="${width}" height="${height}"/></clipPath>`,
  );
  return html`<svg class="${className}" viewBox="0 0 ${scene.width} ${scene.height}" role="img" aria-labelledby="${id}-title ${id}-description">
<title id="${id}-title">${title}</title>
<desc id="${id}-description">${description}</desc>
<defs>${clips}</defs>
${scene.marks.map((mark) => markToSvg(mark, id))}
</svg>`;
}

function markToSvg(mark: Mark, id: string): Html {
  if (mark.kind === "text") {
    const turn = mark.turned ? html` transform="rotate(-90 ${mark.x} ${mark.y})"` : raw("");
    const weight = mark.bold ? raw(' font-weight="600"') : raw("");
    return html`<text class="words ink-${mark.ink}" x="${round(mark.x)}" y="${round(mark.y)}" font-size="${mark.size}" text-anchor="${mark.anchor}"${weight}${turn}>${mark.text}</text>
`;
  }
  const clip = mark.clip === undefined ? raw("") : html` clip-path="url(#${id}-${mark.clip})"`;
  if (mark.filled)
    return html`<path class="area ink-${mark.ink}" d="${mark.d}"${clip}/>
`;
  const { width, dash } = inks[mark.ink];
  const dashes = dash.length === 0 ? raw("") : html` stroke-dasharray="${dash.join(" ")}"`;
  return html`<path class="line ink-${mark.ink}" stroke-width="${width}"${dashes} d="${mark.d}"${clip}/>
`;
}

const round = (value: number) => Math.round(value * 10) / 10;
