import netlist from "../netlists/bore.json" with { type: "json" };
import type { Wiring } from "../physics/workingPoint.ts";
import {
  type Claim,
  caseClaims,
  type ModelBody,
  safetyClaims,
  supplyClaims,
  testPoints,
  valvesSteady,
} from "./common.ts";
import { balanceClaim, noiseClaim, perChannel, responseClaim } from "./sound.ts";
import { windowsOfStage } from "./windows.ts";

export const boreWiring: Wiring = {
  netlist,
  positions: [
    { position: "V1", type: "6SL7GT", sections: { a: "V1a", b: "V1b" } },
    { position: "V2", type: "6SL7GT", sections: { a: "V2a", b: "V2b" } },
    { position: "V3", type: "EL34", sections: { a: "V3" } },
    { position: "V4", type: "EL34", sections: { a: "V4" } },
    { position: "V5", type: "EL34", sections: { a: "V5" } },
    { position: "V6", type: "EL34", sections: { a: "V6" } },
  ],
  channels: ["left", "right"],
  input: { left: "INL", right: "INR" },
  output: { left: "outL", right: "outR" },
};

const outputs = ["V3", "V4", "V5", "V6"] as const;
const balanceLimit_dB = 1;
const rails = "Plus and minus 400 V stand 800 V apart, the bias 580 V over the chassis";
const oneHand = `${rails}; one hand, probe clipped on with the mains off, meter and lead rated for 1000 V`;

/**
 * *Bore*, a balanced driver for electrostatic headphones: V1 and V3 with V4 are the left channel, V2 and V5 with V6
 * the right; gain is counted to one stator.
 */
export function bore(): ModelBody {
  const highVoltage = (claim: Claim): Claim => ({
    ...claim,
    check: { ...claim.check, how: `${claim.check.how}. ${oneHand}` },
  });
  return {
    kind: "model",
    model: "Bore",
    revision: "A",
    title: "Bore, balanced driver for electrostatic headphones",
    ...boreWiring,
    feeds: { V1: ["left"], V2: ["right"], V3: ["left"], V4: ["left"], V5: ["right"], V6: ["right"] },
    outputImpedance_ohm: 12500,
    balanceLimit_dB,
    claims: [
      valvesSteady([
        { position: "V1", sections: ["a", "b"], spread_pct: 15 },
        { position: "V2", sections: ["a", "b"], spread_pct: 15 },
        ...outputs.map((position) => ({ position, sections: ["a"], spread_pct: 15 })),
      ]),
      highVoltage(
        testPoints("input", "Input pair: its test points lie in their windows", {
          points: windowsOfStage("Bore", "input"),
          restsOn: [{ stage: "input" }],
        }),
      ),
      highVoltage(
        testPoints("output", "Output pair: its test points lie in their windows", {
          points: windowsOfStage("Bore", "output"),
          restsOn: [{ stage: "output" }],
        }),
      ),
      highVoltage({
        claim: "bias",
        title: "The bias stands where the headphone wants it",
        sheet: "voltages",
        requires: windowsOfStage("Bore", "bias").map(({ point, low, high }) => ({
          quantity: "level_V",
          point,
          low,
          high,
        })),
        restsOn: [{ stage: "bias" }],
        check: {
          how: "Bias at its reservoir and at the socket, which a meter of 10 Mohm pulls down to two thirds",
          skill: "voltages",
          place: "wiring bench",
          hands_min: 10,
          danger: "high-voltage",
          after: ["earth-bond", "insulation"],
          failOdds: 0.04,
          lateCost_h: 10,
          repair_h: 1.5,
        },
      }),
      balanceClaim(
        balanceLimit_dB,
        { low: 43, high: 49 },
        ["V1", "V2", ...outputs].map((position) => ({ position })),
      ),
      {
        claim: "hum",
        title: "Hum at the stators stays under what electrostatic headphones let hear",
        sheet: "hum",
        requires: perChannel("hum_uVrms", { high: 4000 }),
        restsOn: [...["V1", "V2", ...outputs].map((position) => ({ position })), { supply: "ht" }],
        check: {
          how: `Input shorted, through the bench's 1000 V probe, 8 s on the building's mains and 8 s on clean supply. ${rails}`,
          skill: "audio",
          place: "audio bench",
          hands_min: 40,
          wait_h: 2,
          danger: "high-voltage",
          after: ["test-points-output"],
          failOdds: 0.1,
          lateCost_h: 16,
          repair_h: 3,
        },
      },
      responseClaim(
        { low: -1, high: 1 },
        outputs.map((position) => ({ position })),
      ),
      noiseClaim(3000),
      ...supplyClaims({
        heaters: ["V1", "V2", ...outputs].map((position) => ({ point: `${position} heater`, volts: 6.3 })),
        ht: [
          { point: "plus rail", low: 380, high: 440 },
          { point: "minus rail", low: -440, high: -380 },
        ],
        flux_T: 1.3,
      }),
      {
        claim: "bias-current",
        title: "The bias can drive no harmful current through a hand",
        sheet: "safety",
        safety: true,
        requires: [{ quantity: "biasShort_mA", high: 0.5 }],
        restsOn: [{ stage: "bias" }, { supply: "tap" }],
        check: {
          how: `Current from the bias pin of the socket to earth. ${rails}; a shock from the rails is lethal long after unplugging`,
          skill: "safety",
          place: "audio bench",
          hands_min: 5,
          danger: "high-voltage",
          after: ["earth-bond", "insulation"],
          failOdds: 0.01,
        },
      },
      ...caseClaims(1.5),
      ...safetyClaims(["plus rail", "minus rail", "bias reservoir"]),
    ],
    build: [
      { step: "chassis", skill: "wiring", place: "wiring bench", hours: { fast: 5, usual: 7, slow: 10 } },
      {
        step: "wiring",
        skill: "wiring",
        place: "wiring bench",
        hours: { fast: 14, usual: 18, slow: 25 },
        failOdds: 0.1,
      },
      { step: "plate", place: "hot plate", hours: { fast: 48, usual: 48, slow: 48 }, unattended: true },
      { step: "case", skill: "wood", place: "case shop", hours: { fast: 8, usual: 11, slow: 15 }, failOdds: 0.06 },
      { step: "coats", place: "finishing room", hours: { fast: 20, usual: 20, slow: 20 }, unattended: true },
      { step: "heat run", place: "heat-run rack", hours: { fast: 24, usual: 24, slow: 24 }, unattended: true },
    ],
  };
}
