import type { Circuit } from "../circuit.ts";
import type { Netlist } from "../netlist.ts";
import { factorSymmetric, solveSymmetric, spreadOf } from "./evidence.ts";
import { type Explanation, editOf } from "./explain.ts";
import { faultName } from "./fault.ts";
import { gainFloors } from "./gainFloor.ts";
import { type Bench, inspect } from "./inspect.ts";
import { gainInWords, ohmsInWords } from "./inWords.ts";
import { gainsAmong, type Probe, placesOf, type Reading, shownGain } from "./probes.ts";
import { eachGain } from "./signals.ts";
import { type Pattern, specimen } from "./specimen.ts";

/** One thing the unit may be, with its odds, for the question what a probe would tell. */
export interface Possibility {
  readonly explanation: Explanation;
  readonly odds: number;
}

export interface NextProbe {
  readonly kind: "resistance" | "dc" | "gain";
  /** Test point, or node where the net list names none. */
  readonly point: string;
  readonly between?: readonly [string, string];
  readonly input?: string;
  readonly frequency_Hz?: number;
  readonly why: string;
  readonly minutes: number;
  /** 1 the unit is off and discharged, 2 on, no more than 60 V at the point, 3 on and more than that. */
  readonly danger: number;
  readonly caution: string;
  /** What the reading is expected to tell between the possibilities left, bit. */
  readonly information_bits: number;
}

interface Candidate {
  readonly probe: Probe;
  readonly point: string;
  readonly minutes: number;
  readonly danger: number;
  readonly sd: number;
}

/** Least information worth a walk to the bench, bit. */
const least_bits = 0.01;
const low_V = 60;

/**
 * The reading that tells most between what the unit may be, per minute and per danger; the circuit dead wherever that
 * does half as well as the best.
 *
 *     information = H(outcome) − Σ odds·H(outcome | possibility)
 *
 * Outcomes are normal about what each possibility shows; entropies by three-point quadrature over each.
 *
 * @source Lindley, Ann. Math. Stat. 27, 1956 (information of an experiment; remembered)
 */
export function chooseProbe(
  pattern: Pattern,
  bench: Bench,
  readings: readonly Reading[],
  possibilities: readonly Possibility[],
): NextProbe | undefined {
  const candidates = candidatesOf(pattern, readings);
  if (candidates.length === 0 || possibilities.length < 2) return undefined;
  const outcomes = possibilities.flatMap(({ explanation, odds }) => {
    const shown = shownBy(pattern, bench, explanation, candidates);
    return shown === undefined ? [] : [{ explanation, odds, shown }];
  });
  const total = outcomes.reduce((sum, { odds }) => sum + odds, 0);
  const spreads = conditionalSpreads(pattern, bench, readings, possibilities, candidates);
  let best: { candidate: number; bits: number; worth: number } | undefined;
  let bestDead: typeof best;
  candidates.forEach((candidate, c) => {
    const bits = information(
      outcomes.map(({ odds, shown }) => ({
        odds: odds / total,
        at: shown.values[c]!,
        sd: Math.hypot(spreads[c]!, shown.grain[c]!),
      })),
    );
    if (!(bits >= least_bits)) return;
    const one = { candidate: c, bits, worth: bits / (candidate.minutes * candidate.danger) };
    if (best === undefined || one.worth > best.worth) best = one;
    if (candidate.danger === 1 && (bestDead === undefined || one.worth > bestDead.worth)) bestDead = one;
  });
  if (best === undefined) return undefined;
  const chosen = bestDead !== undefined && bestDead.worth >= best.worth / 2 ? bestDead : best;
  const candidate = candidates[chosen.candidate]!;
  return inWords(
    pattern,
    candidate,
    chosen.bits,
    outcomes.map(({ explanation, odds, shown }) => ({
      name: explanation.fault === undefined ? "good" : faultName(explanation.fault),
      odds: odds / total,
      at: shown.values[chosen.candidate]!,
    })),
    Math.hypot(spreads[chosen.candidate]!, 1e-9),
  );
}

/** Direct volts at every point not taken yet, gains from each signal source, the dead circuit from point to ground and HT. */
function candidatesOf(pattern: Pattern, readings: readonly Reading[]): Candidate[] {
  const { netlist, circuit, rest } = pattern;
  const taken = new Set(readings.map(({ probe }) => keyOf(probe)));
  const points = pointsOf(netlist, circuit);
  const volts = (node: string): number => {
    const at = circuit.unknownOf(node) ?? -1;
    return at < 0 ? 0 : rest.x[at]!;
  };
  const high = points.reduce<(typeof points)[number] | undefined>(
    (top, point) => (top === undefined || volts(point.node) > volts(top.node) ? point : top),
    undefined,
  );
  const found: Candidate[] = [];
  for (const { point, node } of points) {
    const live_V = Math.abs(volts(node));
    const danger = live_V > low_V ? 3 : 2;
    found.push({
      probe: { kind: "volts", node },
      point,
      minutes: 1,
      danger,
      sd: 0.01 + 0.0025 * live_V,
    });
    for (const input of signalSources(netlist)) {
      found.push({
        probe: { kind: "gain", node, input, frequency_Hz: 1000, floor: 0 },
        point,
        minutes: 3,
        danger,
        sd: 0.1,
      });
    }
    const far = [netlist.ground, ...(high === undefined || high.node === node ? [] : [high.node])];
    for (const other of far) {
      if (other === node) continue;
      found.push({
        probe: { kind: "ohms", between: [node, other], doubt_ohm: 0.2 },
        point,
        minutes: 2,
        danger: 1,
        sd: 0.005,
      });
    }
  }
  const open = found.filter(({ probe }) => !taken.has(keyOf(probe)));
  const floors = gainFloors(pattern, gainsAmong(open.map(({ probe }) => probe)));
  let gains = 0;
  return open.map((one) =>
    one.probe.kind === "gain" ? { ...one, probe: { ...one.probe, floor: floors[gains++]! } } : one,
  );
}

function keyOf(probe: Probe): string {
  switch (probe.kind) {
    case "volts":
      return `volts ${probe.node}`;
    case "gain":
      return `gain ${probe.node} ${probe.input}`;
    case "ohms":
      return `ohms ${[...probe.between].sort().join(" ")}`;
  }
}

const mostPoints = 60;

function pointsOf(netlist: Netlist, circuit: Circuit): { point: string; node: string }[] {
  const drawn = (netlist.testPoints ?? []).map((own) =>
    typeof own === "string" ? { point: own, node: own } : { point: own.name, node: own.node },
  );
  const all = drawn.length > 0 ? drawn : circuit.nodeNames.map((node) => ({ point: node, node }));
  return all.filter(({ node }) => node !== netlist.ground).slice(0, mostPoints);
}

/** Sources that carry a signal: those with an alternating part, else those without a direct one. */
function signalSources(netlist: Netlist): string[] {
  const sources = netlist.parts.filter((part) => part.kind === "voltage" || part.kind === "current");
  const marked = sources.filter((part) => (part.kind === "voltage" ? part.ac_V : part.ac_mA) !== 0);
  const quiet = sources.filter((part) => (part.kind === "voltage" ? part.dc_V : part.dc_mA) === 0);
  return (marked.length > 0 ? marked : quiet).slice(0, 4).map(({ id }) => id);
}

interface Shown {
  readonly values: Float64Array;
  readonly grain: Float64Array;
}

function shownBy(
  pattern: Pattern,
  bench: Bench,
  explanation: Explanation,
  candidates: readonly Candidate[],
): Shown | undefined {
  const edit = editOf(explanation.fault, explanation.severity);
  const probes = candidates.map(({ probe }) => probe);
  const still = candidates.map(({ probe }, c) => ({ probe, c })).filter(({ probe }) => probe.kind !== "gain");
  const seen = inspect(
    pattern,
    bench,
    edit,
    still.map(({ probe }) => probe),
    explanation.off,
    explanation.seen.x,
  );
  if (seen === undefined) return undefined;
  const shown: Shown = { values: new Float64Array(candidates.length), grain: new Float64Array(candidates.length) };
  still.forEach(({ c }, i) => {
    shown.values[c] = seen.values[i]!;
    shown.grain[c] = seen.grain[i]!;
  });
  if (still.length < candidates.length) {
    const unit = specimen(pattern, edit, explanation.off, seen.x);
    if (unit === undefined) return undefined;
    const places = placesOf(probes, "gain");
    const asked = gainsAmong(probes);
    eachGain(unit.circuit, unit.rest.x, asked, (index, heard) => {
      const { value, grain } = shownGain(heard?.gain_dB, asked[index]!);
      shown.values[places[index]!] = value;
      shown.grain[places[index]!] = grain;
    });
  }
  return shown;
}

/** How far each reading still spreads among good parts once the readings given are known, the meter's doubt included. */
function conditionalSpreads(
  pattern: Pattern,
  bench: Bench,
  readings: readonly Reading[],
  possibilities: readonly Possibility[],
  candidates: readonly Candidate[],
): Float64Array {
  const { explanation } = possibilities[0]!;
  const probes = [...readings, ...candidates].map(({ probe }) => probe);
  const edit = editOf(explanation.fault, explanation.severity);
  const seen = inspect(pattern, bench, edit, probes, explanation.off, explanation.seen.x);
  if (seen === undefined) return Float64Array.from(candidates, ({ sd }) => sd);
  const cover = spreadOf(seen, explanation.variances, [...readings, ...candidates]);
  const m = readings.length;
  const n = probes.length;
  const known = new Float64Array(m * m);
  for (let i = 0; i < m; i++) for (let k = 0; k < m; k++) known[i * m + k] = cover[i * n + k]!;
  factorSymmetric(known, m);
  return Float64Array.from(candidates, ({ sd }, c) => {
    const at = m + c;
    const row = new Float64Array(m);
    for (let i = 0; i < m; i++) row[i] = cover[at * n + i]!;
    const weighted = solveSymmetric(known, m, row);
    let left = cover[at * n + at]!;
    for (let i = 0; i < m; i++) left -= row[i]! * weighted[i]!;
    return Math.sqrt(Math.max(left, sd * sd));
  });
}

/** Gauss-Hermite, three points for a standard normal (Abramowitz and Stegun, table 25.10; remembered). */
const nodes = [-Math.sqrt(3), 0, Math.sqrt(3)] as const;
const weights = [1 / 6, 2 / 3, 1 / 6] as const;

interface Outcome {
  readonly odds: number;
  readonly at: number;
  readonly sd: number;
}

/** Mutual information between which possibility holds and what is read, bit. */
export function information(outcomes: readonly Outcome[]): number {
  const kept = outcomes.filter(({ odds }) => odds > 1e-6);
  let nats = 0;
  for (const { odds, at, sd } of kept) {
    for (let q = 0; q < nodes.length; q++) {
      const read = at + sd * nodes[q]!;
      let density = 0;
      for (const other of kept) {
        const z = (read - other.at) / other.sd;
        if (z * z < 60) density += (other.odds * Math.exp(-0.5 * z * z)) / other.sd;
      }
      const own = Math.exp(-0.5 * nodes[q]! ** 2) / sd;
      nats += odds * weights[q]! * Math.log(own / density);
    }
  }
  return Math.max(0, nats / Math.LN2);
}

function inWords(
  { netlist, circuit }: Pattern,
  { probe, point, minutes, danger }: Candidate,
  bits: number,
  outcomes: readonly { readonly name: string; readonly odds: number; readonly at: number }[],
  sd: number,
): NextProbe {
  const [first, ...others] = [...outcomes].sort((a, b) => b.odds - a.odds);
  const second = others.find(({ at }) => Math.abs(at - first!.at) > 4 * sd) ?? others[0]!;
  const value = (at: number): string => {
    if (probe.kind === "volts") return `about ${Number(at.toPrecision(3))} V`;
    if (probe.kind === "gain") return gainInWords(at, probe);
    return at > 18 ? "open" : `about ${ohmsInWords(Math.max(0, Math.exp(at) - 0.2))}`;
  };
  const why = `${value(first!.at)} if ${said(first!.name)}, ${value(second.at)} if ${said(second.name)}`;
  const shared = { point, why, minutes, danger, information_bits: Number(bits.toPrecision(3)) };
  switch (probe.kind) {
    case "ohms": {
      const other =
        probe.between[1] === netlist.ground ? netlist.ground : pointNameOf(netlist, circuit, probe.between[1]);
      return {
        kind: "resistance",
        ...shared,
        between: [point, other],
        caution: "Unplug the unit and discharge its capacitors; measure that they are empty before touching anything.",
      };
    }
    case "volts":
      return { kind: "dc", ...shared, caution: danger === 3 ? deadly : careful };
    case "gain":
      return {
        kind: "gain",
        ...shared,
        input: probe.input,
        frequency_Hz: probe.frequency_Hz,
        caution: danger === 3 ? `${deadly} Block the direct voltage with a capacitor rated for it.` : careful,
      };
  }
}

const deadly =
  "Voltages here can kill: clip the meter on with the unit off and discharged, one hand away, then switch on.";
const careful = "The unit is on and dangerous voltages are near this point: one hand, an insulated probe.";

function said(name: string): string {
  return name === "good" ? "all is good" : name;
}

function pointNameOf(netlist: Netlist, circuit: Circuit, node: string): string {
  return pointsOf(netlist, circuit).find((own) => own.node === node)?.point ?? node;
}
