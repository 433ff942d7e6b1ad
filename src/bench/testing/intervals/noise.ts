import type { Random } from "../../../maths/random.ts";
import { analyseNoise } from "../../noise.ts";
import { weightA } from "../../weighting.ts";
import { addComb, addNoise, addTone, drawLines, mainsPhase } from "../synthesiser.ts";
import { anyPhase, between, type Draws, decades, drawWander, pick, recordingOf, type Stated, streams } from "./draw.ts";
import { integral } from "./tone.ts";

/**
 * source: made with known lines and noise density. A quasi-peak reading has no truth but what the meter shows, so a
 * second record of the same hum and hiss stands for it.
 */
export const noiseDraws: Draws = {
  of: "bench.noise",
  drawn:
    "2 to 6 s at 8 to 16 kHz; up to 12 mains lines on 50 or 60 Hz that stands, walks or swings, a stray line in half of them, noise over a decade",
  draw(seed) {
    const { random, chance } = streams(seed);
    const rate_Hz = pick(random, [8000, 11_025, 16_000]);
    const seconds = between(random, 2, 6);
    const length = Math.round(seconds * rate_Hz);
    const nominal_Hz = pick(random, [50, 60]);
    const mains_Hz = nominal_Hz * between(random, 0.998, 1.002);
    const wander = drawWander(random);
    const lines = drawLines(random, 12, decades(random, -4, -3));
    const density = decades(random, -7, -6);
    const stray =
      random.uniform() < 0.5 ? { Hz: between(random, 900, 3500), peak: decades(random, -5, -3) } : undefined;
    const record = (chance: Random) => {
      const signal = new Float64Array(length);
      const { theta, mean_Hz } = mainsPhase(chance, mains_Hz, wander, rate_Hz, length);
      addComb(signal, theta, lines);
      if (stray) addTone(signal, rate_Hz, stray.Hz, stray.peak, anyPhase(chance));
      addNoise(signal, chance, rate_Hz, density);
      return { mean_Hz, figures: analyseNoise(recordingOf(rate_Hz, signal), 1, undefined, nominal_Hz).channels[0]! };
    };
    const { mean_Hz, figures } = record(chance);
    const again = record(chance.fork("again"));
    const { doubt, mains } = figures;
    const stated: Stated[] = [
      {
        what: "mains frequency_Hz",
        value: mains.frequency_Hz,
        truth: mean_Hz,
        doubt: mains.doubt_Hz,
        note: wander.kind,
      },
    ];
    for (const line of mains.lines) {
      const truth = (lines.find(({ order }) => order === line.order)?.peak ?? 0) * Math.SQRT1_2;
      // Those that noise lifts over the threshold of detection are left out by a margin.
      if (truth < (6 * density) / Math.sqrt(seconds)) continue;
      const note = `${wander.kind} order ${line.order}`;
      stated.push({ what: "mains line level_Vrms", value: line.level_Vrms, truth, doubt: line.doubt_Vrms, note });
    }
    const found = stray && figures.otherLines.find(({ frequency_Hz }) => Math.abs(frequency_Hz - stray.Hz) < 1);
    if (stray && stray.peak > (10 * density) / Math.sqrt(seconds)) {
      const truth = stray.peak * Math.SQRT1_2;
      stated.push({
        what: "other line level_Vrms",
        value: found?.level_Vrms ?? 0,
        truth,
        doubt: found?.doubt_Vrms ?? 0,
      });
    }
    const [low_Hz, high_Hz] = [20, Math.min(20_000, rate_Hz / 2)];
    const total = (weight: (frequency_Hz: number) => number) =>
      Math.hypot(
        density * Math.sqrt(integral((f) => weight(f) ** 2, low_Hz, high_Hz)),
        ...lines.map(({ order, peak }) => peak * Math.SQRT1_2 * weight(order * mains_Hz)),
        stray ? stray.peak * Math.SQRT1_2 * weight(stray.Hz) : 0,
      );
    const truths = {
      noise_Vrms: total(() => 1),
      noiseA_Vrms: total(weightA),
      noise468_Vqp: again.figures.noise468_Vqp,
      hiss_Vrms: density * Math.sqrt(high_Hz - low_Hz),
      hissA_Vrms: density * Math.sqrt(integral((f) => weightA(f) ** 2, low_Hz, high_Hz)),
    };
    for (const [what, truth] of Object.entries(truths)) {
      const name = what as keyof typeof truths;
      stated.push({ what, value: figures[name], truth, doubt: doubt[name] });
    }
    return stated;
  },
};

/**
 * source: made with known lines, tone and noise density. The tone's clock drifts against the recorder's, so that it must
 * be followed for its skirts not to count as hiss.
 */
export const longNoiseDraws: Draws = {
  of: "bench.noise, minutes beside a loud tone",
  drawn:
    "a minute and a half to two and a half at 4 kHz; a tone of 300 to 650 Hz, 40 to 110 dB over a second's hiss, with harmonics, its clock drifting by up to 1 ppm or swinging by 0.3 ppm in two of three; up to 12 mains lines on 50 or 60 Hz that stands, walks or swings, the tone within 1 Hz of an order in a third; noise over a decade",
  draw(seed) {
    const { random, chance } = streams(seed);
    const rate_Hz = 4000;
    const seconds = between(random, 90, 150);
    const length = Math.round(seconds * rate_Hz);
    const nominal_Hz = pick(random, [50, 60]);
    const mains_Hz = nominal_Hz * between(random, 0.998, 1.002);
    const wander = drawWander(random);
    const lines = drawLines(random, 12, decades(random, -4, -3));
    const density = decades(random, -7, -6);
    const order = 6 + random.integer(5);
    const tone_Hz = random.uniform() < 1 / 3 ? order * mains_Hz + between(random, -1, 1) : between(random, 300, 650);
    const tone_V = density * 10 ** (between(random, 40, 110) / 20);
    const harmonics = [1, 0, decades(random, -5, -3)];
    const drift = pick(random, [
      () => 0,
      (share: number) => 1e-6 * (share - 0.5),
      (share: number) => 3e-7 * Math.sin(2 * Math.PI * share),
    ]);
    const signal = new Float64Array(length);
    const { theta, mean_Hz } = mainsPhase(chance, mains_Hz, wander, rate_Hz, length);
    addComb(signal, theta, lines);
    const turn = new Float64Array(length);
    for (let n = 1; n < length; n++) {
      turn[n] = turn[n - 1]! + ((2 * Math.PI * tone_Hz) / rate_Hz) * (1 + drift(n / length));
    }
    addComb(
      signal,
      turn,
      harmonics.map((share, i) => ({ order: i + 1, peak: tone_V * share, phase_rad: anyPhase(random) })),
    );
    addNoise(signal, chance, rate_Hz, density);
    const read = analyseNoise(recordingOf(rate_Hz, signal), 1, undefined, nominal_Hz, 60).channels[0]!;
    const { mains, otherLines, doubt } = read;
    const note = `${wander.kind}, tone ${tone_Hz.toFixed(2)} Hz, ${(tone_V / density).toExponential(1)}`;
    const stated: Stated[] = [
      { what: "mains frequency_Hz", value: mains.frequency_Hz, truth: mean_Hz, doubt: mains.doubt_Hz, note },
    ];
    const near = (frequency_Hz: number, other_Hz: number) => Math.abs(frequency_Hz - other_Hz) < 0.3;
    for (const made of lines) {
      const truth = made.peak * Math.SQRT1_2;
      // Those near the threshold of detection, and one that the tone or a harmonic stands on, are left out.
      if (truth < (8 * density) / Math.sqrt(seconds)) continue;
      if (harmonics.some((share, i) => share > 0 && near(made.order * mains_Hz, (i + 1) * tone_Hz))) continue;
      const line = mains.lines.find((one) => one.order === made.order);
      stated.push({
        what: "mains line level_Vrms",
        value: line?.level_Vrms ?? 0,
        truth,
        doubt: line?.doubt_Vrms ?? 0,
        note: `${note}, order ${made.order}`,
      });
    }
    const onOrder = lines.some((made) => near(made.order * mains_Hz, tone_Hz));
    const [found] = otherLines
      .filter(({ frequency_Hz }) => near(frequency_Hz, tone_Hz))
      .sort((a, b) => b.level_Vrms - a.level_Vrms);
    if (!onOrder) {
      stated.push({
        what: "other line level_Vrms",
        value: found?.level_Vrms ?? 0,
        truth: tone_V * Math.SQRT1_2,
        doubt: found?.doubt_Vrms ?? 0,
        note,
      });
    }
    const [low_Hz, high_Hz] = [20, rate_Hz / 2];
    stated.push({
      what: "hiss_Vrms",
      value: read.hiss_Vrms,
      truth: density * Math.sqrt(high_Hz - low_Hz),
      doubt: doubt.hiss_Vrms,
      note,
    });
    stated.push({
      what: "hissA_Vrms",
      value: read.hissA_Vrms,
      truth: density * Math.sqrt(integral((f) => weightA(f) ** 2, low_Hz, high_Hz)),
      doubt: doubt.hissA_Vrms,
      note,
    });
    return stated;
  },
};
