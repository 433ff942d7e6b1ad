import { expect, test } from "vitest";
import { usual } from "./examples.ts";
import { toldOf } from "./told.ts";

const now = "2026-11-25T08:10:00+00:00";
const at = (clock: string) => `2026-11-25T${clock}:00+00:00`;

test("what ripens is told in words: what is ripe, what comes next and in how long", () => {
  const ripens = [
    { at: at("14:00"), what: "boards to weigh" },
    { at: at("07:30"), what: "coat may be turned", unit: "0422" },
    { at: at("09:00"), what: "heat run of 16 valves ends" },
  ];
  expect(toldOf({ now, ripens })).toBe(
    "One thing is ripe now. Next at 09:00, in 50 min: heat run of 16 valves ends. One more follows.",
  );
});

test("an empty day says so, and a full one names its next thing alone", () => {
  expect(toldOf({ now, ripens: [] })).toBe("Nothing ends by itself today.");
  expect(toldOf(usual)).toContain("Next at 09:00, in 50 min: Warm enough to read, unit 0231. 6 more follow.");
});
