import { expect, test } from "vitest";
import type { Model } from "../claims/evidence.ts";
import type { ClaimState } from "../claims/index.ts";
import type { Calculate } from "./calculate.ts";
import { standingBalance } from "./standingBalance.ts";

const model = {
  channels: ["left", "right"],
  input: { left: "INL", right: "INR" },
  output: { left: "outL", right: "outR" },
} as unknown as Model;
const gains: Readonly<Record<string, number>> = { outL: 18.1, outR: 17.9 };
const calculate = (async (_name: string, { output }: { output: string }) => ({
  gain_dB: [gains[output]],
})) as unknown as Calculate;
const balance = (state: string) =>
  [{ state, figures: [{ quantity: "balance_dB", value: 0.3, doubt: 0.03 }] }] as unknown as readonly ClaimState[];

// source: worked by hand: 0.3 dB measured, 18.1 − 17.9 = 0.2 dB by the net list, so the chassis' own parts do 0.1 dB
test("the chassis does what is measured beyond what the net list gives", async () => {
  const standing = await standingBalance(balance("proven"), model, {}, calculate);
  expect(standing?.above_dB[0]).toBeCloseTo(0.1, 12);
  expect(standing?.above_dB[1]).toBe(0);
  expect(standing?.doubt_dB).toBe(0.03);
});

test("a balance that fell, or was never measured, says nothing of the chassis", async () => {
  expect(await standingBalance(balance("void"), model, {}, calculate)).toBeUndefined();
  expect(await standingBalance([], model, {}, calculate)).toBeUndefined();
});
