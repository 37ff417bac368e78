// `coldfall sheet`: the conditions that a run was recorded in.

import { readWholeFile } from "../../ingest/index.ts";
import { readRunSheet } from "../../ingest/json-files/index.ts";
import { words } from "../../report/index.ts";
import { BadInput, type RunSheet } from "../../schema/index.ts";
import type { Terminal } from "../terminal.ts";
import { type StoreOptions, withStore } from "./with-store.ts";

const { keeping } = words("en");
const text = keeping.sheet;

export interface SheetOptions extends StoreOptions {
  readonly set?: readonly string[];
  readonly file?: string;
}

/** Shows the sheet, after the changes that were asked for. @throws BadInput "bad-option", "wrong-shape" */
export const runSheetCommand = (id: string, options: SheetOptions, terminal: Terminal) =>
  withStore(options, async (store) => {
    const { set = [], file } = options;
    const run = await store.runs.get(id);
    const given = file === undefined ? run.sheet : readRunSheet(readWholeFile(file), file);
    const sheet = set.length === 0 ? given : withFields(given, set);
    if (sheet !== null && (file !== undefined || set.length > 0)) await store.runs.edit(run.id, { sheet });
    terminal.print(sheet === null ? `${text.none}\n` : `${JSON.stringify(sheet, null, 2)}\n`);
  });

/** FIELD=VALUE, a dot between a field and one inside it; checked as a sheet's file would be. */
function withFields(sheet: RunSheet | null, fields: readonly string[]): RunSheet {
  const changed: Record<string, unknown> = structuredClone(sheet ?? {});
  for (const field of fields) {
    const cut = field.indexOf("=");
    if (cut < 1) throw new BadInput({ code: "bad-option", option: "--set", value: field, expected: text.expectedSet });
    setField(changed, field.slice(0, cut).split("."), fieldValue(field.slice(cut + 1).trim()));
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

/** Numbers, true and false as such; a list by its commas; nothing forgets the field, since JSON leaves `undefined` out. */
function fieldValue(text: string): unknown {
  if (text === "") return undefined;
  if (text === "true" || text === "false") return text === "true";
  if (/^[a-z0-9]+(,[a-z0-9]+)+$/.test(text)) return text.split(",");
  const number = Number(text);
  return Number.isFinite(number) ? number : text;
}
