import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    // The readings are the same everywhere; so must be the clock's words.
    env: { TZ: "UTC" },
    testTimeout: 20_000,
  },
});
