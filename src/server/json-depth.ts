// How deep JSON is nested, found before it is parsed: what walks a value afterwards walks with the call stack.

/** @returns the greatest number of brackets and braces open at once, strings aside */
export function jsonDepth(bytes: Uint8Array): number {
  let deepest = 0;
  let depth = 0;
  let inString = false;
  for (let i = 0; i < bytes.length; i++) {
    const byte = bytes[i];
    if (inString) {
      if (byte === backslash) i++;
      else if (byte === quote) inString = false;
    } else if (byte === quote) inString = true;
    else if (byte === openBracket || byte === openBrace) deepest = Math.max(deepest, ++depth);
    else if (byte === closeBracket || byte === closeBrace) depth--;
  }
  return deepest;
}

const [quote, backslash, openBracket, closeBracket, openBrace, closeBrace] = Buffer.from('"\\[]{}');
