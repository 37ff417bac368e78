// Columns that somebody says the meaning of: a name that the log does not have would change nothing, and nobody would see it.

import { BadInput } from "../schema/index.ts";
import { showable } from "./unreadable-cells.ts";

/**
 * @param told by a column's name, or, where they are numbered, its number counted from 1
 * @param columns the names there are, in their order
 * @throws BadInput "no-such-column"
 */
export function refuseUnknownColumns(
  told: ReadonlyMap<string, unknown> | undefined,
  columns: readonly string[],
  { areNumbered = false } = {},
): void {
  for (const name of told?.keys() ?? []) {
    const number = Number(name);
    const isNumber = areNumbered && Number.isInteger(number) && number >= 1 && number <= columns.length;
    if (!isNumber && !columns.includes(name))
      throw new BadInput({ code: "no-such-column", column: showable(name), columns: columns.map(showable) });
  }
}

/** Does the work on a log, and names the log where it does not have a column: of several nobody would know which is meant. */
export function namingLog<Result>(file: string, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    if (error instanceof BadInput && error.saying.code === "no-such-column")
      throw new BadInput({ ...error.saying, file });
    throw error;
  }
}
