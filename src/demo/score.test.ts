import { expect, test } from "vitest";
import { type Answers, score } from "./score.ts";
import type { Truth } from "./truth.ts";

const truth: Truth = {
  hum: [
    { unit: "1", channel: "left", state: "decided", cause: "valve", position: "V2", valve: "T-9", story: "a leak" },
    { unit: "2", channel: "left", state: "quiet", story: "a clean one" },
    { unit: "3", channel: "left", state: "undecided", story: "nobody can tell" },
  ],
  valves: [
    { valve: "T-9", allowed: ["use"] },
    { valve: "T-8", allowed: ["reject"], story: "drifted" },
    { valve: "T-7", allowed: ["use", "hold", "reject"] },
  ],
  proposals: [{ unit: "1", position: "V2", best: "T-5" }],
  sheets: [],
  physics: { seed: 1, building_Hz: 50, units: [], valves: [] },
};

const right: Answers = {
  hum: [
    { unit: "1", channel: "left", state: "decided", cause: "valve", position: "V2", valve: "T-9" },
    { unit: "2", channel: "left", state: "quiet" },
    { unit: "3", channel: "left", state: "undecided" },
  ],
  valves: [
    { valve: "T-9", verdict: "use" },
    { valve: "T-8", verdict: "reject" },
    { valve: "T-7", verdict: "hold" },
  ],
  proposals: [{ unit: "1", position: "V2", in: "T-5" }],
};

test("the right answers find every story and accuse nobody", () => {
  const kept = score(truth, right);
  expect(kept.found).toHaveLength(4);
  expect(kept.undecidedRight).toEqual(["3 left: nobody can tell"]);
  expect(kept.falseAccusations).toEqual([]);
  expect(kept.missed).toEqual([]);
});

test("a fault laid at the wrong door is a false accusation, and so is a fault where there is none", () => {
  const wrong = score(truth, {
    ...right,
    hum: [
      { unit: "1", channel: "left", state: "decided", cause: "valve", position: "V1", valve: "T-1" },
      { unit: "2", channel: "left", state: "decided", cause: "amplifier" },
      { unit: "3", channel: "left", state: "decided", cause: "mains" },
    ],
  });
  expect(wrong.falseAccusations).toHaveLength(3);
  expect(wrong.undecidedRight).toEqual([]);
});

test("a good valve rejected is an accusation; held back, it is missed", () => {
  const verdicts = (verdict: "hold" | "reject") =>
    score(truth, { ...right, valves: right.valves.map((v) => (v.valve === "T-9" ? { ...v, verdict } : v)) });
  expect(verdicts("reject").falseAccusations).toEqual(["T-9: said reject, is use"]);
  expect(verdicts("hold").falseAccusations).toEqual([]);
  expect(verdicts("hold").missed).toEqual(["T-9: said hold, is use"]);
});

test("saying nothing finds nothing and accuses nobody", () => {
  const silent = score(truth, { hum: [], valves: [] });
  expect(silent.found).toEqual([]);
  expect(silent.falseAccusations).toEqual([]);
  expect(silent.missed).toHaveLength(3 + 3 + 1);
});
