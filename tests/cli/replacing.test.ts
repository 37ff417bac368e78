// What a command writes replaces an earlier result of the same kind and nothing else: no log, no store, no input.

import { spawnSync } from "node:child_process";
import {
  cpSync,
  existsSync,
  linkSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { runSamples } from "../../src/cli/samples.ts";
import { openStore } from "../../src/store/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall, recordedTerminal } from "./recorded-terminal.ts";

let folder = "";
let run = "";
const at = (name: string) => join(folder, name);

const foreignLog = `Time,Fins,Inside,Outside\n${[0, 1, 2, 3]
  .map((minute) => `2026-06-20T08:0${minute}:00Z,1${minute}.0,2${minute}.5,25.0`)
  .join("\n")}\n`;
const columns = [
  "--unit",
  "C",
  ...["Fins=evaporator", "Inside=cabinet", "Outside=ambient"].flatMap((column) => ["--column", column]),
];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-replacing-"));
  for (const day of [1, 2, 3]) writeFileSync(at(`night-${day}.csv`), pullDownLog({ strength: 1, day }));
  writeFileSync(at("foreign.csv"), foreignLog);
  writeFileSync(at("page.html"), "<!doctype html>\n<title>A page of somebody else</title>\n");
  writeFileSync(at("bill.pdf"), "%PDF-1.7\n1 0 obj <</Producer (An office)>> endobj\n");
  writeFileSync(at("notes.json"), '{"format":"coldfall-run-sheet-1","fridge":"Larch"}');
  await coldfall(["fridges", "add", "Larch", "--store", at("st.coldfall")]);
  await coldfall(["import", at("night-3.csv"), "--store", at("st.coldfall")]);
  await using store = await openStore(at("st.coldfall"));
  run = (await store.runs.list({})).runs[0].id;
});
afterAll(() => rmSync(folder, { recursive: true }));

const kept = () => Object.fromEntries(readdirSync(folder).map((name) => [name, readFileSync(at(name), "latin1")]));
const store = () => ["--store", at("st.coldfall")];

/** Commands that write a file, and the files of each that have to stay as they are. */
const commands: Readonly<Record<string, (file: string) => string[]>> = {
  "analyse --html": (file) => ["analyse", at("night-1.csv"), "--html", file],
  "compare --html": (file) => ["compare", at("night-1.csv"), at("night-2.csv"), "--html", file],
  "compare --pdf": (file) => ["compare", at("night-1.csv"), at("night-2.csv"), "--pdf", file],
  "hot-day --html": (file) => ["hot-day", at("night-1.csv"), "--ambient", "35", "--html", file],
  "plan --html": (file) => ["plan", "--from", "20:00", "--sources", "mains", "--date", "2026-06-20", "--html", file],
  "baseline --out": (file) => ["baseline", at("night-1.csv"), at("night-2.csv"), "--out", file],
  "report --html": (file) => ["report", run, "--html", file, ...store()],
  "report --pdf": (file) => ["report", run, "--pdf", file, ...store()],
  "import --save-map": (file) => ["import", at("foreign.csv"), ...columns, "--save-map", file, ...store()],
  "import --preview --save-map": (file) => ["import", at("foreign.csv"), "--preview", ...columns, "--save-map", file],
  "export --out": (file) => ["export", run, "--out", file, ...store()],
  "fridges export --out": (file) => ["fridges", "export", "Larch", "--out", file, ...store()],
  "simulate --out": (file) => ["simulate", "--out", file, "--schedule", "off=1,mains=3"],
  "boards read-out --out": (file) => ["boards", "read-out", "/dev/no-such-port", "--out", file],
};

/** Those whose result can be made again, and may be made again over itself. */
const again = Object.keys(commands).filter((name) => !/export|simulate|read-out/.test(name));

for (const [name, argumentsOf] of Object.entries(commands)) {
  describe(name, () => {
    for (const file of [
      "night-1.csv",
      "night-2.csv",
      "foreign.csv",
      "st.coldfall",
      "page.html",
      "bill.pdf",
      "notes.json",
    ]) {
      test(`leaves ${file} as it was, in one sentence`, async () => {
        const before = kept();
        const { exitCode, printed, told } = await coldfall(argumentsOf(at(file)));
        expect({ exitCode, printed, told }).toEqual({
          exitCode: 2,
          printed: "",
          told: `"${at(file)}" could not be written: there is such a file already; choose another name.\n`,
        });
        expect(kept()).toEqual(before);
      });
    }
  });
}

describe("a result made again", () => {
  for (const name of again) {
    test(`${name} replaces its own earlier result`, async () => {
      const file = at(`made by ${name.replaceAll(" ", "")}`);
      expect(await coldfall(commands[name](file))).toMatchObject({ exitCode: 0 });
      const first = readFileSync(file);
      expect(await coldfall(commands[name](file))).toMatchObject({ exitCode: 0 });
      expect(readFileSync(file).length).toBe(first.length);
    });
  }

  for (const name of Object.keys(commands).filter((each) => !again.includes(each) && !each.startsWith("boards"))) {
    test(`${name} writes under a new name, and not a second time`, async () => {
      const file = at(`made by ${name.replaceAll(" ", "")}`);
      expect(await coldfall(commands[name](file))).toMatchObject({ exitCode: 0 });
      expect(await coldfall(commands[name](file))).toMatchObject({ exitCode: 2 });
    });
  }

  test("npm start writes its page anew each time, and over no other file", async () => {
    const [samples, page] = [at("samples"), at("samples.html")];
    cpSync(at("night-1.csv"), join(samples, "larch", "night.csv"));
    await runSamples(samples, page, recordedTerminal());
    writeFileSync(page, readFileSync(page, "utf8").replace("</title>", " of yesterday</title>"));
    await runSamples(samples, page, recordedTerminal());
    expect(readFileSync(page, "utf8")).not.toContain("of yesterday");
    await expect(runSamples(samples, at("night-1.csv"), recordedTerminal())).rejects.toMatchObject({
      code: "cannot-write",
    });
    rmSync(samples, { recursive: true });
  });
});

describe("inputs and outputs by other names", () => {
  test("a mapping that is read is not written over, though it is of the right kind", async () => {
    const map = at("map.json");
    await coldfall(["import", at("foreign.csv"), "--preview", ...columns, "--save-map", map]);
    const before = readFileSync(map, "utf8");
    const args = ["import", at("foreign.csv"), "--preview", "--map", map, "--save-map", map];
    expect(await coldfall(args)).toMatchObject({ exitCode: 2, printed: "" });
    expect(readFileSync(map, "utf8")).toBe(before);
  });

  test("a link to a log is a log", async () => {
    symlinkSync(at("night-1.csv"), at("soft.html"));
    linkSync(at("night-1.csv"), at("hard.html"));
    for (const link of ["soft.html", "hard.html"]) {
      expect(await coldfall(["analyse", at("night-1.csv"), "--html", at(link)])).toMatchObject({ exitCode: 2 });
    }
    expect(readFileSync(at("night-1.csv"), "utf8")).toBe(pullDownLog({ strength: 1, day: 1 }));
  });

  test("page and PDF under one name are refused before either is written", async () => {
    const both = ["--html", at("both"), "--pdf", at("both")];
    expect(await coldfall(["compare", at("night-1.csv"), at("night-2.csv"), ...both])).toMatchObject({ exitCode: 2 });
    expect(existsSync(at("both"))).toBe(false);
  });

  test("a good page is not written where the PDF is refused", async () => {
    const both = ["--html", at("good.html"), "--pdf", at("night-2.csv")];
    expect(await coldfall(["compare", at("night-1.csv"), at("night-2.csv"), ...both])).toMatchObject({ exitCode: 2 });
    expect(existsSync(at("good.html"))).toBe(false);
  });
});

describe("what is no file", () => {
  const entry = join(import.meta.dirname, "../../src/cli/coldfall.js");
  const shell = (command: string) =>
    spawnSync("bash", ["-c", command], {
      cwd: folder,
      encoding: "utf8",
      env: { ...process.env, COLDFALL: `${process.execPath} ${entry}`, RUN: run },
    });

  test("/dev/stdout goes into a pipe, into a file, and behind what a file holds", () => {
    const header = /^time,evaporator,cabinet,ambient,source\r?$/m;
    expect(shell("$COLDFALL export $RUN --out /dev/stdout --store st.coldfall | head -1").stdout).toMatch(header);
    expect(shell("$COLDFALL export $RUN --out /dev/stdout --store st.coldfall >out.txt").status).toBe(0);
    expect(readFileSync(at("out.txt"), "utf8")).toMatch(header);
    expect(
      shell("echo kept >more.txt; $COLDFALL export $RUN --out /dev/stdout --store st.coldfall >>more.txt").status,
    ).toBe(0);
    expect(readFileSync(at("more.txt"), "utf8")).toMatch(/^kept\ntime,/);
  });

  test("a pipe of the shell's own is written to", () => {
    const { status } = shell("$COLDFALL export $RUN --out >(cat >piped.txt) --store st.coldfall; sleep 0.3");
    expect(status).toBe(0);
    expect(readFileSync(at("piped.txt"), "utf8")).toMatch(/^time,/);
  });
});
