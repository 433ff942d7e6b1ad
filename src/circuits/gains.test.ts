import { expect, test } from "vitest";
import ebb from "../demo/netlists/ebb.json" with { type: "json" };
import { catalogueModel } from "../valves/model.ts";
import { gains_dB, gainsOf, readNetlist, response } from "./index.ts";

const netlist = readNetlist(ebb);
const model = catalogueModel("6SN7GT")!;
const weaker = { ...model, current_A: model.current_A * 0.85 };

// second method: the same valves written into the net list, and the response asked for one channel at a time
test("valves tried in their places give the gains of a net list that holds them", () => {
  const written = readNetlist({
    ...ebb,
    parts: ebb.parts.map((part) => (part.id === "V1b" ? { ...part, model: weaker } : part)),
  });
  const [left, right] = gainsOf(netlist, ["INL", "INR"], ["outL", "outR"], 1000)({ V1b: weaker });
  const one = (input: string, output: string) => {
    const answer = response(written, { input, output, frequencies_Hz: [1000] });
    if (answer.state !== "solved") throw new Error(answer.reason);
    return answer.gain_dB[0]!;
  };
  expect(left).toBeCloseTo(one("INL", "outL"), 9);
  expect(right).toBeCloseTo(one("INR", "outR"), 9);
  expect(Math.abs(left! - right!)).toBeGreaterThan(0.05);
});

test("candidates are answered in order, and the net list's own valves stand where none is named", () => {
  const [own, weak, again] = gains_dB(netlist, ["INL", "INR"], ["outL", "outR"], 1000, [
    {},
    { V1a: weaker, V1b: weaker },
    {},
  ]);
  expect(own![0]).toBeCloseTo(own![1]!, 9);
  expect(weak![0]).toBeCloseTo(weak![1]!, 9);
  expect(again).toEqual(own);
  expect(weak![0]).not.toBeCloseTo(own![0]!, 2);
});
