import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { placedPoints } from "./probePlaces.ts";
import { at, by, opening, probed, restByHand, stage } from "./testing/ownShop.ts";
import { openWorkshop, type Workshop } from "./workshop.ts";

async function shopWith(...entries: readonly unknown[]): Promise<Workshop> {
  const folder = mkdtempSync(join(tmpdir(), "stillglow-probe-"));
  const workshop = await openWorkshop(folder, { write: true });
  onTestFinished(async () => {
    await workshop.close();
    rmSync(folder, { recursive: true, force: true });
  });
  await workshop.enter(entries);
  return workshop;
}

const goodReadings = (cathode_ohm: number = stage.cathode_ohm) => {
  const left = restByHand({ ...stage, cathode_ohm });
  const right = restByHand(stage);
  return [
    probed(20, "HT", stage.ht_V),
    probed(21, "left plate", left.plate_V),
    probed(22, "left cathode", left.cathode_V),
    probed(23, "right plate", right.plate_V),
    probed(24, "right cathode", right.cathode_V),
  ];
};

test("the card has the model's places, and windows hold what the stage reads by hand", async () => {
  const workshop = await shopWith(...opening);
  const card = workshop.probe("77");
  expect(card.placed).toBe("by the model");
  expect(card.points.map(({ point }) => point)).toEqual([
    "HT",
    "left plate",
    "left cathode",
    "right plate",
    "right cathode",
  ]);
  expect(card.points[1]).toMatchObject({ input: "INL", isOutput: true, valves: ["V1"] });
  const windows = await workshop.probeWindows("77");
  expect(windows.trouble).toBeUndefined();
  // source: the three-halves law and Ohm's law, solved apart by halving
  const { plate_V, cathode_V } = restByHand(stage);
  const plate = windows.dc["left plate"]!;
  expect(plate.low).toBeLessThan(plate_V);
  expect(plate.high).toBeGreaterThan(plate_V);
  expect(Math.abs(plate.median / plate_V - 1)).toBeLessThan(0.01);
  expect(Math.abs(windows.dc["left cathode"]!.median / cathode_V - 1)).toBeLessThan(0.02);
  // source: parallel resistors by hand; the cathode resistor stands alone, the plate sees its load and the bleeder
  expect(windows.resistance["left cathode"]!.median).toBeCloseTo(1500, 6);
  expect(windows.resistance["left plate"]!.median).toBeCloseTo(47_000 + 220_000, 3);
  expect(windows.resistance["left cathode"]!.low).toBeGreaterThan(1460);
  expect(windows.resistance["left cathode"]!.high).toBeLessThan(1540);
});

test("a unit that reads as it should is called good, and a cathode resistor three times too high is found", async () => {
  const good = await shopWith(...opening, ...goodReadings());
  expect(await good.probeSuspects("77")).toMatchObject({ state: "good", counted: 5, suspects: [] });
  const faulty = await shopWith(...opening, ...goodReadings(3 * stage.cathode_ohm));
  const found = await faulty.probeSuspects("77");
  expect(found.state).toBe("faulty");
  const [first] = found.suspects;
  expect([first?.part, ...(first?.alike ?? [])].join(" ")).toContain("RKL");
  expect(first?.near).toContain("left cathode");
  expect(found.suspects.every(({ odds }) => odds >= 0 && odds <= 1)).toBe(true);
});

test("before any reading the card asks for the dead circuit, and a dead reading is held against its own window", async () => {
  const workshop = await shopWith(...opening);
  expect(await workshop.probeSuspects("77")).toMatchObject({ state: "unread", counted: 0 });
  const dead = { quantity: "resistance_ohm", conditions: { to: "0", state: "dead" } };
  await workshop.enter([probed(30, "left cathode", 1496, { ...dead, doubt: 15 })]);
  expect(workshop.probe("77").points[2]?.readings).toMatchObject([{ kind: "resistance", to: "0", value: 1496 }]);
});

test("a reading is superseded, not edited; a rework takes back what was read before it in its channel", async () => {
  const workshop = await shopWith(...opening, probed(20, "left plate", 140), probed(20, "right plate", 150));
  const first = workshop.probe("77").points[1]!.readings[0]!;
  await workshop.enter([probed(25, "left plate", 165, { supersedes: first.evidence })]);
  expect(workshop.probe("77").points[1]!.readings.map(({ value }) => value)).toEqual([165]);
  await workshop.enter([
    { at: at(40), by, kind: "rework", unit: "77", touched: [{ part: "RKL" }], why: "resistor replaced" },
  ]);
  const [, left, , right] = workshop.probe("77").points;
  expect(left!.readings[0]!.fallen).toMatch(/resistor replaced/);
  expect(right!.readings[0]!.fallen).toBeUndefined();
  expect((await workshop.probeSuspects("77")).counted).toBe(1);
});

test("a failed meter's readings do not speak for or against a part", async () => {
  const workshop = await shopWith(...opening, ...goodReadings());
  await workshop.enter([{ at: at(60), by, kind: "trial", instrument: "meter", value: 9.5, doubt: 0.02 }]);
  expect((await workshop.probeSuspects("77")).counted).toBe(0);
  expect(workshop.probe("77").points[0]!.readings[0]!.fallen).toMatch(/failed its trial/);
});

test("a model that names no places is laid out by stage and channel, no two points on one spot", async () => {
  const { isModels, points } = placedPoints([
    { point: "a", node: "a", stage: "supply" },
    { point: "b", node: "b", stage: "gain", channel: "left" },
    { point: "c", node: "c", stage: "gain", channel: "left" },
    { point: "d", node: "d", stage: "gain", channel: "left" },
    { point: "e", node: "e", stage: "gain", channel: "right", x_mm: 4 },
  ]);
  expect(isModels).toBe(false);
  expect(new Set(points.map(({ x_mm, y_mm }) => `${x_mm} ${y_mm}`)).size).toBe(5);
  expect(points[1]!.x_mm).toBeLessThan(points[4]!.x_mm);
});

test("an unknown unit is refused by name", async () => {
  const workshop = await shopWith(...opening);
  expect(() => workshop.probe("99")).toThrow(/known units are 77/);
});
