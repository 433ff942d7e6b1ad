import { describe, expect, test } from "vitest";
import type { Setting } from "./cause.ts";
import { gainChanges } from "./gainTrial.ts";
import type { LineReading } from "./lineReading.ts";

const setting = (valve: string): Setting => ({
  supply: { source: "regenerated", frequency_Hz: 57 },
  offset: true,
  valves: { V1: valve },
});
const settings = [setting("a"), setting("b")];
const from_dB = (dB: number) => 10 ** (dB / 20);

/** Ten lines of the unit's supply and two of the building's field, with hiss beside them. */
function readings(
  recording: number,
  own_dB: (order: number) => number,
  field_dB: number,
  hiss_dB: number,
): LineReading[] {
  const line = (order: number, family: "supply" | "building", level_Vrms: number): LineReading => ({
    recording,
    channel: "left",
    order,
    family,
    frequency_Hz: order * (family === "supply" ? 57 : 50),
    level_Vrms,
    doubt_Vrms: 1e-8 * from_dB(hiss_dB),
    stands: true,
    crowded: false,
  });
  const own = Array.from({ length: 10 }, (_, i) => line(i + 1, "supply", (1e-4 / (i + 1)) * from_dB(own_dB(i + 1))));
  return [...own, ...[1, 3].map((order) => line(order, "building", (1e-5 / order) * from_dB(field_dB)))];
}
const before = readings(0, () => 0, 0, 0);
const change = (...after: LineReading[]) => gainChanges([...before, ...after], settings, 0, [6, 6])[1];

// source: levels worked by hand; a gain of −12 dB takes everything that the unit puts out down by 12 dB
describe("a recording with less gain", () => {
  test("is told by its hiss that fell with the hum, where no field is read", () => {
    const found = change(...readings(1, () => -12, 0, -12).filter(({ family }) => family === "supply"));
    expect(found!.lines_dB).toBeCloseTo(-12, 9);
    expect(found!.hiss_dB).toBeCloseTo(-12, 9);
  });

  test("is told by the building's lines that fell alike, where the recorder's own noise hides the hiss", () => {
    expect(change(...readings(1, () => -12, -12, -1))).toMatchObject({ since: 0 });
  });

  test("is told though the new valve brings a little hum of its own", () => {
    const uneven = readings(1, (order) => -12 + (order % 3 === 0 ? 5 : 0.6), -12, -10.5);
    expect(change(...uneven)).toBeDefined();
  });

  test("a longer record, which reads its lines sharper, is none", () => {
    const longer = readings(1, () => -12, 0, -6.0206);
    // source: doubt falls as 1/√T, four times the length is 6.02 dB
    expect(gainChanges([...before, ...longer], settings, 0, [2, 8])[1]).toBeUndefined();
  });
});

describe("a recording whose valve was the cause", () => {
  test("keeps its hiss and the building's lines, and is compared", () => {
    expect(change(...readings(1, () => -12, 0.3, 0.2))).toBeUndefined();
  });

  test("and may be quieter by some decibels too, while its hum falls by many more", () => {
    expect(change(...readings(1, () => -34, 0.2, -5))).toBeUndefined();
  });
});
