import { fc, test } from "@fast-check/vitest";
import { expect } from "vitest";
import { iceSlushCheck, type SlushProbe } from "../../../src/science/probes/ice-slush-check.ts";
import { roleByWarming } from "../../../src/science/probes/role-by-warming.ts";

const rounded = (celsius: number) => Math.round(celsius * 16) / 16;

/** A minute in the hand, a reading a second: towards 33 °C with a time constant of 40 s. */
const inHand = (probeId: string, from = 21, seconds = 60) => ({
  probeId,
  celsius: Array.from({ length: seconds }, (_, i) => rounded(33 + (from - 33) * Math.exp(-Math.max(0, i - 3) / 40))),
});
const atRest = (probeId: string, from = 21, perSecond = 0) => ({
  probeId,
  celsius: Array.from({ length: 60 }, (_, i) => rounded(from + i * perSecond)),
});

test("the probe in the hand is found among those at rest", () => {
  expect(roleByWarming([atRest("a"), inHand("b"), atRest("c")])).toMatchObject({
    outcome: "found",
    probeId: "b",
    roseKelvin: expect.closeTo(9, 0),
  });
});

test("before it has risen by 2 K nothing is said", () => {
  expect(roleByWarming([atRest("a"), inHand("b", 21, 9)])).toMatchObject({ outcome: "none-yet" });
  expect(roleByWarming([])).toEqual({ outcome: "none-yet", mostKelvin: 0 });
});

test("two probes in one hand are told, not guessed between", () => {
  expect(roleByWarming([inHand("a"), atRest("b"), inHand("c")])).toMatchObject({
    outcome: "several",
    probeIds: expect.arrayContaining(["a", "c"]),
  });
});

test("a room that warms all probes is nobody's hand", () => {
  const sunny = ["a", "b", "c"].map((probeId) => atRest(probeId, 21, 0.06));
  expect(roleByWarming(sunny)).toMatchObject({ outcome: "none-yet" });
});

test("a room that cools makes no still probe a warmed one", () => {
  expect(roleByWarming([atRest("a", 21, -0.08), atRest("b", 21, -0.08), atRest("c")])).toMatchObject({
    outcome: "none-yet",
  });
});

test("in air as warm as a hand no probe is found", () => {
  expect(roleByWarming([atRest("a", 33), inHand("b", 33)])).toMatchObject({ outcome: "none-yet" });
});

test.prop([fc.integer({ min: 0, max: 4 }), fc.integer({ min: 2, max: 5 }), fc.integer({ min: 15, max: 26 })])(
  "whichever probe is held, it is the one that is named",
  (held, count, room) => {
    fc.pre(held < count);
    const probes = Array.from({ length: count }, (_, i) =>
      i === held ? inHand(`p${i}`, room) : atRest(`p${i}`, room),
    );
    expect(roleByWarming(probes)).toMatchObject({ outcome: "found", probeId: `p${held}` });
  },
);

/** Ten minutes, a reading every 10 s; `celsius` says what it shows. */
const probe = (
  probeId: string,
  celsius: (seconds: number) => number,
  options: Partial<SlushProbe> = {},
): SlushProbe => ({
  probeId,
  isInSlush: true,
  faults: 0,
  readings: Array.from({ length: 61 }, (_, i) => ({ seconds: i * 10, celsius: rounded(celsius(i * 10)) })),
  ...options,
});
const cooled = (offset: number) => (seconds: number) => offset + 21 * Math.exp(-seconds / 30);

test("a dry probe within its tolerance is good, and its offset is told", () => {
  expect(iceSlushCheck([probe("a", cooled(0.25))])).toEqual([{ probeId: "a", finding: "good", offsetKelvin: 0.25 }]);
});

test("a steady probe that is too far off is told with its offset", () => {
  expect(iceSlushCheck([probe("a", cooled(-1.5))])).toEqual([{ probeId: "a", finding: "far-off", offsetKelvin: -1.5 }]);
  expect(iceSlushCheck([probe("a", cooled(0.75))], 1)).toMatchObject([{ finding: "good" }]);
});

test("a probe that wanders or drops out between its readings is wet inside or loose", () => {
  const wandering = probe("a", (seconds) => cooled(0)(seconds) + 0.5 * Math.sin(seconds / 13));
  const droppingOut = probe("b", cooled(0), { faults: 5 });
  expect(iceSlushCheck([wandering, droppingOut])).toMatchObject([
    { probeId: "a", finding: "wet-or-loose", faults: 0 },
    { probeId: "b", finding: "wet-or-loose", faults: 5 },
  ]);
});

test("two swapped labels are found: one reads the room, the other the slush", () => {
  const asked = probe("a", () => 21);
  const stranger = probe("b", cooled(0.1), { isInSlush: false });
  const outside = probe("c", () => 21, { isInSlush: false });
  expect(iceSlushCheck([asked, stranger, outside])).toEqual([
    { probeId: "a", finding: "not-in-slush", instead: "b" },
    { probeId: "b", finding: "in-slush-unasked" },
    { probeId: "c", finding: "outside" },
  ]);
});

test("a probe still on its way down is not settled, whether near the slush or far from it", () => {
  const slow = (timeConstant: number) => (seconds: number) => 21 * Math.exp(-seconds / timeConstant);
  expect(iceSlushCheck([probe("a", slow(300)), probe("b", slow(1500))])).toMatchObject([
    { finding: "not-settled" },
    { finding: "not-settled" },
  ]);
});

test("a probe that says nothing is silent", () => {
  expect(iceSlushCheck([probe("a", () => 0, { readings: [], faults: 60 })])).toEqual([
    { probeId: "a", finding: "silent" },
  ]);
});
