// Builds the pages in web/ into dist/web, where the server looks for them.

import { defineConfig, type Plugin } from "vite";
import { darkPaper, lightPaper, pageStyle } from "./src/report/page/page-style.ts";

/** The bench is a letter like those on paper: its style begins with theirs. */
const letterStyle: Plugin = {
  name: "letter-style",
  enforce: "pre",
  transform: (code, id) =>
    id.endsWith("/web/style.css")
      ? `${pageStyle}\n:root[data-paper="light"]{color-scheme:light;${lightPaper}}\n:root[data-paper="dark"]{color-scheme:dark;${darkPaper}}\n${code}`
      : undefined,
};

export default defineConfig({
  root: "web",
  plugins: [letterStyle],
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    outDir: "../dist/web",
    emptyOutDir: true,
    target: "es2023",
    // Data addresses would need a wider content policy than the service gives.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: { index: "web/index.html", "service-worker": "web/service-worker.ts" },
      output: {
        entryFileNames: ({ name }) => (name === "service-worker" ? "[name].js" : "assets/[name]-[hash].js"),
      },
      // Shapes register themselves as they load; a page that only needs a list of names must not carry them.
      treeshake: { moduleSideEffects: (id) => !/\/src\/(schema|report)\//.test(id) },
    },
  },
});
