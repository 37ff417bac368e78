// `--language`: results, files and refusals in the language asked for; help and JSON names as they are.

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openStore } from "../../src/store/index.ts";
import { pullDownLog } from "./pull-down-log.ts";
import { coldfall } from "./recorded-terminal.ts";

let folder = "";
const at = (name: string) => join(folder, name);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "coldfall-language-"));
  writeFileSync(at("good.csv"), pullDownLog({ strength: 1, day: 1 }));
  writeFileSync(at("night.csv"), pullDownLog({ strength: 0.6, day: 4 }));
});
afterAll(() => rmSync(folder, { recursive: true }));

const german = async (...args: string[]) => {
  // A replay waits for the clock, so it has to run.
  const { exitCode, printed, told } = await coldfall([...args, "--language", "de"], { now: () => performance.now() });
  return { exitCode, printed: printed.replaceAll(/\s+/g, " "), told };
};

test("analyse answers in German, on the terminal and in its page, and says so in German", async () => {
  const { exitCode, printed, told } = await german("analyse", at("night.csv"), "--html", at("night.html"));
  expect(exitCode).toBe(0);
  expect(printed).toMatch(/^Coldfall zu night\.csv/);
  expect(told).toMatch(/night\.html geschrieben\./);
  expect(readFileSync(at("night.html"), "utf8")).toMatch(/<html lang="de">[\s\S]*Wahrscheinliche Ursachen/);
});

test("JSON keeps its names, and holds German sentences", async () => {
  const { printed } = await german("analyse", at("night.csv"), "--json");
  const document = JSON.parse(printed);
  expect(document.format).toBe("coldfall-analysis-1");
  expect(document.sources[0].source).toBe("mains");
  expect(document.sources[0].reasons.join(" ")).toMatch(/Bezugslauf/);
});

test("compare, hot-day and plan answer in German", async () => {
  expect((await german("compare", at("good.csv"), at("night.csv"))).printed).toMatch(/verglichen mit night\.csv/);
  expect((await german("hot-day", at("good.csv"), "--ambient", "32")).printed).toMatch(/^Coldfall an Hitzetagen/);
  expect((await german("plan", "--from", "13:00", "--sources", "mains,gas")).printed).toMatch(/^Plan eines Laufs/);
});

test("record tells the night in German, and report the morning after", async () => {
  const store = ["--store", at("workshop.coldfall")];
  const replay = ["record", "--fridge", "Larch", "--replay", at("night.csv"), "--speed", "1000000", ...store];
  const { exitCode, printed, told } = await german(...replay);
  expect(exitCode).toBe(0);
  expect(told).toMatch(/Larch wird als Lauf \S+ aufgezeichnet\./);
  expect(printed).toMatch(/neue Messwerte sind gespeichert/);
  const run = /Larch wird als Lauf (\S+)/.exec(told)?.[1] ?? "";
  expect((await german("report", run, ...store)).printed).toMatch(/^Die Nacht von Larch auf einer Seite/);
});

test("a log is brought in in the language asked for: how it is understood, what is asked, what became of it", async () => {
  const own = ["--store", at("bringing.coldfall")];
  await coldfall(["fridges", "add", "Larch", ...own]);
  writeFileSync(at("fremd.csv"), "Zeit;Verdampfer °C;Innenraum °C\n24.06.2026 07:00;6,9;7\n24.06.2026 07:01;6,9;x\n");
  const shown = await german("import", at("fremd.csv"), "--preview");
  expect(shown.printed).toMatch(/fremd\.csv, so verstanden: .*Spalte „Innenraum °C“: der Kühlraum.*Noch offen: /);
  expect((await german("import", at("fremd.csv"), ...own)).told).toMatch(/nennt seine Zeitzone nicht.*--zone/);
  const { printed } = await german("import", at("fremd.csv"), "--zone", "UTC", ...own);
  expect(printed).toMatch(/2 Zeilen in einen neuen Lauf von Larch.*nicht zu lesen, die erste in Zeile 3: „x“/);
  const document = JSON.parse((await german("import", at("fremd.csv"), "--preview", "--json")).printed);
  expect(document.questions[0].sentence).toMatch(/nennt seine Zeitzone nicht/);
});

test("what cannot be used is refused in the language asked for", async () => {
  const { exitCode, told } = await german("analyse", at("missing.csv"));
  expect(exitCode).toBe(2);
  expect(told).toMatch(/^Es gibt keine Datei „.*missing\.csv“; prüfen Sie Namen und Ordner\.\n$/);
  expect((await german("plan", "--from", "noon", "--sources", "mains")).told).toMatch(/geben Sie an: eine Uhrzeit/);
});

test("an option says in the language asked for what it takes", async () => {
  for (const args of [
    ["analyse", "x.csv", "--margin", "5"],
    ["analyse", "x.csv", "--source-at", "7:15=gas"],
    ["compare", "a.csv", "b.csv", "--read-out", "noon"],
    ["import", "x.csv", "--zone", "Moon"],
    ["import", "x.csv", "--column", "A=larder"],
    ["hot-day", "x.csv", "--ambient", "90"],
    ["hot-day", "x.csv", "--load", "5"],
    ["record", "--fridge", "x", "--too-warm", "8"],
    ["record", "--fridge", "x", "--quiet", "late"],
    ["serve", "--quiet", "late"],
  ]) {
    const [, told] = /ist nicht zu gebrauchen; geben Sie an: (.+)\.$/m.exec((await german(...args)).told) ?? [];
    expect(told).toMatch(/etwa|wie|Temperatur/);
    expect((await coldfall(args)).told).toMatch(/cannot be used; give .*(such as|temperature)/);
  }
});

test("English stands without the option, and a language that is not there is refused", async () => {
  expect((await coldfall(["analyse", at("night.csv")])).printed).toMatch(/^Coldfall on night\.csv/);
  const { exitCode, told } = await coldfall(["analyse", at("night.csv"), "--language", "xx"]);
  expect(exitCode).toBe(2);
  expect(told).toMatch(/en, de/);
});

for (const [args, english, other] of [
  [["analyse", "--nigth"], /^Unknown option '--nigth'/, /^Die Option „--nigth“ gibt es nicht/],
  [
    ["anlyse"],
    /^Unknown command 'anlyse' \(did you mean analyse\?\)/,
    /^Den Befehl „anlyse“ gibt es nicht \(gemeint vielleicht analyse\?\)/,
  ],
  [["compare", "one.csv"], /^Missing required argument 'after'/, /^Die Angabe „after“ fehlt/],
  [
    ["hot-day", "a.csv", "--ambient"],
    /^Option '--ambient .*' needs a value/,
    /^Nach der Option „--ambient .*“ fehlt ein Wert/,
  ],
  [
    ["compare", "one", "two", "three"],
    /^Too many arguments: expected 2 but got 3: one, two, three/,
    /^Zu viele Angaben: 2 erwartet, 3 erhalten: one, two, three/,
  ],
  [
    ["record", "--purpose", "fun"],
    /^--purpose <purpose>: 'fun' is none of test, /,
    /^--purpose <purpose>: „fun“ ist keines von test, /,
  ],
] as const) {
  test(`"${args.join(" ")}" is refused in either language, with what to do next`, async () => {
    const inEnglish = await coldfall(args);
    expect(inEnglish.exitCode).toBe(2);
    expect(inEnglish.told).toMatch(english);
    expect(inEnglish.told).toMatch(/; run "coldfall (?:--help|help [a-z-]+)" to see what can be given\.\n$/);
    // In the middle, so that an option at the end of the line stays without a value.
    const inGerman = await coldfall([args[0], "--language=de", ...args.slice(1)]);
    expect(inGerman.exitCode).toBe(2);
    expect(inGerman.told).toMatch(other);
    expect(inGerman.told).toMatch(/; „coldfall (?:--help|help [a-z-]+)“ zeigt, was sich angeben lässt\.\n$/);
  });
}

test("--fahrenheit tells the same result in degrees Fahrenheit, and what is typed stays in °C", async () => {
  const told = async (...args: string[]) => (await coldfall(args)).printed.replaceAll(/\s+/g, " ");
  const analysis = await told("analyse", at("good.csv"), "--fahrenheit");
  expect(analysis).toMatch(/°F/);
  expect(analysis.replace(/40 °F, which is 4\.4 °C/g, "")).not.toMatch(/°C/);
  expect(await told("hot-day", at("good.csv"), "--ambient", "35", "--fahrenheit")).toMatch(/[Aa]t 95 °F outside/);
});

describe("every command takes --language", () => {
  test("and so does every part of one", async () => {
    const { printed } = await coldfall(["completion", "bash"]);
    const offered = [...printed.matchAll(/^ {4}"(.+?) "\*\) offered="(.*)"/gm)].map(([, name, words]) => ({
      name,
      words,
    }));
    // Those with parts offer the parts, which take it.
    const leaves = offered.filter(({ name }) => !offered.some((other) => other.name.startsWith(`${name} `)));
    expect(leaves.length).toBeGreaterThan(40);
    for (const { name, words } of leaves) expect(`${name}: ${words}`).toContain(" --language ");
  });

  test("what the workshop keeps is listed and changed in German", async () => {
    const store = ["--store", at("kept.coldfall")];
    const said = async (...args: string[]) => (await german(...args, ...store)).printed;
    expect(await said("fridges", "add", "Larch")).toMatch(/^Larch ist im Speicher/);
    expect(await said("fridges")).toMatch(/^Kühlschrank Bauart/);
    await coldfall(["import", at("night.csv"), ...store]);
    const { runs } = JSON.parse((await coldfall(["runs", "--json", ...store])).printed);
    const run = runs[0].id;
    expect(await said("runs")).toMatch(/^Lauf Kühlschrank Name/);
    expect(await said("runs", "edit", run, "--notes", "x")).toMatch(/night\.csv ist geändert/);
    expect(await said("source", "mains", "--fridge", "Larch", "--run", run, "--at", "2026-06-05T08:30:00Z")).toMatch(
      /Larch: auf 230 V seit 5\. Juni 08:30/,
    );
    const noted = ["note-reading", "room=21", "--fridge", "Larch", "--run", run, "--at", "2026-06-05T08:30:00Z"];
    expect(await said(...noted)).toMatch(/^1 Messwert von Larch, .*, notiert/);
    expect(await said("export", run, "--out", at("out.csv"))).toMatch(/out\.csv/);
    expect(await said("alarms")).toMatch(/^Kein Alarm/);
    expect(await said("sheet", run)).toMatch(/^Noch kein Laufblatt|kein Laufblatt/);
    expect(await said("probes", "put", "28AA")).toMatch(/28AA ist/);
    expect(await said("probes")).toMatch(/^Fühler/);
    expect(await said("probes", "warm", at("night.csv"))).toMatch(/^Kein|wurde/);
    expect(await said("probes", "curve", "28AA", "--thermistor", "10000,3950")).toMatch(/25 °C/);
    expect(await said("probes", "calibrate", "28AA", "--ice-point", "0.1")).toMatch(/Eispunkt|Eis/);
    expect(await said("baselines")).toMatch(/^(Noch )?[Kk]ein Bezug/);
    expect(await said("results")).toMatch(/^(Noch )?[Kk]ein Ergebnis/);
    expect(await said("store", "check")).toMatch(/^(Alles|Der Speicher) /);
    expect(await said("runs", "remove", run)).toMatch(/entfernt/);
  });

  test("alarms are told in German, in the list and in JSON", async () => {
    const store = ["--store", at("alarmed.coldfall")];
    await coldfall(["fridges", "add", "Larch", ...store]);
    await coldfall(["import", at("night.csv"), ...store]);
    const [{ id: runId }] = JSON.parse((await coldfall(["runs", "--json", ...store])).printed).runs;
    const raisedUnixMs = Date.parse("2026-06-05T10:00:00Z");
    const reason = {
      ...{ code: "cabinet-warm", celsius: 12, limitCelsius: 8, sinceMs: raisedUnixMs - 3_600_000 },
      ...{ subject: "", cautions: [] },
    };
    {
      await using opened = await openStore(at("alarmed.coldfall"));
      await opened.alarms.raise({ runId, kind: "cabinet-warm", raisedUnixMs, reason });
    }
    const { printed } = await german("alarms", ...store);
    expect(printed).toMatch(/Kühlraum zu warm/);
    const list = JSON.parse((await german("alarms", "--json", ...store)).printed);
    expect(list.alarms[0].text).toMatch(/Kühlraum/);
    const id = list.alarms[0].id;
    expect((await german("alarms", "acknowledge", id, ...store)).printed).toMatch(/ist zur Kenntnis genommen/);
  });

  test("baseline, simulate and serve", async () => {
    expect((await german("baseline", at("good.csv"), "--out", at("g.baseline.json"))).printed).toMatch(/1 Bezugslauf/);
    expect((await german("simulate", "--out", at("invented.csv"), "--every", "600")).printed).toMatch(/Zeilen/);
    expect((await german("serve", "--port", "http")).told).toMatch(/ist nicht zu gebrauchen; geben Sie an: ein/);
  });

  test("and says in it what its options take", async () => {
    for (const args of [
      ["store", "retire", "--before", "June"],
      ["source", "gas", "--fridge", "x", "--at", "noon"],
      ["note-reading", "cabinet", "--fridge", "x"],
      ["probes", "calibrate", "x", "--against", "1"],
      ["probes", "curve", "x", "--thermistor", "1"],
      ["boards", "light", "p", "--seconds", "x"],
      ["boards", "token", "a b"],
      ["simulate", "--out", "x.csv", "--schedule", "x"],
      ["simulate", "--out", "x.csv", "--ambient", "x"],
      ["simulate", "--out", "x.csv", "--fault", "x"],
      ["fridges", "add", "x", "--litres", "0"],
      ["serve", "--tls-cert", "x"],
    ]) {
      expect((await german(...args)).told).toMatch(/ist nicht zu gebrauchen; geben Sie an: /);
      expect((await coldfall(args)).told).toMatch(/cannot be used; give /);
    }
  });
});
