import { describe, expect, test } from "vitest";
import type { Recording } from "../bench/recording.ts";
import { type Random, randomStream } from "../maths/random.ts";
import { type HumRecording, traceHum } from "./index.ts";

const rate_Hz = 8000;
const duration_s = 3;

/** A unit whose own ripple falls by 10 dB where cut peaks lower its HT, beside the supply it stands on. */
function made(frequency_Hz: number, supply: (turn: number) => number, ripple_Vpk: number, random: Random): Recording {
  const length = rate_Hz * duration_s;
  const start = random.uniform();
  const turns = Float64Array.from({ length }, (_, i) => (frequency_Hz * i) / rate_Hz + start);
  const left = turns.map(
    (turn) =>
      ripple_Vpk * (Math.cos(4 * Math.PI * turn + 1) + 0.3 * Math.cos(8 * Math.PI * turn)) + random.normal(0, 1e-6),
  );
  return { rate_Hz, samples: [left, turns.map(supply)], truncated: false, bits: 24, float: true };
}

const sine = (turn: number) => 0.4 * Math.sin(2 * Math.PI * turn);
const cut = (turn: number) => Math.max(-0.3, Math.min(0.3, sine(turn)));
const low = (turn: number) => 0.94 * sine(turn);

function traceWith(clean: (turn: number) => number) {
  const random = randomStream("fair");
  const take = (id: string, source: "building" | "regenerated", shape: (turn: number) => number, level: number) => {
    const frequency_Hz = source === "building" ? 50 : 57;
    const recording: HumRecording = {
      id,
      recording: made(frequency_Hz, shape, level, random.fork(id)),
      fullScale_Vpk: 1,
      channels: ["left", "supply"],
      supply: { source, frequency_Hz },
      valves: {},
      input: "shorted",
    };
    return recording;
  };
  const recordings = [take("house", "building", sine, 1e-4), take("clean", "regenerated", clean, 0.3e-4)];
  return traceHum({ building_Hz: 50, recordings }, randomStream("hum.trace"));
}

describe("a hum that goes with cut peaks", () => {
  // source: a sine cut at 3/4 of its peak has a crest factor of about 1.25 (√2 for a sine), common limit 1.38
  test("is not called cured: the recording decides nothing, and it is said why", () => {
    const { verdict, notes, recordings, lines, nextRecording } = traceWith(cut);
    expect(verdict.left).toMatchObject({
      state: "undecided",
      candidates: expect.arrayContaining(["mains", "amplifier"]),
    });
    expect(recordings[1]!.supplyTrial!.crestFactor).toBeLessThan(1.3);
    expect(notes.join(" ")).toMatch(/clean: its supply was not sound .*peaks are cut.* not cured/);
    expect(lines.some((line) => line.recording === "clean")).toBe(true);
    // The same recording is what comes next: on a sound supply.
    expect(nextRecording!.supply).toEqual({ source: "regenerated", frequency_Hz: 57 });
  });

  test("nor is one that goes with a sag of 6 %", () => {
    const { verdict, recordings, notes } = traceWith(low);
    expect(recordings[1]!.supplyTrial!.level_pct).toBeCloseTo(-6, 1);
    expect(notes.join(" ")).toMatch(/6\.0 % lower than the building's mains/);
    expect(verdict.left).toMatchObject({ state: "undecided" });
  });

  test("on a sound supply the same fall of 10 dB says that the mains brought most of it in", () => {
    const { verdict, recordings } = traceWith(sine);
    expect(recordings[1]!.supplyTrial!.against).toEqual([]);
    expect(verdict.left).toMatchObject({ state: "decided", cause: "mains" });
  });
});
