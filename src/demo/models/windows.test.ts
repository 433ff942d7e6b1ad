import { expect, test } from "vitest";
import { boreWiring } from "./bore.ts";
import { ebbWiring } from "./ebb.ts";
import { floodWiring } from "./flood.ts";
import { neapWiring } from "./neap.ts";
import { drawWindows, windowsOfStage } from "./windows.ts";

// property: other units of the same drawing leave the windows where they are, to a fifth of their width
test.each([
  ["Ebb", ebbWiring],
  ["Neap", neapWiring],
  ["Flood", floodWiring],
  ["Bore", boreWiring],
] as const)("the windows on file of %s are those of the net list as it is drawn", (model, { netlist }) => {
  const fresh = drawWindows(netlist, 600, "other units");
  expect(fresh.length).toBeGreaterThan(10);
  for (const { point, stage, low, high } of fresh) {
    const onFile = windowsOfStage(model, stage!).find((window) => window.point === point)!;
    const most = 0.2 * (onFile.high - onFile.low);
    expect(`${point}: ${Math.abs(onFile.low - low) < most}`).toBe(`${point}: true`);
    expect(`${point}: ${Math.abs(onFile.high - high) < most}`).toBe(`${point}: true`);
  }
});
