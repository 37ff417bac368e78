// `npm run bench` lists the benches of this folder, `npm run bench NAME` runs one. Each prints its figures as a
// markdown table, with the date and the machine; the tables of DEVELOPERS.md are copies of such prints.

import { readdirSync } from "node:fs";

const benches = readdirSync(import.meta.dirname)
  .filter((file) => file.endsWith(".ts") && file !== "run.ts" && file !== "print.ts")
  .map((file) => file.slice(0, -".ts".length))
  .sort();
const [name] = process.argv.slice(2);
if (name === undefined) {
  console.log(`npm run bench NAME, where NAME is one of: ${benches.join(", ")}`);
} else if (benches.includes(name)) {
  await import(`./${name}.ts`);
} else {
  console.error(`there is no bench "${name}"; there are: ${benches.join(", ")}`);
  process.exitCode = 2;
}
