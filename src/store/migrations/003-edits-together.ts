// Version 3: several edits of one act stand in one row of the journal. The tables are as before, yet a program that does not
// know such a row would pass over what a person changed, so it must not open the store.

import type { Migration } from "./index.ts";

export const editsTogether: Migration = async () => {
  // Nothing to change.
};
