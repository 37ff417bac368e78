// A letter that the server wrote (words, tables, drawings), set into a page. What the server writes is escaped there, and
// a document parsed this way runs nothing.

import { useLayoutEffect, useMemo, useRef } from "preact/hooks";
import { sentenceOf } from "../ask.ts";
import { bench } from "../words.ts";
import { pngOf, save, svgFileOf } from "./picture-file.ts";

/** A letter taken apart at its drawings. */
export interface LetterParts {
  readonly heading: string;
  /** All up to the first drawing; of a run's letter, what it comes to and what to do about it. */
  readonly opening: readonly Element[];
  /** The first drawing. */
  readonly drawing: Element | null;
  readonly rest: readonly Element[];
}

/** A whole page's letter, heading and all; null until the page is there. */
export const useWholePage = (page: string | null): readonly Element[] | null =>
  useMemo(() => {
    const article = page === null ? null : articleOf(page);
    return article === null ? null : [article];
  }, [page]);

function articleOf(page: string): Element | null {
  // A letter's own style is in our style sheet already, and the content policy allows none within a page.
  const bare = page.replace(/<style>[\s\S]*?<\/style>/, "");
  const article = new DOMParser().parseFromString(bare, "text/html").querySelector("article");
  return article;
}

/** @param page a whole page with one letter */
function lettersParts(page: string): LetterParts {
  const article = articleOf(page);
  const children = article === null ? [] : [...article.children];
  const [title, ...parts] = children;
  const at = parts.findIndex((part) => part.matches("figure") || part.querySelector("figure") !== null);
  const isOwn = at >= 0 && parts[at].matches("figure");
  return {
    heading: title?.textContent ?? "",
    opening: at < 0 ? parts : parts.slice(0, at),
    drawing: isOwn ? parts[at] : null,
    rest: at < 0 ? [] : parts.slice(isOwn ? at + 1 : at),
  };
}

/** The same, made again only when the page is another one. */
export const useLetter = (page: string | null): LetterParts | null =>
  useMemo(() => (page === null ? null : lettersParts(page)), [page]);

/** All but the heading. Kept as long as the letter is, so that it is not set anew at every turn. */
export function wholeLetter(letter: LetterParts): readonly Element[] {
  const known = whole.get(letter);
  if (known !== undefined) return known;
  const parts = [...letter.opening, ...(letter.drawing === null ? [] : [letter.drawing]), ...letter.rest];
  whole.set(letter, parts);
  return parts;
}

const whole = new WeakMap<LetterParts, readonly Element[]>();

interface PartsProps {
  readonly parts: readonly Element[];
  /** Whether each drawing is offered as a file; it is unless stated. */
  readonly hasFiles?: boolean;
  readonly class?: string;
}

/** Shows parts of a letter as they are, with a way to take each drawing along. */
export function Parts({ parts, hasFiles = true, class: className }: PartsProps) {
  const holder = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const shown = parts.map((part) => document.importNode(part, true));
    holder.current?.replaceChildren(...shown);
    if (!hasFiles) return;
    for (const drawing of holder.current?.querySelectorAll<SVGSVGElement>("figure svg.wide") ?? [])
      drawing.closest("figure")?.append(takingAlong(drawing));
  }, [parts, hasFiles]);
  return <div class={className} ref={holder} />;
}

/** Buttons that hand out a drawing as a file. */
function takingAlong(drawing: SVGSVGElement): Element {
  const title = drawing.querySelector("title")?.textContent ?? "";
  const fileName = title.replaceAll(/[/\\:*?"<>|]+/g, " ").trim();
  const buttons = document.createElement("p");
  const problem = document.createElement("span");
  problem.setAttribute("role", "alert");
  buttons.className = "as-file no-print";
  buttons.append(bench.run.drawingAs);
  const add = (ending: "svg" | "png", file: () => Promise<Blob>) => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = ending.toUpperCase();
    button.setAttribute("aria-label", `${ending.toUpperCase()}: ${title}`);
    button.addEventListener("click", async () => {
      problem.textContent = "";
      try {
        save(await file(), `${fileName}.${ending}`);
      } catch (error) {
        problem.textContent = sentenceOf(error);
      }
    });
    buttons.append(button);
  };
  add("svg", async () => svgFileOf(drawing));
  add("png", () => pngOf(svgFileOf(drawing)));
  buttons.append(problem);
  return buttons;
}
