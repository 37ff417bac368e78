import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { handOf } from "../../src/report/index.ts";
import { estimate } from "../../src/science/numbers/estimate.ts";

const hand = handOf("en", 120);
const plain = (text: string) => text.replaceAll("\u00a0", " ");

describe("a number is rounded to what its uncertainty supports", () => {
  // The first two rows are the examples of the project's own rules for fitted numbers.
  const rows = [
    [
      estimate("1/h", 0.4213, 0.3621, 0.4805, { standardError: 0.0302, readings: 214 }),
      "0.42 ± 0.03 per hour, 95 % interval 0.36 to 0.48, 214 readings",
    ],
    [
      estimate("Cel", 4.61, 3.83, 5.39, { standardError: 0.4, readings: 1 }),
      "4.6 ± 0.4 °C, 95 % interval 3.8 to 5.4, 1 reading",
    ],
    [
      estimate("1/h", 0.2514, 0.2473, 0.2555, { standardError: 0.0021 }),
      "0.251 ± 0.002 per hour, 95 % interval 0.247 to 0.256",
    ],
    [estimate("K/h", 6.68, 5.35, 8.01, { standardError: 0.68 }), "6.7 ± 0.7 K per hour, 95 % interval 5.4 to 8.0"],
    [estimate("K", -2.04, -5, 1, { standardError: 1.5 }), "−2.0 ± 1.5 K, 95 % interval −5.0 to 1.0"],
    [estimate("K", 17.4, null, 34, { standardError: 8 }), "17 ± 8 K, 95 % interval 34 or less"],
    [estimate("1/h", 0.2, null, null), "0.200 per hour, 95 % interval no limit found"],
    [estimate("1", 0.7249, 0.66, 0.79, { standardError: 0.033 }), "72 ± 3 %, 95 % interval 66 to 79"],
  ] as const;
  for (const [given, shown] of rows) test(shown, () => expect(plain(hand.full(given))).toBe(shown));
});

test("a time under an hour and a half is told in minutes, a longer one in hours and minutes", () => {
  expect(plain(hand.brief(estimate("h", 0.62, 0.57, 0.67, { standardError: 0.025 })))).toBe("37 min (34 to 40)");
  expect(plain(hand.brief(estimate("h", 2.62, 2.55, 2.7, { standardError: 0.04 })))).toBe(
    "2 h 37 min (2 h 33 min to 2 h 42 min)",
  );
  // A short time whose end may lie hours away: nobody reads 334 min as five hours and a half.
  expect(plain(hand.brief(estimate("h", 0, 0, 334 / 60)))).toBe("0 min (0 min to 5 h 30 min)");
  // Known to three quarters of an hour: to the half hour, and no minute more.
  expect(plain(hand.brief(estimate("h", 10.4, 8.9, null, { standardError: 0.8 })))).toBe("10 h 30 min (9 h or more)");
});

property.prop([fc.double({ min: -1e4, max: 1e4, noNaN: true }), fc.double({ min: 1e-3, max: 1e3, noNaN: true })])(
  "rounding moves a temperature by no more than its standard error or a twentieth of a kelvin",
  (value, standardError) => {
    const shown = plain(hand.value(estimate("K", value, null, null, { standardError })));
    const number = Number(shown.replace(" K", "").replace("−", "-").replaceAll(",", ""));
    expect(Math.abs(number - value)).toBeLessThanOrEqual(Math.max(standardError, 0.05) * 1.001);
  },
);

test("an error below the last digit is told to be below it, so that it does not belie its interval", () => {
  const depth = estimate("K", 18.77, 18.73, 18.81, { standardError: 0.02 });
  expect(plain(hand.full(depth))).toBe("18.8 ± <0.1 K, 95 % interval 18.7 to 18.8");
  expect(plain(hand.figures(estimate("K", 18.77, 18.6, 18.94, { standardError: 0.08 })).value)).toBe("18.8 ± 0.1");
});

test("instants are shown on the log's own clock, with days where they are needed", () => {
  const evening = Date.UTC(2026, 5, 4, 20, 10);
  expect(plain(hand.clock(evening))).toBe("22:10");
  expect(plain(hand.period(evening, evening + 3_600_000))).toBe("4 June 22:10 to 23:10");
  expect(plain(hand.period(evening, evening + 4 * 3_600_000))).toBe("4 June 22:10 to 5 June 02:10");
  expect(plain(hand.period(evening, evening))).toBe("4 June 22:10");
  expect(plain(hand.period(evening, evening, "with year"))).toBe("4 June 2026, 22:10");
  expect([hand.offset(), handOf("en", -210).offset(), handOf("en", 0).offset()]).toEqual([
    "UTC+02:00",
    "UTC−03:30",
    "UTC",
  ]);
});
