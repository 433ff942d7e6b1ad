import { describe, expect, test } from "vitest";
import type { ClaimSpec } from "./evidence.ts";
import { nextChecks } from "./nextChecks.ts";
import type { ClaimState } from "./state.ts";
import { smallModel } from "./testing/smallShop.ts";

type Check = Partial<ClaimSpec["check"]>;

/** A claim of a check of ten minutes that is expected to save 0.35 h: 0.05 · (8 − 1). */
const claim = (name: string, check: Check = {}, safety = false): ClaimSpec => ({
  ...smallModel.claims[0]!,
  claim: name,
  title: `Title of ${name}`,
  safety,
  check: { ...smallModel.claims[0]!.check, hands_min: 10, danger: "none", skill: "audio", ...check },
});
const state = (name: string, more: Partial<ClaimState> = {}) =>
  ({ claim: name, state: "open", because: "Nothing was read.", ...more }) as ClaimState;

function offered(
  claims: readonly ClaimSpec[],
  states: Readonly<Record<string, ClaimState["state"]>> = {},
  limits = {},
) {
  const of = claims.map(({ claim: name }) => state(name, { state: states[name] ?? "open" }));
  return nextChecks(of, { claims: [...claims] }, limits).map((next) => next.claim);
}

describe("which checks may be made", () => {
  const earth = claim("earth", { danger: "mains" }, true);
  const insulation = claim("insulation", { danger: "high-voltage", after: ["earth"] }, true);
  const live = claim("live", { danger: "mains" });
  const cold = claim("cold");

  test("on live parts none before every safety claim is closed, by proof or by concession", () => {
    const all = [earth, insulation, live, cold];
    expect(offered(all)).toEqual(["cold", "earth"]);
    expect(offered(all, { earth: "proven" })).toEqual(["cold", "insulation"]);
    expect(offered(all, { earth: "proven", insulation: "undecided" })).toEqual(["cold", "insulation"]);
    expect(offered(all, { earth: "proven", insulation: "proven" })).toEqual(["cold", "live"]);
    expect(offered(all, { earth: "proven", insulation: "conceded" })).toEqual(["cold", "live"]);
  });

  test("on live parts one that a safety test itself waits for", () => {
    const first = claim("first", { danger: "mains" });
    const after = claim("touch", { danger: "mains", after: ["first"] }, true);
    expect(offered([first, after])).toEqual(["first"]);
    // Another safety claim does not wait for it.
    expect(offered([first, after, earth])).toEqual(["earth"]);
  });

  test("none before all that comes before it, none that is closed or refuted or of no state", () => {
    const last = claim("last", { after: ["a", "b"] });
    const all = [claim("a"), claim("b"), last];
    expect(offered(all, { a: "proven" })).toEqual(["b"]);
    expect(offered(all, { a: "proven", b: "conceded" })).toEqual(["last"]);
    expect(offered(all, { a: "refuted", b: "void" })).toEqual(["b"]);
    expect(nextChecks([state("a")], { claims: all }).map((next) => next.claim)).toEqual(["a"]);
  });

  test("none past a limit of skill, danger or waiting, the limit itself included", () => {
    const all = [claim("soak", { wait_h: 12, danger: "hot" }), claim("sound", { skill: "timber" })];
    expect(offered(all)).toEqual(["soak", "sound"]);
    expect(offered(all, {}, { skills: ["timber", "wiring"] })).toEqual(["sound"]);
    expect(offered(all, {}, { dangers: ["hot"] })).toEqual(["soak"]);
    expect(offered(all, {}, { wait_h: 12 })).toEqual(["soak", "sound"]);
    expect(offered(all, {}, { wait_h: 11.9 })).toEqual(["sound"]);
  });
});

describe("in which order", () => {
  // source: odds · (late − repair) / minutes by hand
  test("by hours saved for a minute, then by the fewer minutes, then by name", () => {
    const odds = (failOdds: number, hands_min: number): Check => ({ failOdds, hands_min, lateCost_h: 9, repair_h: 1 });
    const all = [
      claim("slow", odds(0.2, 20)),
      claim("b", odds(0.1, 10)),
      claim("a", odds(0.1, 10)),
      claim("worth most", odds(0.5, 10)),
      claim("worth nothing", { failOdds: 0.9, lateCost_h: 1, repair_h: 8 }),
    ];
    const next = nextChecks(
      all.map((one) => state(one.claim)),
      { claims: all },
    );
    expect(next.map((one) => [one.claim, Number(one.saves_h_per_min.toPrecision(12))])).toEqual([
      ["worth most", 0.4],
      ["a", 0.08],
      ["b", 0.08],
      ["slow", 0.08],
      ["worth nothing", 0],
    ]);
  });

  test("a check without hands has the worth of half a minute", () => {
    const quick = claim("quick", { hands_min: 0, failOdds: 0.1, lateCost_h: 6, repair_h: 1 });
    expect(nextChecks([state("quick")], { claims: [quick] })[0]!.saves_h_per_min).toBeCloseTo(1, 12);
  });
});

describe("what is said of a check", () => {
  const one = (more: Partial<ClaimState>, check: Check = {}) =>
    nextChecks([state("a", more)], {
      claims: [claim("a", { failOdds: 0.05, lateCost_h: 8, repair_h: 1, ...check })],
    })[0]!;
  const worth = "10 min of hands against 0.35 h expected to be lost later.";

  test.each<[Partial<ClaimState>, string]>([
    [{}, "Not yet checked"],
    [{ state: "void", because: "It fell. V.1 was changed." }, "Void: It fell. V.1 was changed"],
    [{ state: "undecided", wouldDecide: "measure again" }, "Undecided: measure again"],
    [{ state: "undecided", because: "Too near." }, "Undecided: Too near"],
  ])("%j", (more, expected) => {
    expect(one(more).why).toBe(`${expected}; ${worth}`);
  });

  test("its bench where it needs one, and what it takes", () => {
    expect(one({}, { wait_h: 3, danger: "hot", place: "rack" })).toEqual({
      claim: "a",
      title: "Title of a",
      why: `Not yet checked; ${worth}`,
      saves_h_per_min: (0.05 * 7) / 10,
      hands_min: 10,
      wait_h: 3,
      danger: "hot",
      skill: "audio",
      place: "rack",
    });
    expect(one({})).not.toHaveProperty("place");
  });
});
