import { randomStream } from "../../maths/random.ts";
import { attributeChannel } from "../attributeChannel.ts";
import { sameCause } from "../cause.ts";
import type { LineReading } from "../lineReading.ts";
import type { Verdict } from "../verdict.ts";
import { type Bench, drawBench, type Phasor, type Truth } from "./drawBench.ts";
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
  /** Whether the bounds on every cause of every line hold the truth. */
  readonly shares: readonly ShareHeld[];
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
  const sd_Vpk = Math.sqrt(bench.noise_V2_per_Hz / duration_s);
  return bench.settings.flatMap((setting, recording) => {
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
export function judgeDraw(seed: number): Judged[] {
  const bench = drawBench(randomStream(`bench ${seed}`).fork("draw"));
  return bench.channels.map((channel) => {
    const { verdict, causes } = attributeChannel({
      settings: bench.settings,
      comparable: bench.settings.map(() => true),
      reference: referenceOf(bench),
      reaches: (position) => bench.feeds[position]!.includes(channel),
      readings: lineTables(bench, channel, seed),
      budget_s: 3,
      random: randomStream("hum.trace"),
    });
    const truth = bench.truth[channel]!;
    const shares = [...causes].flatMap(([{ order }, found]) => sharesHeld(bench, channel, order, found));
    return { seed, channel, truth, verdict, outcome: judge(truth, verdict), shares };
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
