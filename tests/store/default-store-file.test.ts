// The store's usual file lies where each system keeps a user's data.

import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { defaultStoreFile } from "../../src/store/index.ts";

describe("the usual store file", () => {
  for (const [what, platform, environment, folder] of [
    ["Linux", "linux", { HOME: "/home/kim" }, ["/home/kim", ".local", "share"]],
    ["Linux with a data folder stated", "linux", { HOME: "/home/kim", XDG_DATA_HOME: "/data" }, ["/data"]],
    // XDG Base Directory Specification 0.8: "All paths set in these environment variables must be absolute."
    [
      "Linux with a relative one",
      "linux",
      { HOME: "/home/kim", XDG_DATA_HOME: "data" },
      ["/home/kim", ".local", "share"],
    ],
    ["macOS", "darwin", { HOME: "/Users/kim" }, ["/Users/kim", "Library", "Application Support"]],
    ["Windows", "win32", { LOCALAPPDATA: "/local" }, ["/local"]],
    ["Windows with no more than a profile", "win32", { USERPROFILE: "/kim" }, ["/kim", "AppData", "Local"]],
  ] as const) {
    test(`on ${what} is in ${folder.join("/")}`, () => {
      expect(defaultStoreFile(environment, platform)).toBe(join(...folder, "coldfall", "workshop.coldfall"));
    });
  }
});
