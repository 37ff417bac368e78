// The layer rule as a command, `npm run layers`: the rules are in layer-rules.ts. Added here: that the check
// saw every file there is (a cruiser that finds no compiler sees none and reports no violation), and that the
// ground floor asks no clock and draws no random number. Tested by tooling/layers.test.ts.

import { globSync, readFileSync } from "node:fs";
import path from "node:path";
import { cruise, type ICruiseResult } from "dependency-cruiser";
import { layerRules } from "./layer-rules.ts";

/** Fewer files than this are not this project. */
const fewestFiles = 30;

/** Clocks, dice and the machine, none of which the ground floors may ask. `new Date(instant)` is arithmetic. */
const askedOfTheWorld =
  /\bDate\.now\b|\bnew Date\(\s*\)|\bMath\.random\b|\bperformance\b|\bprocess\b|\bcrypto\b|\bfetch\(/;
const groundFloors = ["src/schema", "src/science", "src/simulate"];

/**
 * Checks the layer rule in the project at `root`.
 *
 * @param fewest how many files the check must see to be believed.
 * @returns a sentence per violation; empty when the rule holds.
 */
export async function layerViolations(root: string, fewest = fewestFiles): Promise<string[]> {
  const folders = ["src", "web"].filter((folder) => globSync(`${folder}/**/*.{ts,tsx}`, { cwd: root }).length > 0);
  const files = folders.flatMap((folder) => globSync(`${folder}/**/*.{ts,tsx}`, { cwd: root }));
  if (files.length < fewest)
    return [`only ${files.length} files found under ${root}; at least ${fewest} were expected`];
  const result = await cruised(root, folders);
  const seen = new Set(result.modules.map((module) => module.source));
  return [
    ...files.filter((file) => !seen.has(file)).map((file) => `${file} was not seen by the check`),
    ...(result.summary.totalDependenciesCruised === 0 ? ["the check saw no import at all"] : []),
    ...result.summary.violations.map(({ from, to, rule }) => `${from} → ${to}: ${rule.name}`),
    ...files.flatMap((file) => worldly(root, file)),
  ];
}

async function cruised(root: string, folders: string[]): Promise<ICruiseResult> {
  const { output } = await cruise(folders, {
    baseDir: root,
    ruleSet: layerRules,
    validate: true,
    // Type imports count: a type from above is knowledge from above.
    tsPreCompilationDeps: true,
    doNotFollow: { path: ["node_modules"] },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "node", "default"] },
  });
  if (typeof output === "string") throw new Error(`the layer check gave no result: ${output}`);
  return output;
}

function worldly(root: string, file: string): string[] {
  if (!groundFloors.some((floor) => file.startsWith(`${floor}/`))) return [];
  const lines = readFileSync(path.join(root, file), "utf8").split("\n");
  return lines.flatMap((line, i) => {
    const found = askedOfTheWorld.exec(line.replace(/^\s*(\/\/|\*|\/\*).*/, ""));
    return found ? [`${file}:${i + 1}: the ground floor may not use ${found[0]}`] : [];
  });
}

if (import.meta.main) {
  const violations = await layerViolations(path.join(import.meta.dirname, ".."));
  for (const violation of violations) console.error(violation);
  process.exitCode = violations.length > 0 ? 1 : 0;
}
