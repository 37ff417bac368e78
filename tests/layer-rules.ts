// The layer rule: imports point down only, and from one floor to another through that floor's doors.
// layers.ts runs it and adds what a list of rules cannot say.

import type { IFlattenedRuleSet, IRegularForbiddenRuleType } from "dependency-cruiser";

interface Floor {
  /** The floors it may import besides itself. */
  readonly floors: readonly string[];
  /** The packages it may use, Node's own modules among them; any when left out. */
  readonly packages?: readonly string[];
}

const floors: Readonly<Record<string, Floor>> = {
  "src/schema": { floors: [], packages: ["zod"] },
  "src/science": { floors: ["src/schema"], packages: ["simple-statistics", "ml-regression", "cephes"] },
  "src/simulate": { floors: ["src/schema"], packages: [] },
  "src/ingest": { floors: ["src/science", "src/schema"] },
  "src/store": { floors: ["src/science", "src/schema"] },
  "src/report": { floors: ["src/ingest", "src/store", "src/science", "src/schema"] },
  "src/workshop": {
    floors: ["src/report", "src/ingest", "src/store", "src/science", "src/simulate", "src/schema"],
  },
  "src/cli": {
    floors: [
      "src/server",
      "src/workshop",
      "src/report",
      "src/ingest",
      "src/store",
      "src/science",
      "src/simulate",
      "src/schema",
    ],
  },
  "src/server": {
    floors: ["src/workshop", "src/report", "src/ingest", "src/store", "src/science", "src/simulate", "src/schema"],
  },
  web: { floors: ["src/report", "src/science", "src/schema"] },
};

const ours = "^(src|web|tests)/";
const within = (...folders: readonly string[]) => `^(${folders.join("|")})/`;
const error = (
  name: string,
  from: IRegularForbiddenRuleType["from"],
  to: IRegularForbiddenRuleType["to"],
): IRegularForbiddenRuleType => ({
  name,
  severity: "error",
  from,
  to,
});

const pointsDown = Object.entries(floors).map(([floor, may]) =>
  error(
    `${floor} imports only what lies below it`,
    { path: within(floor) },
    { path: ours, pathNot: within(floor, ...may.floors) },
  ),
);

/**
 * A floor's door is its index.ts. What only some jobs need has a door of its own, so that no command waits for what it never
 * uses: a job of the science, a kind of report, a job of the workshop, the shapes of JSON files, in and out, the service.
 */
const otherDoors = [
  "^src/schema/(api|documents|shapes)/index\\.ts$",
  "^src/science/(before-after|hot-days|live|plan|probes|sensors)/index\\.ts$",
  "^src/ingest/json-files/index\\.ts$",
  "^src/report/(analysis|comparison|drawing|hot-day|import|page|plan|recording|test-report)/index\\.ts$",
  "^src/report/analysis/analysis-page\\.ts$",
  "^src/report/for-pages\\.ts$",
  "^src/workshop/[^/]+\\.ts$",
  "^src/workshop/recording/index\\.ts$",
];

const throughDoors = Object.keys(floors).map((floor) =>
  error(
    `other floors use ${floor} through a door of it`,
    { path: "^(src|web)/", pathNot: within(floor) },
    { path: within(floor), pathNot: [`^${floor}/index\\.ts$`, ...otherDoors] },
  ),
);

const namedPackages = Object.entries(floors).flatMap(([floor, { packages }]) =>
  packages === undefined
    ? []
    : error(
        `${floor} uses no package but ${packages.join(", ") || "its own files"}`,
        { path: within(floor) },
        { couldNotResolve: false, pathNot: [ours, ...packages.map((name) => `(^|/)node_modules/${name}/`)] },
      ),
);

export const layerRules: IFlattenedRuleSet = {
  forbidden: [
    ...pointsDown,
    ...throughDoors,
    ...namedPackages,
    error(
      "pages take from src/report only what is made for them",
      { path: within("web") },
      { path: within("src/report"), pathNot: "^src/report/for-pages\\.ts$" },
    ),
    error("every import is found", {}, { couldNotResolve: true }),
    // Types may know each other; running code that needs itself to load may not.
    error("no import goes round in a circle", {}, { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } }),
  ],
};
