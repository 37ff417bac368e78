import { expect, test } from "vitest";
import { type BoardFile, readBoardFile, type TimeAnchor } from "../../src/ingest/board-file.ts";
import { probeLineText } from "./probe-line-text.ts";

const second = 1000;
const minute = 60 * second;
const readOut = Date.parse("2026-07-12T18:00:00Z");

/** The lines of one start: a hello, then a reading every minute. */
function start(boot: number, minutes: number, boardId = "b1"): string[] {
  const head = { boardId, boot };
  const probes = [{ probeId: "28AA", role: null, unit: "Cel" as const, resolution: 0.0625 }];
  const hello = probeLineText({
    type: "hello",
    ...head,
    sequence: 1,
    uptimeMs: 60,
    formatVersion: 1,
    firmware: "1.0.0",
    reason: boot === 1 ? "power-on" : "brown-out",
    intervalSeconds: 60,
    probes,
  });
  const readings = Array.from({ length: minutes }, (_, i) =>
    probeLineText({
      type: "reading",
      ...head,
      sequence: i + 2,
      uptimeMs: (i + 1) * minute,
      probeId: "28AA",
      value: 5,
      unit: "Cel",
    }),
  );
  return [hello, ...readings];
}

const fileOf = (...lines: readonly string[][]) =>
  Buffer.from(
    lines
      .flat()
      .map((line) => `${line}\n`)
      .join(""),
    "latin1",
  );

function placed(bytes: Uint8Array, anchors: readonly TimeAnchor[]): BoardFile {
  const read = readBoardFile(bytes, anchors);
  if (read.outcome !== "placed") throw new Error(`not placed: ${JSON.stringify(read)}`);
  return read.file;
}

test("a file of one start is anchored by the hello at its reading out", () => {
  const file = placed(fileOf(start(1, 600)), [{ boot: 1, uptimeMs: 700 * minute, unixMs: readOut }]);
  expect(file.starts).toEqual([
    {
      boot: 1,
      reason: "power-on",
      firstUnixMs: readOut - 700 * minute + 60,
      lastUnixMs: readOut - 100 * minute,
      lastUptimeMs: 600 * minute,
      placedBy: "anchored",
      slackMs: 0,
    },
  ]);
  expect(file.readings).toHaveLength(600);
  expect(file.readings[0].unixMs).toBe(readOut - 699 * minute);
  expect(file.probes).toMatchObject([{ probeId: "28AA" }]);
});

test("two anchors in one start take out that the board's clock runs wrong", () => {
  const file = placed(fileOf(start(1, 1000)), [
    { boot: 1, uptimeMs: 0, unixMs: readOut - 1004 * minute },
    { boot: 1, uptimeMs: 1000 * minute, unixMs: readOut },
  ]);
  expect(file.readings[499].unixMs).toBe(readOut - 502 * minute);
});

test("two anchors between which the host's clock was set are not taken for a fast clock: the later one counts", () => {
  const file = placed(fileOf(start(1, 1000)), [
    { boot: 1, uptimeMs: 0, unixMs: readOut - 5000 * minute },
    { boot: 1, uptimeMs: 1000 * minute, unixMs: readOut },
  ]);
  expect(file.readings[499].unixMs).toBe(readOut - 500 * minute);
});

test("a start without an anchor lies right before the next one, and it is said how much earlier it can have been", () => {
  const anchors = [
    { boot: 1, uptimeMs: 0, unixMs: readOut - 500 * minute },
    { boot: 3, uptimeMs: 100 * minute, unixMs: readOut },
  ];
  const file = placed(fileOf(start(1, 300), start(2, 60), start(3, 90)), anchors);
  expect(file.starts.map(({ placedBy }) => placedBy)).toEqual(["anchored", "before-next", "anchored"]);
  // 400 minutes lie between the anchors, 300 of them are the first start's and 60 the second's.
  expect(file.starts[1]).toMatchObject({
    lastUnixMs: readOut - 100 * minute,
    slackMs: 40 * minute,
    reason: "brown-out",
  });
});

test("of two starts without an anchor, each can be earlier by what is left of the time between the anchors", () => {
  const file = placed(fileOf(start(1, 300), start(2, 60), start(3, 20), start(4, 90)), [
    { boot: 1, uptimeMs: 0, unixMs: readOut - 500 * minute },
    { boot: 4, uptimeMs: 100 * minute, unixMs: readOut },
  ]);
  // 400 minutes between the anchors, 300, 60 and 20 of them known.
  expect(file.starts.map(({ slackMs }) => slackMs)).toEqual([0, 20 * minute, 20 * minute, 0]);
  expect(file.starts[2].lastUnixMs).toBe(readOut - 100 * minute);
  expect(file.starts[1].lastUnixMs).toBe(readOut - 120 * minute);
});

test("an anchor that would put a start behind the one that followed it is not believed", () => {
  const file = placed(fileOf(start(1, 30), start(2, 60)), [
    { boot: 1, uptimeMs: 0, unixMs: readOut + 500 * minute },
    { boot: 2, uptimeMs: 60 * minute, unixMs: readOut },
  ]);
  expect(file.starts[0]).toMatchObject({ placedBy: "before-next", slackMs: null, lastUnixMs: readOut - 60 * minute });
});

test("with the last start anchored alone, the earlier ones are placed with nothing to bound them", () => {
  const file = placed(fileOf(start(1, 30), start(2, 60)), [{ boot: 2, uptimeMs: 60 * minute, unixMs: readOut }]);
  expect(file.starts[0]).toMatchObject({ placedBy: "before-next", slackMs: null, lastUnixMs: readOut - 60 * minute });
});

test("with the first start anchored alone, the later ones follow it", () => {
  const file = placed(fileOf(start(1, 30), start(2, 60)), [{ boot: 1, uptimeMs: 0, unixMs: readOut }]);
  expect(file.starts[1]).toMatchObject({
    placedBy: "after-previous",
    slackMs: null,
    firstUnixMs: readOut + 30 * minute + 60,
  });
});

test("without an anchor the file is not placed, and says what it would need one for", () => {
  expect(readBoardFile(fileOf(start(4, 30)), [{ boot: 9, uptimeMs: 0, unixMs: readOut }])).toEqual({
    outcome: "no-anchor",
    starts: [{ boot: 4, firstUptimeMs: 60, lastUptimeMs: 30 * minute }],
  });
});

test("damage in the file costs its own lines, which are counted", () => {
  const bytes = fileOf(start(1, 100));
  bytes.fill(0xff, 3000, 3010);
  const file = placed(bytes, [{ boot: 1, uptimeMs: 100 * minute, unixMs: readOut }]);
  expect(file.counts).toMatchObject({ damaged: 1, missed: 1 });
  expect(file.readings).toHaveLength(99);
});

test("a file that is something else, or of two boards, is told as that", () => {
  expect(readBoardFile(Buffer.from("time,cabinet\n2026-06-04T07:00:00Z,4\n"), [])).toEqual({
    outcome: "not-a-board-file",
  });
  expect(readBoardFile(fileOf(start(1, 3), start(1, 3, "b2")), [])).toEqual({
    outcome: "several-boards",
    boardIds: ["b1", "b2"],
  });
});
