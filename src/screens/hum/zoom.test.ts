import { expect, test } from "vitest";
import { type Band, zoomed } from "./zoom.ts";

const whole: Band = [10, 24_000];

test("closer halves the axis about a line, wider brings it back, and the whole is no part", () => {
  const near = zoomed(undefined, whole, "closer", 100)!;
  expect(Math.log(near[1] / near[0])).toBeCloseTo(Math.log(2400) / 2, 9);
  // source: by hand, what stood at a share of the axis stands there still
  const share = ([from, to]: Band) => Math.log(100 / from) / Math.log(to / from);
  expect(share(near)).toBeCloseTo(share(whole), 9);
  expect(zoomed(near, whole, "wider", 100)).toBeUndefined();
  expect(zoomed(near, whole, "whole")).toBeUndefined();
});

test("sideways goes no further than the ends, and closer has an end too", () => {
  let band = zoomed(undefined, whole, "closer", 24_000)!;
  for (let i = 0; i < 20; i++) band = zoomed(band, whole, "lower")!;
  expect(band[0]).toBeCloseTo(10, 9);
  for (let i = 0; i < 40; i++) band = zoomed(band, whole, "higher")!;
  expect(band[1]).toBeCloseTo(24_000, 6);
  for (let i = 0; i < 40; i++) band = zoomed(band, whole, "closer")!;
  expect(band[1] / band[0]).toBeCloseTo(1.002, 9);
});
