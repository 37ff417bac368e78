// `coldfall sheet`: the conditions that a run was recorded in.

import { readWholeFile } from "../../ingest/index.ts";
import { readRunSheet } from "../../ingest/json-files/index.ts";
import type { Words } from "../../report/index.ts";
import { BadInput, type RunSheet } from "../../schema/index.ts";
import { runSheetSchema } from "../../schema/shapes/index.ts";
import { wordsFor } from "../language-option.ts";
import type { Terminal } from "../terminal.ts";
import { type StoreOptions, withStore } from "./with-store.ts";

export interface SheetOptions extends StoreOptions {
  readonly set?: readonly string[];
  readonly file?: string;
}

/** Shows the sheet, after the changes that were asked for. @throws BadInput "bad-option", "wrong-shape" */
export const runSheetCommand = (id: string, options: SheetOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const { set = [], file } = options;
    const text = wordsFor(options).keeping.sheet;
    const run = await store.runs.get(id);
    const given = file === undefined ? run.sheet : readRunSheet(readWholeFile(file), file);
    const sheet = set.length === 0 ? given : withFields(given, set, text);
    if (sheet !== null && (file !== undefined || set.length > 0)) await store.runs.edit(run.id, { sheet });
    terminal.print(sheet === null ? `${text.none}\n` : `${JSON.stringify(sheet, null, 2)}\n`);
  });

const sheetFields = Object.keys(runSheetSchema.shape).filter((name) => name !== "format");

/** FIELD=VALUE, a dot between a field and one inside it; checked as a sheet's file would be. */
function withFields(sheet: RunSheet | null, fields: readonly string[], text: Words["keeping"]["sheet"]): RunSheet {
  const changed: Record<string, unknown> = structuredClone(sheet ?? {});
  for (const field of fields) {
    const cut = field.indexOf("=");
    if (cut < 1) throw new BadInput({ code: "bad-option", option: "--set", value: field, expected: text.expectedSet });
    const names = field.slice(0, cut).split(".");
    if (!sheetFields.includes(names[0]))
      throw new BadInput({
        code: "bad-option",
        option: "--set",
        value: field,
        expected: text.expectedField(sheetFields),
      });
    const said = field.slice(cut + 1).trim();
    if (/^-?\d+,\d+$/.test(said) && !isFit(names, said))
      throw new BadInput({ code: "bad-option", option: "--set", value: field, expected: text.expectedPoint });
    setField(changed, names, fieldValue(names, said));
  }
  return readRunSheet(new TextEncoder().encode(JSON.stringify(changed)), "--set");
}

function setField(object: Record<string, unknown>, [name, ...inside]: readonly string[], value: unknown): void {
  if (inside.length === 0) object[name] = value;
  else {
    const inner = object[name];
    const copy = typeof inner === "object" && inner !== null ? { ...inner } : {};
    setField(copy as Record<string, unknown>, inside, value);
    object[name] = copy;
  }
}

/**
 * As the field takes it: text, a number, true or false, or a list by its commas. "3" is a number of volts and a position of the
 * dial. Nothing forgets the field, since JSON leaves `undefined` out.
 */
function fieldValue(names: readonly string[], text: string): unknown {
  if (text === "") return undefined;
  const list = text.split(",").map((part) => part.trim());
  const readings = [
    text,
    ...(Number.isFinite(Number(text)) ? [Number(text)] : []),
    ...(text === "true" || text === "false" ? [text === "true"] : []),
    ...(list.length > 1 || isFit(names, list) ? [list] : []),
  ];
  // What fits nowhere is refused as what it most looks like.
  return readings.find((value) => isFit(names, value)) ?? readings.at(-1);
}

function isFit(names: readonly string[], value: unknown): boolean {
  const sheet: Record<string, unknown> = {};
  setField(sheet, names, value);
  return runSheetSchema.safeParse(sheet).success;
}
