// What a person is told, and what the process ends with, when some work throws.

import { expect, test } from "vitest";
import { withExitCode } from "../../src/cli/exit-code.ts";
import { BadInput } from "../../src/schema/index.ts";
import { recordedTerminal } from "./recorded-terminal.ts";

test("work that fails and then cannot tidy up either is told by what failed first", async () => {
  const terminal = recordedTerminal();
  const exitCode = await withExitCode(terminal, async () => {
    await using _claim = {
      async [Symbol.asyncDispose]() {
        throw new Error("nothing can be written");
      },
    };
    throw new BadInput({ code: "store-disk-full", file: "bench.coldfall" });
  });
  expect(exitCode).toBe(2);
  expect(terminal.told).toContain("nothing kept so far is lost");
  expect(terminal.told).not.toContain("fault");
});
