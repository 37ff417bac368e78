// An option that would change nothing is refused: whoever gave it would think that it did.

import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
let run = "";
const at = (name: string) => join(folder, name);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-idle-options-"));
  for (const day of [1, 2]) writeFileSync(at(`night-${day}.csv`), pullDownLog({ strength: 1, day }));
  const other = pullDownLog({ strength: 1, day: 3 });
  writeFileSync(at("other.csv"), other.replace("time,evaporator,cabinet,ambient", "Time,Fins °C,Fridge °C,Outside °C"));
  writeFileSync(
    at("map.json"),
    '{"format":"coldfall-log-mapping-1","time":"Time","positions":{"cabinet":"Fridge °C"}}',
  );
  writeFileSync(at("bare.csv"), pullDownLog({ strength: 1, day: 5, hasSourceColumn: false }));
  writeFileSync(at("sheet.json"), "{}");
  await coldfall(["fridges", "add", "Larch", "--store", at("store.coldfall")]);
  await coldfall(["import", at("night-1.csv"), "--store", at("store.coldfall")]);
  const { printed } = await coldfall(["runs", "--json", "--store", at("store.coldfall")]);
  run = JSON.parse(printed).runs[0].id;
});
afterAll(() => rmSync(folder, { recursive: true }));

const time = "2026-06-02T09:00:00Z";

for (const [language, cases] of [
  [
    "en",
    [
      ["hot-day night-1.csv --ambient 32 --begin 4", /^--begin changes nothing without --forecast; give that too, or/],
      ["analyse night-1.csv --of-kind", /^--of-kind changes nothing without --known-good or --baseline; give one of/],
      ["compare night-1.csv night-2.csv --letterhead Bench", /^--letterhead changes nothing without --pdf;/],
      ["report RUN --letterhead Bench STORE", /^--letterhead changes nothing without --pdf;/],
      ["record --fridge Larch --port /dev/none --speed 60 STORE", /^--speed changes nothing without --replay;/],
      ["analyse RUN --sheet sheet.json STORE", /^--sheet says how a file .* runs of the store, .*"coldfall sheet"/],
      [`analyse RUN --source-at ${time}=gas STORE`, /^--source-at says how a file .*"coldfall source"/],
      ["compare RUN RUN --map map.json STORE", /^--map says how a file/],
      ["hot-day RUN --ambient 32 --source-word a=gas STORE", /^--source-word says how a file/],
      [`analyse night-1.csv --read-out ${time}`, /^--read-out is for a board's own file, .* leave it out\.\n$/],
      [`import night-2.csv --read-out ${time} STORE`, /^--read-out is for a board's own file/],
      [`import night-2.csv --preview --starts-at ${time}`, /^--starts-at is for a log whose times are counted/],
      [`import night-2.csv --preview --now ${time}`, /^--now is for a SenML file/],
      ["import night-2.csv --preview --save-map new.json", /^--save-map writes down how another logger's CSV/],
      [
        "import other.csv --preview --unit F",
        /says itself that its temperatures are in °C, and --unit F changes nothing/,
      ],
      ["import other.csv --map map.json --unit F STORE", /^Option '--map <file>' cannot be used with option '--unit/],
      ["runs edit RUN STORE", /^Nothing is said that could be done; give --name, --purpose or --notes\.$/m],
      ["fridges edit Larch STORE", /^Nothing is said that could be done; give --name, --kind, .* or --notes\.$/m],
      ["baselines add Larch STORE", /^Nothing is said that could be done; give RUN or --file\.$/m],
      [
        "note-reading cabinet=5 cabinet=6 --fridge Larch --run RUN STORE",
        /"cabinet=6" cannot be used; .* each position once/,
      ],
      [
        `analyse night-1.csv --source-at ${time}=gas --source-at ${time}=mains`,
        /=mains" cannot be used; give each once/,
      ],
      ["import other.csv --preview --column x=cabinet --column x=ambient", /^--column: "x=ambient" .* each once/],
      ["analyse other.csv --source-word a=gas --source-word a=off", /^--source-word: "a=off" .* each once/],
      ["simulate --out new.csv --fault flue=0.1 --fault flue=0.2", /^--fault: "flue=0\.2" .* each once/],
      ["import night-2.csv --run RUN --name x STORE", /^Option '--name <name>' cannot be used with option '--run/],
      ["import night-2.csv --run RUN --sheet sheet.json STORE", /^Option '--sheet <file>' cannot be used with/],
    ],
  ],
  [
    "de",
    [
      ["hot-day night-1.csv --ambient 32 --begin 4", /^--begin bewirkt ohne --forecast nichts; geben Sie auch das an/],
      [
        "analyse night-1.csv --of-kind",
        /^--of-kind bewirkt ohne --known-good oder --baseline nichts; geben Sie auch eines/,
      ],
      [`analyse night-1.csv --read-out ${time}`, /^--read-out ist für die eigene Datei einer Fühlerplatine/],
      ["analyse RUN --sheet sheet.json STORE", /^--sheet sagt, wie eine Datei zu lesen ist/],
    ],
  ],
] as const) {
  describe(`refused in one sentence (${language}), before anything is written:`, () => {
    for (const [line, sentence] of cases) {
      test(line, async () => {
        const before = readdirSync(folder).sort();
        const args = line.split(" ").flatMap((word) => {
          if (word === "RUN") return [run];
          if (word === "STORE") return ["--store", at("store.coldfall")];
          return [/\.(csv|json)$/.test(word) ? at(word) : word];
        });
        const told = await coldfall([...args, ...(language === "de" ? ["--language", "de"] : [])]);
        expect(told).toMatchObject({ exitCode: 2, printed: "" });
        expect(told.told).toMatch(sentence);
        expect(told.told).toMatch(/^[^\n]+\.\n$/);
        expect(readdirSync(folder).sort()).toEqual(before);
      });
    }
  });
}

test("the same options count where they mean something", async () => {
  for (const args of [
    ["analyse", at("night-1.csv"), "--known-good", at("night-2.csv"), "--of-kind"],
    ["analyse", run, at("bare.csv"), "--source-at", `${time}=mains`, "--store", at("store.coldfall")],
    ["import", at("other.csv"), "--preview", "--save-map", at("new.json")],
    ["import", at("other.csv"), "--preview", "--map", at("map.json"), "--source-word", "shore=mains"],
  ]) {
    const { exitCode, told } = await coldfall(args);
    expect(exitCode, told).toBe(0);
  }
});
