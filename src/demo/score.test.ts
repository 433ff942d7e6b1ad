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
  unfair: [{ unit: "1", recording: "1-2", story: "cut peaks" }],
  balance: [{ unit: "4", cause: "control", story: "tracks part" }],
  taps: [
    { unit: "5", valve: "T-4", story: "microphonic" },
    { unit: "6", story: "nothing rings" },
  ],
  proposals: [{ unit: "1", position: "V2", best: "T-5" }],
  sheets: [
    { unit: "1", at: "2026-05-01T09:10:00Z", fault: { part: "C1L", kind: "open" }, story: "an open bypass" },
    { unit: "2", at: "2026-05-01T09:10:00Z" },
  ],
  places: [{ valve: "T-6", position: "V3", story: "gas" }],
  fours: [
    {
      fours: [
        ["A1", "A2", "A3", "A4"],
        ["B1", "B2", "B3", "B4"],
      ],
      story: "mixed pairs",
    },
  ],
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
  unfair: [{ unit: "1", recording: "1-2" }],
  balance: [{ unit: "4", cause: "control" }],
  taps: [
    { unit: "5", state: "rings", valve: "T-4" },
    { unit: "6", state: "quiet" },
  ],
  proposals: [{ unit: "1", position: "V2", in: "T-5" }],
  sheets: [
    {
      unit: "1",
      at: "2026-05-01T09:10:00.000Z",
      state: "faulty",
      suspects: [
        { part: "R1", fault: "high", alike: [], odds: 0.5 },
        { part: "C6", fault: "open", alike: ["C1L open"], odds: 0.3 },
      ],
    },
    { unit: "2", at: "2026-05-01T09:10:00Z", state: "good", suspects: [] },
  ],
  places: [{ valve: "T-6", position: "V3", serves: "no" }],
  fours: [
    {
      pairs: [
        ["A1", "B1"],
        ["A2", "B2"],
      ],
      cost: 0.4,
      dealersCost: 5,
    },
  ],
};

test("the right answers find every story and accuse nobody", () => {
  const kept = score(truth, right);
  expect(kept.found).toHaveLength(12);
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

test("a good unit called faulty is an accusation, and so is a fault laid at three other parts", () => {
  const suspects = ["R1", "R2", "R3"].map((part) => ({ part, fault: "high", alike: [], odds: 0.3 }));
  const wrong = score(truth, {
    ...right,
    sheets: right.sheets!.map((s) => ({ ...s, state: "faulty" as const, suspects })),
  });
  expect(wrong.falseAccusations).toHaveLength(2);
  const unsure = score(truth, { ...right, sheets: right.sheets!.map((s) => ({ ...s, state: "undecided" as const })) });
  expect(unsure.falseAccusations).toEqual([]);
  expect(unsure.missed).toHaveLength(2);
});

test("pairs within one four, or hardly better than the dealer's, do not find the story", () => {
  for (const instead of [{ pairs: [["A1", "A2"]] }, { cost: 4 }]) {
    const kept = score(truth, { ...right, fours: right.fours!.map((four) => ({ ...four, ...instead })) });
    expect(kept.missed).toHaveLength(1);
  }
});

test("a sound supply left out, valves blamed for the control, and a ring laid at another valve are accusations", () => {
  const wrong = score(truth, {
    ...right,
    unfair: [...right.unfair!, { unit: "2", recording: "2-1" }],
    balance: [{ unit: "4", cause: "valves" }],
    taps: [
      { unit: "5", state: "rings", valve: "T-3" },
      { unit: "6", state: "rings", valve: "T-2" },
    ],
  });
  expect(wrong.falseAccusations).toHaveLength(4);
  const unsure = score(truth, { ...right, balance: [{ unit: "4", cause: "undecided" }], taps: [], unfair: [] });
  expect(unsure.falseAccusations).toEqual([]);
  expect(unsure.missed).toHaveLength(4);
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
  expect(silent.missed).toHaveLength(3 + 3 + 1 + 2 + 1 + 1 + 1 + 1 + 2);
});
