import { BadInput, quote } from "../maths/badInput.ts";
import type { ComplexVector } from "../maths/linear/complexLu.ts";
import { sparseWork } from "../maths/linear/sparseComplex.ts";
import { checkNetlist } from "./check.ts";
import { buildCircuit, type Circuit, type Fitted } from "./circuit.ts";
import { isValve, type Netlist } from "./netlist.ts";
import { describe } from "./rest.ts";
import { nameOfUnknown, settle, type Unsettled } from "./settle.ts";
import { answerTo, answerVector, factorAt, type SmallSignalCircuit, smallSignal } from "./smallSignal.ts";

/** A node against ground, or the first of two nodes against the second. */
export type Output = string | readonly [string, string];

export interface ResponseQuestion {
  /** Id of the one source that is driven; all others stand at zero for the signal. */
  readonly input: string;
  readonly output: Output;
  readonly frequencies_Hz: readonly number[];
}

export interface Response {
  readonly state: "solved";
  readonly frequencies_Hz: readonly number[];
  /** Output against the input source's own voltage. */
  readonly gain_dB: readonly number[];
  /** Within −180 (left out) to 180. */
  readonly phase_deg: readonly number[];
  /** Magnitude, as the input source sees it. */
  readonly inputImpedance_ohm: readonly number[];
  /** Magnitude, with the input source at zero and the net list's own loads in place. */
  readonly outputImpedance_ohm: readonly number[];
  readonly notes: readonly string[];
}

/** Gains under this are answered as this: no signal arrives, and a logarithm of nothing is no number. */
const silence_dB = -400;
/** Impedances over this are answered as this: no current flows at all. */
const open_ohm = 1e15;

/**
 * Small-signal response about the working point.
 *
 *     gain = 20·lg|V(output)/V(input source)|,  Z_in = |V/I| of the input source,
 *     Z_out = |V(output)| for 1 A sent into the output with the input source at zero
 *
 * A driven current source is put at zero by opening it, a voltage source by short-circuiting it.
 *
 * @throws BadInput for an input or output that is not there, and as `solveRest`
 */
export function response(
  netlist: Netlist,
  question: ResponseQuestion,
  fitted: Fitted = {},
  path = "netlist",
): Response | Unsettled {
  const linear = netlist.parts.every((part) => !bends(part.kind));
  // Where nothing bends, the signal does not ask how the circuit rests: a capacitive divider has an answer.
  checkNetlist(netlist, path, !linear);
  const circuit = buildCircuit(netlist, path, fitted);
  const port = portsOf(circuit, question);
  let rest: Float64Array | undefined;
  const notes: string[] = [];
  if (!linear) {
    const settled = settle(circuit);
    if (settled.state !== "solved") return settled;
    rest = settled.x;
    notes.push(...describe(circuit, settled).notes);
  }
  if (netlist.parts.some(isValve)) {
    notes.push("valves carry no capacitances of their own; give them in the net list as capacitors where they matter");
  }
  return sweep(smallSignal(circuit, rest), port, question.frequencies_Hz, notes);
}

function bends(kind: Netlist["parts"][number]["kind"]): boolean {
  return ["triode", "pentode", "diode", "rectifier", "jfet", "bipolar"].includes(kind);
}

interface Ports {
  /** Right-hand side of the driven source at one volt, or one ampere. */
  readonly drive: Float64Array;
  /** Right-hand side of one ampere into the output. */
  readonly into: Float64Array;
  readonly plus: number;
  readonly minus: number;
  readonly source:
    | { readonly kind: "voltage"; readonly branch: number }
    | { readonly kind: "current"; readonly plus: number; readonly minus: number };
}

/** @throws BadInput at `input` or `output` */
export function portsOf(circuit: Circuit, { input, output }: Omit<ResponseQuestion, "frequencies_Hz">, at = ""): Ports {
  const index = circuit.netlist.parts.findIndex((part) => part.id === input);
  const part = circuit.netlist.parts[index];
  if (part === undefined || (part.kind !== "voltage" && part.kind !== "current")) {
    const sources = circuit.netlist.parts.filter(({ kind }) => kind === "voltage" || kind === "current");
    throw new BadInput(
      `input${at}`,
      part === undefined ? `${quote(input)}, not a part` : `${quote(input)}, a ${part.kind}`,
      `the id of a voltage or current source (${sources.map(({ id }) => id).join(", ") || "there is none"})`,
      "name the source that drives the signal",
    );
  }
  const [plus, minus] = outputNodes(circuit, output, at);
  const drive = new Float64Array(circuit.size);
  const into = new Float64Array(circuit.size);
  if (plus >= 0) into[plus] = into[plus]! + 1;
  if (minus >= 0) into[minus] = into[minus]! - 1;
  if (part.kind === "voltage") {
    const branch = circuit.currentOf[index]!;
    drive[branch] = 1;
    return { drive, into, plus, minus, source: { kind: "voltage", branch } };
  }
  const [from, to] = [circuit.unknownOf(part.between[0])!, circuit.unknownOf(part.between[1])!];
  if (from >= 0) drive[from] = drive[from]! - 1;
  if (to >= 0) drive[to] = drive[to]! + 1;
  return { drive, into, plus, minus, source: { kind: "current", plus: to, minus: from } };
}

/** Unknowns of an output's two ends, −1 for ground. @throws BadInput at `output` */
export function outputNodes(circuit: Circuit, output: Output, at = ""): readonly [plus: number, minus: number] {
  const node = (name: string, where: string): number => {
    const unknown = circuit.unknownOf(name);
    if (unknown !== undefined) return unknown;
    throw new BadInput(
      `output${at}${where}`,
      quote(name),
      `a node of the net list (${[circuit.netlist.ground, ...circuit.nodeNames].slice(0, 30).join(", ")})`,
      "correct the node's name",
    );
  };
  return typeof output === "string" ? [node(output, ""), -1] : [node(output[0], "[0]"), node(output[1], "[1]")];
}

function sweep(
  signal: SmallSignalCircuit,
  ports: Ports,
  frequencies_Hz: readonly number[],
  notes: string[],
): Response | Unsettled {
  const answer = answerVector(signal);
  const points: { gain_dB: number; phase_deg: number; input_ohm: number; output_ohm: number }[] = [];
  for (const frequency_Hz of frequencies_Hz) {
    const singular = factorAt(signal, frequency_Hz);
    if (singular >= 0) {
      const node = nameOfUnknown(signal.circuit, singular);
      return {
        state: "undecided",
        node,
        reason: `at ${frequency_Hz} Hz nothing in the net list determines ${node}`,
        notes: [],
      };
    }
    if (points.length === 0) checkLength(signal, frequencies_Hz.length);
    answerTo(signal, ports.drive, answer);
    const [source, current] = sourceOf(ports, answer);
    const out = difference(answer, ports.plus, ports.minus);
    const gain = divide(out, source);
    const input_ohm = magnitude(source) / magnitude(current);
    answerTo(signal, ports.into, answer);
    points.push({
      ...inDecibels(gain),
      input_ohm,
      output_ohm: magnitude(difference(answer, ports.plus, ports.minus)),
    });
  }
  if (points.some(({ gain_dB }) => gain_dB <= silence_dB))
    notes.push(`gains of ${silence_dB} dB mean that nothing arrives`);
  if (points.some(({ input_ohm }) => !(input_ohm < open_ohm))) {
    notes.push(`an input impedance of ${open_ohm} ohm means that the source delivers no current`);
  }
  return {
    state: "solved",
    frequencies_Hz,
    gain_dB: points.map(({ gain_dB }) => gain_dB),
    phase_deg: points.map(({ phase_deg }) => phase_deg),
    inputImpedance_ohm: points.map(({ input_ohm }) => Math.min(input_ohm, open_ohm)),
    outputImpedance_ohm: points.map(({ output_ohm }) => output_ohm),
    notes,
  };
}

/** About four seconds on a slow machine, counted in complex multiplications. */
const mostMultiplications = 4e8;

function checkLength({ circuit, solver }: SmallSignalCircuit, frequencies: number): void {
  const each = 3 * sparseWork(solver) + circuit.size ** 2 / 10;
  const most = Math.max(1, Math.floor(mostMultiplications / each));
  if (frequencies <= most) return;
  throw new BadInput(
    "frequencies_Hz",
    `${frequencies} frequencies for a circuit of ${circuit.size} unknowns`,
    `at most ${most} for a circuit of this size, so that an answer comes in time`,
    "ask for fewer frequencies at a time",
  );
}

type Complex = readonly [re: number, im: number];

/** Voltage of the driven source and the current it delivers. */
function sourceOf({ source }: Ports, answer: ComplexVector): readonly [Complex, Complex] {
  if (source.kind === "current") return [difference(answer, source.plus, source.minus), [1, 0]];
  return [
    [1, 0],
    [answer.re[source.branch]!, answer.im[source.branch]!],
  ];
}

export function difference({ re, im }: ComplexVector, plus: number, minus: number): Complex {
  return [
    (plus >= 0 ? re[plus]! : 0) - (minus >= 0 ? re[minus]! : 0),
    (plus >= 0 ? im[plus]! : 0) - (minus >= 0 ? im[minus]! : 0),
  ];
}

function divide([a, b]: Complex, [c, d]: Complex): Complex {
  const size2 = c * c + d * d;
  return size2 === 0 ? [0, 0] : [(a * c + b * d) / size2, (b * c - a * d) / size2];
}

function magnitude([re, im]: Complex): number {
  return Math.hypot(re, im);
}

export function inDecibels(gain: Complex): { gain_dB: number; phase_deg: number } {
  const gain_dB = Math.max(silence_dB, 20 * Math.log10(magnitude(gain)));
  if (gain_dB === silence_dB) return { gain_dB, phase_deg: 0 };
  const phase_deg = (Math.atan2(gain[1], gain[0]) * 180) / Math.PI;
  return { gain_dB, phase_deg: phase_deg <= -180 ? 180 : phase_deg + 0 };
}
