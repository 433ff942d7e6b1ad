import type { Recording } from "../../src/bench/recording.ts";
import { BadInput, quote } from "../../src/maths/badInput.ts";

const rate_Hz = 48_000;

const recording = (samples: readonly Float64Array[], rate = rate_Hz): Recording => ({
  rate_Hz: rate,
  samples,
  truncated: false,
  bits: 24,
  float: false,
});

const filled = (seconds: number, value: (t: number, i: number) => number, rate = rate_Hz) =>
  Float64Array.from({ length: Math.round(seconds * rate) }, (_, i) => value(i / rate, i));

/** Noise that is the same for ever. */
function noise(): () => number {
  let seed = 7;
  return () => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    return seed / 1_073_741_824 - 1;
  };
}

function tone(level: number, seconds = 2): Float64Array {
  const hiss = noise();
  return filled(
    seconds,
    (t) => level * Math.sin(2 * Math.PI * 1000.3 * t) + 1e-3 * Math.sin(2 * Math.PI * 50 * t) + 1e-5 * hiss(),
  );
}

function sweep(level: number): Float64Array {
  const L = 3 / Math.log(1000);
  return filled(4, (time) => {
    const t = time - 0.5;
    return t < 0 || t > 3 ? 0 : level * Math.sin(2 * Math.PI * 20 * L * (Math.exp(t / L) - 1));
  });
}

const made: Readonly<Record<string, () => Recording>> = {
  "silence.wav": () => recording([filled(2, () => 0), filled(2, () => 0)]),
  "one-sample.wav": () => recording([Float64Array.of(0.5), Float64Array.of(0.5)]),
  "short.wav": () => recording([tone(0.3, 0.05), tone(0.3, 0.05)]),
  "clipped.wav": () => recording([0, 1].map(() => tone(5).map((v) => Math.max(-1, Math.min(1, v))))),
  "direct-current.wav": () => recording([filled(2, () => 0.9), filled(2, () => -0.9)]),
  "noise.wav": () => {
    const hiss = noise();
    return recording([filled(2, hiss), filled(2, hiss)]);
  },
  "impulse.wav": () => recording([0, 1].map(() => filled(2, (_, i) => (i === 24_000 ? 1 : 0)))),
  "one-channel.wav": () => recording([tone(0.3)]),
  // Short and slow, so that thousands of questions about them are answered in minutes.
  "quick.wav": () =>
    recording(
      [0.3, 0.29].map((level) =>
        filled(0.7, (t) => level * (Math.sin(2 * Math.PI * 440 * t) + 0.01 * Math.sin(2 * Math.PI * 880 * t)), 8000),
      ),
      8000,
    ),
  "quick-hum.wav": () => {
    const hiss = noise();
    return recording([filled(1, (t) => 0.01 * Math.sin(2 * Math.PI * 50 * t) + 1e-4 * hiss(), 8000)], 8000);
  },
  "quick-supply.wav": () => recording([filled(0.8, (t) => 0.8 * Math.sin(2 * Math.PI * 50 * t), 8000)], 8000),
  "quick-sweep.wav": () => {
    const L = 0.4 / Math.log(40);
    return recording(
      [
        filled(
          0.7,
          (time) => {
            const t = time - 0.1;
            return t < 0 || t > 0.4 ? 0 : 0.3 * Math.sin(2 * Math.PI * 60 * L * (Math.exp(t / L) - 1));
          },
          8000,
        ),
      ],
      8000,
    );
  },
  "quick-step.wav": () =>
    recording([filled(1.2, (t) => (t < 0.6 ? 0 : 0.5 * Math.exp(-(t - 0.6) / 0.05)), 8000)], 8000),
  "quick-pair.wav": () =>
    recording(
      [filled(0.7, (t) => 0.2 * Math.sin(2 * Math.PI * 1000 * t) + 0.2 * Math.sin(2 * Math.PI * 1170 * t), 8000)],
      8000,
    ),
  "quick-tap.wav": () => {
    const hiss = noise();
    const struck = (t: number) => (t < 0.3 ? 0 : Math.exp(-(t - 0.3) / 0.02) * Math.sin(2 * Math.PI * 300 * (t - 0.3)));
    return recording([filled(0.5, (t) => 0.2 * struck(t) + 1e-4 * hiss(), 4000)], 4000);
  },
  "low-rate.wav": () =>
    recording(
      [0, 1].map(() => filled(2, (t) => 0.3 * Math.sin(2 * Math.PI * 440 * t), 8000)),
      8000,
    ),
};

const kept = new Map<string, Recording>();

/** The recording that a name stands for in these trials: what the examples name is sound, the odd ones are odd. */
export function recordingNamed(path: string, field: string): Recording {
  const name = made[path] ? path : path.startsWith("sweep") ? "sweep" : path.startsWith("supply") ? "supply" : "bench";
  if (!path.endsWith(".wav") || path === "missing.wav") {
    throw new BadInput(field, quote(path), "there is no file of that name", "give the path of a recording");
  }
  let found = kept.get(name);
  if (!found) {
    found =
      made[name]?.() ??
      (name === "sweep"
        ? recording([sweep(0.3), sweep(0.29)])
        : name === "supply"
          ? recording([filled(2, (t) => 0.8 * Math.sin(2 * Math.PI * 50 * t))])
          : recording([tone(0.3), tone(0.29)]));
    kept.set(name, found);
  }
  return { ...found, samples: found.samples.map((channel) => channel.slice()) };
}
