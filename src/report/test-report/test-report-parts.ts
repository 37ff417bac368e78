// What a test report is made of, whatever lays it out: sections in order, each of a few kinds of parts.

import type { CheckTelling } from "../advice-telling.ts";
import type { Scene, Tallness } from "../drawing/scene.ts";

/** The whole report in words. */
export interface TestReportTelling {
  /** Of the window or the tab. */
  readonly documentTitle: string;
  readonly letterhead: string | null;
  readonly title: string;
  readonly fridge: string;
  readonly when: string;
  readonly written: string;
  readonly sections: readonly ReportSection[];
}

/** `head` and `foot` go across the page, `column` in columns between them. */
export interface ReportSection {
  readonly place: "head" | "column" | "foot";
  readonly heading: string | null;
  readonly parts: readonly ReportPart[];
}

/** One part of a section. */
export type ReportPart =
  | { readonly kind: "facts"; readonly facts: readonly ReportFact[] }
  | { readonly kind: "sentence"; readonly text: string }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "small-print"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly { readonly mark: string | null; readonly text: string }[] }
  | { readonly kind: "verdicts"; readonly verdicts: readonly ReportVerdict[] }
  | {
      readonly kind: "drawings";
      readonly drawings: readonly ReportDrawing[];
      /** Of those that are shown. */
      readonly captionOf: (shown: readonly ReportDrawing[]) => string;
      /** Over those that have no room among the others. */
      readonly furtherHeading: string;
    }
  | { readonly kind: "advice"; readonly advice: readonly CheckTelling[] }
  | { readonly kind: "signatures"; readonly names: readonly string[] };

/** A name and what stands beside it. */
export interface ReportFact {
  readonly name: string;
  readonly text: string;
}

/** What is said of one energy source. */
export interface ReportVerdict {
  readonly on: string;
  /** A verdict or a change, by its code. */
  readonly state: string;
  readonly stateName: string;
  readonly detail: string;
  /** Why, in a few sentences. */
  readonly why: string;
}

/** A drawing that is made when its width is known. */
export interface ReportDrawing {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  /** The more, the sooner it gives way where the paper is full; 0 stays. */
  readonly givesWay: number;
  /** What tells its lines apart. */
  readonly patterns: readonly string[];
  /** @returns null when there is nothing to draw. */
  readonly draw: (width: number, tallness?: Tallness) => Scene | null;
}
