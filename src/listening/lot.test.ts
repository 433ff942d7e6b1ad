import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { answered, playings } from "./lot.ts";

const lot = "0123456789abcdef0123456789abcdef";

test("a lot draws the same for a listener every time, and something else for another", () => {
  const one = playings(lot, "listener 1", 64, "difference");
  expect(playings(lot, "listener 1", 64, "difference")).toEqual(one);
  expect(playings(lot, "listener 2", 64, "difference")).not.toEqual(one);
  expect(playings(lot.replace("0", "f"), "listener 1", 64, "difference")).not.toEqual(one);
});

test("preferences are played each way round equally often, within one where the number is odd", () => {
  for (const trials of [1, 2, 7, 16, 33]) {
    const ways = playings(lot, "listener 3", trials, "preference");
    const before = ways.filter((one) => one.asked === "preference" && one.before === "first").length;
    expect(Math.abs(2 * before - trials)).toBeLessThanOrEqual(1);
  }
});

// source: by hand: a fair coin; 20,000 tosses lie within 3.5 standard deviations of a half, and so do pairs that repeat
test("the third playing is a fair coin that remembers nothing", () => {
  const tosses = Array.from({ length: 200 }, (_, i) => playings(lot, `listener ${i}`, 100, "difference")).map((row) =>
    row.map((one) => one.asked === "difference" && one.third === "first"),
  );
  const first = tosses.flat().filter(Boolean).length / 20_000;
  const repeats =
    tosses.flatMap((row) => row.slice(1).map((toss, i) => toss === row[i])).filter(Boolean).length / 19_800;
  const reach = 3.5 * Math.sqrt(0.25 / 19_800);
  expect(Math.abs(first - 0.5)).toBeLessThan(reach);
  expect(Math.abs(repeats - 0.5)).toBeLessThan(reach);
  recordAccuracy({
    area: "listening",
    what: "share of first among third playings drawn, and of repeats",
    source: "a fair coin, 20,000 tosses",
    reached: `${first.toFixed(3)}, ${repeats.toFixed(3)}`,
    limit: `0.5 ± ${reach.toFixed(3)}`,
  });
});

test("an answer is weighed by what was played", () => {
  expect(answered({ asked: "difference", third: "second" }, "second")).toEqual({ isRight: true });
  expect(answered({ asked: "difference", third: "second" }, "first")).toEqual({ isRight: false });
  expect(answered({ asked: "preference", before: "second" }, "first")).toEqual({ took: "second", before: "second" });
  expect(answered({ asked: "preference", before: "second" }, "second")).toEqual({ took: "first", before: "second" });
});
