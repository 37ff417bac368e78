// What a stranger mistypes, and what is said to it: what is wrong, where, and what to do next.

import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
let run = "";
const at = (name: string) => join(folder, name);
const store = () => ["--store", at("store.coldfall")];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-mistakes-"));
  writeFileSync(at("night.csv"), pullDownLog({ strength: 1, day: 1 }));
  writeFileSync(at("bare.csv"), pullDownLog({ strength: 1, day: 2, hasSourceColumn: false }));
  // No text: the bytes of a program's own file.
  writeFileSync(
    at("binary.csv"),
    Uint8Array.from({ length: 2000 }, (_, i) => (i * 197 + (i >> 3) * 31) % 256),
  );
  writeFileSync(
    at("program.dat"),
    Uint8Array.from({ length: 2000 }, (_, i) => (i % 5 === 0 ? 200 : 0)),
  );
  writeFileSync(at("other.json"), '{"name":"something else"}');
  writeFileSync(at("map.json"), '{"format":"coldfall-log-mapping-2","time":"time","positions":{"cabinet":"cabinet"}}');
  const commas = Array.from({ length: 20 }, (_, i) => `2026-06-04T07:${10 + i}:00Z,5,5,6,5,21,5`);
  writeFileSync(at("commas.csv"), ["time,evaporator,cabinet,ambient", ...commas, ""].join("\n"));
  mkdirSync(at("folder"));
  await coldfall(["fridges", "add", "Larch", ...store()]);
  await coldfall(["import", at("night.csv"), ...store()]);
  run = JSON.parse((await coldfall(["runs", "--json", ...store()])).printed).runs[0].id;
});
afterAll(() => rmSync(folder, { recursive: true }));

/** `FILE` in a line stands for one in our folder, `STORE` for the store, `RUN` for a run in it. */
const argumentsOf = (line: string) =>
  line.split(" ").flatMap((word) => {
    if (word === "STORE") return store();
    return [word.replace("RUN", run).replace(/@/, `${folder}/`)];
  });

const mistakes = {
  "a file that is none": [
    [
      "analyse @binary.csv",
      /binary\.csv" is no log but some program's own file, and no text; have the logger export CSV/,
      /kein Text/,
    ],
    ["import @program.dat --preview", /program\.dat" is no log but some program/, /kein Text/],
    ["probes warm @binary.csv", /and no text;/, /kein Text/],
    [
      "analyse @*.csv",
      /"[^"]*\*\.csv"; the shell here leaves \* and \? as they are, so name each file/,
      /jede Datei einzeln/,
    ],
    [
      "analyse '@night.csv'",
      /quotes .*are part of the name here; leave them out, or use double ones/,
      /Anführungszeichen/,
    ],
    [
      "analyse @night.csv –known-good",
      /"–known-good" begins with a long dash; options begin with two hyphens: --known-good/,
      /zwei Bindestrichen: --known-good/,
    ],
    [
      "analyse 2026-06-04-abcdef",
      /"2026-06-04-abcdef" is no file here, and no run either: there is no store .*; name the workshop's with --store/,
      /keinen Speicher/,
    ],
    [
      "probes slush missing.csv STORE",
      /"missing\.csv" is neither a file here nor a run in the store/,
      /weder eine Datei/,
    ],
    [
      "report night.csv STORE",
      /There is no run "night\.csv" in the store; runs are named by their ids \("coldfall runs" lists them\), and "coldfall import" brings a file in/,
      /Kennungen/,
    ],
    [
      "fridges take-in @night.csv STORE",
      /night\.csv": this is not JSON, which is what is read here; check that it is the file you mean/,
      /night\.csv“: .*kein JSON/,
    ],
    ["fridges --store @folder", /folder" could not be read: it is a folder; name a file in it/, /ein Ordner/],
    ["store backup @folder STORE", /folder" could not be written: it is a folder/, /Ordner/],
  ],
  "a file of another kind": [
    [
      "analyse @night.csv --baseline @other.json",
      /other\.json", field "format": it is missing; add it, and check that it is the file you mean/,
      /ob es die gemeinte Datei ist/,
    ],
    [
      "analyse @night.csv --sheet @map.json",
      /map\.json", field "format": it must be "coldfall-run-sheet-1", and check that/,
      /ob es die gemeinte Datei ist/,
    ],
    [
      "analyse @commas.csv",
      /7 cells where the header has 4, .*; where decimals have a comma, cells are parted by semicolons/,
      /trennen Semikolons die Zellen/,
    ],
  ],
  "a record that is not there": [
    [
      "fridges restore Lerch STORE",
      /no removed fridge "Lerch" .*; "coldfall fridges --removed" lists what was removed/,
      /„coldfall fridges --removed“ zeigt/,
    ],
    [
      "runs restore 2026-01-01-abc STORE",
      /no removed run .*; "coldfall runs --removed" lists what was removed/,
      /„coldfall runs --removed“ zeigt/,
    ],
  ],
  "nothing to do, or too much": [
    [
      "probes calibrate 28AA STORE",
      /^Nothing is said that could be done; give --ice-point, --boiling or --against\.$/m,
      /--boiling oder --against/,
    ],
    [
      "probes curve 28AA STORE",
      /^Nothing is said that could be done; give --thermistor, .* or --celsius\.$/m,
      /--celsius an\.$/m,
    ],
    [
      "probes curve 28AA --celsius --type-k 1 STORE",
      /'--type-k <class>' cannot be used with option '--celsius'|'--celsius' cannot be used with option '--type-k/,
      /schließen sich aus/,
    ],
    [
      "boards light @nothing --seconds 1",
      /a port that can be opened \("coldfall boards" lists them\)/,
      /„coldfall boards“ zeigt sie/,
    ],
  ],
  "a part or a command": [
    [
      "fridges ad Larch STORE",
      /^"coldfall fridges" has no part "ad"; it has list, add, edit, remove, restore, export, take-in; run "coldfall help fridges"/,
      /„coldfall fridges“ hat keinen Teil „ad“/,
    ],
    ["help fridges ad", /^"coldfall fridges" has no part "ad"/, /hat keinen Teil „ad“/],
    [
      "fridges add STORE",
      /^Missing required argument 'name'; run "coldfall help fridges add" to see/,
      /„coldfall help fridges add“/,
    ],
    ["store retire", /must be given; run "coldfall help store retire" to see/, /„coldfall help store retire“/],
    [
      "simulate --out x.csv --schedule off=1 mains=8",
      /"mains=8" was given; what belongs together goes in quotes, in PowerShell also a list with commas/,
      /in PowerShell auch eine Aufzählung mit Kommas/,
    ],
  ],
  "a number": [
    [
      "hot-day @night.csv --ambient 32,5",
      /"32,5" cannot be used; give a temperature .*; decimals take a point: 32\.5\.$/m,
      /mit Punkt: 32\.5\.$/m,
    ],
    ["analyse @night.csv --margin 0,15", /decimals take a point: 0\.15/, /mit Punkt: 0\.15/],
    ["simulate --out x.csv --fault flue=0,25", /decimals take a point: flue=0\.25/, /mit Punkt: flue=0\.25/],
    ["hot-day @night.csv --ambient 32 --load 2,5=22", /decimals take a point: 2\.5=22/, /mit Punkt: 2\.5=22/],
    ["record --fridge x --port p --too-warm 8,5=1", /decimals take a point: 8\.5=1/, /mit Punkt: 8\.5=1/],
    ["fridges add Birch --litres 90,5 STORE", /decimals take a point: 90\.5/, /mit Punkt: 90\.5/],
    ["note-reading cabinet=6,5 --fridge Larch STORE", /decimals take a point: cabinet=6\.5/, /mit Punkt: cabinet=6\.5/],
  ],
  "a name that an option takes": [
    ["analyse @night.csv --unit Celsius", /"Celsius" cannot be used; give one of C, F, K\.$/m, /eines von C, F, K\.$/m],
    [
      "analyse @night.csv --column a=fridge",
      /with time, date, .*, evaporator, cabinet, .*supply or none/,
      /evaporator, cabinet/,
    ],
    ["note-reading fridge=6 --fridge Larch STORE", /with evaporator, cabinet, ambient, /, /evaporator, cabinet/],
    [
      "sheet RUN --set tilt=3 STORE",
      /"tilt=3" cannot be used; give FIELD=VALUE, with one of .*altitudeMetres.*\(coldfall schema run-sheet\)/,
      /altitudeMetres/,
    ],
    [
      "analyse @night.csv --source-word mains=gas",
      /"mains=gas" cannot be used; .*such as standby=off, .*; gas, mains, dc12 and off mean themselves/,
      /bedeuten sich selbst/,
    ],
  ],
  "what would change nothing": [
    [
      "analyse @night.csv --source-at 2026-06-02T09:00:00Z=gas",
      /^--source-at is for logs that do not say their energy source, and each log given does/,
      /--source-at ist für Protokolle/,
    ],
    [
      "record --fridge Larch --replay @night.csv --source-at 2026-06-02T09:00:00Z=gas STORE",
      /^--source-at is for logs/,
      /--source-at ist für/,
    ],
  ],
} as const;

for (const [what, cases] of Object.entries(mistakes)) {
  describe(what, () => {
    for (const [line, english, german] of cases) {
      test(`coldfall ${line}`, async () => {
        const told = await coldfall(argumentsOf(line));
        expect(told).toMatchObject({ exitCode: 2, printed: "" });
        expect(told.told).toMatch(english);
        expect(told.told).toMatch(/^[^\n]+\.\n$/);
        const inGerman = await coldfall([...argumentsOf(line), "--language", "de"]);
        expect(inGerman).toMatchObject({ exitCode: 2, printed: "" });
        expect(inGerman.told).toMatch(german);
        expect(existsSync("x.csv")).toBe(false);
      });
    }
  });
}

test("help of a part tells the part's options", async () => {
  const { exitCode, printed } = await coldfall(["help", "fridges", "add"]);
  expect(exitCode).toBe(0);
  expect(printed).toMatch(/^Usage: coldfall fridges add [\s\S]*--mains-watts/);
  expect((await coldfall(["help", "fridges"])).printed).toMatch(/^Usage: coldfall fridges \[/);
  expect((await coldfall(["help", "analyse"])).printed).toMatch(/^Usage: coldfall analyse \[/);
});

test("a probe that nobody knew before may be a mistyped one: that is said", async () => {
  const first = await coldfall(["probes", "curve", "28AA", "--thermistor", "10000,3950", ...store()]);
  expect(first.told).toMatch(/^Probe 28AA was not known before, and is kept now; .*"coldfall probes remove 28AA"\.\n$/);
  expect((await coldfall(["probes", "curve", "28AA", "--celsius", ...store()])).told).toBe("");
});

test("of a log that leaves several things open, all are told at once, in short", async () => {
  writeFileSync(
    at("open.csv"),
    `Zeit;Fühler 1;Fühler 2\n${[7, 8, 9].map((hour) => `24.06.2026 0${hour}:00;6,9;7,${hour}`).join("\n")}\n`,
  );
  const { exitCode, told } = await coldfall(["analyse", at("open.csv")]);
  expect(exitCode).toBe(2);
  expect(told).toMatch(
    /say which with --column "Fühler 1=evaporator" .*Open besides: --column for "Fühler 2" and --zone; "coldfall import" with --preview tells of all\.$/m,
  );
  const inGerman = await coldfall(["analyse", at("open.csv"), "--language", "de"]);
  expect(inGerman.told).toMatch(
    /Offen ist außerdem: --column für „Fühler 2“ und --zone; „coldfall import“ mit --preview zeigt alles\./,
  );
});

test("columns that nobody knows can be told, and the refusal says so", async () => {
  const rows = Array.from({ length: 30 }, (_, i) => `${i * 60},${5 - i / 10},${6 - i / 10},21`);
  writeFileSync(at("letters.csv"), ["t,a,b,x", ...rows, ""].join("\n"));
  expect((await coldfall(["analyse", at("letters.csv")])).told).toMatch(
    /say what each is with --column "COLUMN=cabinet"/,
  );
  const columns = ["t=elapsed", "a=evaporator", "b=cabinet", "x=ambient"].flatMap((column) => ["--column", column]);
  const rest = ["--elapsed-unit", "s", "--unit", "C", "--starts-at", "2026-06-04T20:00:00Z"];
  expect((await coldfall(["analyse", at("letters.csv"), ...columns, ...rest])).exitCode).toBe(0);
});

test("help names the schema of what --json prints", async () => {
  for (const [line, schema] of [
    ["report", "analysis"],
    ["fridges list", "fridges"],
    ["probes warm", "warmed"],
    ["alarms list", "alarms"],
  ]) {
    const { printed } = await coldfall(["help", ...line.split(" ")]);
    expect(printed.replaceAll(/\s+/g, " ")).toContain(`print as JSON (coldfall schema ${schema})`);
    expect((await coldfall(["schema", schema])).exitCode).toBe(0);
  }
});

test("a log that does not say its energy source takes it by hand, beside one that does", async () => {
  const told = ["--source-at", "2026-06-03T08:00:00Z=mains", "--source-at", "2026-06-03T16:00:00Z=off"];
  expect((await coldfall(["analyse", at("bare.csv"), at("night.csv"), ...told])).exitCode).toBe(0);
});

test("text in UTF-16, and a log with a stray zero byte, are still text", async () => {
  const text = pullDownLog({ strength: 1, day: 3 });
  writeFileSync(at("utf16.csv"), Buffer.from(`\ufeff${text}`, "utf16le"));
  writeFileSync(at("zero.csv"), text.replace("\n", "\n\0"));
  for (const name of ["utf16.csv", "zero.csv"]) expect((await coldfall(["analyse", at(name)])).exitCode).toBe(0);
});
