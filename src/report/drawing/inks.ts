// The inks of all drawings: a colour on light and on dark paper, a width and a dash pattern, so that lines
// are told apart without colour. Texts in them keep 4.5 : 1 against the paper (WCAG 2.2, 1.4.3).

export const inks = {
  cabinet: { light: "#12355b", dark: "#a9d0ff", width: 2.2, dash: [] },
  evaporator: { light: "#0a6363", dark: "#66d9cc", width: 1.6, dash: [9, 4] },
  ambient: { light: "#7d4407", dark: "#f2b872", width: 1.8, dash: [1.5, 4] },
  fitted: { light: "#a3123f", dark: "#ff9db4", width: 1.8, dash: [5, 3] },
  knownGood: { light: "#4a5c10", dark: "#bcd982", width: 1.7, dash: [9, 3, 2, 3] },
  band: { light: "#f4d6de", dark: "#4b2733", width: 0, dash: [] },
  residual: { light: "#12355b", dark: "#a9d0ff", width: 1.1, dash: [] },
  axis: { light: "#4a463e", dark: "#c9c4b8", width: 1, dash: [] },
  grid: { light: "#e4ddcf", dark: "#343a40", width: 0.8, dash: [] },
  before: { light: "#7d4407", dark: "#f2b872", width: 1.8, dash: [9, 4] },
  after: { light: "#12355b", dark: "#a9d0ff", width: 2.2, dash: [] },
  same: { light: "#e7ecd9", dark: "#2c3524", width: 0, dash: [] },
  limit: { light: "#4a5c10", dark: "#bcd982", width: 1.2, dash: [4, 3] },
  event: { light: "#5b3a86", dark: "#cdb4f5", width: 1.2, dash: [3, 3] },
  rejected: { light: "#7a1f06", dark: "#ffb59b", width: 1.6, dash: [] },
  stretch: { light: "#f0e9da", dark: "#252b31", width: 0, dash: [] },
} as const satisfies { readonly [name: string]: InkStyle };

export type Ink = keyof typeof inks;

export interface InkStyle {
  readonly light: string;
  readonly dark: string;
  /** Of a stroke, px. */
  readonly width: number;
  /** Lengths drawn and left out in turn, px; empty for a solid line. */
  readonly dash: readonly number[];
}

/** The papers the inks are made for. */
export const papers = { light: "#fffdf8", dark: "#15181c" } as const;

/** Of the letters in a drawing that is a file of its own. */
export const faces = "system-ui, -apple-system, 'Segoe UI', 'DejaVu Sans', Arial, sans-serif";

/** Of letters, rules and cautions, on either paper. */
export const tones = {
  text: { light: "#26231d", dark: "#e9e5dc" },
  quiet: { light: "#5b564b", dark: "#b5afa2" },
  rule: { light: "#d8d0bf", dark: "#3a4047" },
  care: { light: "#7a1f06", dark: "#ffb59b" },
  "care-paper": { light: "#fbf0e6", dark: "#2a1f1b" },
  link: { light: "#12355b", dark: "#a9d0ff" },
} as const;
