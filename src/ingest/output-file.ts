// Writing a result over what is there already: only over an earlier result of the same kind. The writing itself is in
// files.ts.

import { existsSync, readFileSync, realpathSync, statSync } from "node:fs";
import { resolve } from "node:path";
import { BadInput } from "../schema/index.ts";

/** What a command writes. "readings" are logs and all else that could not be made again from something else. */
export type OutputKind = "page" | "pdf" | "baseline" | "mapping" | "readings";

/** Files that a command is to write, by their kind; undefined where one is not asked for. */
export type Outputs = { readonly [K in OutputKind]?: string | undefined };

/**
 * Refuses to write over anything but an earlier result of ours of the same kind, over an input of the command, and
 * twice over the same file. Pipes and devices, such as /dev/stdout, are no files in this sense. To be asked before a command
 * begins, so that nothing is half done.
 *
 * @param inputs what the command reads
 * @throws BadInput "cannot-write" with EEXIST
 */
export function refuseToReplace(outputs: Outputs, inputs: readonly (string | undefined)[] = []): void {
  const taken = new Set(inputs.flatMap((file) => (file === undefined ? [] : [placeOf(file)])));
  for (const kind of outputKinds) {
    const file = outputs[kind];
    if (file === undefined || isStream(file)) continue;
    const place = placeOf(file);
    if (taken.has(place) || (existsSync(place) && !isEarlierResult(place, kind))) {
      throw new BadInput({ code: "cannot-write", file, errorCode: "EEXIST" });
    }
    taken.add(place);
  }
}

/** Whether it is a pipe or device, or the name of a descriptor, wherever the shell has put that. */
export function isStream(file: string): boolean {
  if (descriptorOf(file) !== null) return true;
  const met = statSync(file, { throwIfNoEntry: false });
  return met !== undefined && !met.isFile() && !met.isDirectory();
}

/** The descriptor that a name such as /dev/stdout stands for; null for the name of a file. */
export function descriptorOf(file: string): number | null {
  if (file === "/dev/stdout") return 1;
  if (file === "/dev/stderr") return 2;
  const [, number] = /^\/(?:dev|proc\/self)\/fd\/(\d+)$/.exec(file) ?? [];
  return number === undefined ? null : Number(number);
}

/** The file behind links, so that two names of one file are known as such. */
const placeOf = (file: string) => (existsSync(file) ? realpathSync(file) : resolve(file));

const outputKinds = ["page", "pdf", "baseline", "mapping", "readings"] as const satisfies readonly OutputKind[];

/** A folder is left to the writing, which says that it is one. */
function isEarlierResult(file: string, kind: OutputKind): boolean {
  if (statSync(file).isDirectory()) return true;
  try {
    return earlierResults[kind]?.test(readFileSync(file, "latin1")) ?? false;
  } catch {
    // What cannot be read, or is too long to be, is no result of ours.
    return false;
  }
}

/** How a result of ours begins, or, of a PDF, what it says of its maker. */
const earlierResults: { readonly [K in OutputKind]: RegExp | null } = {
  page: /^<!doctype html>\n<html lang="\w+">\n<head>\n(?:<meta [^\n]+>\n)+<title>[^\n]*<\/title>\n<style>\s*:root\{color-scheme:/,
  pdf: /^%PDF-[\s\S]*<pdf:Producer>Coldfall /,
  baseline: /^\{"format":"coldfall-baseline-\d/,
  mapping: /^\s*\{\s*"format":\s*"coldfall-log-mapping-\d/,
  readings: null,
};
