// Ids that may meet ids of another store one day, so they are drawn, not counted. Letters that are mistaken for one another on
// paper or the telephone are left out (the alphabet of Crockford's base 32).

import { randomBytes } from "node:crypto";

const letters = "0123456789abcdefghjkmnpqrstvwxyz";

/** 10 letters, 50 bits. */
export const newId = (): string => drawn(10);

/** A run's id begins with its day in UTC, so that people find it in a list: 2026-06-04-k7qx3m. */
export const newRunId = (startedUnixMs: number): string =>
  `${new Date(startedUnixMs).toISOString().slice(0, 10)}-${drawn(6)}`;

const drawn = (count: number): string =>
  Array.from(randomBytes(count), (byte) => letters[byte % letters.length]).join("");
