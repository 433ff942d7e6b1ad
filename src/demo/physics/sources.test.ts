import { describe, expect, test } from "vitest";
import { randomStream } from "../../maths/random.ts";
import { lineLevel_rms, samplesOf, windowed } from "../testing/plainSpectrum.ts";
import { type Take, takeRecording } from "./bench.ts";
import { Normals } from "./normals.ts";
import { chargeReservoir } from "./rectifier.ts";
import { addTaps } from "./ringing.ts";
import { addTone } from "./sentTone.ts";
import { trackGain_dB } from "./volumeControl.ts";

const rate_Hz = 48_000;
const sine = new Map([[1, { ratio: 1, phase_cycles: 0 }]]);

describe("normal deviates by the hundred thousand", () => {
  // source: normal distribution, moments 0, 1, 0, 3 and tails beyond 1.96 (0.0500) and 3.5 (0.000465); their scatter
  // over so many draws is 0.002, 0.003, 0.005, 0.018, 0.0004 and 0.00004
  test("have the moments and tails of the bell, the tail beyond the last layer with them", () => {
    const normals = new Normals(randomStream("bell"));
    const draws = Float64Array.from({ length: 3e5 }, () => normals.next());
    const mean = (of: (x: number) => number) => draws.reduce((sum, x) => sum + of(x), 0) / draws.length;
    expect(Math.abs(mean((x) => x))).toBeLessThan(0.007);
    expect(Math.abs(mean((x) => x ** 2) - 1)).toBeLessThan(0.01);
    expect(Math.abs(mean((x) => x ** 3))).toBeLessThan(0.018);
    expect(Math.abs(mean((x) => x ** 4) - 3)).toBeLessThan(0.07);
    expect(Math.abs(mean((x) => Number(Math.abs(x) > 1.96)) - 0.05)).toBeLessThan(0.0016);
    expect(Math.abs(mean((x) => Number(Math.abs(x) > 3.5)) - 0.000465)).toBeLessThan(0.00016);
  });
});

describe("a reservoir behind a full-wave rectifier", () => {
  const reservoir = { winding_Vpk: 400, source_ohm: 25, reservoir_uF: 100, load_mA: 160 };

  // source: by hand. What flows in must flow out: the mean pulse is the load's 160 mA. With pulses short against the
  // cycle, the ripple at twice the supply is that of a sawtooth of I/(2fC) = 16 V less what the pulse takes back; its
  // second order of the supply is at most 16/π/√2 = 3.6 V r.m.s.
  test("gives as much as it is given, with the ripple of a sawtooth made a little blunter", () => {
    const { ripple, ht_V, shape } = chargeReservoir(reservoir, sine, 50);
    expect(ripple[0]!.value_rms).toBeLessThan(3.6);
    expect(ripple[0]!.value_rms).toBeGreaterThan(3.0);
    expect(ht_V).toBeGreaterThan(365);
    expect(ht_V).toBeLessThan(385);
    expect(shape.get(1)!.ratio).toBeCloseTo(1, 4);
    expect(shape.get(5)!.ratio).toBeLessThan(1e-6);
    // Charge balance: C·du/dt at order n is the pulse's order n, so u_n = i_n/(2π·n·f·C).
    const { pulses } = chargeReservoir(reservoir, sine, 50);
    for (const [i, { order, value_rms }] of pulses.slice(0, 4).entries()) {
      expect(value_rms / (2 * Math.PI * order * 50 * 100e-6) / ripple[i]!.value_rms).toBeCloseTo(1, 2);
    }
  });

  test("a source that gives way cuts its peaks, and the HT and the pulses' higher orders fall with them", () => {
    const sound = chargeReservoir(reservoir, sine, 57);
    const cut = chargeReservoir(reservoir, sine, 57, 600);
    expect(cut.ht_V / sound.ht_V).toBeGreaterThan(0.93);
    expect(cut.ht_V / sound.ht_V).toBeLessThan(0.945);
    const crest = crestFactor(cut.shape);
    expect(crest).toBeGreaterThan(1.33);
    expect(crest).toBeLessThan(1.36);
    // 342 and 456 Hz, where ears are keen, by 10 dB and more.
    for (const i of [2, 3]) expect(cut.pulses[i]!.value_rms / sound.pulses[i]!.value_rms).toBeLessThan(0.32);
  });

  function crestFactor(shape: ReturnType<typeof chargeReservoir>["shape"]): number {
    const cycle = Array.from({ length: 2000 }, (_, k) =>
      [...shape].reduce(
        (v, [n, { ratio, phase_cycles }]) => v + ratio * Math.cos(2 * Math.PI * ((n * k) / 2000 + phase_cycles)),
        0,
      ),
    );
    return Math.max(...cycle) / Math.sqrt(cycle.reduce((sum, v) => sum + v * v, 0) / cycle.length);
  }
});

describe("what is sent and struck", () => {
  test("a tone has the level and harmonics that were asked for", () => {
    const volts = new Float64Array(2 * rate_Hz);
    addTone(
      volts,
      rate_Hz,
      { frequency_Hz: 1000, at: { left: { level_Vrms: 2, second: 0.01, third: 0.002 } } },
      "left",
      0.3,
    );
    const seen = windowed(volts);
    expect(lineLevel_rms(seen, rate_Hz, 1000, 0.1)).toBeCloseTo(2, 1);
    expect(lineLevel_rms(seen, rate_Hz, 2000, 0.1) / 0.02).toBeCloseTo(1, 2);
    expect(lineLevel_rms(seen, rate_Hz, 3000, 0.1) / 0.004).toBeCloseTo(1, 2);
  });

  // source: by hand, an envelope falls to e^−π in Q periods: of 100 mV at 500 Hz and Q 50, in 0.1 s to 4.3 mV
  test("a ring falls by e^−π in as many of its periods as its Q says", () => {
    const volts = new Float64Array(3 * rate_Hz);
    addTaps(volts, rate_Hz, [{ frequency_Hz: 500, q: 50, peak_V: 0.1 }], randomStream("hand"));
    const begins = volts.findIndex((v) => v !== 0);
    const peakAt = (s: number) =>
      Math.max(...volts.slice(begins + s * rate_Hz, begins + (s + 0.004) * rate_Hz).map(Math.abs));
    expect(peakAt(0.2) / peakAt(0.1)).toBeCloseTo(Math.exp(-Math.PI), 2);
  });

  test("the control's tracks part at its cold end, meet at its hot end, and rise with the turn", () => {
    const control = { leads_dB: 3.4, over: 0.16, waves_dB: 0.05 };
    const apart = (at: string) => trackGain_dB(control, at).left - trackGain_dB(control, at).right;
    expect(apart("8 o'clock")).toBeGreaterThan(1.5);
    expect(Math.abs(apart("3 o'clock"))).toBeLessThan(0.15);
    expect(apart("5 o'clock")).toBe(0);
    expect(trackGain_dB(control, "5 o'clock").left).toBeCloseTo(0, 12);
    expect(trackGain_dB(control, "9 o'clock").left).toBeLessThan(trackGain_dB(control, "12 o'clock").left - 20);
    expect(() => trackGain_dB(control, "noon")).toThrow(RangeError);
  });
});

describe("the supply through a divider", () => {
  test("the recorder sees 230 V of the building and what the unit leaves of the regenerator", () => {
    const take: Take = {
      channels: [],
      tracks: ["supply", "mains"],
      fitted: {},
      building_Hz: 50,
      buildingDistortion: 0.5,
      supply: { source: "regenerated", frequency_Hz: 57, most_mA: 600 },
      reservoir: { winding_Vpk: 400, source_ohm: 25, reservoir_uF: 100, load_mA: 160 },
      seconds: 2,
      fullScale_Vpk: 500,
      form: { rate_Hz, bits: 24 },
      chance: randomStream("divider"),
    };
    const [supply, mains] = samplesOf(takeRecording(take)).map(windowed);
    expect(500 * lineLevel_rms(mains!, rate_Hz, 50, 0.3)).toBeCloseTo(230, -0.5);
    expect((500 * lineLevel_rms(supply!, rate_Hz, 57, 0.1)) / 230).toBeGreaterThan(0.95);
    expect((500 * lineLevel_rms(supply!, rate_Hz, 57, 0.1)) / 230).toBeLessThan(0.985);
    expect(500 * lineLevel_rms(supply!, rate_Hz, 171, 0.3)).toBeGreaterThan(4);
  });
});
