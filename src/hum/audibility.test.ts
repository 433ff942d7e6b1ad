import fc from "fast-check";
import { describe, expect, test } from "vitest";
import hearing from "../../reference/hearing.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { audibility } from "./audibility.ts";
import {
  earBandEdge_Hz,
  earBandNumber,
  earBandwidth_Hz,
  maskedUnderHiss_dB,
  thresholdOfHearing_dB,
} from "./hearing.ts";
import { hissPower } from "./hissPower.ts";

const headphone = { impedance_ohm: 16, sensitivity_dB_per_V: 125 };

describe("threshold of hearing", () => {
  // source: ISO 389-7:2019 Table 1, free field (reference/hearing.json)
  test("equals the table at its rows", () => {
    let worst_dB = 0;
    for (const row of hearing.freeFieldThreshold.rows) {
      worst_dB = Math.max(worst_dB, Math.abs(thresholdOfHearing_dB(row.frequency_Hz) - row.threshold_dB_SPL));
    }
    expect(worst_dB).toBeLessThan(1e-9);
    recordAccuracy({
      area: "hum",
      what: "threshold of hearing at the rows of the table",
      source: hearing.freeFieldThreshold.source,
      reached: `${worst_dB.toExponential(1)} dB`,
      limit: "0.05 dB (half the last printed digit)",
    });
  });

  // source: worked by hand, halfway in log f between 50 Hz (44.0 dB) and 63 Hz (37.5 dB): (44.0 + 37.5)/2
  test("is linear in dB over log f between rows", () => {
    expect(thresholdOfHearing_dB(Math.sqrt(50 * 63))).toBeCloseTo(40.75, 9);
  });

  test("refuses a frequency outside the table", () => {
    expect(() => thresholdOfHearing_dB(19.9)).toThrow(RangeError);
    expect(() => thresholdOfHearing_dB(18_001)).toThrow(RangeError);
    expect(() => thresholdOfHearing_dB(Number.NaN)).toThrow(RangeError);
  });

  // source: Glasberg and Moore 1990, equation 3: 30.1 Hz at 50 Hz, 132.64 Hz at 1 kHz
  test("ear bandwidth equals the published examples", () => {
    for (const row of hearing.erb.examples) expect(earBandwidth_Hz(row.f_Hz)).toBeCloseTo(row.ERB_Hz, 1);
  });
});

describe("audibility", () => {
  // source: arithmetic. 0.1 mV on 125 dB/V: 125 − 80 = 45 dB SPL, threshold 44.0 dB at 50 Hz, margin 1.0 dB
  test("a 0.1 mV line at 50 Hz on a sensitive in-ear is doubtful", () => {
    const [line] = audibility({
      lines: [{ frequency_Hz: 50, level_Vrms: 1e-4 }],
      outputImpedance_ohm: 0,
      headphone,
    }).lines;
    expect(line!.spl_dB).toBeCloseTo(45, 9);
    expect(line!.margin_dB).toBeCloseTo(1, 9);
    expect(line!.audible).toBe("doubtful");
  });

  // source: worked by hand, 16 Ω behind 16 Ω halves the voltage: 20 lg 2 = 6.0206 dB
  test("the output impedance takes its share", () => {
    const at = (outputImpedance_ohm: number) =>
      audibility({ lines: [{ frequency_Hz: 50, level_Vrms: 1e-4 }], outputImpedance_ohm, headphone }).lines[0]!.spl_dB;
    expect(at(0) - at(16)).toBeCloseTo(6.0206, 4);
  });

  // source: worked by hand. White 10 nV/√Hz at 4 kHz: ERB 456.5 Hz, 20 lg(1e-8·√456.5) = −133.41 dBV, + 125 − (−5.4) = −3.01;
  // the corners 3150 Hz (−3.39) and 5000 Hz (−6.0) are lower, and between corners the threshold is a straight line.
  test("white hiss is heard best near 4 kHz", () => {
    const white = [20, 20_000].map((frequency_Hz) => ({ frequency_Hz, V_per_rtHz: 1e-8 }));
    const { hiss } = audibility({ lines: [], hissDensity: white, outputImpedance_ohm: 0, headphone });
    expect(hiss!.margin_dB).toBeCloseTo(-3.01, 1);
    expect(hiss!.frequency_Hz).toBeGreaterThan(3500);
    expect(hiss!.frequency_Hz).toBeLessThan(4100);
    expect(hiss!.audible).toBe("doubtful");
  });

  test("a silent hiss has no margin rather than minus infinity", () => {
    const silent = [{ frequency_Hz: 1000, V_per_rtHz: 0 }];
    expect(audibility({ lines: [], hissDensity: silent, outputImpedance_ohm: 0, headphone }).hiss).toBeUndefined();
  });

  test("ten times the voltage moves every margin by 20 dB", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 18_000, noNaN: true }),
        fc.double({ min: 1e-7, max: 1, noNaN: true }),
        (f, u) => {
          const margin = (level_Vrms: number) =>
            audibility({
              lines: [{ frequency_Hz: f, level_Vrms }],
              hissDensity: [{ frequency_Hz: 1000, V_per_rtHz: level_Vrms / 100 }],
              outputImpedance_ohm: 5,
              headphone,
            });
          expect(margin(10 * u).lines[0]!.margin_dB - margin(u).lines[0]!.margin_dB).toBeCloseTo(20, 8);
          expect(margin(10 * u).hiss!.margin_dB - margin(u).hiss!.margin_dB).toBeCloseTo(20, 8);
        },
      ),
    );
  });
});

describe("masking by hiss", () => {
  const white = (V_per_rtHz: number) => [20, 20_000].map((frequency_Hz) => ({ frequency_Hz, V_per_rtHz }));
  const at = (level_Vrms: number, frequency_Hz = 1000) =>
    audibility({ lines: [{ frequency_Hz, level_Vrms }], hissDensity: white(1e-7), outputImpedance_ohm: 0, headphone })
      .lines[0]!;

  // source: critical ratios of Hawkins and Stevens 1950 (from memory), good to about 1 dB
  test("a tone is lost where published critical ratios say", () => {
    for (const [frequency_Hz, ratio_dB] of [
      [500, 17],
      [1000, 18],
      [2000, 20],
      [4000, 23],
    ] as const) {
      const ours_dB = 10 * Math.log10(earBandwidth_Hz(frequency_Hz)) + maskedUnderHiss_dB;
      expect(Math.abs(ours_dB - ratio_dB), `${frequency_Hz} Hz`).toBeLessThan(1.1);
    }
  });

  // source: worked by hand. ERB at 1 kHz 132.64 Hz: hiss 1e-7·√132.64 = 1.1517 µV, lost 3 dB lower at 0.8153 µV
  test("three answers, the hiss of the line's own band against the line", () => {
    expect(at(0.8153e-6).masking!.margin_dB).toBeCloseTo(0, 2);
    expect(at(0.8153e-6).masking!.masked).toBe("doubtful");
    expect(at(0.3e-6).masking!.masked).toBe("yes");
    expect(at(3e-6).masking!.masked).toBe("no");
  });

  test("stands beside what is audible in silence and changes nothing in it", () => {
    const [alone] = audibility({
      lines: [{ frequency_Hz: 1000, level_Vrms: 0.3e-6 }],
      outputImpedance_ohm: 0,
      headphone,
    }).lines;
    const { masking, ...hissy } = at(0.3e-6);
    expect(hissy).toEqual(alone);
    expect(masking).toBeDefined();
  });
});

describe("bands of the ear", () => {
  // source: Glasberg and Moore 1990, equation 4 at 1 kHz: 21.4 lg 5.37 = 15.62
  test("are numbered as published, and each is one bandwidth wide", () => {
    expect(earBandNumber(1000)).toBeCloseTo(15.62, 2);
    for (const n of [5, 15, 25, 35]) {
      expect(earBandEdge_Hz(earBandNumber(100 * n))).toBeCloseTo(100 * n, 6);
      const width_Hz = earBandEdge_Hz(n + 1) - earBandEdge_Hz(n);
      expect(width_Hz / earBandwidth_Hz(earBandEdge_Hz(n + 0.5))).toBeCloseTo(1, 2);
    }
  });

  // source: arithmetic, two equal powers are 3.01 dB over one; two bands apart they stay as they are
  test("add up what falls into one and keep apart what does not", () => {
    const [line] = [{ frequency_Hz: 1000, level_Vrms: 1e-4 }];
    const bandsOf = (lines: readonly { frequency_Hz: number; level_Vrms: number }[]) =>
      audibility({ lines, outputImpedance_ohm: 0, headphone }).bands;
    const [one] = bandsOf([line!]);
    const [both] = bandsOf([line!, line!]);
    expect(both!.margin_dB - one!.margin_dB).toBeCloseTo(3.0103, 4);
    expect(both).toMatchObject({ lines: 2, audible: "yes" });
    const apart = bandsOf([line!, { frequency_Hz: 2000, level_Vrms: 1e-4 }]);
    expect(apart).toHaveLength(2);
    expect(apart[0]!.spl_dB).toBeCloseTo(one!.spl_dB, 9);
  });

  test("lie side by side over the whole table, every line in just one", () => {
    const lines = [20, 26, 99, 1000, 17_999, 18_000].map((frequency_Hz) => ({ frequency_Hz, level_Vrms: 1e-3 }));
    const hissDensity = [{ frequency_Hz: 1000, V_per_rtHz: 1e-8 }];
    const { bands } = audibility({ lines, hissDensity, outputImpedance_ohm: 0, headphone });
    expect(bands.reduce((sum, band) => sum + band.lines, 0)).toBe(lines.length);
    for (const [i, { low_Hz }] of bands.entries()) if (i > 0) expect(low_Hz).toBeCloseTo(bands[i - 1]!.high_Hz, 6);
  });
});

describe("power of a hiss in a band", () => {
  // source: ∫ₐᵇ c²/f df = c² ln(b/a), flicker noise of c V/√Hz at 1 Hz
  test("flicker noise integrates to a logarithm", () => {
    const flicker = [10, 100, 10_000].map((f) => ({ frequency_Hz: f, V_per_rtHz: 3 / Math.sqrt(f) }));
    expect(hissPower(flicker)(20, 2000)).toBeCloseTo(9 * Math.log(100), 9);
  });

  // source: ∫ₐᵇ c² f² df = c² (b³ − a³)/3
  test("a density rising as f integrates to a cube", () => {
    const rising = [10, 1000].map((f) => ({ frequency_Hz: f, V_per_rtHz: 2 * f }));
    expect(hissPower(rising)(20, 200) / ((4 * (200 ** 3 - 20 ** 3)) / 3)).toBeCloseTo(1, 9);
  });

  test("bands side by side add up to the whole", () => {
    const point = fc.record({
      frequency_Hz: fc.double({ min: 10, max: 20_000, noNaN: true }),
      V_per_rtHz: fc.double({ min: 0, max: 1e-6, noNaN: true }),
    });
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 1, maxLength: 12 }),
        fc.double({ min: 100, max: 9000, noNaN: true }),
        (points, cut) => {
          const power = hissPower(points);
          const whole = power(50, 10_000);
          expect(Math.abs(power(50, cut) + power(cut, 10_000) - whole)).toBeLessThanOrEqual(1e-9 * whole + 1e-24);
        },
      ),
    );
  });
});
