import { describe, expect, test } from "vitest";
import type { Recording } from "../bench/recording.ts";
import { sentSweep } from "../bench/testing/sentSweep.ts";
import { addNoise, addTone } from "../bench/testing/synthesiser.ts";
import { randomStream } from "../maths/random.ts";
import { answer } from "./answer.ts";

const rate_Hz = 11_025;
const length = Math.round(1.3 * rate_Hz);
const shortly = Math.round(0.7 * rate_Hz);

function made(fill: (signal: Float64Array) => void = () => {}): Float64Array {
  const signal = new Float64Array(length);
  addNoise(signal, randomStream("bad input"), rate_Hz, 1e-6);
  fill(signal);
  return signal;
}

/** Three voices that change every quarter of a second and die away. */
function music(): Float64Array {
  const random = randomStream("music");
  return made((signal) => {
    for (let from = 0; from < length; from += Math.round(rate_Hz / 4)) {
      for (let voice = 0; voice < 3; voice++) {
        const note_Hz = 110 * 2 ** (random.integer(30) / 12);
        for (let n = from; n < length; n++) {
          const t = (n - from) / rate_Hz;
          signal[n]! += 0.2 * Math.exp(-8 * t) * Math.cos(2 * Math.PI * note_Hz * t + voice);
        }
      }
    }
  });
}

const sweep = { start_Hz: 50, stop_Hz: 4000, duration_s: 0.8 };
const tones = (...of: [number, number][]) =>
  made((signal) => {
    for (const [frequency_Hz, peak] of of) addTone(signal, rate_Hz, frequency_Hz, peak, 0.3);
  });
const swept = () =>
  made((signal) => {
    sentSweep(rate_Hz, 1.3, sweep, 0.2).forEach((value, n) => {
      signal[n]! += 0.4 * value;
    });
  });
const jack = () =>
  made((signal) => {
    for (let n = Math.round(0.4 * rate_Hz); n < length; n++) signal[n]! += 0.4 * Math.exp(-(n / rate_Hz - 0.4) / 0.05);
  });
const struck = () =>
  made((signal) => {
    for (let n = Math.round(0.4 * rate_Hz); n < length; n++) {
      const t = n / rate_Hz - 0.4;
      signal[n]! += 0.4 * Math.exp(-t / 0.05) * Math.sin(2 * Math.PI * 640 * t);
    }
  });

const one = { recording: "a.wav", fullScale_Vpk: 1 };
const good: Readonly<Record<string, readonly [input: object, make: () => Float64Array]>> = {
  "bench.tone": [{ ...one, fundamental_Hz: 1000 }, () => tones([1000, 0.5])],
  "bench.noise": [one, () => made()],
  "bench.twotone": [{ ...one, kind: "modulation", tones_Hz: [60, 3000] }, () => tones([60, 0.4], [3000, 0.1])],
  "bench.sweep": [{ ...one, sweep }, swept],
  "bench.balance": [{ recordings: [one], kind: "tone", driven: "left" }, () => tones([1000, 0.5])],
  "bench.tap": [one, struck],
  "bench.supply": [one, () => tones([50, 0.6])],
  "bench.loopback": [{ recording: "a.wav", applied_Vrms: 1 }, () => tones([1000, 0.5])],
  "bench.impedance": [
    {
      loads: [
        { ...one, load_ohm: 300 },
        { ...one, load_ohm: 32 },
      ],
    },
    () => tones([1000, 0.5]),
  ],
  "bench.switchon": [{ ...one, load_ohm: 300, coupling: "dc" }, jack],
};

type Case = "silent" | "constant" | "clipped" | "wrong rate" | "exchanged" | "mono" | "music" | "cut short";
const spoil: Readonly<Record<Case, (make: () => Float64Array) => Partial<Recording>>> = {
  silent: () => ({ samples: [new Float64Array(length), new Float64Array(length)] }),
  constant: () => ({ samples: [new Float64Array(length).fill(0.3), new Float64Array(length).fill(0.3)] }),
  clipped: (make) => {
    const cut = make().map((value) => Math.max(-0.9, Math.min(0.9, 5 * value)));
    return { samples: [cut, cut] };
  },
  "wrong rate": (make) => ({ samples: [make(), make()], rate_Hz: 8000 }),
  exchanged: (make) => ({ samples: [make().map((value) => value / 500), make()] }),
  mono: (make) => ({ samples: [make()] }),
  music: () => ({ samples: [music(), music()] }),
  "cut short": (make) => ({ samples: [make(), make()], truncated: true }),
};

async function said(name: string, what: Case): Promise<string> {
  const [input, make] = good[name]!;
  const recording: Recording = {
    rate_Hz,
    samples: [make(), make()],
    truncated: false,
    bits: 24,
    float: true,
    ...spoil[what](make),
  };
  // Many decays in a long record take long to tell apart.
  const used =
    name === "bench.tap" ? { ...recording, samples: recording.samples.map((of) => of.slice(0, shortly)) } : recording;
  const given = await answer(name, input, { recording: () => used });
  if (!given.ok) return `${given.error.path}: ${given.error.message}`;
  const { notes, reason, truncated, channels, reasons } = given.output as Record<string, unknown>;
  return JSON.stringify({ notes, reason, reasons, truncated, channels });
}

const all = Object.keys(good);
const noTone = /digital silence or nothing but a constant|no tone that stands out|nothing that stands out/;
const lifeless = /digital silence or nothing but a constant|no tone|nothing that|no sweep|no tap|not one sample/;

describe("what is wrong with a recording is named", () => {
  test.each(all)("%s: silence, and nothing but a constant voltage", async (name) => {
    expect(await said(name, "silent")).toMatch(lifeless);
    expect(await said(name, "constant")).toMatch(lifeless);
    if (/tone|loopback|impedance/.test(name)) expect(await said(name, "silent")).toMatch(noTone);
  });

  test.each(all.filter((name) => !/noise|tap/.test(name)))("%s: a recorder driven out of its range", async (name) => {
    expect(await said(name, "clipped")).toMatch(/clipped|out of range|beyond its range|peaks are cut/);
  });

  test.each(["bench.tone", "bench.twotone"])("%s: a header that tells another rate", async (name) => {
    expect(await said(name, "wrong rate")).toMatch(/made at 11025 samples a second, but the header says 8000/);
  });

  test("bench.sweep: a header that tells another rate", async () => {
    expect(await said("bench.sweep", "wrong rate")).toMatch(/the sweep fits a recording made at 11025/);
  });

  test("channels exchanged, and one where two are needed", async () => {
    expect(await said("bench.balance", "exchanged")).toMatch(/seem exchanged/);
    expect(await said("bench.balance", "mono")).toMatch(/a recording of one channel/);
  });

  test.each(all)("%s: music", async (name) => {
    expect(await said(name, "music")).toMatch(
      /not steady|not alone|no tone|no two tones|no sweep|no tap|no resonance|beside it|no pulse stands out|after one tap alone/,
    );
  });

  test.each(all)("%s: a file that holds less than it says is used and said", async (name) => {
    expect(await said(name, "cut short")).toMatch(/"truncated":true/);
  });
});
