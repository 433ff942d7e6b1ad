import { expect, test } from "vitest";
import { decided, notSeparable, together } from "./examples.ts";
import { channelsByWeight, recordingsByTelling } from "./order.ts";

test("the channel whose valve is accused comes before other causes, those before undecided, quiet last", () => {
  const hearing = {
    ...decided,
    lines: [],
    verdict: {
      a: { state: "quiet" },
      b: { state: "undecided", reason: "one recording", candidates: [] },
      c: { state: "decided", cause: "pick-up", odds: 0.99 },
      d: { state: "decided", cause: "valve", position: "V2", valve: "T-117", odds: 0.97 },
    },
  } as const;
  expect(channelsByWeight(hearing)).toEqual(["d", "c", "b", "a"]);
});

test("a valve is told on the offset recording that holds it, then the other offset one, then the building's", () => {
  expect(recordingsByTelling(decided, "left").map(({ recording }) => recording)).toEqual(["r2", "r3", "r1"]);
});

test("clean supply at the building's own frequency parts nothing, so it does not come first", () => {
  const [r1, r2, r3] = decided.recordings;
  const same = { ...r2!, frequency_Hz: 50 };
  const told = recordingsByTelling({ ...decided, recordings: [r1!, same, r3!] }, "right");
  expect(told[0]?.recording).toBe("r3");
});

test("what two causes make together is told on the building's mains, where the verdict is about", () => {
  expect(recordingsByTelling(together, "left").map(({ recording }) => recording)[0]).toBe("r1");
});

test("a recording without a line does not stand open where another has some", () => {
  expect(recordingsByTelling(notSeparable, "left").map(({ recording }) => recording)).toEqual(["r1", "r2"]);
});
