// ETags (RFC 9110, section 8.8.3) over what is sent: one answer, one tag.

import { createHash } from "node:crypto";
import { Problem } from "./problem.ts";

/** A strong ETag. */
export const etagOf = (content: string | Uint8Array): string =>
  `"${createHash("sha256").update(content).digest("base64url").slice(0, 27)}"`;

/**
 * Refuses a change that starts from a state that is no longer (RFC 9110, section 13.1.1).
 *
 * @param current the document that the change is made to, as a GET answers with
 * @throws Problem "changed-meanwhile"
 */
export function refuseIfChanged(ifMatch: string | undefined, current: unknown): void {
  if (ifMatch === undefined || ifMatch.trim() === "*") return;
  const own = etagOf(JSON.stringify(current));
  // A proxy that compresses may mark a tag as weak; it is still the tag that we gave.
  const tags = ifMatch.split(",").map((tag) => tag.trim().replace(/^W\//, ""));
  if (!tags.includes(own)) throw new Problem("changed-meanwhile");
}
