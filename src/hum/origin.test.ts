import { describe, expect, test } from "vitest";
import type { CauseShare } from "./cause.ts";
import { originOf } from "./origin.ts";

const amplifier = (low: number, share: number, leads: number): CauseShare => {
  return { cause: "amplifier", low, share, high: 1, leads };
};
const valve = (low: number, share: number, leads: number): CauseShare => {
  return { cause: "valve", position: "V2", valve: "T-117", low, share, high: 1, leads };
};
const field = (low: number, share: number, leads: number): CauseShare => ({
  cause: "pick-up",
  low,
  share,
  high: 1,
  leads,
});

describe("what a line comes from", () => {
  test("is one cause where it surely has nearly all", () => {
    const origin = originOf([amplifier(0, 0.1, 0.005), valve(0.88, 0.95, 0.995)]);
    expect(origin).toEqual({ state: "one cause", causes: [{ cause: "valve", position: "V2", valve: "T-117" }] });
  });

  test("is not told where another may have a fifth, or a third lead, or one of two be silent", () => {
    expect(originOf([amplifier(0, 0.1, 0.01), valve(0.8, 0.9, 0.99)]).state).toBe("not told apart");
    expect(originOf([amplifier(0.3, 0.45, 0.4), valve(0.35, 0.5, 0.6)]).state).toBe("not told apart");
    expect(originOf([amplifier(0.2, 0.4, 0.4), valve(0.2, 0.4, 0.4), field(0, 0.2, 0.2)]).state).toBe("not told apart");
    expect(originOf([amplifier(0.04, 0.4, 0.4), valve(0.2, 0.6, 0.6)]).state).toBe("not told apart");
    expect(originOf([amplifier(0, 0.5, 0.5), valve(0, 0.5, 0.5)]).state).toBe("not told apart");
  });
});
