import { describe, expect, test } from "vitest";
import { judged, simulated } from "../simulated-runs.ts";

const keepingUp = (run: Parameters<typeof judged>[0], known = false) => {
  const { keepsUp } = judged(run, known ? {} : { knownGood: [] });
  return keepsUp.map(({ baseline, reasons }) => ({
    baseline,
    usual: reasons.find((reason) => reason.code === "usual-depth"),
    codes: reasons.map(({ code }) => code),
  }));
};

describe("does it keep up, without any known-good run", () => {
  test("a sound fridge is held against what is usual, and said to be as deep; the statement names its baseline", () => {
    for (const { baseline, usual } of keepingUp(simulated(9))) {
      expect(baseline).toBe("generic");
      expect(usual).toMatchObject({ low: 20, good: 28 });
      expect(usual).not.toMatchObject({ side: "below" });
    }
  });

  test("what the usual range cannot see is said with it", () => {
    for (const { codes } of keepingUp(simulated(9))) expect(codes).toContain("usual-depth-cannot-see");
  });

  test("a fridge that cools with half its strength lies below the usual range", () => {
    for (const { usual } of keepingUp(simulated(30, { faults: [{ name: "cooling-unit", size: 0.5 }] })))
      expect(usual).toMatchObject({ side: "below" });
  });

  test("with known-good runs it stands on those, and says nothing of the usual", () => {
    for (const { baseline, codes } of keepingUp(simulated(9), true)) {
      expect(baseline).toBe("own");
      expect(codes).not.toContain("usual-depth");
    }
  });
});
