import { deviceCurrents, mostElectrodes } from "../device.ts";
import { newtonEnd, steepness, type UnitLanes } from "./unitLanes.ts";

/** Solves the unit of one lane; with `keep`, its factors are left in the elimination's slots, as a meter needs them. */
export type SolveLane = (lane: number, keep: boolean) => void;

/** Longer programs than this the engine no longer makes fast code of; those circuits are solved in lanes. */
const mostInstructions = 1500;

/**
 * The solution of one unit, written out for this one circuit: assembly, elimination and Newton's steps as straight
 * lines of arithmetic on local numbers, no index looked up. The lines are made from counts and values alone, never
 * from names. Does what `solveLanes` does lane by lane, several times as fast.
 *
 * @returns undefined where the circuit is too large for it to pay
 */
export function compiledUnit(units: UnitLanes): SolveLane | undefined {
  const { elimination, plan } = units;
  const instructions = (elimination.still.length + elimination.moving.length) / 4 + plan.slots;
  if (instructions > mostInstructions) return undefined;
  const body = [
    ...units.devices.flatMap((_, d) => [`const C${d} = D[${d}].curves, V${d} = D[${d}].volts, E${d} = D[${d}].u;`]),
    ...units.devices.flatMap((_, d) => [`const I${d} = D[${d}].amps, G${d} = D[${d}].slope;`]),
    "const IA = now.current_A, SL = now.slope;",
    "return function solveLane(l, keep) {",
    ...assembly(units),
    ...program(elimination.still, stillNames),
    ...prediction(units),
    ...newton(units),
    ...storing(units),
    "};",
  ].join("\n");
  const parameters = ["F", "A", "S", "done", "D", "U", "now", "end"];
  const make = new Function(...parameters, body) as (...given: readonly unknown[]) => SolveLane;
  return make(
    units.factors,
    elimination.answers,
    elimination.slots,
    units.done,
    units.devices,
    new Float64Array(mostElectrodes),
    deviceCurrents(),
    newtonEnd,
  );
}

/** What stands for a slot, and for a right-hand side, in one of the two programs. */
interface Names {
  slot(slot: number): string;
  side(pivot: number): string;
}

const stillNames: Names = { slot: (slot) => `s${slot}`, side: (pivot) => `y${pivot}` };

function movingNames({ elimination }: UnitLanes): Names {
  const slots = new Set(elimination.movingSlots);
  const sides = new Set(elimination.movingSides);
  return {
    slot: (slot) => (slots.has(slot) ? `m${slot}` : `s${slot}`),
    side: (pivot) => (sides.has(pivot) ? `z${pivot}` : `y${pivot}`),
  };
}

/** Slots and right-hand sides from the drawn factors. */
function assembly({ varied, lanes, assembly: parts, fixed, plan, pivotOfRow }: UnitLanes): string[] {
  const lines = varied.factors.map((_, f) => `const f${f} = F[${f * lanes} + l];`);
  const slots = new Map([...plan.slotOf].map((slot, e) => [slot, term(fixed.matrix[e]!)]));
  const sides = new Map([...pivotOfRow].map((pivot, i) => [pivot, term(fixed.drive[i]!)]));
  parts.forEach(({ factors, rising, falling, drive }, p) => {
    lines.push(`const p${p} = ${factors.map((f) => `f${f}`).join(" * ")};`);
    if (falling.length > 0) lines.push(`const q${p} = 1 / p${p};`);
    const add = (to: Map<number, string>, at: number, value: number, by: string): void => {
      to.set(at, `${to.get(at)} + ${term(value)} * ${by}`);
    };
    for (const { entry, value } of rising) add(slots, plan.slotOf[entry]!, value, `p${p}`);
    for (const { entry, value } of falling) add(slots, plan.slotOf[entry]!, value, `q${p}`);
    for (const { entry, value } of drive) add(sides, pivotOfRow[entry]!, value, `p${p}`);
  });
  for (let slot = 0; slot < plan.slots; slot++) lines.push(`let s${slot} = ${slots.get(slot) ?? "0"};`);
  for (let k = 0; k < plan.size; k++) lines.push(`let y${k} = ${sides.get(k)};`);
  return lines;
}

const term = (value: number): string => `(${value})`;

function program(instructions: Int32Array, { slot, side }: Names): string[] {
  const lines: string[] = [];
  for (let at = 0; at < instructions.length; at += 4) {
    const [code, to, p, q] = instructions.subarray(at, at + 4) as unknown as [number, number, number, number];
    if (code === 0) lines.push(`${slot(to)} = 1 / ${slot(to)};`);
    else if (code === 1) lines.push(`${slot(to)} *= ${slot(p)};`);
    else if (code === 2) lines.push(`${slot(to)} -= ${slot(p)} * ${slot(q)};`);
    else lines.push(`${side(to)} -= ${slot(p)} * ${side(q)};`);
  }
  return lines;
}

/** Tangents of the devices at the nominal rest, moved by their factors: `g` slopes, `j` what is left of the currents. */
function prediction({ devices, nominal }: UnitLanes): string[] {
  return devices.flatMap((device, d) => {
    const { u, amps, slope } = nominal[d]!;
    const lines = [`const c${d} = ${device.current < 0 ? 1 : `f${device.current}`};`];
    lines.push(`const r${d} = ${device.mu < 0 ? 1 : `1 / f${device.mu}`};`);
    for (const k of voltages(device)) lines.push(`let v${d}_${k} = ${u[k]}, e${d}_${k} = ${u[k]};`);
    for (const [k, j] of device.slopes) {
      lines.push(`let g${d}_${k}${j} = ${term(slope[3 * k + j]!)}${scale(device, d, k)}${reach(d, j)};`);
    }
    for (const k of device.carriers) {
      const rest = voltages(device).reduce((sum, j) => sum - slope[3 * k + j]! * u[j]!, amps[k]!);
      lines.push(`let j${d}_${k} = ${term(rest)}${scale(device, d, k)};`);
    }
    return lines;
  });
}

type LaneDevice = UnitLanes["devices"][number];

const voltages = ({ device }: LaneDevice): number[] => device.nodes.slice(0, -1).map((_, k) => k);
/** A factor on current leaves a valve's grid alone; one on mu, every electrode's voltage but the grid's. */
const scale = ({ part, current }: LaneDevice, d: number, k: number): string =>
  current < 0 || (k === 1 && (part.kind === "triode" || part.kind === "pentode")) ? "" : ` * c${d}`;
const reach = (d: number, j: number): string => (j === 1 ? "" : ` * r${d}`);

function newton(units: UnitLanes): string[] {
  const { elimination, devices, deviceSlots, pivotOfColumn, pivotOfRow, lanes } = units;
  const names = movingNames(units);
  const lines = ["let before = Infinity, solved = 0, step = 0;"];
  for (const slot of elimination.movingSlots) lines.push(`let m${slot} = 0;`);
  for (const k of elimination.movingSides) lines.push(`let z${k} = 0;`);
  for (let k = 0; k < elimination.plan.size; k++) lines.push(`let x${k} = 0;`);
  lines.push("for (;;) {");
  for (const slot of elimination.movingSlots) lines.push(`m${slot} = s${slot};`);
  for (const k of elimination.movingSides) lines.push(`z${k} = y${k};`);
  devices.forEach((device, d) => {
    for (const { slope, slot, sign } of deviceSlots[d]!) {
      lines.push(`m${slot} ${sign > 0 ? "+=" : "-="} g${d}_${Math.floor(slope / 3)}${slope % 3};`);
    }
    const { nodes } = device.device;
    const base = nodes[nodes.length - 1]!;
    for (const k of device.carriers) {
      if (nodes[k]! >= 0) lines.push(`z${pivotOfRow[nodes[k]!]} -= j${d}_${k};`);
      if (base >= 0) lines.push(`z${pivotOfRow[base]} += j${d}_${k};`);
    }
  });
  lines.push(...program(elimination.moving, names));
  for (const k of elimination.backward) lines.push(backward(units, k, names));
  lines.push("let moved = 0, w = 0, t = 0;");
  devices.forEach((device, d) => {
    const { nodes } = device.device;
    const volts = (node: number): string => (node < 0 ? "0" : `x${pivotOfColumn[node]}`);
    for (const k of voltages(device)) {
      lines.push(`w = ${volts(nodes[k]!)} - ${volts(nodes[nodes.length - 1]!)};`);
      lines.push(
        `t = ${steepness(device.part)} * Math.abs(w - v${d}_${k}) / (1 + Math.abs(w)); if (!(t <= moved)) moved = t; v${d}_${k} = w;`,
      );
    }
  });
  lines.push(
    "const ratio = moved / before;",
    "if (moved <= end.still || (step > 0 && moved <= end.nearness && 100 * moved * ratio * ratio <= end.still)) { solved = 1; break; }",
    "if (++step >= end.mostSteps || moved !== moved) break;",
    "before = moved;",
  );
  devices.forEach((device, d) => {
    for (const k of voltages(device)) lines.push(`U[${k}] = v${d}_${k}${reach(d, k)}; e${d}_${k} = v${d}_${k};`);
    lines.push(`C${d}[l](U, now);`);
    for (const [k, j] of device.slopes) {
      lines.push(`g${d}_${k}${j} = SL[${3 * k + j}]${scale(device, d, k)}${reach(d, j)};`);
    }
    for (const k of device.carriers) {
      const tangent = slopesOf(device, k).map((j) => ` - g${d}_${k}${j} * e${d}_${j}`);
      lines.push(`j${d}_${k} = IA[${k}]${scale(device, d, k)}${tangent.join("")};`);
    }
  });
  lines.push("}");
  for (let k = elimination.plan.size - 1; k >= 0; k--) {
    if (!elimination.backward.includes(k)) lines.push(backward(units, k, names));
  }
  for (let k = 0; k < elimination.plan.size; k++) lines.push(`A[${k * lanes} + l] = x${k};`);
  return lines;
}

const slopesOf = ({ slopes }: LaneDevice, k: number): number[] => slopes.flatMap(([row, j]) => (row === k ? [j] : []));

function backward({ plan }: UnitLanes, k: number, { slot, side }: Names): string {
  const known: string[] = [];
  for (let s = plan.upperStart[k]!; s < plan.upperStart[k + 1]!; s++) {
    known.push(` - ${slot(plan.upperSlot + s)} * x${plan.upperColumn[s]}`);
  }
  return `x${k} = (${side(k)}${known.join("")}) * ${slot(k)};`;
}

function storing(units: UnitLanes): string[] {
  const { devices, lanes, plan } = units;
  const { slot } = movingNames(units);
  const lines = ["done[l] = solved;"];
  devices.forEach((device, d) => {
    for (const k of voltages(device)) {
      lines.push(`V${d}[${k * lanes} + l] = v${d}_${k}; E${d}[${k * lanes} + l] = e${d}_${k};`);
    }
    for (const k of device.carriers) {
      const tangent = slopesOf(device, k).map((j) => ` + g${d}_${k}${j} * e${d}_${j}`);
      lines.push(`I${d}[${k * lanes} + l] = j${d}_${k}${tangent.join("")};`);
    }
  });
  lines.push("if (keep) {");
  devices.forEach((device, d) => {
    for (const [k, j] of device.slopes) lines.push(`G${d}[${(3 * k + j) * lanes} + l] = g${d}_${k}${j};`);
  });
  for (let s = 0; s < plan.slots; s++) lines.push(`S[${s * lanes} + l] = ${slot(s)};`);
  lines.push("}");
  return lines;
}
