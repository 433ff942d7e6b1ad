import type { ComplexVector } from "../../maths/linear/complexLu.ts";
import { type SparseComplexSolver, sparseComplexSolver } from "../../maths/linear/sparseComplex.ts";
import type { SparsePattern } from "../../maths/linear/sparsePlan.ts";
import type { Circuit } from "../circuit.ts";
import { difference, portsOf } from "../response.ts";
import { answerTo, answerVector, factorAt, type SmallSignalCircuit, smallSignal } from "../smallSignal.ts";
import type { GainProbe } from "./probes.ts";

/** One gain as it is heard, while the unit's equations at its frequency stand factored in `signal`. */
export interface Heard {
  readonly signal: SmallSignalCircuit;
  readonly omega: number;
  /** The unknowns' answer to the source. */
  readonly answer: ComplexVector;
  /** Unknown of the point, −1 for ground. */
  readonly point: number;
  /** Of a current source, the unknowns it delivers into and takes from; a voltage source sends one volt. */
  readonly sender: { readonly plus: number; readonly minus: number } | undefined;
  readonly out: Complex;
  readonly sent: Complex;
  readonly gain_dB: number;
}

export type Complex = readonly [re: number, im: number];

export const dBPerNeper = 20 / Math.LN10;
/** A gain of nothing at all, dB: no slope there means anything. */
export const nothing_dB = -300;

/**
 * Many gains of one unit: the equations are factored once a frequency and solved once a source, however many points
 * are read of them.
 *
 * @param x      the unknowns at rest
 * @param heard  called for every probe with its place in the list, frequency by frequency; with nothing where the
 *               frequency leaves an unknown undetermined
 * @throws BadInput at `input` for an input that is no source
 */
export function eachGain(
  circuit: Circuit,
  x: Float64Array,
  probes: readonly GainProbe[],
  heard: (index: number, gain: Heard | undefined) => void,
): void {
  const signal = smallSignal(circuit, x, solverFor(circuit.solvers.alternating));
  const done = new Uint8Array(probes.length);
  for (let first = 0; first < probes.length; first++) {
    if (done[first]) continue;
    const { frequency_Hz } = probes[first]!;
    const factored = factorAt(signal, frequency_Hz) < 0;
    for (let i = first; i < probes.length; i++) {
      if (done[i] || probes[i]!.frequency_Hz !== frequency_Hz) continue;
      const { input } = probes[i]!;
      const ports = factored ? portsOf(circuit, { input, output: probes[i]!.node }) : undefined;
      const answer = ports && answerTo(signal, ports.drive, answerVector(signal));
      for (let k = i; k < probes.length; k++) {
        const probe = probes[k]!;
        if (done[k] || probe.frequency_Hz !== frequency_Hz || probe.input !== input) continue;
        done[k] = 1;
        if (ports === undefined || answer === undefined) {
          heard(k, undefined);
          continue;
        }
        const point = circuit.unknownOf(probe.node) ?? -1;
        const sender = ports.source.kind === "current" ? ports.source : undefined;
        const out = difference(answer, point, -1);
        const sent: Complex = sender === undefined ? [1, 0] : difference(answer, sender.plus, sender.minus);
        const neper = Math.log(Math.hypot(...out)) - Math.log(Math.hypot(...sent));
        const gain_dB = Math.max(nothing_dB, dBPerNeper * neper);
        heard(k, { signal, omega: 2 * Math.PI * frequency_Hz, answer, point, sender, out, sent, gain_dB });
      }
    }
  }
}

/** Kept with its order of elimination, since finding that costs as much as a hundred units' factors. */
const solvers = new WeakMap<SparsePattern, SparseComplexSolver>();

function solverFor(pattern: SparsePattern): SparseComplexSolver {
  const kept = solvers.get(pattern) ?? sparseComplexSolver(pattern);
  solvers.set(pattern, kept);
  return kept;
}
