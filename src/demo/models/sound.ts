import type { Claim } from "./common.ts";

const channels = ["left", "right"] as const;

export function perChannel(quantity: string, limits: { low?: number; high?: number }): Claim["requires"] {
  return channels.map((channel) => ({ quantity, channel, ...limits }));
}

const bench = { skill: "audio", place: "audio bench", danger: "hot" } as const;

/** Both channels alike, and as loud as the model says. */
export function balanceClaim(limit_dB: number, gain: { low: number; high: number }, restsOn: Claim["restsOn"]): Claim {
  return {
    claim: "balance",
    title: "Left and right are alike, at the gain of the model",
    sheet: "sound",
    requires: [{ quantity: "balance_dB", low: -limit_dB, high: limit_dB }, ...perChannel("gain_dB", gain)],
    restsOn,
    check: {
      ...bench,
      how: "1 kHz, both channels driven, loop-back taken first",
      hands_min: 15,
      after: ["test-points-input", "test-points-output"],
      failOdds: 0.06,
      repair_h: 1.5,
    },
  };
}

/** The ends of the band against 1 kHz. */
export function responseClaim(ends: { low: number; high: number }, restsOn: Claim["restsOn"]): Claim {
  return {
    claim: "response",
    title: "The ends of the band are where the model puts them",
    sheet: "sound",
    requires: channels.flatMap((channel) => [
      { quantity: "response_dB", channel, point: "20 Hz", ...ends },
      { quantity: "response_dB", channel, point: "20 kHz", ...ends },
    ]),
    restsOn,
    check: {
      ...bench,
      how: "Sweep from 10 Hz to 40 kHz into the rated load, against 1 kHz",
      hands_min: 12,
      after: ["test-points-input", "test-points-output"],
      failOdds: 0.03,
      repair_h: 1.5,
    },
  };
}

/** Hiss belongs to the first stage; what follows adds next to nothing to it. */
export function noiseClaim(limit_uVrms: number): Claim {
  return {
    claim: "noise",
    title: "The hiss of the first stage stays low",
    sheet: "sound",
    requires: perChannel("hissA_uVrms", { high: limit_uVrms }),
    restsOn: [{ stage: "input" }],
    check: {
      ...bench,
      how: "Input shorted, hiss without lines, A-weighted",
      hands_min: 10,
      after: ["test-points-input"],
      failOdds: 0.05,
      repair_h: 1.5,
    },
  };
}
