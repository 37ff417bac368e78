// The encoding of a log's text, from its bytes. read-log.ts and log-pieces.ts decode with it.

import type { TextEncoding } from "../schema/index.ts";

export interface FoundEncoding {
  readonly encoding: TextEncoding;
  /** Bytes of the byte order mark. */
  readonly markLength: number;
}

/**
 * UTF-8 and UTF-16 by their byte order mark; UTF-16 without one by its zero bytes; else UTF-8 where the bytes are
 * mostly that, and else the Windows code page, in which older loggers write their degree signs.
 *
 * @param head the file or its beginning, cut anywhere
 */
export function encodingOf(head: Uint8Array): FoundEncoding {
  const [first, second, third] = head;
  if (first === 0xef && second === 0xbb && third === 0xbf) return { encoding: "utf-8", markLength: 3 };
  if (first === 0xff && second === 0xfe) return { encoding: "utf-16le", markLength: 2 };
  if (first === 0xfe && second === 0xff) return { encoding: "utf-16be", markLength: 2 };
  const zeros = zeroShares(head.subarray(0, 4096));
  if (zeros.odd > 0.7 && zeros.even < 0.1) return { encoding: "utf-16le", markLength: 0 };
  if (zeros.even > 0.7 && zeros.odd < 0.1) return { encoding: "utf-16be", markLength: 0 };
  return { encoding: isUtf8(head) ? "utf-8" : "windows-1252", markLength: 0 };
}

/** The text of a whole file or of its beginning, without byte order mark. */
export function textOf(bytes: Uint8Array, { encoding, markLength } = encodingOf(bytes)): string {
  return new TextDecoder(encoding, { ignoreBOM: true }).decode(bytes.subarray(markLength));
}

function zeroShares(bytes: Uint8Array): { readonly even: number; readonly odd: number } {
  const pairs = bytes.length >> 1;
  // Fewer characters than 8 are no text to judge by; and nearly every log has no zero at all.
  if (pairs < 8 || !bytes.includes(0)) return { even: 0, odd: 0 };
  let even = 0;
  let odd = 0;
  for (let pair = 0; pair < pairs; pair++) {
    if (bytes[2 * pair] === 0) even++;
    if (bytes[2 * pair + 1] === 0) odd++;
  }
  return { even: even / pairs, odd: odd / pairs };
}

/**
 * Whether at least half of the characters beyond ASCII are well-formed: a disk's or a cable's one bad byte costs its
 * own cell, not every degree sign of the log. A character cut off at the end does not count against it.
 */
function isUtf8(bytes: Uint8Array): boolean {
  const text = new TextDecoder("utf-8").decode(bytes, { stream: true });
  let beyondAscii = 0;
  let malformed = 0;
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code > 0x7f) beyondAscii++;
    if (code === replacement) malformed++;
  }
  return malformed * 2 <= beyondAscii;
}

/** What a decoder writes for bytes that are no character. */
const replacement = 0xfffd;
