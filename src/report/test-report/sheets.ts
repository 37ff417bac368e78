// Blocks put on sheets of A4: the head across the page, the middle in two columns, the foot at the bottom of the last one.

import { tones } from "../drawing/inks.ts";
import { a4, type Face, type Paper } from "./paper.ts";

/** One page: what stands where. */
export type Sheet = readonly { readonly block: Block; readonly left: number; readonly top: number }[];

/** Something that stays together. */
export interface Block {
  readonly height: number;
  /** Kept free above it, unless it stands at the top. */
  readonly gap: number;
  /** A heading does not end a column. */
  readonly staysWithNext: boolean;
  readonly draw: (paper: Paper, left: number, top: number) => void;
}

/** Where a page is written on. */
export const margins = { left: 45, right: 45, top: 40, bottom: 48 } as const;
/** Between the margins. */
export const across = a4.width - margins.left - margins.right;
const lowest = a4.height - margins.bottom;
/** Between columns. */
export const gutter = 18;
/** How wide a column is. */
export const column = (across - gutter) / 2;

/** Blocks on as many sheets as they need. */
export interface Filled {
  readonly sheets: readonly Sheet[];
  /** How many of them the head takes. */
  readonly headSheets: number;
}

/** The block, kept with what follows. */
export const stayingWithNext = (block: Block): Block => ({ ...block, staysWithNext: true });

/** Several stacks of blocks beside each other, as one block. */
export function sideBySide(stacks: readonly (readonly Block[])[], width: number, gap: number): Block {
  const heights = stacks.map((stack) => stackHeight(stack));
  return {
    height: Math.max(0, ...heights),
    gap,
    staysWithNext: false,
    draw: (paper, left, top) =>
      stacks.forEach((stack, index) => {
        for (const { block, left: from, top: down } of stacked(stack, left + index * (width + gutter), top))
          block.draw(paper, from, down);
      }),
  };
}

const stackHeight = (blocks: readonly Block[]) =>
  blocks.reduce((sum, { height, gap }, index) => sum + height + (index === 0 ? 0 : gap), 0);

function stacked(blocks: readonly Block[], left: number, from: number): Sheet {
  let top = from;
  return blocks.map((block, index) => {
    if (index > 0) top += block.gap;
    const placed = { block, left, top };
    top += block.height;
    return placed;
  });
}

/** Puts the head across, then the columns, then the foot. */
export function fillSheets(head: readonly Block[], columns: readonly Block[], foot: readonly Block[]): Filled {
  const sheets: Sheet[] = [];
  let sheet: Sheet = [];
  let top: number = margins.top;
  const turn = () => {
    sheets.push(sheet);
    sheet = [];
    top = margins.top;
  };
  const put = (blocks: readonly Block[]) => {
    for (let index = 0; index < blocks.length; index++) {
      const { height, gap, staysWithNext } = blocks[index];
      const next = staysWithNext ? (blocks[index + 1]?.height ?? 0) : 0;
      const above = sheet.length === 0 ? 0 : gap;
      if (sheet.length > 0 && top + above + height + next > lowest) turn();
      else top += above;
      sheet = [...sheet, { block: blocks[index], left: margins.left, top }];
      top += height;
    }
  };
  put(head);
  const headSheets = sheets.length + 1;
  const footHeight = stackHeight(foot) + (foot[0]?.gap ?? 0);
  let rest = columns;
  while (rest.length > 0) {
    const above = sheet.length === 0 ? 0 : rest[0].gap;
    const room = lowest - top - above;
    const whole = balanced(rest, room - footHeight);
    const [first, second, further] = whole ?? filled(rest, room);
    if (whole === null && (room < leastColumn || first.length === 0)) {
      turn();
      continue;
    }
    top += above;
    sheet = [...sheet, ...stacked(first, margins.left, top), ...stacked(second, margins.left + column + gutter, top)];
    top += Math.max(stackHeight(first), stackHeight(second));
    rest = further;
    if (rest.length > 0) turn();
  }
  // Signatures stand at the bottom of the last page.
  top = Math.max(top, lowest - footHeight);
  put(foot);
  turn();
  return { sheets, headSheets };
}

/** Less than this is not begun with columns, points. */
const leastColumn = 70;

type Columns = readonly [first: readonly Block[], second: readonly Block[], further: readonly Block[]];

/** As much as two columns of this height hold. */
function filled(blocks: readonly Block[], height: number): Columns {
  const first = fitting(blocks, height);
  const second = fitting(blocks.slice(first), height);
  return [blocks.slice(0, first), blocks.slice(first, first + second), blocks.slice(first + second)];
}

/** All of it in two columns of about equal height; null when they would be higher than allowed. */
function balanced(blocks: readonly Block[], most: number): Columns | null {
  for (let height = stackHeight(blocks) / 2; height <= most; height += 4) {
    const columns = filled(blocks, height);
    if (columns[2].length === 0) return columns;
  }
  const columns = filled(blocks, most);
  return most > 0 && columns[2].length === 0 ? columns : null;
}

/** How many of the blocks a column of this height holds; a whole page's column holds one at least. */
function fitting(blocks: readonly Block[], height: number): number {
  let used = 0;
  let count = 0;
  while (count < blocks.length) {
    used += blocks[count].height + (count === 0 ? 0 : blocks[count].gap);
    if (used > height) break;
    count++;
  }
  const least = height >= lowest - margins.top ? Math.min(1, blocks.length) : 0;
  count = Math.max(count, least);
  if (count === blocks.length) return count;
  while (count > least && blocks[count - 1].staysWithNext) count--;
  return count;
}

/** Draws the sheets. @param below the line under each page */
export function drawSheets(paper: Paper, sheets: readonly Sheet[], below: (page: number) => string): void {
  const size = 7.5;
  const style = { face: "text" as Face, size, colour: tones.quiet.light };
  sheets.forEach((sheet, index) => {
    paper.nextPage();
    for (const { block, left, top } of sheet) block.draw(paper, left, top);
    const text = below(index + 1);
    paper.ornament(() =>
      paper.write(text, a4.width - margins.right - paper.widthOf(text, "text", size), a4.height - 26, style),
    );
  });
}
