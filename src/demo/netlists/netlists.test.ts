import { describe, expect, test } from "vitest";
import { outputNoise, readNetlist, response, solveRest } from "../../circuits/index.ts";
import bore from "./bore.json" with { type: "json" };
import ebb from "./ebb.json" with { type: "json" };
import flood from "./flood.json" with { type: "json" };
import neap from "./neap.json" with { type: "json" };

const models = [
  { name: "Ebb", drawn: ebb, output: "outL", gain_dB: [12, 24], noise_uVrms: 12 },
  { name: "Neap", drawn: neap, output: "outL", gain_dB: [17, 21], noise_uVrms: 20 },
  { name: "Flood", drawn: flood, output: "outL", gain_dB: [18, 30], noise_uVrms: 60 },
  { name: "Bore", drawn: bore, output: "outL", gain_dB: [43, 49], noise_uVrms: 400 },
] as const;

function restOf(drawn: object) {
  const rest = solveRest(readNetlist(drawn));
  if (rest.state !== "solved") throw new Error(rest.reason);
  return rest;
}

describe.each(models)("$name", ({ drawn, output, gain_dB: [low_dB, high_dB], noise_uVrms }) => {
  test("rests within the ratings of its valves, both channels alike", () => {
    const rest = restOf(drawn);
    expect(rest.notes).toEqual([]);
    for (const [node, volts] of Object.entries(rest.nodes)) {
      if (node.endsWith("L")) expect(volts).toBeCloseTo(rest.nodes[`${node.slice(0, -1)}R`]!, 6);
    }
    for (const point of drawn.testPoints) expect(rest.nodes).toHaveProperty([point.node]);
  });

  // source: common practice, a resistor run at no more than half of its rated heat
  test("no resistor carries more than half of the heat printed on it, or of half a watt where none is", () => {
    const rest = restOf(drawn);
    for (const part of drawn.parts) {
      if (part.kind !== "resistor" || part.stage === "heaters") continue;
      const printed_W = Number(/([\d.]+) W\b/.exec(part.label ?? "")?.[1] ?? 0.5);
      if (/test load|winding|secondary/.test(part.label ?? "")) continue;
      expect(`${part.id}: ${rest.parts[part.id]!.power_mW > 500 * printed_W}`).toBe(`${part.id}: false`);
    }
  });

  // source: heater ratings of reference/tubes.json, 6.3 V; makers allow 5 to 10 per cent
  test("every heater gets 6.3 V within 2 %", () => {
    const rest = restOf(drawn);
    const heaters = drawn.parts.filter(({ id }) => /^V\dh$/.test(id));
    expect(heaters.length).toBeGreaterThanOrEqual(2);
    for (const { id } of heaters) expect(Math.abs(rest.parts[id]!.voltage_V / 6.3 - 1)).toBeLessThan(0.02);
  });

  // source: makers' sheets as in reference/tubes.json: heater to cathode 90 V (6SN7GT, 6SL7GT), 100 V (EL34),
  // 200 V (12AU7, 6N6P), 300 V (6AS7G)
  test("no cathode stands farther from its heater than its sheet allows", () => {
    const rest = restOf(drawn);
    const most_V: Readonly<Record<string, number>> = {
      "6SN7GT": 90,
      "6SL7GT": 90,
      EL34: 100,
      "12AU7": 200,
      "6N6P": 200,
      "6AS7G": 300,
    };
    for (const part of drawn.parts) {
      if (part.kind !== "triode" && part.kind !== "pentode") continue;
      const { id, type, cathode } = part as { id: string; type: string; cathode: string };
      const heater = drawn.parts.find((p) => p.id === `${/^V\d/.exec(id)![0]}h`)!;
      const heater_V = rest.nodes[(heater as { between: string[] }).between[0]!]!;
      expect(Math.abs(rest.nodes[cathode]! - heater_V)).toBeLessThan(most_V[type]!);
    }
  });

  test("amplifies both channels alike, flat within 1 dB from 20 Hz to 20 kHz", () => {
    const netlist = readNetlist(drawn);
    const gains = (["L", "R"] as const).map((side) => {
      const answer = response(netlist, {
        input: `IN${side}`,
        output: `out${side}`,
        frequencies_Hz: [20, 1000, 20_000],
      });
      if (answer.state !== "solved") throw new Error(answer.reason);
      return answer.gain_dB;
    });
    for (const [bass, middle, treble] of gains as [number, number, number][]) {
      expect(middle).toBeGreaterThan(low_dB);
      expect(middle).toBeLessThan(high_dB);
      expect(Math.abs(bass - middle)).toBeLessThan(1);
      expect(Math.abs(treble - middle)).toBeLessThan(1);
    }
    expect(gains[0]![1]).toBeCloseTo(gains[1]![1]!, 6);
  });

  test("hisses no more than its claim allows, volume turned down", () => {
    const netlist = readNetlist(drawn);
    const shorted = {
      ...netlist,
      parts: netlist.parts.map((p) => (p.id === "R1L" && p.kind === "resistor" ? { ...p, ohm: 1 } : p)),
    };
    const noise = outputNoise(shorted, { output, frequencies_Hz: [1000] });
    if (noise.state !== "solved") throw new Error(noise.reason);
    // source: white noise through the A curve is that of a band of about 13.5 kHz at its level of 1 kHz (common practice)
    const weighted_uVrms = 1e6 * noise.V_per_rtHz[0]! * Math.sqrt(13_500);
    expect(weighted_uVrms).toBeLessThan(noise_uVrms);
    expect(weighted_uVrms).toBeGreaterThan(noise_uVrms / 100);
  });
});

describe("Bore", () => {
  test("drives its two stators in opposition, alike within 1 dB", () => {
    const netlist = readNetlist(bore);
    const [plus, minus] = ["outL", "outnL"].map((output) => {
      const answer = response(netlist, { input: "INL", output, frequencies_Hz: [1000] });
      if (answer.state !== "solved") throw new Error(answer.reason);
      return answer;
    });
    expect(Math.abs(plus!.gain_dB[0]! - minus!.gain_dB[0]!)).toBeLessThan(1);
    expect(Math.abs(Math.abs(plus!.phase_deg[0]! - minus!.phase_deg[0]!) - 180)).toBeLessThan(2);
  });

  // source: by hand, 580 V behind 4.7 Mohm: 0.12 mA; under the 0.5 mA that the claim allows
  test("its bias stands at 580 V and can drive no more than 0.2 mA", () => {
    const rest = restOf(bore);
    expect(Math.abs(rest.nodes.bias! - 580)).toBeLessThan(12);
    const shorted = {
      ...bore,
      parts: [...bore.parts, { id: "hand", kind: "resistor", between: ["bias", "0"], ohm: 1 }],
    };
    expect(restOf(shorted).parts.hand!.current_mA).toBeLessThan(0.2);
  });
});
