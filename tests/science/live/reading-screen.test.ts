import { expect, test } from "vitest";
import { oddness, ReadingScreen } from "../../../src/science/live/reading-screen.ts";

const passed = (screen: ReadingScreen, values: readonly number[]) =>
  values.flatMap((value, i) => screen.pass(i * 10_000, value).map((heard) => heard.value));

test("a sensor's codes and what no fridge can show are named as such", () => {
  expect(oddness("cabinet", 85)).toBe("power-on-value");
  expect(oddness("cabinet", -127)).toBe("disconnected-value");
  expect(oddness("cabinet", 300)).toBe("out-of-range");
  expect(oddness("cabinet", Number.NaN)).toBe("not-a-number");
  expect(oddness("boiler", 85)).toBeNull();
  expect(oddness("supply", 12.4)).toBeNull();
});

test("a single wild reading between believable ones is left out", () => {
  expect(passed(new ReadingScreen("cabinet"), [10, 10.1, 40, 10.2, 10.1])).toEqual([10, 10.1, 10.2, 10.1]);
});

test("a jump that stays is believed with its next reading, and nothing of it is lost", () => {
  expect(passed(new ReadingScreen("cabinet"), [10, 40, 40.1, 40])).toEqual([10, 40, 40.1, 40]);
});

test("a reading that comes late is passed on without being held against later ones", () => {
  const screen = new ReadingScreen("cabinet");
  screen.pass(100_000, 5);
  expect(screen.pass(0, 20)).toEqual([{ unixMs: 0, value: 20 }]);
  expect(screen.pass(110_000, 5.1)).toHaveLength(1);
});
