import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/command-line.ts";
import { program, words } from "../../src/report/index.ts";
import { publishedShapes } from "../../src/schema/documents/index.ts";
import { coldfall, recordedTerminal } from "./recorded-terminal.ts";

const { cli } = words("en");
const commands = ["analyse", "baseline", "compare", "simulate", "schema", "completion"];

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-cli-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe("help", () => {
  test("of the program names every command, the exit codes and the care to take", async () => {
    const { exitCode, printed, told } = await coldfall(["--help"]);
    expect({ exitCode, told }).toEqual({ exitCode: 0, told: "" });
    for (const command of commands) expect(printed).toMatch(new RegExp(`^ {2}${command}\\b`, "m"));
    for (const word of ["Exit code 0", "Mains voltage", "LPG", "flame", "CO", "ammonia"])
      expect(printed).toContain(word);
  });

  test("of each command that the program lists is what its name asks for", async () => {
    const { printed } = await coldfall(["--help"]);
    const [list] = printed.split("Examples:");
    const listed = [...list.matchAll(/^ {2}([a-z][a-z-]*) /gm)]
      .map(([, name]) => name)
      .filter((name) => name !== "help");
    expect(listed.length).toBeGreaterThan(20);
    for (const name of listed) {
      const own = await coldfall([name, "--help"]);
      expect(own.printed).toMatch(new RegExp(`^Usage: coldfall ${name}\\b`));
    }
  });

  for (const command of commands) {
    test(`of ${command} shows examples of it, and fits a terminal of 100 characters`, async () => {
      const { exitCode, printed } = await coldfall([command, "--help"]);
      expect(exitCode).toBe(0);
      const examples = printed.slice(printed.indexOf(cli.usageHeading));
      expect(examples).toMatch(new RegExp(`coldfall ${command}\\b`));
      const beforeExamples = printed.slice(0, printed.indexOf(cli.usageHeading)).split("\n");
      expect(beforeExamples.filter((line) => line.length > 100)).toEqual([]);
    });
  }
});

test("help fits a terminal of 60 characters, but for its examples, which are to be copied", async () => {
  for (const command of ["analyse", "import", "runs", "simulate"]) {
    const terminal = recordedTerminal({ width: 60 });
    await runCommandLine([command, "--help"], terminal);
    const beforeExamples = terminal.printed.slice(0, terminal.printed.indexOf(cli.usageHeading)).split("\n");
    // A path cannot be broken.
    expect(beforeExamples.filter((line) => line.length > 60 && !line.includes(".coldfall"))).toEqual([]);
  }
});

test("--version prints the version of the package", async () => {
  expect(await coldfall(["--version"])).toEqual({ exitCode: 0, printed: `${program.version}\n`, told: "" });
});

describe("a command line that cannot be understood ends with one sentence and exit code 2:", () => {
  for (const [args, sentence] of [
    [["analyze", "night.csv"], /Unknown command 'analyze' .*analyse/],
    [["analyse"], /Missing required argument 'log'/],
    [["analyse", "night.csv", "--know-good", "x"], /Unknown option '--know-good' .*--known-good/],
    [["analyse", "night.csv", "--margin", "2"], /^--margin: "2" cannot be used/],
    [["analyse", "night.csv", "--margin", ""], /^--margin: "" cannot be used/],
    [["analyse", "night.csv", "--source-at", "07:15=gas"], /^--source-at: "07:15=gas" cannot be used/],
    [["analyse", "night.csv", "--source-at", "2026-06-04T07:15:00Z=diesel"], /^--source-at: .*gas, mains, dc12 or off/],
    [["analyse", "none.csv"], /^There is no file "none\.csv"/],
    [["baseline", "night.csv"], /--out/],
    [["compare", "before.csv"], /Missing required argument 'after'/],
    [["compare", "before.csv", "after.csv", "third.csv"], /Too many arguments/],
    [["compare", "before.csv", "after.csv", "--margin", "0"], /^--margin: "0" cannot be used/],
    [["alarms", "lst"], /^"coldfall alarms" has no part "lst"; it has list, acknowledge; run "coldfall help alarms"/],
    [["probes", "put", " "], /^PROBE: " " cannot be used; give the probe's own id, such as 28-0a41/],
    [["compare", "none.csv", "after.csv"], /^There is no file "none\.csv"/],
    [["schema", "analysys"], /is none of analysis/],
    [["completion", "csh"], /is none of bash, zsh, fish/],
  ] as const) {
    test(args.join(" "), async () => {
      const { exitCode, printed, told } = await coldfall(args);
      expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
      expect(told).toMatch(sentence);
      expect(told).toMatch(/^[^\n]+[^.\n]\.\n$/);
    });
  }
});

describe("files that cannot be used end with one sentence that says what, where and what to do:", () => {
  const good = "time,evaporator,cabinet,ambient,source\n2026-06-04T07:00:00Z,26.9,26.8,26.7,off\n";
  for (const [what, files, args, sentence] of [
    ["an empty log", { "a.csv": "" }, ["analyse", "a.csv"], /"a\.csv" holds no readings/],
    [
      "an unknown source",
      { "a.csv": good.replace("off", "diesel") },
      ["analyse", "a.csv"],
      /"a\.csv", line 2: "diesel" is not an energy source; write gas, mains, dc12 or off/,
    ],
    [
      "no column that anyone knows",
      { "a.csv": "larder;attic\ncold;dry\n" },
      ["analyse", "a.csv"],
      /"a\.csv", line 1: none of the columns .*--map/,
    ],
    [
      "another logger's dates that can be read in two ways",
      { "a.csv": "Time (UTC);Fridge °C\n03.04.2026 07:00;4,5\n" },
      ["analyse", "a.csv"],
      /"a\.csv", line 2: "03\.04\.2026 07:00" can be 3 April 2026 07:00 or 4 March 2026 07:00; say which with .*--date-order dmy or mdy.*--map/,
    ],
    [
      "a run sheet with a wrong field",
      { "a.csv": good, "a.sheet.json": '{"gasPressureMbar":"30"}' },
      ["analyse", "a.csv"],
      /"a\.sheet\.json", field "gasPressureMbar": write a number without quotes/,
    ],
    [
      "a run sheet that is not JSON",
      { "a.csv": good, "s.json": "{" },
      ["analyse", "a.csv", "--sheet", "s.json"],
      /"s\.json", line 1, column 2: this is not JSON/,
    ],
    [
      "a newer baseline",
      { "a.csv": good, "b.json": '{"format":"coldfall-baseline-2"}' },
      ["analyse", "a.csv", "--baseline", "b.json"],
      /"b\.json" is of format "coldfall-baseline-2", .* update coldfall/,
    ],
    [
      "a mapping that does not fit",
      { "a.csv": good, "m.json": '{"format":"coldfall-log-mapping-1","time":"Zeit","positions":{"cabinet":"K1"}}' },
      ["analyse", "a.csv", "--map", "m.json"],
      /"a\.csv": the mapping names a column "Zeit", but the header is "time,/,
    ],
    [
      "a baseline file given as a log",
      { "a.csv": good, "b.json": '{"format":"coldfall-baseline-1","kind":"own"}' },
      ["analyse", "a.csv", "--known-good", "b.json"],
      /"b\.json" is no log but a baseline file; give it with --baseline\./,
    ],
    [
      "a run sheet given as a log",
      { "a.sheet.json": '{ "format": "coldfall-run-sheet-1" }' },
      ["analyse", "a.sheet.json"],
      /"a\.sheet\.json" is no log but a run sheet; give it with --sheet/,
    ],
    [
      "a result given as a log",
      { "a.json": '{\n  "format": "coldfall-analysis-1"' },
      ["analyse", "a.json"],
      /"a\.json" is no log but a result in JSON; give the log it was made from\./,
    ],
    [
      "a page given as a log",
      { "a.html": "<!doctype html>\n<html>" },
      ["analyse", "a.html"],
      /"a\.html" is no log but a page/,
    ],
    [
      "a store given as a log",
      { "s.coldfall": "SQLite format 3\0\u0010" },
      ["analyse", "s.coldfall"],
      /"s\.coldfall" is no log but a store: give it with --store, and name its runs\./,
    ],
    [
      "a log given as a baseline",
      { "a.csv": good, "b.csv": good },
      ["analyse", "a.csv", "--baseline", "b.csv"],
      /"b\.csv": this is not JSON, which is what is read here; check that it is the file you mean/,
    ],
    [
      "a log given twice",
      { "a.csv": good },
      ["analyse", "a.csv", "a.csv"],
      /"a\.csv" is given twice, under its name or as a run of the store: .* leave one out/,
    ],
    [
      "a log compared with itself",
      { "a.csv": good, "b.csv": good },
      ["analyse", "a.csv", "--known-good", "b.csv"],
      /"b\.csv" and "a\.csv" are the same log: .* leave one out/,
    ],
  ] as const) {
    test(what, async () => {
      for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
      const here = args.map((arg) => (arg in files ? join(folder, arg) : arg));
      const { exitCode, printed, told } = await coldfall([...here, "--json", "--html", join(folder, "out.html")]);
      expect({ exitCode, printed }).toEqual({ exitCode: 2, printed: "" });
      expect(told.replaceAll(`${folder}/`, "")).toMatch(sentence);
      expect(told).toMatch(/^[^\n]+\.\n$/);
      expect(readdirSync(folder).sort()).toEqual(Object.keys(files).sort());
    });
  }
});

describe("schema", () => {
  test("lists the published formats", async () => {
    expect(await coldfall(["schema"])).toEqual({ exitCode: 0, printed: `${publishedShapes.join("\n")}\n`, told: "" });
  });

  for (const shape of publishedShapes) {
    test(`prints the JSON Schema of "${shape}", which compiles`, async () => {
      const { printed } = await coldfall(["schema", shape]);
      const ajv = addFormats.default(new Ajv2020({ strict: false }));
      expect(ajv.compile(JSON.parse(printed))).toBeTypeOf("function");
    });
  }

  test("of a log mapping takes a good one and turns away one without probes", async () => {
    const ajv = addFormats.default(new Ajv2020({ strict: false }));
    const validate = ajv.compile(JSON.parse((await coldfall(["schema", "log-mapping"])).printed));
    const mapping = { format: "coldfall-log-mapping-1", time: "t", positions: { cabinet: "a" } };
    expect(validate(mapping)).toBe(true);
    expect(validate({ ...mapping, positions: { larder: "a" } })).toBe(false);
    expect(validate({ ...mapping, positions: {} })).toBe(false);
  });
});

describe("completion", () => {
  for (const shell of ["bash", "zsh", "fish"] as const) {
    test(`for ${shell} knows every command and the options of analyse`, async () => {
      const { printed } = await coldfall(["completion", shell]);
      for (const word of [...commands, "known-good", "source-at", "html"]) expect(printed).toContain(word);
    });
  }
});

test("a fault of the program ends with exit code 3 and asks for a report", async () => {
  const { exitCode, told } = await coldfall(["schema"], {
    print: () => {
      throw new TypeError("planted");
    },
  });
  expect(exitCode).toBe(3);
  expect(told).toMatch(/^A fault in coldfall.*\n[\s\S]*planted/);
});

test("help with an unknown command is refused as the command itself is", async () => {
  for (const name of ["foo", "analys"]) {
    const alone = await coldfall([name]);
    expect(await coldfall(["help", name])).toEqual(alone);
    expect(alone).toMatchObject({ exitCode: 2, printed: "" });
    expect(alone.told).toMatch(`Unknown command '${name}'`);
  }
  for (const args of [["help"], ["help", "runs"], ["help", "help"]]) {
    expect(await coldfall(args)).toMatchObject({ exitCode: 0, told: "" });
  }
});
