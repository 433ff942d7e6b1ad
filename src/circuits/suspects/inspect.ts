import { factorSparseReal, solveSparseRealTransposed } from "../../maths/linear/sparseReal.ts";
import type { Circuit } from "../circuit.ts";
import { type DeadSources, deadNetwork } from "../resistance/deadNetwork.ts";
import { deadMeter } from "../resistance/resistance.ts";
import type { Edit } from "./edit.ts";
import { gainSlopes } from "./gainSlopes.ts";
import { type LoadedRest, loadedRest } from "./loadedRest.ts";
import { gainsAmong, type Probe, placesOf, plainOhm, shownGain } from "./probes.ts";
import { editedParts, type Pattern, type Specimen, specimen } from "./specimen.ts";
import { slopesInto, steadyPulls } from "./steadyPulls.ts";
import type { ValueAt } from "./tolerances.ts";

/** How the bench reads: what its meter takes from a point, and what the sources are once the unit is off. */
export interface Bench {
  readonly meter_ohm?: number | undefined;
  readonly dead: DeadSources;
  /** The meter's load is always reckoned as straight, and the grain widened by what that may be off: for a first look. */
  readonly straightLoad?: boolean;
}

/** What probes would read on one specimen, and how that leans on its values. */
export interface Seen {
  readonly values: Float64Array;
  /** Row by probe, column by value: per unit of relative change; the last column is the fault's own severity. */
  readonly slopes: Float64Array;
  readonly columns: number;
  /** What the model itself may be off by, one a probe. */
  readonly grain: Float64Array;
  /** By what share the meter lowers each voltage. */
  readonly loads: Float64Array;
  /** Unknowns at rest, to start a like specimen from. */
  readonly x: Float64Array;
}

/** The model's own roughness of a voltage: a share of it, and a floor. */
const voltGrain = { share: 1e-3, floor_V: 2e-3 };
const ohmGrain = 2e-3;

/**
 * What each probe reads on a unit with this fault.
 *
 * @param off  relative deviations of the pattern's tolerated values
 * @returns nothing where the unit finds no rest
 */
export function inspect(
  pattern: Pattern,
  bench: Bench,
  edit: Edit,
  probes: readonly Probe[],
  off?: Float64Array,
  start?: Float64Array,
): Seen | undefined {
  const values: ValueAt[] = edit.severe === undefined ? [...pattern.values] : [...pattern.values, edit.severe];
  const columns = pattern.values.length + 1;
  const seen: Seen = {
    values: new Float64Array(probes.length),
    slopes: new Float64Array(probes.length * columns),
    columns,
    grain: new Float64Array(probes.length),
    loads: new Float64Array(probes.length),
    x: start ?? pattern.rest.x,
  };
  let x = seen.x;
  if (probes.some(({ kind }) => kind !== "ohms")) {
    const unit = specimen(pattern, edit, off, start);
    if (unit === undefined) return undefined;
    x = unit.rest.x;
    if (!inspectLive(unit, bench, probes, values, seen)) return undefined;
  }
  if (probes.some(({ kind }) => kind === "ohms")) inspectDead(pattern, bench, edit, probes, values, off, seen);
  // A slope is per relative change of the value as it stands; deviations are counted from the net list's.
  pattern.values.forEach((_, i) => {
    const stretch = 1 / (1 + (off?.[i] ?? 0));
    for (let p = 0; p < probes.length; p++) seen.slopes[p * columns + i]! *= stretch;
  });
  const free = new Set(edit.freed ?? []);
  pattern.values.forEach(({ part }, i) => {
    if (free.has(part)) for (let p = 0; p < probes.length; p++) seen.slopes[p * columns + i] = 0;
  });
  return { ...seen, x };
}

function inspectLive(
  { circuit, rest }: Specimen,
  bench: Bench,
  probes: readonly Probe[],
  values: readonly ValueAt[],
  seen: Seen,
): boolean {
  const { steady } = circuit.solvers;
  const { x } = rest;
  if (factorSparseReal(steady, rest.matrix) >= 0) return false;
  const pulls = steadyPulls(circuit, x, values);
  const carryBack = (lean: Float64Array, into: Float64Array): void => solveSparseRealTransposed(steady, lean, into);
  const reach = new Float64Array(circuit.size);
  const unit = new Float64Array(circuit.size);
  const heavy: number[] = [];
  const gains = placesOf(probes, "gain");
  const asked = gainsAmong(probes);
  const heard = asked.length === 0 ? [] : gainSlopes(circuit, x, carryBack, asked, values, pulls);
  gains.forEach((p, n) => {
    const { gain_dB, slopes } = heard[n] ?? {};
    const shown = shownGain(gain_dB, asked[n]!);
    seen.values[p] = shown.value;
    seen.grain[p] = shown.grain;
    const row = p * seen.columns;
    for (let i = 0; i < values.length; i++) seen.slopes[row + i] = shown.slope * (slopes?.[i] ?? 0);
  });
  probes.forEach((probe, p) => {
    if (probe.kind !== "volts") return;
    const row = seen.slopes.subarray(p * seen.columns);
    const at = circuit.unknownOf(probe.node) ?? -1;
    if (at < 0) {
      seen.grain[p] = voltGrain.floor_V;
      return;
    }
    unit[at] = 1;
    carryBack(unit, reach);
    unit[at] = 0;
    // The meter takes V/R_meter: by the point's own resistance the reading falls to V/(1 + R_point/R_meter).
    const load = bench.meter_ohm === undefined ? 0 : reach[at]! / bench.meter_ohm;
    const unloaded_V = x[at]!;
    seen.loads[p] = load;
    seen.values[p] = unloaded_V / (1 + load);
    slopesInto(pulls, reach, 1 / (1 + load), row);
    seen.grain[p] = voltGrain.floor_V + voltGrain.share * Math.abs(seen.values[p]!);
    if (Math.abs(load) <= lightLoad || Math.abs(unloaded_V) <= 1e-3) return;
    if (bench.straightLoad) seen.grain[p]! += bentLoadShare * Math.abs(unloaded_V - seen.values[p]!);
    else heavy.push(p);
  });
  const loaded = heavy.map((p) => {
    const found = loadedRest(circuit, x, unknownAt(circuit, probes[p]!), 1 / bench.meter_ohm!);
    if (found?.factorsLost) factorSparseReal(steady, rest.matrix);
    return found?.rest;
  });
  heavy.forEach((p, n) => {
    const found = loaded[n];
    if (found === undefined) seen.grain[p]! += bentLoadShare * Math.abs(seen.loads[p]! * seen.values[p]!);
    else inspectLoaded(circuit, found, unknownAt(circuit, probes[p]!), p, values, seen);
  });
  return true;
}

function unknownAt(circuit: Circuit, probe: Probe): number {
  return probe.kind === "volts" ? circuit.unknownOf(probe.node)! : -1;
}

/** Up to this share the meter's load is reckoned as straight; beyond it the circuit is solved with the meter in it. */
const lightLoad = 0.004;

/** Whether the meter takes so much from some point that a look by its straight load may be off. */
export function isLoaded({ loads }: Seen): boolean {
  return loads.some((load) => Math.abs(load) > lightLoad);
}

/** What a load reckoned as straight may be off by, as a share of what the meter takes away. */
const bentLoadShare = 0.1;

function inspectLoaded(
  circuit: Circuit,
  { x, matrix }: LoadedRest,
  at: number,
  p: number,
  values: readonly ValueAt[],
  seen: Seen,
): void {
  const { steady } = circuit.solvers;
  if (factorSparseReal(steady, matrix) >= 0) return;
  const unit = new Float64Array(circuit.size);
  const reach = new Float64Array(circuit.size);
  unit[at] = 1;
  solveSparseRealTransposed(steady, unit, reach);
  seen.values[p] = x[at]!;
  slopesInto(steadyPulls(circuit, x, values), reach, 1, seen.slopes.subarray(p * seen.columns));
  seen.grain[p] = voltGrain.floor_V + 2 * voltGrain.share * Math.abs(seen.values[p]!);
}

function inspectDead(
  { netlist, values: tolerated }: Pattern,
  bench: Bench,
  edit: Edit,
  probes: readonly Probe[],
  values: readonly ValueAt[],
  off: Float64Array | undefined,
  seen: Seen,
): void {
  const own = new Map<number, number>();
  tolerated.forEach(({ part, of }, i) => {
    if (of === "value" && off?.[i]) own.set(part, 1 + off[i]!);
  });
  const silent = new Set(edit.silent);
  const parts = editedParts(netlist.parts, edit).map((part, i) => {
    const factor = own.get(i);
    if (factor === undefined) return part;
    if (part.kind === "resistor") return { ...part, ohm: part.ohm * factor };
    return part.kind === "inductor" ? { ...part, resistance_ohm: (part.resistance_ohm ?? 0) * factor } : part;
  });
  const whole = deadNetwork({ parts, ground: netlist.ground }, bench.dead);
  const network = {
    ...whole,
    ways: whole.ways.filter(({ part }) => !silent.has(part)),
    junctions: whole.junctions.filter(({ part }) => !silent.has(part)),
  };
  const meter = deadMeter(network);
  const column = new Map(values.map(({ part, of }, i) => [of === "value" ? part : -1, i]));
  // The severity's column wins over the part's own tolerance.
  probes.forEach((probe, p) => {
    if (probe.kind !== "ohms") return;
    const [a, b] = probe.between.map((node) => network.nodeOf(node)!) as [number, number];
    const read = meter(a, b);
    const plain = plainOhm(read.ohm, probe.doubt_ohm);
    seen.values[p] = plain.value;
    seen.grain[p] = ohmGrain + (read.ohm > 5e7 ? 2 : 0);
    if (read.junctions.length > 0) {
      const through = plainOhm(read.forward_ohm, probe.doubt_ohm).value;
      // What a junction reads is the meter's own affair: anything from the way beside it to well forward.
      seen.values[p] = (plain.value + through) / 2;
      seen.grain[p] = seen.grain[p]! + Math.abs(plain.value - through) / 2;
    }
    network.ways.forEach((way, w) => {
      const i = column.get(way.part);
      if (i !== undefined) seen.slopes[p * seen.columns + i]! += plain.slope * read.shares[w]!;
    });
  });
}
