import { expect, test } from "vitest";
import { type OfficeAnswers, type OfficeTruth, scoreOffice } from "./officeTruth.ts";

const truth: OfficeTruth = {
  late: ["Q-2"],
  left: 3,
  before: ["Q-1", "Q-3"],
  open: 9,
  faults: [{ fault: "dry joint", possible: "wiring", found: "customer", count: 4 }],
  returns: { count: 5, without: 1 },
  plate: { place: "hot plate", enough_h: 24, least: 5, past: ["Q-8"], story: "a day less" },
};
const right: OfficeAnswers = {
  orders: ["Q-1", "Q-2", "Q-3"].map((order) => ({ order, kept: order !== "Q-2" })),
  open: 9,
  faults: truth.faults,
  returns: { count: 5, without: 1 },
  plate: { place: "hot plate", enough_h: 24, earlier: ["a", "b", "c", "d", "e"], later: [], saved: ["a"] },
};

test("what is told right is found", () => {
  const { found, missed, falseAccusations } = scoreOffice(truth, right);
  expect([found.length, missed, falseAccusations]).toEqual([5, [], []]);
});

test("an order said late that was in time, a fault that was none and a date that can't come in are accusations", () => {
  const { falseAccusations } = scoreOffice(truth, {
    ...right,
    orders: right.orders.map((one) => ({ ...one, kept: false })),
    faults: [...truth.faults, { fault: "cracked panel", possible: "plate", found: "case", count: 1 }],
    plate: { ...right.plate!, earlier: [...right.plate!.earlier, "Q-8"] },
  });
  expect(falseAccusations).toHaveLength(4);
});

test("too few dates, one that moves out, and saying nothing are missed", () => {
  for (const plate of [
    { ...right.plate!, earlier: ["a", "b"] },
    { ...right.plate!, later: ["f"] },
    { ...right.plate!, enough_h: 36 },
  ]) {
    expect(scoreOffice(truth, { ...right, plate }).missed).toHaveLength(1);
  }
  expect(scoreOffice(truth, undefined).missed).toHaveLength(5);
});
