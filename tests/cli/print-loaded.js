// Loaded before a program (`node --import`): when that ends, every module it loaded stands on standard error.

import { registerHooks } from "node:module";

/** @type {string[]} */
const loaded = [];
registerHooks({
  load(url, context, next) {
    loaded.push(url);
    return next(url, context);
  },
});
process.on("exit", () => process.stderr.write(loaded.join("\n")));
