import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    setupFiles: ["tests/property-seed.ts"],
    // The readings are the same everywhere; so must be the clock's words.
    // Nobody's own store may answer a test.
    env: { TZ: "UTC", XDG_DATA_HOME: "/nowhere" },
    testTimeout: 20_000,
  },
});
