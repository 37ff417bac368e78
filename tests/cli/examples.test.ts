// Every example that the help shows is run, in a folder that holds the files it names.

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { words } from "../../src/report/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

const { cli, keeping } = words("en");

let folder = "";
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-examples-"));
  const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
  for (const [day, name] of ["night", "may", "june", "other", "export", "before", "after"].entries()) {
    write(`${name}.csv`, pullDownLog({ strength: 1, day }));
  }
  write(
    "trip.csv",
    "time,ambient,source\n2026-07-10T08:00:00Z,27,mains\n2026-07-10T12:00:00Z,33,off\n2026-07-10T15:00:00Z,34,mains\n2026-07-11T08:00:00Z,24,mains\n",
  );
  write("bare.csv", pullDownLog({ strength: 1, day: 8, hasSourceColumn: false }));
  const local = (row: string) => row.replace("T", " ").replace("Z", "");
  const [, ...handheld] = pullDownLog({ strength: 1, day: 7 }).split("\n");
  write("handheld.csv", ["Time,Fins,Fridge,Outside,Source", ...handheld.map(local)].join("\n"));
  write("logger.json", '{"format":"coldfall-log-mapping-1","time":"time","positions":{"cabinet":"cabinet"}}');
  await coldfall(["baseline", join(folder, "may.csv"), "--out", join(folder, "larch.baseline.json")]);
});
afterAll(() => rmSync(folder, { recursive: true }));

/** The arguments of an example: what the shell would do with the output is left out, files lie in our folder. */
const argumentsOf = (example: string) =>
  example
    .replace(/^source <\((.*)\)$/, "$1")
    .replace(/ [>|] .*$/, "")
    .match(/"[^"]*"|\S+/g)
    ?.slice(1)
    .map((word) => word.replaceAll('"', ""))
    .map((word) => (/\.(csv|json|html)$/.test(word) ? join(folder, word) : word)) ?? [];

const { program, analyse, baseline, compare, hotDay, simulate, schema, completion } = cli;

for (const [name, { examples }] of Object.entries({
  program,
  analyse,
  baseline,
  compare,
  hotDay,
  simulate,
  schema,
  completion,
})) {
  describe(`examples of ${name}`, () => {
    for (const example of examples) {
      test(example, async () => {
        expect(example).toMatch(/\bcoldfall /);
        expect(await coldfall(argumentsOf(example))).toMatchObject({ exitCode: 0 });
      });
    }
  });
}

describe("examples of fridges, one after the other in one store", () => {
  for (const example of keeping.fridges.examples) {
    test(example, async () => {
      await coldfall(["fridges", "add", "Oak", "--store", join(folder, "store.coldfall")]);
      const here = argumentsOf(example).map((word) => (word.endsWith(".jsonl") ? join(folder, word) : word));
      const { exitCode, told } = await coldfall([...here, "--store", join(folder, "store.coldfall")]);
      expect(exitCode, told).toBe(0);
    });
  }
});
