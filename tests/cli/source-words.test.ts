import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
const at = (name: string) => join(folder, name);
const onShore = (log: string) => log.replaceAll(",mains\n", ",shore\n");
const ofAnotherLogger = (log: string) =>
  log.replace("time,evaporator,cabinet,ambient", "Time,Fins °C,Fridge °C,Outside °C");

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-source-words-"));
  for (const day of [1, 2]) {
    const log = pullDownLog({ strength: 1, day });
    writeFileSync(at(`plain-${day}.csv`), log);
    writeFileSync(at(`own-${day}.csv`), onShore(log));
    writeFileSync(at(`other-${day}.csv`), onShore(ofAnotherLogger(log)));
  }
  const map = {
    format: "coldfall-log-mapping-1",
    time: "Time",
    source: "source",
    positions: { evaporator: "Fins °C", cabinet: "Fridge °C", ambient: "Outside °C" },
  };
  writeFileSync(at("map.json"), JSON.stringify(map));
});
afterAll(() => rmSync(folder, { recursive: true }));

const told = ["--source-word", "shore=mains"];
/** The bytes differ, and so do the hashes. */
const withoutFiles = (printed: string) =>
  printed.replaceAll(/(own|other|plain)-(?=[12]\.csv)/g, "").replaceAll(/[0-9a-f]{64}|\s+/g, " ");
const out = () => at("out.baseline.json");

describe("a word for an energy source that nobody knows is refused, and can be told, by", () => {
  for (const [command, args] of [
    ["analyse", []],
    ["compare", []],
    ["hot-day", ["--ambient", "30"]],
    ["baseline", ["--out", "out"]],
  ] as const) {
    for (const kind of ["own", "other"]) {
      test(`${command}, in a log of ${kind === "own" ? "our own format" : "another logger"}`, async () => {
        const rest = args.map((arg) => (arg === "out" ? out() : arg));
        const line = [command, at(`${kind}-1.csv`), at(`${kind}-2.csv`), ...rest];
        const refused = await coldfall(line);
        expect(refused).toMatchObject({ exitCode: 2, printed: "" });
        expect(refused.told).toMatch(/line 62: .*"shore".*--source-word "shore=/);
        const run = await coldfall([...line, ...told]);
        expect(run.exitCode).toBe(0);
        const plain = await coldfall([command, at("plain-1.csv"), at("plain-2.csv"), ...rest]);
        expect(withoutFiles(run.printed)).toBe(withoutFiles(plain.printed));
      });
    }
  }
});

test("told with a mapping, the word is known besides those that the mapping names", async () => {
  const mapped = ["analyse", at("other-1.csv"), "--map", at("map.json")];
  expect((await coldfall(mapped)).told).toMatch(/"shore" is not an energy source; .*--source-word "shore=off"/);
  expect((await coldfall([...mapped, ...told])).printed).toMatch(/On mains/);
  const brought = ["import", at("other-1.csv"), "--map", at("map.json"), "--preview"];
  expect((await coldfall(brought)).exitCode).toBe(2);
  const saved = await coldfall([...brought, ...told, "--save-map", at("saved.json")]);
  expect(saved.printed).toContain("Energy sources: mains in 480 rows, off in 180 rows.");
  expect(JSON.parse(readFileSync(at("saved.json"), "utf8")).sourceNames).toEqual({ shore: "mains" });
});
