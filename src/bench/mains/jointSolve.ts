import { complexSystem, complexVector, factorComplex, solveComplex } from "../../maths/linear/complexLu.ts";
import type { Bench, Comb } from "./comb.ts";
import { phaseAlong } from "./phaseTrack.ts";

/** A line of one comb, by place. */
interface Line {
  readonly comb: number;
  readonly index: number;
  readonly frequency_Hz: number;
}

/** Lines closer than this many 1/T are solved together. */
export const together = 6;

/**
 * Lines of all combs, those that stand within a few 1/T of each other gathered into groups, each with the inverse of
 * its matrix of inner products.
 */
export interface Group {
  readonly lines: readonly Line[];
  /** Inverse, real and imaginary parts row by row. */
  readonly inverseRe: Float64Array;
  readonly inverseIm: Float64Array;
}

export function groupLines(bench: Bench, combs: readonly Comb[]): Group[] {
  const lines = combs
    .flatMap((comb, c) =>
      comb.orders.map((order, index) => ({ comb: c, index, frequency_Hz: order * comb.track.carrier_Hz })),
    )
    .sort((a, b) => a.frequency_Hz - b.frequency_Hz);
  const groups: Line[][] = [];
  for (const line of lines) {
    const last = groups.at(-1)?.at(-1);
    if (last && line.frequency_Hz - last.frequency_Hz < together / bench.duration_s) groups.at(-1)!.push(line);
    else groups.push([line]);
  }
  return groups.map((group) => invert(bench, combs, group));
}

/**
 * The change of every phasor that the sums of what is left ask for: least squares within each group; groups answer to
 * each other when the fit is repeated on what is then left.
 *
 * @param asked  totals of the block sums, per comb and signal
 */
export function solveGroups(bench: Bench, groups: readonly Group[], combs: readonly Comb[], asked: Float64Array[][]) {
  const change = combs.map((comb) => bench.signals.map(() => new Float64Array(2 * comb.orders.length)));
  for (const { lines, inverseRe, inverseIm } of groups) {
    const n = lines.length;
    for (let s = 0; s < bench.signals.length; s++) {
      for (let i = 0; i < n; i++) {
        let re = 0;
        let im = 0;
        for (let j = 0; j < n; j++) {
          const { comb, index } = lines[j]!;
          const bRe = asked[comb]![s]![2 * index]!;
          const bIm = asked[comb]![s]![2 * index + 1]!;
          re += inverseRe[i * n + j]! * bRe - inverseIm[i * n + j]! * bIm;
          im += inverseRe[i * n + j]! * bIm + inverseIm[i * n + j]! * bRe;
        }
        const { comb, index } = lines[i]!;
        change[comb]![s]![2 * index] = re;
        change[comb]![s]![2 * index + 1] = im;
      }
    }
  }
  return change;
}

/** By how much each line's variance grows because of its neighbours: 1 when it stands alone. */
export function crowding(bench: Bench, groups: readonly Group[], combs: readonly Comb[]): Float64Array[] {
  const grown = combs.map((comb) => new Float64Array(comb.orders.length));
  for (const { lines, inverseRe } of groups) {
    lines.forEach(({ comb, index }, i) => {
      grown[comb]![index] = Math.max(1, inverseRe[i * lines.length + i]! * bench.weightSum);
    });
  }
  return grown;
}

/** Lines so close that nothing tells them apart share this much of a free choice, and their variance says so. */
const ridge = 1e-6;

function invert(bench: Bench, combs: readonly Comb[], lines: readonly Line[]): Group {
  const n = lines.length;
  const system = complexSystem(n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      const [re, im] =
        i === j ? [bench.weightSum * (1 + (n > 1 ? ridge : 0)), 0] : inner(bench, combs, lines[i]!, lines[j]!);
      system.re[i * n + j] = re;
      system.im[i * n + j] = im;
    }
  }
  const inverseRe = new Float64Array(n * n);
  const inverseIm = new Float64Array(n * n);
  factorComplex(system);
  for (let j = 0; j < n; j++) {
    const unit = complexVector(n);
    const column = complexVector(n);
    unit.re[j] = 1;
    solveComplex(system, unit, column);
    for (let i = 0; i < n; i++) {
      inverseRe[i * n + j] = column.re[i]!;
      inverseIm[i * n + j] = column.im[i]!;
    }
  }
  return { lines, inverseRe, inverseIm };
}

/** Σ w·e^{j(ψⱼ − ψᵢ)}; the difference turns slowly, so a sample here and there is enough. */
function inner(bench: Bench, combs: readonly Comb[], a: Line, b: Line): [number, number] {
  const length = bench.weight.length;
  const stride = Math.max(1, Math.floor(length / 4096));
  const first = Math.floor(stride / 2);
  const count = Math.ceil((length - first) / stride);
  const along = ({ comb }: Line) =>
    phaseAlong(combs[comb]!.track, first / bench.rate_Hz, stride / bench.rate_Hz, count);
  const of = ({ comb, index }: Line) => combs[comb]!.orders[index]!;
  const deviationA = along(a);
  const deviationB = along(b);
  const perSample = (2 * Math.PI * (b.frequency_Hz - a.frequency_Hz)) / bench.rate_Hz;
  let re = 0;
  let im = 0;
  let weights = 0;
  for (let i = 0; i < count; i++) {
    const n = first + i * stride;
    const turn = perSample * n + of(b) * deviationB[i]! - of(a) * deviationA[i]!;
    const w = bench.weight[n]!;
    re += w * Math.cos(turn);
    im += w * Math.sin(turn);
    weights += w;
  }
  const scale = bench.weightSum / weights;
  return [re * scale, im * scale];
}
