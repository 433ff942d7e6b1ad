import { BadInput, quote } from "../../maths/badInput.ts";
import { checkNetlist } from "../check.ts";
import { buildCircuit, type Circuit, type Fitted } from "../circuit.ts";
import type { Netlist } from "../netlist.ts";
import { type Output, portsOf } from "../response.ts";
import { describe } from "../rest.ts";
import { settle, type Unsettled } from "../settle.ts";
import { answerTo, answerVector, factorAt, smallSignal } from "../smallSignal.ts";
import { type Balance, balance, type Work } from "./balance.ts";
import { type StraightPart, straightPart, Undetermined } from "./straightPart.ts";
import { type WaveGrid, waveGrid } from "./waves.ts";

export interface DistortionQuestion {
  /** Id of the voltage source that drives the signal. */
  readonly input: string;
  readonly output: Output;
  readonly frequency_Hz: number;
  readonly amplitude_Vpk: number;
  /** Joined across the output. */
  readonly load_ohm?: number | undefined;
}

export interface Distortion {
  readonly state: "solved";
  /** The alternating part. */
  readonly output_Vrms: number;
  readonly fundamental_Vrms: number;
  /** Fundamental of the output over the source's. */
  readonly gain_dB: number;
  /** Orders 2 to 10, relative to the fundamental. */
  readonly harmonics_pct: readonly number[];
  /** Root sum square of orders 2 to 10. */
  readonly thd_pct: number;
  /** What the load takes, with what direct current it gets. */
  readonly power_mW: number;
  /** Mean of the output with the signal, and at rest. */
  readonly mean_V: number;
  readonly rest_V: number;
  /** What the last doubling of the harmonics kept still moved. */
  readonly doubt: {
    readonly output_Vrms: number;
    readonly harmonics_pct: readonly number[];
    readonly thd_pct: number;
  };
  /** Harmonics kept in the answer. */
  readonly harmonicsKept: number;
  readonly notes: readonly string[];
}

const highestOrder = 10;
const fewestHarmonics = 16;
const mostHarmonics = 1024;
/** About eight seconds on a slow machine. */
const mostWork = 3e9;
/** Doubling the harmonics ends when it moves no order by more than this share of itself … */
const enough = 2e-6;
/** … or of the whole distortion, or of the fundamental. */
const enoughOfThd = 1e-8;
const enoughOfFundamental = 1e-13;
/** A move of an order by this share of the fundamental needs no word when the doubling has to end. */
const tolerable = 1e-6;

/**
 * Distortion by the true periodic steady state: what is left when the source has run for ever.
 *
 *     thd = √(V₂² + … + V₁₀²)/V₁
 *
 * The source is its dc_V plus a sine of `amplitude_Vpk`; other sources give their direct part alone. Harmonics are
 * balanced (see `balance.ts`), the drive turned up slowly where the circuit clips, and the harmonics doubled until
 * nothing moves.
 *
 * @returns "undecided" with the reason where no steady state was found, or nothing arrives at the output
 * @throws BadInput for an input or output that is not there, and as `solveRest`
 */
export function distortion(
  given: Netlist,
  question: DistortionQuestion,
  fitted: Fitted = {},
  path = "netlist",
): Distortion | Unsettled {
  const netlist = question.load_ohm === undefined ? given : withLoad(given, question.output, question.load_ohm);
  const bends = buildCircuit(netlist, path, fitted).devices.length > 0;
  checkNetlist(netlist, path, bends);
  const circuit = buildCircuit(netlist, path, fitted);
  const ports = portsOf(circuit, question);
  if (ports.source.kind !== "voltage") {
    throw new BadInput(
      "input",
      `${quote(question.input)}, a current source`,
      "the id of a voltage source, since the amplitude is in volts",
      "drive the circuit from a voltage source, a resistor in series with it",
    );
  }
  const output = [ports.plus, ports.minus] as const;
  if (!bends) return straightAnswer(circuit, ports.drive, output, question);

  const settled = settle(circuit);
  if (settled.state !== "solved") return settled;
  const notes = [...describe(circuit, settled).notes];
  try {
    const straight = straightPart(circuit, settled, question.frequency_Hz, ports.drive, output);
    const rest_V = across(settled.x, output);
    const found = refine(straight, question.amplitude_Vpk);
    if (found === undefined) {
      return undecided(
        question.input,
        "no steady state was found at this amplitude within the time; the circuit may block, latch or run away: try a smaller amplitude, or give grids and diodes a series resistance",
      );
    }
    notes.push(...found.notes, ...usage(circuit, straight, found));
    return answerOf(circuit, question, found, rest_V, notes);
  } catch (error) {
    if (error instanceof Undetermined) return undecided(error.node, error.message);
    throw error;
  }
}

function undecided(node: string, reason: string): Unsettled {
  return { state: "undecided", node, reason, notes: [] };
}

function withLoad(netlist: Netlist, output: Output, ohm: number): Netlist {
  const between: [string, string] = typeof output === "string" ? [output, netlist.ground] : [output[0], output[1]];
  const ids = new Set(netlist.parts.map(({ id }) => id));
  let id = "load";
  while (ids.has(id)) id += "_";
  return { ...netlist, parts: [...netlist.parts, { id, kind: "resistor", between, ohm }] };
}

interface Found {
  readonly grid: WaveGrid;
  readonly balance: Balance;
  readonly w: Float64Array;
  readonly amplitude_V: number;
  readonly output: Float64Array;
  readonly before: Float64Array | undefined;
  readonly notes: readonly string[];
}

function refine(straight: StraightPart, amplitude_V: number): Found | undefined {
  const work: Work = { done: 0, most: mostWork };
  let found: Found | undefined;
  for (let harmonics = fewestHarmonics; harmonics <= mostHarmonics; harmonics *= 2) {
    const grid = waveGrid(harmonics);
    const at = balance(straight, grid, work);
    const w = new Float64Array(straight.currents * grid.width);
    if (found !== undefined) spread(found, grid, straight.currents, w);
    const settled = at.settle(w, amplitude_V) || (found === undefined && turnUp(at, w, amplitude_V));
    if (!settled) {
      // Sharp corners may need more harmonics before the drive can be turned up all the way.
      if (found === undefined && work.done < mostWork / 4) continue;
      break;
    }
    const output = at.output(w, amplitude_V);
    const last = found?.output;
    found = { grid, balance: at, w, amplitude_V, output, before: last, notes: [] };
    if (last !== undefined && isSame(last, output, at.grain_V(amplitude_V))) return found;
    if (work.done * 3 > mostWork) break;
  }
  if (found?.before !== undefined && isSame(found.before, found.output, tolerable * amplitude(found.output, 1)))
    return found;
  return (
    found && {
      ...found,
      notes: ["the harmonics still moved when those kept were doubled, and more would take too long; see doubt"],
    }
  );
}

function spread({ w, grid }: Found, wider: WaveGrid, count: number, into: Float64Array): void {
  for (let a = 0; a < count; a++) into.set(w.subarray(a * grid.width, (a + 1) * grid.width), a * wider.width);
}

/** The drive from a small share to the whole, each solution carried on in a straight line to the next. */
function turnUp(at: Balance, w: Float64Array, amplitude_V: number): boolean {
  w.fill(0);
  let before = { share: 0, w: w.slice() };
  let now = before;
  let stride = 0.1;
  while (now.share < 1) {
    const share = Math.min(1, now.share + stride);
    const ahead = now.share > before.share ? (share - now.share) / (now.share - before.share) : 0;
    for (let i = 0; i < w.length; i++) w[i] = now.w[i]! + ahead * (now.w[i]! - before.w[i]!);
    if (at.settle(w, share * amplitude_V)) {
      before = now;
      now = { share, w: w.slice() };
      stride *= 1.6;
    } else {
      stride /= 3;
      if (stride < 1e-4) return false;
    }
  }
  w.set(now.w);
  return true;
}

function isSame(last: Float64Array, now: Float64Array, grain_V: number): boolean {
  const first = amplitude(now, 1);
  const thd = Math.hypot(...orders.map((k) => amplitude(now, k)));
  return [1, ...orders].every((k) => {
    return (
      movedAt(last, now, k) <=
      Math.max(enough * amplitude(now, k), enoughOfThd * thd, enoughOfFundamental * first, grain_V)
    );
  });
}

function movedAt(last: Float64Array, now: Float64Array, k: number): number {
  return Math.hypot(now[2 * k - 1]! - last[2 * k - 1]!, now[2 * k]! - last[2 * k]!);
}

const orders = Array.from({ length: highestOrder - 1 }, (_, i) => i + 2);

function amplitude(wave: Float64Array, k: number): number {
  return 2 * k < wave.length ? Math.hypot(wave[2 * k - 1]!, wave[2 * k]!) : 0;
}

function rms(wave: Float64Array): number {
  let sum = 0;
  for (let i = 1; i < wave.length; i++) sum += wave[i]! ** 2;
  return Math.sqrt(sum / 2);
}

function thd_pct(wave: Float64Array): number {
  return (100 * Math.hypot(...orders.map((k) => amplitude(wave, k)))) / amplitude(wave, 1);
}

/** Under this share of the drive the output counts as not reached. */
const silence = 1e-20;

function answerOf(
  circuit: Circuit,
  question: DistortionQuestion,
  { output, before, grid }: Pick<Found, "output" | "before" | "grid">,
  rest_V: number,
  notes: string[],
): Distortion | Unsettled {
  const fundamental = amplitude(output, 1);
  if (!(fundamental > silence * question.amplitude_Vpk)) {
    return undecided(
      typeof question.output === "string" ? question.output : question.output[0],
      "nothing of the signal arrives at the output, so there is nothing to relate its harmonics to",
    );
  }
  const mean_V = rest_V + output[0]!;
  const output_Vrms = rms(output);
  const load_S = loadConductance(circuit.netlist, question.output);
  if (load_S === 0) {
    notes.push("no resistor lies across the output, so nothing takes power there; give load_ohm");
  } else if (Math.abs(mean_V) > 1e-6 * output_Vrms) {
    notes.push(`power_mW holds ${(mean_V ** 2 * load_S * 1e3).toPrecision(4)} mW of direct current in the load`);
  }
  return {
    state: "solved",
    output_Vrms,
    fundamental_Vrms: fundamental / Math.SQRT2,
    gain_dB: 20 * Math.log10(fundamental / question.amplitude_Vpk),
    harmonics_pct: orders.map((k) => (100 * amplitude(output, k)) / fundamental),
    thd_pct: thd_pct(output),
    power_mW: (output_Vrms ** 2 + mean_V ** 2) * load_S * 1e3,
    mean_V,
    rest_V,
    doubt: {
      output_Vrms: before === undefined ? 0 : Math.abs(output_Vrms - rms(before)),
      harmonics_pct: orders.map((k) => (before === undefined ? 0 : (100 * movedAt(before, output, k)) / fundamental)),
      thd_pct: before === undefined ? 0 : Math.abs(thd_pct(output) - thd_pct(before)),
    },
    harmonicsKept: grid.harmonics,
    notes,
  };
}

/** Of every resistor that lies between the output's two nodes. */
function loadConductance(netlist: Netlist, output: Output): number {
  const [a, b] = typeof output === "string" ? [output, netlist.ground] : output;
  return netlist.parts.reduce((sum, part) => {
    if (part.kind !== "resistor") return sum;
    const [c, d] = part.between;
    return (a === c && b === d) || (a === d && b === c) ? sum + 1 / part.ohm : sum;
  }, 0);
}

/** Where nothing bends there are no harmonics, and no working point is asked for. */
function straightAnswer(
  circuit: Circuit,
  drive: Float64Array,
  output: readonly [number, number],
  question: DistortionQuestion,
): Distortion | Unsettled {
  const signal = smallSignal(circuit);
  const singular = factorAt(signal, question.frequency_Hz);
  if (singular >= 0) {
    const node = circuit.nodeNames[singular] ?? question.input;
    return undecided(node, `at ${question.frequency_Hz} Hz nothing in the net list determines ${node}`);
  }
  const answer = answerVector(signal);
  answerTo(signal, drive, answer);
  const wave = Float64Array.of(
    0,
    question.amplitude_Vpk * across(answer.re, output),
    question.amplitude_Vpk * across(answer.im, output),
  );
  return answerOf(circuit, question, { output: wave, before: undefined, grid: waveGrid(1) }, 0, [
    "nothing in the net list bends, so there are no harmonics; the direct part of the output was not asked for",
  ]);
}

function across(side: Float64Array, [plus, minus]: readonly [number, number]): number {
  return (plus >= 0 ? side[plus]! : 0) - (minus >= 0 ? side[minus]! : 0);
}

/** Which valves the signal drives into cut-off or grid current. */
function usage(circuit: Circuit, { parts }: StraightPart, { balance: at, grid }: Found): string[] {
  const { volts } = at;
  const u = new Float64Array(3);
  return parts.flatMap(({ device, firstVoltage, currents, rest_V, rest_A }) => {
    const part = circuit.netlist.parts[device.part]!;
    if (part.kind !== "triode" && part.kind !== "pentode") return [];
    const now = { current_A: new Float64Array(3), slope: new Float64Array(9) };
    let cutOff = 0;
    let grid_A = 0;
    for (let n = 0; n < grid.samples; n++) {
      currents.forEach((_, e) => {
        u[e] = rest_V[e]! + volts[(firstVoltage + e) * grid.samples + n]!;
      });
      device.evaluate(u, now);
      if (now.current_A[0]! < 1e-3 * Math.abs(rest_A[0]!)) cutOff++;
      grid_A = Math.max(grid_A, now.current_A[1]!);
    }
    return [
      ...(cutOff === 0
        ? []
        : [`${part.id} is cut off for ${((100 * cutOff) / grid.samples).toFixed(0)} % of the time`]),
      ...(grid_A < 1e-6 ? [] : [`${part.id} draws grid current, up to ${(grid_A * 1e3).toPrecision(2)} mA`]),
    ];
  });
}
