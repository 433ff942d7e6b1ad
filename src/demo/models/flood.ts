import netlist from "../netlists/flood.json" with { type: "json" };
import type { Wiring } from "../physics/workingPoint.ts";
import { caseClaims, type ModelBody, safetyClaims, supplyClaims, testPoints, valvesSteady } from "./common.ts";
import { balanceClaim, noiseClaim, perChannel, responseClaim } from "./sound.ts";
import { windowsOfStage } from "./windows.ts";

export const floodWiring: Wiring = {
  netlist,
  positions: [
    { position: "V1", type: "6SL7GT", sections: { a: "V1a", b: "V1b" } },
    { position: "V2", type: "EL34", sections: { a: "V2" } },
    { position: "V3", type: "EL34", sections: { a: "V3" } },
  ],
  channels: ["left", "right"],
  input: { left: "INL", right: "INR" },
  output: { left: "outL", right: "outR" },
};

const balanceLimit_dB = 1;

/** *Flood*, a single-ended power amplifier: V1 drives both channels, V2 is the left output valve and V3 the right. */
export function flood(): ModelBody {
  return {
    kind: "model",
    model: "Flood",
    revision: "B",
    title: "Flood, single-ended power amplifier",
    ...floodWiring,
    feeds: { V1: ["left", "right"], V2: ["left"], V3: ["right"] },
    outputImpedance_ohm: 2,
    balanceLimit_dB,
    claims: [
      valvesSteady([
        { position: "V1", sections: ["a", "b"], spread_pct: 15 },
        { position: "V2", sections: ["a"], spread_pct: 15 },
        { position: "V3", sections: ["a"], spread_pct: 15 },
      ]),
      testPoints("input", "Input stage: its test points lie in their windows", {
        points: windowsOfStage("Flood", "input"),
        restsOn: [{ stage: "input" }],
      }),
      testPoints("output", "Output stage: its test points lie in their windows", {
        points: windowsOfStage("Flood", "output"),
        extra: perChannel("outputImpedance_ohm", { high: 3 }),
        restsOn: [{ stage: "output" }],
      }),
      balanceClaim(balanceLimit_dB, { low: 23, high: 27.5 }, [
        { position: "V1" },
        { position: "V2" },
        { position: "V3" },
      ]),
      {
        claim: "hum",
        title: "Hum at the terminals is inaudible from the listening chair",
        sheet: "hum",
        requires: perChannel("hum_uVrms", { high: 400 }),
        restsOn: [{ position: "V1" }, { position: "V2" }, { position: "V3" }, { supply: "ht" }],
        check: {
          how: "Input shorted, 8 ohm loads, all lines together on clean supply; 8 s on the building's mains beside it",
          skill: "audio",
          place: "audio bench",
          hands_min: 30,
          wait_h: 2,
          danger: "hot",
          after: ["test-points-output"],
          failOdds: 0.1,
          lateCost_h: 14,
          repair_h: 3,
        },
      },
      responseClaim({ low: -2, high: 1 }, [
        { position: "V1" },
        { part: "C2L" },
        { part: "C2R" },
        { part: "T1" },
        { part: "T2" },
      ]),
      noiseClaim(60),
      ...supplyClaims({
        heaters: [
          { point: "V1 heater", volts: 6.3 },
          { point: "V2 heater", volts: 6.3 },
          { point: "V3 heater", volts: 6.3 },
        ],
        ht: [{ point: "HT", low: 344, high: 394 }],
        flux_T: 1.3,
      }),
      ...caseClaims(1.5),
      ...safetyClaims(),
    ],
    build: [
      { step: "chassis", skill: "wiring", place: "wiring bench", hours: { fast: 4, usual: 6, slow: 8 } },
      {
        step: "wiring",
        skill: "wiring",
        place: "wiring bench",
        hours: { fast: 10, usual: 13, slow: 18 },
        failOdds: 0.08,
      },
      { step: "plate", place: "hot plate", hours: { fast: 48, usual: 48, slow: 48 }, unattended: true },
      { step: "case", skill: "wood", place: "case shop", hours: { fast: 8, usual: 11, slow: 15 }, failOdds: 0.06 },
      { step: "coats", place: "finishing room", hours: { fast: 20, usual: 20, slow: 20 }, unattended: true },
      { step: "heat run", place: "heat-run rack", hours: { fast: 24, usual: 24, slow: 24 }, unattended: true },
    ],
  };
}
