import { describe, expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { lineLevel_rms, samplesOf, windowed } from "../testing/plainSpectrum.ts";
import { standingOf, type Take, takeRecording } from "./bench.ts";
import { addHiss, johnson_V_per_rtHz, weightedHiss_Vrms } from "./hiss.ts";
import { channelLines } from "./humLines.ts";
import { leakage_A, leakageLines } from "./leakage.ts";
import { buildingMains, regenerator } from "./supply.ts";
import { gm_mS, plate_mA } from "./triode.ts";
import { wavFile } from "./wav.ts";

const rate_Hz = 48_000;

describe("the WAV writer", () => {
  test("writes what another reading of the bytes gives back, to one step of 24 bits", () => {
    const left = Float64Array.of(0, 0.5, -0.5, 0.999, -1, 2);
    const right = Float64Array.of(-0.25, 1 / 2 ** 23, 0, 0, 0, -2);
    const file = wavFile({ rate_Hz: 44_100, bits: 24 }, [left, right]);
    const text = (at: number, length: number) => String.fromCharCode(...file.slice(at, at + length));
    expect([text(0, 4), text(8, 8), text(60, 4)]).toEqual(["RIFF", "WAVEfmt ", "data"]);
    expect(new DataView(file.buffer).getUint32(4, true)).toBe(file.length - 8);
    const [readLeft, readRight] = samplesOf(file);
    for (let n = 0; n < 5; n++) expect(Math.abs(readLeft![n]! - left[n]!)).toBeLessThanOrEqual(0.5 / 2 ** 23);
    expect(readRight![1]).toBe(1 / 2 ** 23);
    expect([readLeft![5], readRight![5]]).toEqual([1 - 1 / 2 ** 23, -1]);
  });

  test("refuses channels of different lengths", () => {
    expect(() => wavFile({ rate_Hz: 48_000, bits: 24 }, [new Float64Array(3), new Float64Array(4)])).toThrow(
      RangeError,
    );
  });
});

describe("leakage from heater to cathode", () => {
  const leakage = { atTester_uA: 138, bend_V: 100, offCentre: 1 };
  const pureSine = new Map([[1, { ratio: 1, phase_cycles: 0 }]]);

  // source: by hand, 138 µA/sinh(1) = 117.43 µA; at 76 V: 117.43·sinh(0.76) = 117.43·0.8353 = 98.09 µA
  test("follows the hyperbolic sine through what the tester reads", () => {
    expect(leakage_A(leakage, 100) * 1e6).toBeCloseTo(138, 9);
    expect(leakage_A(leakage, 76) * 1e6).toBeCloseTo(98.09, 1);
    expect(leakage_A(leakage, -76)).toBe(-leakage_A(leakage, 76));
  });

  // source: by hand, Taylor series about 76 V for a swing v of 4.455 Vpk. First order: s·cosh(0.76)/100·v/√2 =
  // 117.43·1.3030/100·3.150 = 4.82 µA; second: s·sinh(0.76)/100²·v²/4/√2 = 117.43·0.8353/10⁴·4.962/1.414 = 0.0344 µA
  test("gives the supply's frequency by its slope and twice that by its curvature", () => {
    const lines = leakageLines(leakage, 76, 4.455, pureSine, 3);
    expect(lines[0]!.current_Arms * 1e6).toBeCloseTo(4.82, 1);
    expect(lines[1]!.current_Arms * 1e6).toBeCloseTo(0.0344, 3);
    expect(lines[2]!.current_Arms).toBeLessThan(1e-9);
  });

  test("spread along an earthed heater it all but cancels", () => {
    const spread = leakageLines({ ...leakage, offCentre: 0.01 }, 76, 4.455, pureSine, 1);
    const spot = leakageLines(leakage, 76, 4.455, pureSine, 1);
    expect(spread[0]!.current_Arms / spot[0]!.current_Arms).toBeCloseTo(0.01, 4);
  });

  test("passes on the fifth multiple of a bent supply in its proportion", () => {
    const bent = new Map([
      [1, { ratio: 1, phase_cycles: 0 }],
      [5, { ratio: 0.03, phase_cycles: 0.2 }],
    ]);
    const lines = leakageLines({ ...leakage, bend_V: 1e4 }, 76, 4.455, bent, 5);
    expect(lines[4]!.current_Arms / lines[0]!.current_Arms).toBeCloseTo(0.03, 5);
  });
});

describe("triodes", () => {
  // source: by hand, perveance 1 mA/V^1.5, mu 20, 200 V, −6 V: E = 4 V, 8 mA, gm = 1.5·2 = 3 mS; cut off at −10 V
  test("obey the three-halves law", () => {
    const law = { mu: 20, perveance_mA_per_V1p5: 1 };
    expect(plate_mA(law, 200, -6)).toBeCloseTo(8, 12);
    expect(gm_mS(law, 200, -6)).toBeCloseTo(3, 12);
    expect(plate_mA(law, 200, -12)).toBe(0);
  });
});

describe("noise", () => {
  // source: textbook value, 1 kohm at 25 °C: 4.06 nV/√Hz
  test("of a resistor", () => {
    expect(johnson_V_per_rtHz(1000) * 1e9).toBeCloseTo(4.06, 2);
  });

  // source: A-weighted bandwidth of white noise 20 Hz to 20 kHz: about 13.5 kHz, or −1.7 dB on 20 kHz (common practice)
  test("weighted, white noise comes to 1.7 dB under its 20 kHz value", () => {
    expect(20 * Math.log10(weightedHiss_Vrms(1, 0) / Math.sqrt(20_000))).toBeCloseTo(-1.7, 0);
  });

  test("has the density asked for, √(1 + corner/f) rising towards low frequencies", () => {
    const length = 2 ** 17;
    const volts = new Float64Array(length);
    addHiss(volts, rate_Hz, 1e-6, 1000, randomStream("hiss 7"));
    for (const centre_Hz of [70, 200, 1000, 8000]) {
      // Scatter of 120 bins' mean: 1/√120 in power, 0.4 dB; the shaping itself is good to 0.5 dB.
      expect(Math.abs(10 * Math.log10(powerOverLaw(volts, centre_Hz)))).toBeLessThan(1.3);
    }
  });

  /** Power found over power wanted, 10⁻¹²·(1 + 1000/f), mean of 15 bins of 2.9 Hz in each of eight pieces. */
  function powerOverLaw(volts: Float64Array, centre_Hz: number): number {
    const pieces = 8;
    const length = volts.length / pieces;
    const middle = Math.round((centre_Hz / rate_Hz) * length);
    let sum = 0;
    for (let piece = 0; piece < pieces; piece++) {
      const samples = volts.subarray(piece * length, (piece + 1) * length);
      for (let turns = middle - 7; turns <= middle + 7; turns++) {
        let re = 0;
        let im = 0;
        for (let n = 0; n < length; n++) {
          const angle = (2 * Math.PI * turns * n) / length;
          re += samples[n]! * Math.cos(angle);
          im += samples[n]! * Math.sin(angle);
        }
        const found = (2 * (re * re + im * im)) / (length * rate_Hz);
        sum += found / (1e-12 * (1 + (1000 * length) / (turns * rate_Hz)));
      }
    }
    return sum / (15 * pieces);
  }
});

describe("supplies", () => {
  test("the building's frequency strays by milliherz within seconds, and its mean is what the phase went through", () => {
    const mains = buildingMains(50, 8 * rate_Hz, rate_Hz, 1, randomStream("mains 3"));
    const second = (s: number) => mains.cycles[(s + 1) * rate_Hz - 1]! - mains.cycles[s * rate_Hz]!;
    const each = Array.from({ length: 8 }, (_, s) => (second(s) * rate_Hz) / (rate_Hz - 1));
    for (const hertz of each) expect(Math.abs(hertz - 50)).toBeLessThan(0.1);
    for (let s = 1; s < 8; s++) {
      expect(Math.abs(each[s]! - each[s - 1]!)).toBeLessThan(0.015);
      expect(each[s]).not.toBe(each[s - 1]);
    }
    const whole = mains.cycles.at(-1)! - mains.cycles[0]!;
    expect(mains.mean_Hz).toBeCloseTo((whole * rate_Hz) / (8 * rate_Hz - 1), 5);
  });

  test("the regenerator holds its frequency to millionths, at a fresh phase each time", () => {
    const [a, b] = ["one", "two"].map((label) => regenerator(57, 1000, rate_Hz, randomStream(label)));
    expect(Math.abs(a!.mean_Hz / 57 - 1)).toBeLessThan(2e-5);
    expect(a!.cycles[0]).not.toBe(b!.cycles[0]);
  });
});

describe("a recording", () => {
  const take = (over: Partial<Take> = {}): Take => ({
    channels: [
      {
        channel: "left",
        field: [{ order: 1, level_Vrms: 20e-6 }],
        ripple: [{ order: 2, level_Vrms: 30e-6 }],
        winding_Vrms: 0,
        cathodes: [],
        hiss_V_per_rtHz: 30e-9,
        hissCorner_Hz: 500,
      },
    ],
    fitted: {},
    building_Hz: 50,
    buildingDistortion: 1,
    supply: { source: "regenerated", frequency_Hz: 57 },
    seconds: 4,
    fullScale_Vpk: 0.02,
    chance: randomStream("take"),
    ...over,
  });
  const level = (wav: Uint8Array, near_Hz: number) =>
    0.02 * lineLevel_rms(windowed(samplesOf(wav)[0]!), rate_Hz, near_Hz, 0.1);

  // source: what was put in: 20 µV of field as it stands; ripple 30 µV at 100 Hz falls to 30·(50/57)² = 23.1 µV at
  // 114 Hz; contacts move both by 2 % (one standard deviation)
  test("holds the levels that were put in", () => {
    const wav = takeRecording(take());
    expect(level(wav, 50) / 20e-6).toBeGreaterThan(0.93);
    expect(level(wav, 50) / 20e-6).toBeLessThan(1.07);
    expect(level(wav, 114) / 23.1e-6).toBeGreaterThan(0.93);
    expect(level(wav, 114) / 23.1e-6).toBeLessThan(1.07);
    expect(level(wav, 100)).toBeLessThan(1e-6);
  });

  test("is 4 s of 48 kHz, and another chance gives another file", () => {
    const wav = takeRecording(take());
    expect(samplesOf(wav)[0]).toHaveLength(4 * rate_Hz);
    expect(Buffer.compare(wav, takeRecording(take()))).toBe(0);
    expect(Buffer.compare(wav, takeRecording(take({ chance: randomStream("other") })))).not.toBe(0);
  });

  // source: by hand, a capacitance passes order n of ratio r as n·r of the fundamental: 5·0.031 = 0.155 before scatter
  test("brings in a bent house mains by the windings, and far less of it from the regenerator", () => {
    const channel = { ...take().channels[0]!, winding_Vrms: 100e-6 };
    const house = take({ channels: [channel], supply: { source: "building", frequency_Hz: 50 } });
    const socket = buildingMains(50, rate_Hz, rate_Hz, 1, randomStream("socket"));
    const fifth = channelLines(channel, standingOf(house, socket), house.chance).find(
      (l) => l.of === "supply" && l.order === 5,
    )!;
    const first = channelLines(channel, standingOf(house, socket), house.chance).find(
      (l) => l.of === "supply" && l.order === 1,
    )!;
    expect(fifth.level_Vrms / first.level_Vrms).toBeCloseTo(5 * socket.shape.get(5)!.ratio, 9);
    expect(socket.shape.get(5)!.ratio).toBeGreaterThan(0.02);
    const clean = regenerator(57, rate_Hz, rate_Hz, randomStream("clean"));
    expect(clean.shape.get(5)!.ratio).toBeLessThan(0.001);
  });
});
