import { describe, expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { judgeTray, type ReadValve, type VerdictQuestion } from "./verdict.ts";

const section = (name: string, cold_mA: number, hot_mA: number, hot: object = {}) => ({
  name,
  readings: [
    { time_h: 0, phase: "cold" as const, plate_mA: cold_mA },
    { time_h: 48, phase: "hot" as const, plate_mA: hot_mA, ...hot },
  ],
});
const valve = (id: string, ...sections: ReadValve["sections"]): ReadValve => ({ id, type: "6SN7GT", sections });
const tray = (valves: readonly ReadValve[], more: Partial<VerdictQuestion> = {}): VerdictQuestion => ({
  limits: { drift_pct: 5, sectionSpread_pct: 10 },
  reference: [
    { time_h: 0, plate_mA: 9 },
    { time_h: 48, plate_mA: 9 },
  ],
  referenceTrue_mA: 9,
  reading_doubt_pct: 0.5,
  valves,
  ...more,
});

describe("verdicts", () => {
  // source: worked by hand: 9.09/9.18 − 1 and 8.2/9.0 − 1 = −8.889 %
  test("a twin triode well balanced cold, whose one section falls 9 % in the heat run, is rejected for that section", () => {
    const [judged] = judgeTray(tray([valve("T-1", section("a", 9.1, 9.05), section("b", 9.0, 8.2))])).valves;
    expect(judged!.verdict).toBe("reject");
    expect(judged!.sections[0]!.state).toBe("inside");
    expect(judged!.sections[1]!.drift_pct).toBeCloseTo(-8.889, 3);
    expect(judged!.reasons[0]).toMatch(/Section b: drift -8.89 % .*limit ±5 %/);
  });

  // source: worked by hand: every reading is 3 % high at the end, the reference's too
  test("a tray that drifts 3 % with the reference valve has not drifted, and nothing is rejected", () => {
    const valves = Array.from({ length: 20 }, (_, i) =>
      valve(`T-${i}`, section("a", 8 + i / 10, (8 + i / 10) * 1.03), section("b", 8.1 + i / 10, (8.1 + i / 10) * 1.03)),
    );
    const answer = judgeTray(
      tray(valves, {
        limits: { drift_pct: 2, sectionSpread_pct: 10 },
        reference: [
          { time_h: 48, plate_mA: 9.27 },
          { time_h: 0, plate_mA: 9 },
        ],
      }),
    );
    expect(answer.testerShift_pct).toBeCloseTo(3, 9);
    expect(answer.valves.map((v) => v.verdict)).toEqual(valves.map(() => "use"));
    for (const v of answer.valves) for (const s of v.sections) expect(s.drift_pct).toBeCloseTo(0, 9);
  });

  // source: worked by hand, halfway in time between 9 and 9.9 the tester reads 9.45/9 = 1.05 of true
  test("between the reference's readings a straight line in time puts currents right", () => {
    const [judged] = judgeTray(
      tray(
        [
          {
            id: "T",
            type: "6SN7GT",
            sections: [
              {
                name: "a",
                readings: [
                  { time_h: 0, phase: "cold", plate_mA: 10 },
                  { time_h: 24, phase: "hot", plate_mA: 10.5 },
                ],
              },
            ],
          },
        ],
        {
          reference: [
            { time_h: 0, plate_mA: 9 },
            { time_h: 48, plate_mA: 9.9 },
          ],
        },
      ),
    ).valves;
    expect(judged!.sections[0]!.hot_mA).toBeCloseTo(10, 12);
    expect(judged!.sections[0]!.drift_pct).toBeCloseTo(0, 10);
  });

  test("nearer to the limit than the doubt is held, saying what would decide", () => {
    const [judged] = judgeTray(tray([valve("T", section("a", 9, 8.6))])).valves;
    expect(judged!.verdict).toBe("hold");
    expect(judged!.reasons[0]).toMatch(/would decide/);
  });

  test("a missing reading holds, and names it; a section outside still rejects", () => {
    const cold = { name: "b", readings: [{ time_h: 0, phase: "cold" as const, plate_mA: 9 }] };
    const [held, refused] = judgeTray(
      tray([valve("T", section("a", 9, 9), cold), valve("U", section("a", 9, 7), cold)]),
    ).valves;
    expect(held!.verdict).toBe("hold");
    expect(held!.sections[1]).not.toHaveProperty("drift_pct");
    expect(held!.reasons.join(" ")).toMatch(/Section b: no reading after the heat run/);
    expect(refused!.verdict).toBe("reject");
  });

  // source: worked by hand: 1.5 of the 2.6 mS printed is 57.7 %
  test("grid current, leakage and gm are judged where they have a limit", () => {
    const limits = { drift_pct: 5, gridCurrent_uA: 1, leakage_uA: 10, gm_min_pct: 65 };
    const read = (gm_mS: number, gridCurrent_uA: number, leakage_uA?: number) =>
      judgeTray(tray([valve("T", section("a", 9, 9, { gm_mS, gridCurrent_uA, leakage_uA }))], { limits })).valves[0]!;
    expect(read(2.5, 0.1, 1).verdict).toBe("use");
    expect(read(2.5, -3, 1).verdict).toBe("reject");
    expect(read(1.5, 0.1, 1).reasons[0]).toMatch(/57.7 %/);
    expect(read(2.5, 0.1).verdict).toBe("hold");
  });
});

describe("over many trays drawn with known truth", () => {
  // source: the truth is drawn here; 95 % of intervals must hold it. 4000 intervals give a standard error of 0.35 %.
  test("intervals hold the truth, and valves well inside are never rejected", () => {
    const seed = "trays 1";
    const random = randomStream(seed);
    const sd = 0.8 / 1.96 / 100;
    let held = 0;
    let all = 0;
    let falseRejects = 0;
    for (let t = 0; t < 400; t++) {
      const shift = random.normal(0, 0.02);
      const tester = (time_h: number) => 1 + (shift * time_h) / 48;
      const read = (true_mA: number, time_h: number) => true_mA * tester(time_h) * (1 + random.normal(0, sd));
      const drifts = Array.from({ length: 10 }, () => random.normal(0, 0.01));
      const answer = judgeTray(
        tray(
          drifts.map((drift, i) => {
            const [from, to] = [4 * random.uniform(), 40 + 8 * random.uniform()];
            return {
              id: `T-${i}`,
              type: "12AU7",
              sections: [
                {
                  name: "a",
                  readings: [
                    { time_h: from, phase: "cold" as const, plate_mA: read(10, from) },
                    { time_h: to, phase: "hot" as const, plate_mA: read(10 * (1 + drift), to) },
                  ],
                },
              ],
            };
          }),
          {
            limits: { drift_pct: 4 },
            reading_doubt_pct: 0.8,
            reference: [0, 24, 48].map((time_h) => ({ time_h, plate_mA: read(9, time_h) })),
          },
        ),
      );
      answer.valves.forEach((v, i) => {
        const { drift_pct, doubt_pct } = v.sections[0]!;
        all++;
        if (Math.abs(drift_pct! - 100 * drifts[i]!) <= doubt_pct!) held++;
        if (v.verdict === "reject" && Math.abs(drifts[i]!) < 0.04) falseRejects++;
      });
    }
    expect(held / all, `seed ${seed}`).toBeGreaterThan(0.935);
    expect(held / all, `seed ${seed}`).toBeLessThan(0.965);
    expect(falseRejects / all, `seed ${seed}`).toBeLessThan(0.002);
  });
});
