// Paper that becomes a PDF: tagged, with its fonts inside, the same bytes for the same drawing. The PDF library is loaded by
// whoever asks for the first sheet, since most commands never need it.

import { createRequire } from "node:module";
import type { Face, Paper, Role } from "./paper.ts";
import { a4 } from "./paper.ts";

/** What a PDF says of itself. */
export interface PdfAbout {
  readonly title: string;
  readonly language: string;
  readonly program: string;
  readonly madeMs: number;
}

/** A sheet of paper and the PDF made of it. */
export interface PdfPaper extends Paper {
  /** Nothing can be drawn afterwards. */
  finish(): Promise<Uint8Array>;
}

// The PDF standard's own fonts break at the first Greek letter or true minus sign; these hold them, and are embedded.
const fontFiles: { readonly [F in Face]: string } = {
  text: "DejaVuSansCondensed.ttf",
  bold: "DejaVuSansCondensed-Bold.ttf",
  title: "DejaVuSerifCondensed-Bold.ttf",
};

/** A new PDF without a page. */
export async function pdfPaper({ title, language, program, madeMs }: PdfAbout): Promise<PdfPaper> {
  const { default: PdfDocument } = await import("pdfkit");
  const made = new Date(madeMs);
  const pdf = new PdfDocument({
    size: [a4.width, a4.height],
    margin: 0,
    autoFirstPage: false,
    pdfVersion: "1.7",
    tagged: true,
    lang: language,
    displayTitle: true,
    info: { Title: title, Creator: program, Producer: program, CreationDate: made, ModDate: made },
  });
  const { resolve } = createRequire(import.meta.url);
  for (const [face, file] of Object.entries(fontFiles)) pdf.registerFont(face, resolve(`dejavu-fonts-ttf/ttf/${file}`));
  const bytes: Uint8Array[] = [];
  pdf.on("data", (piece: Uint8Array) => bytes.push(piece));
  const ended = new Promise<void>((done, fail) => pdf.on("end", done).on("error", fail));
  const whole = pdf.struct("Document");
  pdf.addStructure(whole);

  // Words come back often, and measuring shapes each anew. Widths grow with the size.
  const widths = new Map<string, number>();
  const widthAt1 = (text: string, face: Face) => {
    const key = `${face} ${text}`;
    const known = widths.get(key);
    if (known !== undefined) return known;
    const width = pdf.font(face).fontSize(100).widthOfString(text) / 100;
    widths.set(key, width);
    return width;
  };
  const marked = (draw: () => void) => {
    pdf.save();
    draw();
    pdf.restore();
  };

  return {
    widthOf: (text, face, size) => widthAt1(text, face) * size,
    nextPage: () => {
      pdf.addPage();
    },
    write: (text, x, y, { face, size, colour, turned }) => {
      pdf.font(face).fontSize(size).fillColor(colour);
      const written = (left: number, base: number) =>
        pdf.text(text, left, base, { baseline: "alphabetic", lineBreak: false });
      if (turned) marked(() => pdf.rotate(-90, { origin: [x, y] }) && written(x, y));
      else written(x, y);
    },
    line: (path, { colour, width, dash }) =>
      marked(() => {
        pdf.path(path).lineWidth(width).lineJoin("round").strokeColor(colour);
        // The library takes a list of lengths; its types know only one.
        if (dash.length > 0) pdf.dash(dash as unknown as number, {});
        pdf.stroke();
      }),
    area: (path, colour) => {
      pdf.path(path).fill(colour);
    },
    placed: (left, top, scale, draw) => marked(() => pdf.translate(left, top).scale(scale) && draw()),
    within: ({ left, top, width, height }, draw) => marked(() => pdf.rect(left, top, width, height).clip() && draw()),
    part: (role: Role, draw, alternative) => {
      const content = pdf.markStructureContent(role);
      draw();
      pdf.endMarkedContent();
      whole.add(pdf.struct(role, alternative === undefined ? {} : { alt: alternative }, [content]));
    },
    ornament: (draw) => {
      pdf.markContent("Artifact", { type: "Layout" });
      draw();
      pdf.endMarkedContent();
    },
    entry: (name) => {
      pdf.outline.addItem(name);
    },
    finish: async () => {
      whole.end();
      pdf.end();
      await ended;
      return new Uint8Array(Buffer.concat(bytes));
    },
  };
}
