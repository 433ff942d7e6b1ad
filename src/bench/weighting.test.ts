import { expect, test } from "vitest";
import signal from "../../reference/signal.json" with { type: "json" };
import { recordAccuracy } from "../../tests/accuracy.ts";
import { quasiPeak468 } from "./quasiPeak.ts";
import { addTone } from "./testing/synthesiser.ts";
import { weight468, weightA } from "./weighting.ts";

const dB = (ratio: number) => 20 * Math.log10(ratio);

// source: IEC 61672-1:2013 table 3, printed to 0.1 dB, so 0.05 dB of rounding
test("A-weighting meets the table at exact frequencies", () => {
  const worst = Math.max(
    ...signal.weighting_A.table.map(({ exact_frequency_Hz, A_dB }) => Math.abs(dB(weightA(exact_frequency_Hz)) - A_dB)),
  );
  expect(worst).toBeLessThan(0.051);
  recordAccuracy({
    area: "bench",
    what: "A-weighting, 10 Hz to 20 kHz",
    source: signal.weighting_A.source,
    reached: `${worst.toFixed(3)} dB at worst`,
    limit: "0.05 dB, the table's rounding",
  });
});

// source: ITU-R BS.468-4 table 1 with its tolerances, and 0.05 dB of rounding
test("the 468 network meets its table", () => {
  let worst = 0;
  for (const row of signal.weighting_468.rows) {
    const off = dB(weight468(row.frequency_Hz)) - row.response_dB;
    worst = Math.max(worst, Math.abs(off));
    expect(off).toBeLessThanOrEqual(row.tolerance_upper_dB + 0.06);
    if (row.tolerance_lower_dB !== null) expect(off).toBeGreaterThanOrEqual(row.tolerance_lower_dB - 0.06);
  }
  recordAccuracy({
    area: "bench",
    what: "BS.468 weighting, 31.5 Hz to 31.5 kHz",
    source: signal.weighting_468.source,
    reached: `${worst.toFixed(3)} dB at worst`,
    limit: "the table's tolerances",
  });
});

// source: a steady tone reads its r.m.s. times the table's weight (BS.468-4), whatever the sample rate
test.each([
  [8000, 1000, 0],
  [8000, 3150, 9],
  [44100, 6300, 12.2],
  [96000, 10000, 8.1],
  [192000, 14000, -5.3],
  [384000, 100, -19.8],
])("at %i samples a second a tone of %i Hz reads %f dB", (rate_Hz, frequency_Hz, weight_dB) => {
  const tone = new Float64Array(1.5 * rate_Hz);
  addTone(tone, rate_Hz, frequency_Hz, 0.7 * Math.SQRT2, 0.4);
  expect(Math.abs(dB(quasiPeak468(tone, rate_Hz) / 0.7) - weight_dB)).toBeLessThan(0.3);
});

function reading_pct(rate_Hz: number, isOn: (t: number) => boolean, seconds: number): number {
  const made = (on: (t: number) => boolean) =>
    new Float64Array(seconds * rate_Hz).map((_, n) => {
      const t = n / rate_Hz;
      return on(t) ? Math.sin(2 * Math.PI * 5000 * t) : 0;
    });
  return (
    (100 * quasiPeak468(made(isOn), rate_Hz)) /
    quasiPeak468(
      made(() => true),
      rate_Hz,
    )
  );
}

// source: ITU-R BS.468-4 tables 2 and 3 (remembered), with their limits
test.each(signal.quasi_peak.single_bursts)("a single burst of $burst_duration_ms ms", (row) => {
  const pct = reading_pct(48000, (t) => t >= 0.1 && t < 0.1 + row.burst_duration_ms / 1000 - 1e-9, 2);
  expect(pct).toBeGreaterThan(row.lower_limit_percent);
  expect(pct).toBeLessThan(row.upper_limit_percent);
  recordAccuracy({
    area: "bench",
    what: `Quasi-peak reading of a ${row.burst_duration_ms} ms burst`,
    source: signal.quasi_peak.source,
    reached: `${pct.toFixed(1)} % (${row.reading_percent} %)`,
    limit: `${row.lower_limit_percent} to ${row.upper_limit_percent} %`,
  });
});

test.each(signal.quasi_peak.repeated_5_ms_bursts)("$bursts_per_second bursts of 5 ms a second", (row) => {
  const period = 1 / row.bursts_per_second;
  const pct = reading_pct(48000, (t) => (t + 1e-9) % period < 0.005, 3);
  expect(pct).toBeGreaterThan(row.lower_limit_percent);
  expect(pct).toBeLessThan(row.upper_limit_percent);
});
