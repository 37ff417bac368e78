// JSON files of ours: parsed, checked against their schema, and refused in terms a person can act on.

import type { z } from "zod";
import { BadInput, type ShapeProblem } from "../../schema/index.ts";
import { parsedJson } from "../json-text.ts";
import { showable } from "../unreadable-cells.ts";

/**
 * Reads one JSON file of the given format.
 *
 * @param format name and version, as the file's own `format` field says them; a higher version of the
 *   same name is refused as such, whatever else is in the file.
 * @throws BadInput "not-json", "wrong-shape" or "newer-format".
 */
export function readShape<Schema extends z.ZodType>(
  bytes: Uint8Array,
  file: string,
  schema: Schema,
  format: string,
): z.output<Schema> {
  const value = parsedJson(new TextDecoder().decode(bytes), file);
  const stated = statedFormat(value);
  if (stated !== undefined && isNewer(stated, format)) {
    throw new BadInput({ code: "newer-format", file, format: showable(stated), known: format });
  }
  const checked = schema.safeParse(value);
  if (checked.success) return checked.data;
  const { where, problem } = worstProblem(checked.error.issues, value);
  throw new BadInput({ code: "wrong-shape", file, where: showable(where), problem });
}

function statedFormat(value: unknown): string | undefined {
  if (typeof value !== "object" || value === null || !("format" in value)) return undefined;
  return typeof value.format === "string" ? value.format : undefined;
}

/** Whether both are versions of one format, the stated one higher. */
function isNewer(stated: string, known: string): boolean {
  const [statedName, statedVersion] = nameAndVersion(stated);
  const [knownName, knownVersion] = nameAndVersion(known);
  return statedName === knownName && statedVersion > knownVersion;
}

function nameAndVersion(format: string): readonly [string, number] {
  const cut = format.lastIndexOf("-");
  const version = format.slice(cut + 1);
  return [format.slice(0, cut), /^\d+$/.test(version) ? Number(version) : Number.NaN];
}

type Issue = z.core.$ZodIssue;

/** One sentence can name one field: the first that is wrong. */
function worstProblem(issues: readonly Issue[], value: unknown): { where: string; problem: ShapeProblem } {
  const [issue] = issues;
  return { where: pathText(issue.path), problem: problemOf(issue, valueAt(value, issue.path)) };
}

/** As a person would point at it: `runs[2].columns.cabinet`. */
function pathText(path: readonly PropertyKey[]): string {
  return path.reduce<string>((text, step) => {
    if (typeof step === "number") return `${text}[${step}]`;
    return text === "" ? String(step) : `${text}.${String(step)}`;
  }, "");
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (inner, step) =>
      typeof inner === "object" && inner !== null ? (inner as Record<PropertyKey, unknown>)[step] : undefined,
    value,
  );
}

function problemOf(issue: Issue, found: unknown): ShapeProblem {
  if (found === undefined && issue.code !== "unrecognized_keys") return { code: "missing" };
  switch (issue.code) {
    case "unrecognized_keys":
      return { code: "unknown-field", field: showable(issue.keys[0]) };
    case "invalid_type":
      return { code: "wrong-type", expected: issue.expected };
    case "invalid_value":
      return { code: "not-one-of", options: issue.values.map(String) };
    case "too_small":
      return issue.origin === "array"
        ? { code: "too-few", least: Number(issue.minimum) }
        : { code: "too-small", least: Number(issue.minimum), exclusive: issue.inclusive === false };
    case "too_big":
      return { code: "too-big", most: Number(issue.maximum), exclusive: issue.inclusive === false };
    case "invalid_format":
      return issue.format === "datetime"
        ? { code: "not-an-instant" }
        : { code: "breaks-rule", rule: issue.pattern ?? issue.format };
    case "custom":
      return typeof issue.params?.atLeast === "number"
        ? { code: "too-few", least: issue.params.atLeast }
        : { code: "breaks-rule", rule: issue.message };
    default:
      return { code: "breaks-rule", rule: issue.code };
  }
}
