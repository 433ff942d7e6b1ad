import netlist from "../netlists/neap.json" with { type: "json" };
import type { Wiring } from "../physics/workingPoint.ts";
import { caseClaims, type ModelBody, safetyClaims, supplyClaims, testPoints, valvesSteady } from "./common.ts";
import { balanceClaim, noiseClaim, perChannel, responseClaim } from "./sound.ts";
import { windowsOfStage } from "./windows.ts";

export const neapWiring: Wiring = {
  netlist,
  positions: [
    { position: "V1", type: "12AU7", sections: { a: "V1a", b: "V1b" } },
    { position: "V2", type: "6N6P", sections: { a: "V2a", b: "V2b" } },
  ],
  channels: ["left", "right"],
  input: { left: "INL", right: "INR" },
  output: { left: "outL", right: "outR" },
};

const balanceLimit_dB = 0.5;

/** *Neap*, a preamplifier: V1 gives both channels their gain, V2 follows it with its cathodes into the cable. */
export function neap(): ModelBody {
  return {
    kind: "model",
    model: "Neap",
    revision: "A",
    title: "Neap, preamplifier with a cathode follower",
    ...neapWiring,
    feeds: { V1: ["left", "right"], V2: ["left", "right"] },
    outputImpedance_ohm: 250,
    balanceLimit_dB,
    claims: [
      valvesSteady([
        { position: "V1", sections: ["a", "b"], spread_pct: 15 },
        { position: "V2", sections: ["a", "b"], spread_pct: 20 },
      ]),
      testPoints("input", "Gain stage: its test points lie in their windows", {
        points: windowsOfStage("Neap", "input"),
        restsOn: [{ stage: "input" }],
      }),
      testPoints("output", "Follower: its test points lie in their windows", {
        points: windowsOfStage("Neap", "output"),
        extra: perChannel("outputImpedance_ohm", { high: 350 }),
        // Coupled directly, the follower stands where V1's plate puts it.
        restsOn: [{ stage: "output" }, { position: "V1" }],
      }),
      {
        claim: "dc-at-jack",
        title: "No direct voltage at the output sockets",
        sheet: "sound",
        requires: perChannel("jack_mV", { low: -10, high: 10 }),
        restsOn: [{ position: "V2" }, { part: "C1L" }, { part: "C1R" }],
        check: {
          how: "Millivolts at the sockets into 47 kilohm, at switching on and settled",
          skill: "audio",
          place: "audio bench",
          hands_min: 8,
          wait_h: 1,
          danger: "hot",
          after: ["test-points-output"],
          failOdds: 0.03,
          repair_h: 1.5,
        },
      },
      balanceClaim(balanceLimit_dB, { low: 17.8, high: 20.6 }, [{ position: "V1" }, { position: "V2" }]),
      {
        claim: "hum",
        title: "Hum at the sockets stays far under the hiss of the amplifier behind it",
        sheet: "hum",
        requires: perChannel("hum_uVrms", { high: 60 }),
        restsOn: [{ position: "V1" }, { position: "V2" }, { supply: "ht" }],
        check: {
          how: "Input shorted, all lines together on clean supply; 8 s on the building's mains beside it",
          skill: "audio",
          place: "audio bench",
          hands_min: 25,
          wait_h: 2,
          danger: "hot",
          after: ["test-points-output"],
          failOdds: 0.08,
          lateCost_h: 12,
          repair_h: 2.5,
        },
      },
      responseClaim({ low: -1, high: 0.5 }, [{ position: "V1" }, { part: "C1L" }, { part: "C1R" }]),
      noiseClaim(20),
      ...supplyClaims({
        heaters: [
          { point: "V1 heater", volts: 6.3 },
          { point: "V2 heater", volts: 6.3 },
        ],
        ht: [{ point: "HT", low: 250, high: 280 }],
        flux_T: 1.3,
      }),
      ...caseClaims(1.2),
      ...safetyClaims(),
    ],
    build: [
      { step: "chassis", skill: "wiring", place: "wiring bench", hours: { fast: 2.5, usual: 3.5, slow: 5 } },
      {
        step: "wiring",
        skill: "wiring",
        place: "wiring bench",
        hours: { fast: 6, usual: 8, slow: 11 },
        failOdds: 0.07,
      },
      { step: "plate", place: "hot plate", hours: { fast: 48, usual: 48, slow: 48 }, unattended: true },
      { step: "case", skill: "wood", place: "case shop", hours: { fast: 5, usual: 7, slow: 10 }, failOdds: 0.05 },
      { step: "coats", place: "finishing room", hours: { fast: 20, usual: 20, slow: 20 }, unattended: true },
      { step: "heat run", place: "heat-run rack", hours: { fast: 24, usual: 24, slow: 24 }, unattended: true },
    ],
  };
}
