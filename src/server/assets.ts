// The built pages, read once as the service starts. What a browser asks for is only looked up among them, so no path of a
// request ever reaches the file system.

import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { extname, join, relative, sep } from "node:path";

export interface Asset {
  readonly type: string;
  readonly bytes: Buffer;
  readonly etag: string;
  /** Its name holds a hash of what is in it, so that it may be kept for ever. */
  readonly isHashed: boolean;
}

/** @returns every file of the folder by its address, "/" for the first page */
export function readAssets(folder: string): ReadonlyMap<string, Asset> {
  const assets = new Map<string, Asset>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const type = types[extname(entry.name).toLowerCase()];
    if (!entry.isFile() || type === undefined) continue;
    const file = join(entry.parentPath, entry.name);
    const bytes = readFileSync(file);
    const address = `/${relative(folder, file).split(sep).join("/")}`;
    const etag = `"${createHash("sha256").update(bytes).digest("base64url")}"`;
    const asset = { type, bytes, etag, isHashed: /-[\w-]{8,}\.\w+$/.test(entry.name) };
    assets.set(address, asset);
    if (address === "/index.html") assets.set("/", asset);
  }
  return assets;
}

/** What a built page consists of; anything else in the folder stays there. */
const types: { readonly [extension: string]: string } = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".svg": "image/svg+xml; charset=utf-8",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
};
