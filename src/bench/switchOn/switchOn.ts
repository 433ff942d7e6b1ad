import { BadInput } from "../../maths/badInput.ts";
import { guard, type Verdict } from "../../measurement/index.ts";
import { type Channel, channelsOf } from "../channels.ts";
import { refuseLength } from "../length.ts";
import type { Recording } from "../recording.ts";
import { type HighPass, undoHighPass } from "./highPass.ts";
import { block_s, type Level, levelOf } from "./level.ts";
import { leastQuiet_s, momentOfSwitch, onsetBefore } from "./moment.ts";
import { peakOf } from "./peak.ts";
import { settled } from "./settle.ts";

export interface SwitchOnLimits {
  readonly rest_mV?: number | undefined;
  readonly pulse_Vpk?: number | undefined;
  readonly settle_s?: number | undefined;
  readonly energy_mJ?: number | undefined;
}

export interface SwitchOnQuestion {
  readonly names?: readonly string[];
  /** Whether the recorder passes direct voltage; `unknown` counts as not. */
  readonly coupling: "dc" | "ac" | "unknown";
  /** What the headphone takes. */
  readonly load_ohm: number;
  readonly loadDoubt_ohm?: number;
  /** Half of the band about the rest in which the voltage counts as settled. */
  readonly settled_mV: number;
  /** The recorder's own high-pass as its loop-back shows it. */
  readonly highPass?: HighPass;
  readonly limits?: SwitchOnLimits;
  readonly seconds?: number;
}

export interface SwitchOnTest {
  readonly name: "rest" | "pulse" | "settling" | "energy";
  readonly state: Verdict;
  readonly value: number;
  readonly doubt: number;
  readonly limit: number;
  readonly unit: "mV" | "V" | "s" | "mJ";
}

export interface SwitchOnOfChannel {
  readonly name: string;
  /** When the voltage left what it was before, from the record's start. */
  readonly switched_s?: number;
  /** Direct voltage at the end against that before the switch, signed; left out where the recorder can't show it. */
  readonly rest_mV?: number;
  /** Greatest departure from the voltage before the switch, either way. */
  readonly pulse_Vpk: number;
  readonly pulseSign?: "positive" | "negative";
  /** From the switch to that peak. */
  readonly pulse_s?: number;
  readonly settle_s?: number;
  /** What the pulse puts into the load until it has settled, the rest aside. */
  readonly energy_mJ: number;
  readonly clipped: boolean;
  readonly state: Verdict;
  readonly reasons: readonly string[];
  readonly tests: readonly SwitchOnTest[];
  readonly doubt: {
    readonly rest_mV?: number;
    readonly pulse_Vpk: number;
    readonly settle_s?: number;
    readonly energy_mJ: number;
  };
}

export interface SwitchOnReport {
  readonly channels: readonly SwitchOnOfChannel[];
  readonly seesDirectVoltage: boolean;
  readonly usable_s: number;
  readonly notes: readonly string[];
}

const leastRecord_s = 1;
/** The rest is read over this share of what follows the switch, and this long at most. */
const restShare = 0.3;
const longestRest_s = 3;
/** A pulse is taken to read true while a high-pass has let it sag by no more than a tenth. */
const sag = 0.1;

/**
 * What stands at a headphone jack when an amplifier is switched on: the pulse, how long it lasts, what it puts into a
 * headphone, and the direct voltage that stays.
 *
 * Zero is what the recorder showed before the switch, when nothing drove the jack; so its own offset falls out.
 *
 *     E = ∫ (v − rest)² dt / R from the switch until settled, the mean square of the rest's noise taken off
 *
 * A recorder with a capacitor or a digital high-pass in its way lets every slow pulse sag and shows no resting voltage;
 * where its corner is known, the difference that undoing it makes is added to the doubt.
 *
 * @throws BadInput at `recording`: too short, too long, or not one sample that moves
 * @source definition of energy into a resistance; the rest is common practice, no source
 */
export function analyseSwitchOn(
  recording: Recording,
  fullScale_Vpk: number,
  question: SwitchOnQuestion,
): SwitchOnReport {
  const { rate_Hz } = recording;
  const length = recording.samples[0]!.length;
  refuseLength("switchOn", length, rate_Hz, recording.samples.length, leastRecord_s, question.seconds);
  const { audio } = channelsOf(recording, fullScale_Vpk, question.names);
  if (audio.every(({ samples_V }) => samples_V.every((value) => value === samples_V[0]))) {
    throw new BadInput(
      "recording",
      "not one sample that moves",
      "a recording that begins before the amplifier is switched on",
      "check lead, input and channel",
    );
  }
  const { coupling, highPass } = question;
  const seesDirectVoltage = coupling === "dc";
  // Said to pass direct voltage, the recorder has no corner: what its loop-back shows is the player's.
  const own = seesDirectVoltage ? undefined : highPass;
  return {
    channels: audio.map((channel) => ofChannel(channel, rate_Hz, question, own)),
    seesDirectVoltage,
    usable_s: length / rate_Hz,
    notes: [...unseen(question), ...lostZero(audio, rate_Hz)],
  };
}

function ofChannel(
  { name, samples_V, clipped }: Channel,
  rate_Hz: number,
  { coupling, load_ohm, loadDoubt_ohm = 0, settled_mV, limits = {} }: SwitchOnQuestion,
  highPass: HighPass | undefined,
): SwitchOnOfChannel {
  const seesDirectVoltage = coupling === "dc";
  const reasons: string[] = [];
  const at = momentOfSwitch(samples_V, rate_Hz);
  const hasZero = at === undefined || at >= leastQuiet_s * rate_Hz;
  const quiet = samples_V.subarray(
    0,
    Math.max(Math.round(leastQuiet_s * rate_Hz), (at ?? 0) - Math.round(0.01 * rate_Hz)),
  );
  const zero: Level = hasZero ? levelOf(quiet, rate_Hz) : { value_V: 0, doubt_V: 0 };
  const after = samples_V.subarray(at ?? 0).map((value) => value - zero.value_V);
  const rest_s = Math.min(longestRest_s, Math.max(5 * block_s, (restShare * after.length) / rate_Hz));
  const tail = after.subarray(Math.max(0, after.length - Math.round(rest_s * rate_Hz)));
  const rest = levelOf(tail, rate_Hz);
  const noise = noiseIn(tail, rest);
  const zeroDoubt_V = hasZero ? zero.doubt_V : Number.POSITIVE_INFINITY;
  const restDoubt_V = Math.hypot(rest.doubt_V, zeroDoubt_V);
  const seen = measure(after, rate_Hz, rest.value_V, noise, settled_mV / 1000, load_ohm);
  const restored = highPass ? restoredFrom(after, rate_Hz, highPass, noise, settled_mV / 1000, load_ohm) : undefined;
  const sagged_V = restored ? Math.abs(Math.abs(restored.peak.value_V) - Math.abs(seen.peak.value_V)) : 0;
  const sagged_mJ = restored ? Math.abs(restored.energy_mJ - seen.energy_mJ) : 0;
  const zeroShare_V = hasZero ? zero.doubt_V : Math.abs(rest.value_V) + rest.doubt_V;
  const pulse_Vpk = Math.abs(seen.peak.value_V);
  const stands = at !== undefined;
  const doubt = {
    ...(seesDirectVoltage && hasZero && { rest_mV: 1000 * restDoubt_V }),
    pulse_Vpk: stands ? Math.hypot(seen.peak.doubt_V, zeroShare_V, sagged_V) : pulse_Vpk,
    ...(seen.settle.settle_s !== undefined && { settle_s: seen.settle.doubt_s }),
    energy_mJ: stands
      ? Math.hypot(seen.energyDoubt_mJ, sagged_mJ, (seen.energy_mJ * loadDoubt_ohm) / load_ohm)
      : seen.energy_mJ,
  };
  if (!stands) reasons.push("no pulse stands out of the noise; its figures are limits");
  if (!hasZero) reasons.push("the recording begins after the switch, so where zero lies is not known");
  if (!seesDirectVoltage) reasons.push("the recorder is not known to pass direct voltage, so the rest is not told");
  if (clipped) reasons.push("the recorder was driven beyond its range: the pulse is higher than it reads");
  if (seen.settle.settle_s === undefined) {
    reasons.push(`it had not come within ${settled_mV} mV of its rest when the record ended`);
  }
  const ended_s = after.length / rate_Hz;
  const tests = testsOf(limits, {
    rest: seesDirectVoltage && hasZero ? { value: 1000 * rest.value_V, doubt: 1000 * restDoubt_V } : undefined,
    pulse: { value: pulse_Vpk, doubt: doubt.pulse_Vpk, atLeast: clipped },
    settling:
      seen.settle.settle_s === undefined
        ? { value: ended_s, doubt: 0, atLeast: true }
        : { value: seen.settle.settle_s, doubt: seen.settle.doubt_s },
    energy: { value: seen.energy_mJ, doubt: doubt.energy_mJ, atLeast: clipped },
  });
  return {
    name,
    ...(stands && {
      switched_s: at / rate_Hz,
      pulseSign: seen.peak.value_V < 0 ? ("negative" as const) : ("positive" as const),
      pulse_s: seen.peak.at / rate_Hz,
    }),
    ...(seesDirectVoltage && hasZero && { rest_mV: 1000 * rest.value_V }),
    pulse_Vpk,
    ...(seen.settle.settle_s !== undefined && { settle_s: seen.settle.settle_s }),
    energy_mJ: seen.energy_mJ,
    clipped,
    state: worst(tests.map(({ state }) => state)),
    reasons,
    tests,
    doubt,
  };
}

/** What the rest holds beside its direct voltage. */
interface Unrest {
  /** Standard deviation of what changes from sample to sample. */
  readonly noise_V: number;
  /** Standard deviation of the rest of it, hum above all. */
  readonly hum_V: number;
  readonly restDoubt_V: number;
}

/**
 * Noise by second differences, which leave hum out: their mean square is six times that of white noise.
 */
function noiseIn(tail: Float64Array, rest: Level): Unrest {
  let squares = 0;
  let differences = 0;
  for (let n = 2; n < tail.length; n++) {
    squares += (tail[n]! - rest.value_V) ** 2;
    differences += (tail[n]! - 2 * tail[n - 1]! + tail[n - 2]!) ** 2;
  }
  const count = Math.max(1, tail.length - 2);
  const white = Math.min(squares, differences / 6);
  return {
    noise_V: Math.sqrt(white / count),
    hum_V: Math.sqrt((squares - white) / count),
    restDoubt_V: rest.doubt_V,
  };
}

/** Hum moves an integral as its lowest frequency, 50 Hz, does: by its amplitude over 2π times that. */
const hum_s = 1 / (2 * Math.PI * 50);

/** Peak, settling and energy of what follows the switch, zero taken off. */
function measure(
  after: Float64Array,
  rate_Hz: number,
  rest_V: number,
  { noise_V, hum_V, restDoubt_V }: Unrest,
  band_V: number,
  load_ohm: number,
) {
  const peak = peakOf(after, rate_Hz, noise_V);
  const departure = after.map((value) => value - rest_V);
  const settle = settled(departure, rate_Hz, band_V, restDoubt_V / 1.96, onsetBefore(after, noise_V));
  const end = Math.min(
    departure.length,
    Math.max(1, Math.ceil((settle.settle_s ?? Number.POSITIVE_INFINITY) * rate_Hz)),
  );
  let squares = 0;
  let area = 0;
  for (let n = 0; n < end; n++) {
    squares += departure[n]! ** 2;
    area += departure[n]!;
  }
  const pure = Math.max(0, squares - end * (noise_V ** 2 + hum_V ** 2));
  const joule = (of: number) => (1000 * of) / rate_Hz / load_ohm;
  const chance = 1.96 * Math.sqrt(4 * pure * noise_V ** 2 + 2 * end * noise_V ** 4);
  const bySettling = band_V ** 2 * settle.doubt_s * rate_Hz;
  const byHum = 2 * 1.96 * hum_V * Math.abs(peak.value_V) * hum_s * rate_Hz;
  const byRest = 2 * Math.abs(area) * restDoubt_V;
  return {
    peak: { ...peak, doubt_V: Math.hypot(peak.doubt_V, 1.96 * hum_V) },
    settle,
    energy_mJ: joule(pure),
    energyDoubt_mJ: joule(Math.hypot(chance, bySettling, byHum, byRest)),
  };
}

function restoredFrom(
  after: Float64Array,
  rate_Hz: number,
  highPass: HighPass,
  noise: Unrest,
  band_V: number,
  load_ohm: number,
) {
  const restored = undoHighPass(after, rate_Hz, highPass.corner_Hz + highPass.doubt_Hz);
  const end = levelOf(restored.subarray(-Math.round(5 * block_s * rate_Hz)), rate_Hz);
  return measure(restored, rate_Hz, end.value_V, noise, band_V, load_ohm);
}

interface Figure {
  readonly value: number;
  readonly doubt: number;
  /** The truth lies above what was seen. */
  readonly atLeast?: boolean;
}

function testsOf(
  limits: SwitchOnLimits,
  seen: Readonly<Record<"pulse" | "settling" | "energy", Figure>> & { readonly rest: Figure | undefined },
): SwitchOnTest[] {
  const asked = [
    { name: "rest", limit: limits.rest_mV, unit: "mV", figure: seen.rest },
    { name: "pulse", limit: limits.pulse_Vpk, unit: "V", figure: seen.pulse },
    { name: "settling", limit: limits.settle_s, unit: "s", figure: seen.settling },
    { name: "energy", limit: limits.energy_mJ, unit: "mJ", figure: seen.energy },
  ] as const;
  return asked.flatMap(({ name, limit, unit, figure }): SwitchOnTest[] => {
    if (limit === undefined) return [];
    if (!figure) return [{ name, unit, limit, value: 0, doubt: limit, state: "undecided" }];
    const { value, doubt, atLeast = false } = figure;
    const { state } = guard({ value, doubt, high: limit, ...(name === "rest" && { low: -limit }) });
    return [{ name, unit, limit, value, doubt, state: atLeast && state === "proven" ? "undecided" : state }];
  });
}

function worst(states: readonly Verdict[]): Verdict {
  if (states.includes("refuted")) return "refuted";
  return states.length > 0 && states.every((state) => state === "proven") ? "proven" : "undecided";
}

/** What the recorder could not see, in words. */
function unseen({ coupling, highPass }: SwitchOnQuestion): string[] {
  const shown = highPass && `${highPass.corner_Hz.toPrecision(2)} ± ${highPass.doubt_Hz.toPrecision(2)} Hz`;
  if (coupling === "dc") {
    return highPass && highPass.corner_Hz > 0
      ? [
          `The loop-back shows a high-pass at ${shown}; as the recorder is said to pass direct voltage, it is the player's.`,
        ]
      : [];
  }
  const how = coupling === "ac" ? "passes no direct voltage" : "is not known to pass direct voltage";
  const blind = `The recorder ${how}: the resting voltage at the jack is not seen. Read it with a meter.`;
  if (!highPass) {
    return [
      blind,
      "How slow a pulse it can follow is not known: slow ones read low and end too soon. Give the recorder's loop-back.",
    ];
  }
  const slow_ms = (1000 * sag) / (2 * Math.PI * (highPass.corner_Hz + highPass.doubt_Hz));
  return [
    blind,
    `Its loop-back shows a high-pass at ${shown}, the player's included: a pulse that lasts more than ${slow_ms.toPrecision(2)} ms reads low by a tenth or more. What undoing it changes is in the doubt.`,
  ];
}

function lostZero(audio: readonly Channel[], rate_Hz: number): string[] {
  const late = audio.filter(({ samples_V }) => {
    const at = momentOfSwitch(samples_V, rate_Hz);
    return at !== undefined && at < leastQuiet_s * rate_Hz;
  });
  return late.map(({ name }) => `${name}: start the recorder a second or more before switching on.`);
}
