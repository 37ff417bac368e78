// Cooling that stopped and did not come back: as strong as known-good until then is no reason to call the source good.

import { describe, expect, test } from "vitest";
import { compareRuns } from "../../../src/science/before-after/index.ts";
import { judged, simulated, sourceIn, stretchIn } from "../simulated-runs.ts";

/** Mains runs from hour 1 to 9, gas from 12 to 19. */
const mainsLost = simulated(31, { outages: [{ atHours: 6, hours: 3.5 }] });
const allLost = simulated(32, { outages: [{ atHours: 6, hours: 13 }] });
const cameBack = simulated(33, { outages: [{ atHours: 4, hours: 2 }] });
const sound = simulated(34);

const shareOf = (analysis: ReturnType<typeof judged>, ...causes: readonly string[]) =>
  analysis.causes.filter(({ cause }) => causes.includes(cause)).reduce((sum, { probability }) => sum + probability, 0);

describe("cooling that stopped and did not come back", () => {
  test("leaves the source undecided, and says how strong it was and until when", () => {
    const analysis = judged(mainsLost);
    expect(sourceIn(analysis, "mains").verdict).toBe("undecided");
    expect(sourceIn(analysis, "gas").verdict).toBe("sound");
    const [first] = stretchIn(analysis, "mains").reasons;
    expect(first).toMatchObject({ code: "stopped-for-good", estimate: { low: expect.any(Number) } });
  });

  test("points to that source's heat where another cooled later", () => {
    expect(shareOf(judged(mainsLost), "mains-element", "supply-voltage")).toBeGreaterThan(0.8);
    expect(shareOf(judged(mainsLost), "none")).toBeLessThan(0.05);
  });

  test("points to what all sources share where the next one is dead as well", () => {
    const analysis = judged(allLost);
    expect(sourceIn(analysis, "gas").verdict).toBe("not-cooling");
    expect(shareOf(analysis, "cooling-unit", "not-level", "ventilation", "thermostat")).toBeGreaterThan(0.8);
  });

  test("is no such thing where it came back", () => {
    expect(sourceIn(judged(cameBack), "mains").verdict).toBe("sound");
  });

  test("is neither the same nor better after a service, and is said", () => {
    const { sources } = compareRuns([sound.recording], [mainsLost.recording], { knownGood: [], margin: 0.15 });
    const onMains = sources.find(({ source }) => source === "mains");
    expect(onMains?.change).toBe("undecided");
    expect(onMains?.reasons[0]).toMatchObject({ code: "stopped-then", when: "after" });
  });
});
