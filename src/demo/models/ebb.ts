import netlist from "../netlists/ebb.json" with { type: "json" };
import type { Wiring } from "../physics/workingPoint.ts";
import { caseClaims, type ModelBody, safetyClaims, supplyClaims, testPoints, valvesSteady } from "./common.ts";
import { balanceClaim, noiseClaim, perChannel, responseClaim } from "./sound.ts";
import { windowsOfStage } from "./windows.ts";

export const ebbWiring: Wiring = {
  netlist,
  positions: [
    { position: "V1", type: "6SN7GT", sections: { a: "V1a", b: "V1b" } },
    { position: "V2", type: "6AS7G", sections: { a: "V2a", b: "V2b" } },
  ],
  channels: ["left", "right"],
  input: { left: "INL", right: "INR" },
  output: { left: "outL", right: "outR" },
};

const balanceLimit_dB = 0.5;

/**
 * *Ebb*, a headphone amplifier without an output transformer: one section of V1 and one of V2 a channel.
 *
 * Four claims rest on V2: balance, hum, the test points of the output stage (with the output impedance, which is V2's
 * own) and the direct voltage at the jack. The stages are coupled directly, so V1 moves the output's test points too.
 */
export function ebb(): ModelBody {
  return {
    kind: "model",
    model: "Ebb",
    revision: "C",
    title: "Ebb, headphone amplifier without an output transformer",
    ...ebbWiring,
    feeds: { V1: ["left", "right"], V2: ["left", "right"] },
    outputImpedance_ohm: 83,
    balanceLimit_dB,
    claims: [
      valvesSteady([
        { position: "V1", sections: ["a", "b"], spread_pct: 15 },
        { position: "V2", sections: ["a", "b"], spread_pct: 20 },
      ]),
      testPoints("input", "Input stage: its test points lie in their windows", {
        points: windowsOfStage("Ebb", "input"),
        restsOn: [{ stage: "input" }],
      }),
      testPoints("output", "Output stage: its test points lie in their windows", {
        points: windowsOfStage("Ebb", "output"),
        extra: perChannel("outputImpedance_ohm", { high: 110 }),
        restsOn: [{ stage: "output" }, { position: "V1" }],
      }),
      {
        claim: "dc-at-jack",
        title: "No direct voltage at the jack",
        sheet: "sound",
        requires: perChannel("jack_mV", { low: -15, high: 15 }),
        restsOn: [{ position: "V2" }, { part: "C1L" }, { part: "C1R" }],
        check: {
          how: "Millivolts at the jack into 300 ohm, cold, at switching on and settled",
          skill: "audio",
          place: "audio bench",
          hands_min: 10,
          wait_h: 2,
          danger: "hot",
          after: ["test-points-output"],
          failOdds: 0.04,
          repair_h: 2,
        },
      },
      balanceClaim(balanceLimit_dB, { low: 16.3, high: 19.3 }, [{ position: "V1" }, { position: "V2" }]),
      {
        claim: "hum",
        title: "No hum of its own is heard on any of the shop's headphones",
        sheet: "hum",
        requires: perChannel("hum_margin_dB", { high: 0 }),
        restsOn: [{ position: "V1" }, { position: "V2" }, { supply: "ht" }],
        check: {
          how: "After a day and a half of running in; input shorted, 8 s on the building's mains and 8 s regenerated",
          skill: "audio",
          place: "audio bench",
          hands_min: 30,
          wait_h: 36,
          danger: "hot",
          after: ["dc-at-jack"],
          failOdds: 0.1,
          lateCost_h: 14,
          repair_h: 3,
        },
      },
      responseClaim({ low: -1, high: 0.5 }, [{ position: "V1" }, { part: "C1L" }, { part: "C1R" }]),
      noiseClaim(12),
      ...supplyClaims({
        heaters: [
          { point: "V1 heater", volts: 6.3 },
          { point: "V2 heater", volts: 6.3 },
        ],
        ht: [{ point: "HT", low: 226, high: 260 }],
        flux_T: 1.3,
      }),
      ...caseClaims(1.2),
      ...safetyClaims(),
    ],
    build: [
      { step: "chassis", skill: "wiring", place: "wiring bench", hours: { fast: 3, usual: 4, slow: 6 } },
      {
        step: "wiring",
        skill: "wiring",
        place: "wiring bench",
        hours: { fast: 7, usual: 9, slow: 13 },
        failOdds: 0.08,
      },
      { step: "plate", place: "hot plate", hours: { fast: 48, usual: 48, slow: 48 }, unattended: true },
      { step: "case", skill: "wood", place: "case shop", hours: { fast: 5, usual: 7, slow: 10 }, failOdds: 0.05 },
      { step: "coats", place: "finishing room", hours: { fast: 20, usual: 20, slow: 20 }, unattended: true },
      { step: "heat run", place: "heat-run rack", hours: { fast: 24, usual: 24, slow: 24 }, unattended: true },
    ],
  };
}
