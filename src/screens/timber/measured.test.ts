import { expect, test } from "vitest";
import { measuredIn } from "./measured.ts";

const flat = { ringAngle_deg: 0, width_mm: 200, moisture_pct: 12, laterWidth_mm: 197.6, laterMoisture_pct: 8 };

test("pieces measured are read with points or commas, and what can't be read is named", () => {
  expect(measuredIn("0 200 12 197,6 8")).toEqual([flat]);
  expect(measuredIn(" 0 200 12 197.6 8; 90 200 12 197.6 8;")).toEqual([flat, { ...flat, ringAngle_deg: 90 }]);
  expect(measuredIn("")).toEqual([]);
  expect(measuredIn("0 200 12 197.6 8; 90 150 12")).toBe("90 150 12");
  expect(measuredIn("flat 200 12 197.6 8")).toBe("flat 200 12 197.6 8");
});
