import { BadInput } from "../maths/badInput.ts";
import { sparseWork } from "../maths/linear/sparseComplex.ts";
import { checkNetlist } from "./check.ts";
import { buildCircuit, type Circuit, type Fitted } from "./circuit.ts";
import { deviceCurrents, mostElectrodes } from "./device.ts";
import { boltzmann_J_per_K, charge_C, kelvin } from "./junction.ts";
import type { Netlist, Part } from "./netlist.ts";
import { type Output, outputNodes } from "./response.ts";
import { electrodeVolts, nameOfUnknown, type Settled, settle, type Unsettled } from "./settle.ts";
import { answerVector, factorAt, reachOf, type SmallSignalCircuit, smallSignal } from "./smallSignal.ts";

export interface NoiseQuestion {
  readonly output: Output;
  readonly frequencies_Hz: readonly number[];
  /** Of the resistors, and of the air round the valves. */
  readonly temperature_C?: number;
}

export interface OutputNoise {
  readonly state: "solved";
  readonly frequencies_Hz: readonly number[];
  /** Density at the output, all sources of noise together. */
  readonly V_per_rtHz: readonly number[];
  /** Each part's own share of it, in the same unit; shares add as squares. */
  readonly parts: Readonly<Record<string, readonly number[]>>;
  readonly notes: readonly string[];
}

/**
 * Noise at an output, all sources at zero, by one adjoint solve a frequency.
 *
 *     resistors, coils' and windings' copper   4kT·R          (Johnson 1928, Nyquist 1928)
 *     triode, at its grid                      4kT·2.5/gm     (Harris, RCA Review 5, 1941)
 *     pentode, at its grid                     4kT·(Ia/Ik)·(2.5/gm + 20·Is/gm²)   (Spangenberg, Vacuum Tubes, 1948)
 *     grid current, diodes, transistors        2q·I           (Schottky 1918)
 *
 * @source reference rows in reference/circuits.json, noise; the formulas of Harris and Spangenberg were read there
 * @remarks White noise only: flicker noise, which rules valves below about a kilohertz, hum and microphony are left out.
 * @throws BadInput as `response`
 */
export function outputNoise(
  netlist: Netlist,
  question: NoiseQuestion,
  fitted: Fitted = {},
  path = "netlist",
): OutputNoise | Unsettled {
  const { frequencies_Hz } = question;
  const meter = noiseMeter(netlist, question, fitted, path);
  if (meter.state !== "solved") return meter;
  const power = meter.parts.map(() => new Float64Array(frequencies_Hz.length));
  for (const [f, frequency_Hz] of frequencies_Hz.entries()) {
    const now = meter.power(frequency_Hz);
    if ("state" in now) return now;
    for (let p = 0; p < power.length; p++) power[p]![f] = now[p]!;
  }
  return {
    state: "solved",
    frequencies_Hz,
    V_per_rtHz: frequencies_Hz.map((_, f) => Math.sqrt(power.reduce((sum, shares) => sum + shares[f]!, 0))),
    parts: Object.fromEntries(meter.parts.map((part, p) => [part, [...power[p]!].map(Math.sqrt)])),
    notes: [whiteOnly],
  };
}

export const whiteOnly = "white noise only: flicker noise, hum and microphony are left out";

/** A circuit at rest, ready to be asked for its noise at one frequency after another. */
export interface NoiseMeter {
  readonly state: "solved";
  /** Parts that make noise. */
  readonly parts: readonly string[];
  /** Power density of each part's noise at the output, V²/Hz; the array is used again by the next call. */
  power(frequency_Hz: number): Float64Array | Unsettled;
  /** Multiplications that one frequency takes, known after the first. */
  work(): number;
}

/** @throws BadInput as `outputNoise` */
export function noiseMeter(
  netlist: Netlist,
  { output, temperature_C = 20 }: Omit<NoiseQuestion, "frequencies_Hz">,
  fitted: Fitted = {},
  path = "netlist",
): NoiseMeter | Unsettled {
  if (!(kelvin(temperature_C) > 0)) {
    throw new BadInput(
      "temperature_C",
      String(temperature_C),
      "a temperature above −273.15",
      "give it in degrees Celsius",
    );
  }
  checkNetlist(netlist, path, true);
  const circuit = buildCircuit(netlist, path, fitted);
  const [plus, minus] = outputNodes(circuit, output);
  const settled = settle(circuit);
  if (settled.state !== "solved") return settled;
  const sources = sourcesOf(circuit, settled, 4 * boltzmann_J_per_K * kelvin(temperature_C));
  const parts = [...new Set(sources.map(({ part }) => part))];
  const places = sources.map(({ part }) => parts.indexOf(part));
  const signal = smallSignal(circuit, settled.x);
  const probe = new Float64Array(circuit.size);
  if (plus >= 0) probe[plus] = 1;
  if (minus >= 0) probe[minus] = probe[minus]! - 1;
  const reach = answerVector(signal);
  const power = new Float64Array(parts.length);
  return {
    state: "solved",
    parts,
    power(frequency_Hz) {
      const singular = factorAt(signal, frequency_Hz);
      if (singular >= 0) return undetermined(signal, singular, frequency_Hz);
      reachOf(signal, probe, reach);
      power.fill(0);
      sources.forEach(({ from, to, density }, s) => {
        const re = (from >= 0 ? reach.re[from]! : 0) - (to >= 0 ? reach.re[to]! : 0);
        const im = (from >= 0 ? reach.im[from]! : 0) - (to >= 0 ? reach.im[to]! : 0);
        power[places[s]!] = power[places[s]!]! + (re * re + im * im) * density;
      });
      return power;
    },
    work: () => 3 * sparseWork(signal.solver) + 2 * sources.length,
  };
}

/** A noise current from one unknown's row to another's, or a noise voltage in the row of a branch; power density. */
interface NoiseSource {
  readonly part: string;
  readonly from: number;
  readonly to: number;
  readonly density: number;
}

function sourcesOf(circuit: Circuit, settled: Settled, fourKT: number): NoiseSource[] {
  const straight = circuit.netlist.parts.flatMap((part, i) => thermal(circuit, part, circuit.currentOf[i]!, fourKT));
  const u = new Float64Array(mostElectrodes);
  const at = deviceCurrents();
  const bent = circuit.devices.flatMap(({ part: index, nodes, evaluate }): NoiseSource[] => {
    const part = circuit.netlist.parts[index]!;
    electrodeVolts(nodes, settled.x, u);
    at.current_A.fill(0);
    at.slope.fill(0);
    evaluate(u, at);
    const last = nodes[nodes.length - 1]!;
    const shot = (electrode: number): NoiseSource => ({
      part: part.id,
      from: nodes[electrode]!,
      to: last,
      density: 2 * charge_C * Math.abs(at.current_A[electrode]!),
    });
    switch (part.kind) {
      case "triode":
      case "pentode": {
        const equivalent_ohm = valveNoise_ohm(part.kind, at.current_A, at.slope[1]!);
        const gm = at.slope[1]!;
        const plate = { part: part.id, from: nodes[0]!, to: last, density: fourKT * equivalent_ohm * gm * gm };
        return [plate, shot(1)];
      }
      case "jfet":
        return [{ part: part.id, from: nodes[0]!, to: last, density: (fourKT * 2 * Math.abs(at.slope[1]!)) / 3 }];
      case "bipolar":
        return [shot(0), shot(1)];
      default:
        return [shot(0)];
    }
  });
  return [...straight, ...bent].filter(({ density }) => density > 0);
}

/** Resistance at room temperature whose noise at the grid equals the valve's; 0 for a valve that is cut off. */
export function valveNoise_ohm(kind: "triode" | "pentode", current_A: Float64Array, gm: number): number {
  if (!(gm > 0)) return 0;
  if (kind === "triode") return 2.5 / gm;
  const [plate, , screen] = current_A as unknown as [number, number, number];
  return (plate / (plate + screen)) * (2.5 / gm + (20 * screen) / gm ** 2);
}

function thermal(circuit: Circuit, part: Part, branch: number, fourKT: number): NoiseSource[] {
  const series = (row: number, ohm: number): NoiseSource => ({
    part: part.id,
    from: row,
    to: -1,
    density: fourKT * ohm,
  });
  switch (part.kind) {
    case "resistor": {
      if (branch >= 0) return [series(branch, part.ohm)];
      const [from, to] = part.between.map((node) => circuit.unknownOf(node)!) as [number, number];
      return [{ part: part.id, from, to, density: fourKT / part.ohm }];
    }
    case "inductor":
      return [series(branch, part.resistance_ohm ?? 0)];
    case "transformer":
      return part.windings.map((winding, w) => series(branch + w, winding.resistance_ohm ?? 0));
    default:
      return [];
  }
}

function undetermined({ circuit }: SmallSignalCircuit, singular: number, frequency_Hz: number): Unsettled {
  const node = nameOfUnknown(circuit, singular);
  return {
    state: "undecided",
    node,
    reason: `at ${frequency_Hz} Hz nothing in the net list determines ${node}`,
    notes: [],
  };
}
