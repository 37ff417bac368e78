// Drawings that the server made, as files: an SVG of its own, and dots for who cannot use an SVG.

import { faces, inks, papers } from "../../src/report/for-pages.ts";
import { OwnProblem } from "../ask.ts";
import { bench } from "../words.ts";

/** A drawing of a letter as it would be on light paper by itself: the letter's style sheet does not go with it. */
export function svgFileOf(drawing: SVGSVGElement): Blob {
  const copy = drawing.cloneNode(true) as SVGSVGElement;
  const { width, height } = drawing.viewBox.baseVal;
  copy.removeAttribute("class");
  for (const [name, value] of Object.entries({ width, height, "font-family": faces }))
    copy.setAttribute(name, String(value));
  for (const mark of copy.querySelectorAll<SVGElement>("[class]")) {
    const { kind, ink } =
      /(?<kind>line|area|words) ink-(?<ink>\w+)/.exec(mark.getAttribute("class") ?? "")?.groups ?? {};
    const colour = inks[ink as keyof typeof inks].light;
    mark.removeAttribute("class");
    mark.setAttribute("fill", kind === "line" ? "none" : colour);
    if (kind === "line") mark.setAttribute("stroke", colour);
  }
  const paper = document.createElementNS(copy.namespaceURI, "rect");
  for (const [name, value] of Object.entries({ width, height, fill: papers.light }))
    paper.setAttribute(name, String(value));
  copy.querySelector("defs")?.after(paper);
  return new Blob([new XMLSerializer().serializeToString(copy)], { type: "image/svg+xml" });
}

/** @param svg an SVG file. @throws OwnProblem where the browser can make no picture of it */
export async function pngOf(svg: Blob): Promise<Blob> {
  const picture = new Image();
  picture.src = URL.createObjectURL(svg);
  try {
    await picture.decode();
  } catch {
    throw new OwnProblem(bench.run.noPicture);
  } finally {
    URL.revokeObjectURL(picture.src);
  }
  const canvas = document.createElement("canvas");
  canvas.width = picture.naturalWidth * 2;
  canvas.height = picture.naturalHeight * 2;
  canvas.getContext("2d")?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) =>
    canvas.toBlob((blob) => (blob === null ? reject(new OwnProblem(bench.run.noPicture)) : resolve(blob)), "image/png"),
  );
}

/** Hands a file to the reader. */
export function save(file: Blob, name: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
