import { randomStream } from "../../maths/random.ts";
import { attributeChannel, repeatsOf } from "../attributeChannel.ts";
import { sameCause } from "../cause.ts";
import { gainChanges } from "../gainTrial.ts";
import type { LineReading } from "../lineReading.ts";
import type { Verdict } from "../verdict.ts";
import { type Bench, drawBench, type Make, type Phasor, type Truth } from "./drawBench.ts";
import { sound } from "./readBench.ts";
import { type ShareHeld, sharesHeld } from "./sharesHeld.ts";

/** How a verdict stands against the truth. */
export type Outcome =
  | "right"
  | "wrong"
  | "accused"
  | "undecided"
  | "decided without contrast"
  | "candidate lost"
  | "quiet";

export interface Judged {
  readonly seed: number;
  readonly channel: string;
  readonly truth: Truth;
  readonly verdict: Verdict;
  readonly outcome: Outcome;
  /** Whether the bounds on every cause hold the truth, line by line. */
  readonly lines: readonly (readonly ShareHeld[])[];
}

export function judge(truth: Truth, verdict: Verdict): Outcome {
  switch (verdict.state) {
    case "quiet":
      return "quiet";
    case "undecided": {
      const lost = [truth.cause, ...truth.alike].some((cause) => !verdict.candidates.includes(cause));
      return lost ? "candidate lost" : "undecided";
    }
    case "decided": {
      const { cause, position = "", valve = "" } = truth;
      const right = sameCause(verdict, cause === "valve" ? { cause, position, valve } : { cause });
      if (!right) return verdict.cause === "valve" ? "accused" : "wrong";
      return truth.decidable ? "right" : "decided without contrast";
    }
  }
}

/** The index of the recording the verdict is about. */
export function referenceOf({ settings }: Bench): number {
  return Math.max(
    0,
    settings.findIndex((setting) => setting.supply.source === "building"),
  );
}

/** Line tables of a bench as an ideal reader of recordings of `duration_s` would give them. */
export function lineTables(bench: Bench, channel: string, seed: number, duration_s = 6): LineReading[] {
  const random = randomStream(`bench ${seed}`);
  const chance = random.fork(`reading ${channel}`);
  return bench.settings.flatMap((setting, recording) => {
    const gain = bench.mishap?.gain[recording] ?? 1;
    // What the recorder adds stays, 20 dB below.
    const sd_Vpk = Math.sqrt((bench.noise_V2_per_Hz * (gain ** 2 + 0.01)) / duration_s);
    const { own, building } = sound(bench, recording, channel, random);
    const read = (phasors: readonly Phasor[], family: LineReading["family"], base_Hz: number) =>
      phasors.map(({ re, im }, i): LineReading => {
        const level_Vrms = Math.hypot(re + chance.normal(0, sd_Vpk), im + chance.normal(0, sd_Vpk)) / Math.SQRT2;
        const order = bench.orders[i]!;
        const doubt_Vrms = (1.96 * sd_Vpk) / Math.SQRT2;
        const stands = level_Vrms > (5 * sd_Vpk) / Math.SQRT2;
        return {
          recording,
          channel,
          order,
          family,
          frequency_Hz: order * base_Hz,
          level_Vrms,
          doubt_Vrms,
          stands,
          crowded: false,
        };
      });
    if (!own) return read(building, "both", bench.building_Hz);
    return [...read(own, "supply", setting.supply.frequency_Hz), ...read(building, "building", bench.building_Hz)];
  });
}

/** Draws the bench of a seed and judges each channel's verdict from its line tables. */
export function judgeDraw(seed: number, make?: Make): Judged[] {
  const bench = drawBench(randomStream(`bench ${seed}`).fork("draw"), make);
  const reference = referenceOf(bench);
  const used_s = bench.settings.map(() => 6);
  const evidence = bench.channels.map((channel) => {
    const readings = lineTables(bench, channel, seed);
    const gains = gainChanges(readings, bench.settings, reference, used_s);
    return {
      settings: bench.settings,
      comparable: bench.settings.map((_, r) => r === reference || !gains[r]),
      reference,
      reaches: (position: string) => bench.feeds[position]!.includes(channel),
      readings,
      budget_s: 3,
      random: randomStream("hum.trace"),
    };
  });
  const repeats = evidence.map(repeatsOf);
  return bench.channels.map((channel, c) => {
    const { verdict, causes } = attributeChannel({ ...evidence[c]!, repeats });
    const truth = bench.truth[channel]!;
    const lines = [...causes].map(([{ order }, found]) => sharesHeld(bench, channel, order, found));
    return { seed, channel, truth, verdict, outcome: judge(truth, verdict), lines };
  });
}

export interface Tally {
  readonly decidable: number;
  readonly right: number;
  readonly undecidable: number;
  readonly calledUndecided: number;
  readonly accused: number;
  /** What went otherwise than it should, with the seeds to repeat it. */
  readonly amiss: readonly string[];
}

export function tallyOf(judged: readonly Judged[]): Tally {
  const decidable = judged.filter(({ truth }) => truth.decidable);
  const undecidable = judged.filter(({ truth }) => !truth.decidable);
  const good = ({ truth, outcome }: Judged) => outcome === (truth.decidable ? "right" : "undecided");
  return {
    decidable: decidable.length,
    right: decidable.filter(good).length,
    undecidable: undecidable.length,
    calledUndecided: undecidable.filter(good).length,
    accused: judged.filter(({ outcome }) => outcome === "accused").length,
    amiss: judged
      .filter((one) => !good(one))
      .map(({ seed, channel, truth, outcome }) => `seed ${seed} ${channel}: ${truth.cause} ${outcome}`),
  };
}
