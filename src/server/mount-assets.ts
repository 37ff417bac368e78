// The built pages by their addresses.

import type { Express } from "express";
import type { Asset } from "./assets.ts";

/** Addresses of pages without a file of their own show the first page, which finds out what to show. */
export function mountAssets(application: Express, assets: ReadonlyMap<string, Asset>): void {
  application.use((request, response, next) => {
    if ((request.method !== "GET" && request.method !== "HEAD") || request.path.startsWith("/api/")) return next();
    const asked = assets.get(request.path);
    const isPage = asked === undefined && !/\.\w+$/.test(request.path);
    const asset = asked ?? (isPage ? assets.get("/") : undefined);
    if (asset === undefined) return next();
    response.setHeader("Cache-Control", asset.isHashed ? "public, max-age=31536000, immutable" : "no-cache");
    response.setHeader("ETag", asset.etag);
    response.setHeader("Content-Type", asset.type);
    if (request.fresh) response.status(304).end();
    else response.end(request.method === "HEAD" ? undefined : asset.bytes);
  });
}
