import { deviceCurrents, mostElectrodes } from "../../device.ts";
import { isValve } from "../../netlist.ts";
import type { LaneDevice } from "../laneDevices.ts";
import { newtonEnd, steepness, type UnitLanes } from "../unitLanes.ts";
import {
  absolute,
  add,
  allTrue,
  anyTrue,
  both,
  type Code,
  choose,
  div,
  either,
  GIVEN_FUNCTION,
  greater,
  isAtMost,
  isMore,
  Lines,
  load,
  loadBoth,
  moduleBytes,
  mul,
  number,
  store,
  sub,
  type Variable,
  whole,
} from "./code.ts";
import type { CurveWriter, WrittenCurve } from "./curveWriter.ts";
import { bipolarWriter, diodeWriter, threeHalvesWriter } from "./partCurves.ts";
import { valveWriter } from "./valveCurves.ts";

/** A circuit's solution, written out. */
export interface WrittenUnits {
  /** Solves all lanes' units; with `keep`, their factors are left in the elimination's slots, as `readLanes` needs them. */
  solve(keep: boolean): void;
  /**
   * What a meter of a conductance from one unknown to ground reads there, after `solve`: each unit solved again from its own
   * rest. Lanes that come to none read no number; `units` is left as it stands.
   *
   * @throws Error where `canRead` is false
   */
  read(unknown: number, siemens: number, into: Float64Array): void;
  /** A meter may be joined there. */
  canRead(unknown: number): boolean;
}

/** Longer programs than this take longer to make than they save; those circuits are solved by `solveLanes`. */
const mostInstructions = 4000;

/**
 * The solution of units written out for this one circuit: assembly, elimination, curves and Newton's steps as straight
 * lines of arithmetic on two units at a time, no index looked up. The lines are made from counts alone, never from names,
 * and all values stand in a memory beside them, so that circuits of one plan share one module. Does what `solveLanes` does,
 * many times as fast. Curves are written out as well (`valveCurves.ts`, `partCurves.ts`), with functions of their own that
 * give the same bytes on every machine; a curve that is not is asked lane by lane.
 *
 * @param metered  unknowns that a meter may be joined to; those without an entry of their own in the matrix are left out
 * @returns undefined where the circuit is too large, or the machine lacks the vector instructions
 */
export function writtenUnits(units: UnitLanes, metered: readonly number[] = []): WrittenUnits | undefined {
  const { elimination, plan, devices } = units;
  const count = (elimination.still.length + elimination.moving.length) / 4 + plan.slots;
  if (count > mostInstructions || units.lanes % 2 !== 0) return undefined;
  const writers = devices.map((device) => writerOf(units, device));
  const room = new Room(units.lanes);
  const places = placesOf(units, room, writers, metered);
  const home = homeOf(moduleBytes(new Programme(units, room, places, writers).lines), room.size);
  if (home === undefined) return undefined;
  const { view } = home;
  const rows = (at: number, length: number) => view.subarray(at / 8, at / 8 + length * units.lanes);
  const namedRows = (writer: CurveWriter, d: number) =>
    writer.names.map((name) => [name, rows(places.devices[d]!.numbers.get(name)!, 1)] as const);
  const factors = rows(places.factors, units.varied.factors.length);
  const answers = rows(places.answers, plan.size);
  const slots = rows(places.slots, plan.slots);
  const solved = rows(places.solved, 1);
  const ofDevices = devices.map((device, d) => {
    const at = places.devices[d]!;
    const pairs = (["volts", "u", "amps"] as const).map((of) => [device[of], rows(at[of], mostElectrodes)] as const);
    return { pairs, slope: [device.slope, rows(at.slope, mostElectrodes ** 2)] as const };
  });
  const fills = writers.flatMap((writer, d) => (writer ? [{ writer, rows: namedRows(writer, d) }] : []));
  const drawn = fills.filter(({ writer }) => writer.isDrawn);
  const curve = curveOf(units, places, view);
  const enter = () => {
    if (home.curve === curve) return;
    // Another circuit of the same plan may have been here.
    home.curve = curve;
    for (const [at, value] of room.constants) view[at / 8] = value;
    for (const { writer, rows } of fills) fill(writer, rows);
  };
  const meters = new Map(places.meters.map(({ unknown, at }) => [unknown, at / 8]));
  const warm = new Int32Array(view.buffer, places.warm, 4);
  return {
    solve(keep) {
      enter();
      for (const { writer, rows } of drawn) fill(writer, rows);
      factors.set(units.factors);
      home.run();
      elimination.answers.set(answers);
      for (let l = 0; l < units.lanes; l++) units.done[l] = solved[l] === 1 ? 1 : 0;
      for (const { pairs, slope } of ofDevices) {
        for (const [to, from] of pairs) to.set(from);
        if (keep) slope[0].set(slope[1]);
      }
      if (keep) elimination.slots.set(slots);
    },
    read(unknown, siemens, into) {
      const meter = meters.get(unknown);
      if (meter === undefined) throw new Error(`no meter can be joined to unknown ${unknown}`);
      enter();
      view[meter] = siemens;
      warm.fill(-1);
      home.run();
      warm.fill(0);
      view[meter] = 0;
      const from = units.pivotOfColumn[unknown]! * units.lanes;
      for (let l = 0; l < units.lanes; l++) {
        into[l] = solved[l] === 1 && units.done[l] === 1 ? answers[from + l]! : Number.NaN;
      }
    },
    canRead: (unknown) => meters.has(unknown),
  };
}

type AskCurve = (device: number, lane: number) => void;

/** Asks a curve that is not written out, from the memory's voltages into its currents and slopes. */
function curveOf({ devices, lanes }: UnitLanes, places: Places, view: Float64Array): AskCurve {
  const u = new Float64Array(mostElectrodes);
  const now = deviceCurrents();
  return (d, lane) => {
    const { volts, amps, slope } = places.devices[d]!;
    const at = (row: number, k: number) => row / 8 + k * lanes + lane;
    for (let k = 0; k < mostElectrodes; k++) u[k] = view[at(volts, k)]!;
    devices[d]!.curves[lane]!(u, now);
    for (let k = 0; k < mostElectrodes; k++) view[at(amps, k)] = now.current_A[k]!;
    for (let k = 0; k < mostElectrodes ** 2; k++) view[at(slope, k)] = now.slope[k]!;
  };
}

function writerOf(
  { varied, factors, lanes }: UnitLanes,
  { device, part, models }: LaneDevice,
): CurveWriter | undefined {
  const bottle = varied.bottles.find(({ parts }) => parts.includes(device.part));
  switch (part.kind) {
    case "diode":
      return diodeWriter(part.law!);
    case "rectifier":
      return threeHalvesWriter(part.law!);
    case "bipolar": {
      const f = varied.factors.findIndex(({ what, part: of }) => what === "value" && of === device.part);
      return bipolarWriter(part, f < 0 ? undefined : (lane) => factors[f * lanes + lane]!);
    }
    case "triode":
    case "pentode": {
      if (part.kind === "triode" && part.law && !part.model && !bottle) return threeHalvesWriter(part.law);
      const all = bottle ? bottle.batch.flat() : [models[0]!];
      return all.every((model) => model?.kind === part.kind) ? valveWriter(all, models) : undefined;
    }
    default:
      return undefined;
  }
}

function fill(writer: CurveWriter, rows: readonly (readonly [name: string, row: Float64Array])[]): void {
  for (let lane = 0; lane < rows[0]![1].length; lane++) {
    const numbers = writer.numbers(lane);
    for (const [name, row] of rows) row[lane] = numbers[name]!;
  }
}

/** A module at work, with its memory, for one circuit after another. */
interface Home {
  readonly view: Float64Array;
  readonly run: () => void;
  /** Of the circuit whose values stand in the memory. */
  curve: AskCurve | undefined;
}

/** Those made lately, by their bytes: the engine keeps its fastest code with them. */
const homes = new Map<string, Home>();
const mostHomes = 16;

function homeOf(bytes: Uint8Array<ArrayBuffer>, size: number): Home | undefined {
  const key = new TextDecoder("latin1").decode(bytes);
  const before = homes.get(key);
  if (before) return before;
  if (typeof WebAssembly === "undefined" || !WebAssembly.validate(bytes)) return undefined;
  const memory = new WebAssembly.Memory({ initial: Math.ceil(size / 65536) });
  const given = { memory, curve: (device: number, lane: number) => home.curve!(device, lane) };
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes), { unit: given });
  const home: Home = {
    view: new Float64Array(memory.buffer),
    run: exports.run as () => void,
    curve: undefined,
  };
  if (homes.size >= mostHomes) homes.delete(homes.keys().next().value!);
  homes.set(key, home);
  return home;
}

/** Places in the memory: rows of one number a lane, and constants. */
class Room {
  size = 0;
  readonly constants: [at: number, value: number][] = [];
  private readonly lanes: number;
  constructor(lanes: number) {
    this.lanes = lanes;
  }
  place(bytes: number): number {
    const at = this.size;
    this.size += bytes;
    return at;
  }
  rows(count: number): number {
    return this.place(count * this.lanes * 8);
  }
  constant(value: number): Code {
    const at = this.place(8);
    this.constants.push([at, value]);
    return loadBoth(whole(0), at);
  }
}

interface DevicePlaces {
  readonly volts: number;
  readonly u: number;
  readonly amps: number;
  readonly slope: number;
  readonly numbers: ReadonlyMap<string, number>;
}

interface Places {
  readonly factors: number;
  readonly answers: number;
  readonly slots: number;
  readonly solved: number;
  readonly devices: readonly DevicePlaces[];
  /** Mask: the units set out from their own rest, which stays in its place. */
  readonly warm: number;
  readonly meters: readonly { readonly unknown: number; readonly slot: number; readonly at: number }[];
}

function placesOf(
  units: UnitLanes,
  room: Room,
  writers: readonly (CurveWriter | undefined)[],
  metered: readonly number[],
): Places {
  const { circuit, plan } = units;
  return {
    warm: room.place(16),
    meters: [...new Set(metered)].flatMap((unknown) => {
      const entry = circuit.solvers.steady.pattern.places.indexOf(unknown * circuit.size + unknown);
      return unknown < 0 || entry < 0 ? [] : [{ unknown, slot: plan.slotOf[entry]!, at: room.place(8) }];
    }),
    factors: room.rows(units.varied.factors.length),
    answers: room.rows(units.plan.size),
    slots: room.rows(units.plan.slots),
    solved: room.rows(1),
    devices: writers.map((writer) => ({
      volts: room.rows(mostElectrodes),
      u: room.rows(mostElectrodes),
      amps: room.rows(mostElectrodes),
      slope: room.rows(mostElectrodes ** 2),
      numbers: new Map((writer?.names ?? []).map((name) => [name, room.rows(1)])),
    })),
  };
}

const [PAIR, STEP] = [0, 1];
const pair: Code = [0x20, PAIR];
const step: Code = [0x20, STEP];
const one = number(1);
const zero = number(0);
/** What a device is at a tangent: voltages held, slopes, and what is left of the currents. */
interface Tangent {
  readonly volts: readonly Variable[];
  /** Voltages of the tangent. */
  readonly at: readonly Variable[];
  readonly slopes: ReadonlyMap<number, Variable>;
  readonly rests: ReadonlyMap<number, Variable>;
  readonly scale: Code | undefined;
  readonly reach: Code | undefined;
}

class Programme {
  readonly lines = new Lines(0, 2);
  private readonly slots: Variable[] = [];
  private readonly sides: Variable[] = [];
  private readonly answers: Variable[] = [];
  private readonly units: UnitLanes;
  private readonly room: Room;
  private readonly places: Places;
  private readonly writers: readonly (CurveWriter | undefined)[];

  constructor(units: UnitLanes, room: Room, places: Places, writers: readonly (CurveWriter | undefined)[]) {
    this.units = units;
    this.room = room;
    this.places = places;
    this.writers = writers;
    const { lines } = this;
    lines.add([whole(0), 0x21, PAIR, 0x03, 0x40]);
    this.unitPair();
    lines.add([pair, whole(16), 0x6a, 0x22, PAIR, whole(units.lanes * 8), 0x49, 0x0d, 0, 0x0b]);
  }

  private row(at: number, index = 0): Code {
    return load(pair, at + index * this.units.lanes * 8);
  }
  private keepRow(at: number, index: number, value: Code): void {
    this.lines.add(store(pair, at + index * this.units.lanes * 8, value));
  }

  private unitPair(): void {
    const { units, lines, places } = this;
    const { elimination, plan } = units;
    const factors = units.varied.factors.map((_, f) => lines.keep(this.row(places.factors, f)));
    this.assembly(factors);
    this.eliminate(elimination.still, this.slots, this.sides);
    const tangents = units.devices.map((device, d) => this.prediction(device, d, factors));
    for (let k = 0; k < plan.size; k++) this.answers.push(lines.variable(zero));
    // What the devices touch is worked on in copies, so that the rest need not be eliminated again.
    const slots = [...this.slots];
    const sides = [...this.sides];
    for (const slot of elimination.movingSlots) slots[slot] = lines.variable(zero);
    for (const k of elimination.movingSides) sides[k] = lines.variable(zero);
    const solved = this.newton(tangents, slots, sides);
    for (let k = plan.size - 1; k >= 0; k--) {
      if (!elimination.backward.includes(k)) this.backward(k, slots, sides);
    }
    this.storing(tangents, slots, solved);
  }

  private assembly(factors: readonly Code[]): void {
    const { varied: _, assembly, fixed, plan, pivotOfRow } = this.units;
    const { lines, room } = this;
    for (let slot = 0; slot < plan.slots; slot++) this.slots.push(lines.variable(zero));
    for (let k = 0; k < plan.size; k++) this.sides.push(lines.variable(zero));
    plan.slotOf.forEach((slot, e) => {
      this.slots[slot]!.set(room.constant(fixed.matrix[e]!));
    });
    pivotOfRow.forEach((pivot, i) => {
      this.sides[pivot]!.set(room.constant(fixed.drive[i]!));
    });
    for (const { slot, at } of this.places.meters) {
      this.slots[slot]!.set(add(this.slots[slot]!.get, loadBoth(whole(0), at)));
    }
    for (const part of assembly) {
      const product = lines.keep(part.factors.map((f) => factors[f]!).reduce((a, b) => mul(a, b)));
      const addTo = (to: Variable, value: number, by: Code) => to.set(add(to.get, mul(room.constant(value), by)));
      for (const { entry, value } of part.rising) addTo(this.slots[plan.slotOf[entry]!]!, value, product);
      for (const { entry, value } of part.drive) addTo(this.sides[pivotOfRow[entry]!]!, value, product);
      if (part.falling.length === 0) continue;
      const inverse = lines.keep(div(one, product));
      for (const { entry, value } of part.falling) addTo(this.slots[plan.slotOf[entry]!]!, value, inverse);
    }
  }

  private eliminate(instructions: Int32Array, slots: readonly Variable[], sides: readonly Variable[]): void {
    for (let at = 0; at < instructions.length; at += 4) {
      const [code, to, p, q] = instructions.subarray(at, at + 4) as unknown as [number, number, number, number];
      const slot = slots[to]!;
      if (code === 0) slot.set(div(one, slot.get));
      else if (code === 1) slot.set(mul(slot.get, slots[p]!.get));
      else if (code === 2) slot.set(sub(slot.get, mul(slots[p]!.get, slots[q]!.get)));
      else sides[to]!.set(sub(sides[to]!.get, mul(slots[p]!.get, sides[q]!.get)));
    }
  }

  private backward(k: number, slots: readonly Variable[], sides: readonly Variable[]): void {
    const { plan } = this.units;
    let sum = sides[k]!.get;
    for (let s = plan.upperStart[k]!; s < plan.upperStart[k + 1]!; s++) {
      sum = sub(sum, mul(slots[plan.upperSlot + s]!.get, this.answers[plan.upperColumn[s]!]!.get));
    }
    this.answers[k]!.set(mul(sum, slots[k]!.get));
  }

  /** Tangents of the devices at the nominal rest, moved by their factors. */
  private prediction(device: LaneDevice, d: number, factors: readonly Code[]): Tangent {
    const { lines, room } = this;
    const { u, amps, slope } = this.units.nominal[d]!;
    const scale = device.current < 0 ? undefined : factors[device.current]!;
    const reach = device.mu < 0 ? undefined : lines.keep(div(one, factors[device.mu]!));
    const electrodes = voltagesOf(device);
    const held = { device, scale, reach };
    const place = this.places.devices[d]!;
    const start = (own: Code, predicted: Code) =>
      lines.variable(choose(load(whole(0), this.places.warm), own, predicted));
    const at = electrodes.map((k) => start(this.row(place.u, k), room.constant(u[k]!)));
    const slopes = new Map(
      device.slopes.map(([k, j]) => {
        const predicted = reached(held, j, scaled(held, k, room.constant(slope[3 * k + j]!)));
        return [3 * k + j, start(this.row(place.slope, 3 * k + j), predicted)];
      }),
    );
    return {
      scale,
      reach,
      volts: electrodes.map((k) => start(this.row(place.volts, k), room.constant(u[k]!))),
      at,
      slopes,
      rests: new Map(
        device.carriers.map((k) => {
          let own = this.row(place.amps, k);
          for (const [row, j] of device.slopes) {
            if (row === k) own = sub(own, mul(slopes.get(3 * k + j)!.get, at[j]!.get));
          }
          const rest = electrodes.reduce((sum, j) => sum - slope[3 * k + j]! * u[j]!, amps[k]!);
          return [k, start(own, scaled(held, k, room.constant(rest)))];
        }),
      ),
    };
  }

  /** Newton's steps until both units stand; returns the mask of those that do. */
  private newton(tangents: readonly Tangent[], slots: Variable[], sides: Variable[]): Variable {
    const { lines, units } = this;
    const { elimination, devices, deviceSlots, pivotOfColumn, pivotOfRow } = units;
    const before = lines.variable(number(Number.POSITIVE_INFINITY));
    const solved = lines.variable(zero);
    const moved = lines.variable(zero);
    lines.add([whole(0), 0x21, STEP]);
    lines.add([0x02, 0x40, 0x03, 0x40]);
    for (const slot of elimination.movingSlots) slots[slot]!.set(this.slots[slot]!.get);
    for (const k of elimination.movingSides) sides[k]!.set(this.sides[k]!.get);
    devices.forEach(({ device: { nodes }, carriers }, d) => {
      const { slopes, rests } = tangents[d]!;
      for (const { slope, slot, sign } of deviceSlots[d]!) {
        const to = slots[slot]!;
        to.set((sign > 0 ? add : sub)(to.get, slopes.get(slope)!.get));
      }
      const base = nodes[nodes.length - 1]!;
      for (const k of carriers) {
        const rest = rests.get(k)!.get;
        const side = (node: number) => sides[pivotOfRow[node]!]!;
        if (nodes[k]! >= 0) side(nodes[k]!).set(sub(side(nodes[k]!).get, rest));
        if (base >= 0) side(base).set(add(side(base).get, rest));
      }
    });
    this.eliminate(elimination.moving, slots, sides);
    for (const k of elimination.backward) this.backward(k, slots, sides);
    moved.set(zero);
    devices.forEach(({ device: { nodes }, part }, d) => {
      const volts = (node: number): Code => (node < 0 ? zero : this.answers[pivotOfColumn[node]!]!.get);
      tangents[d]!.volts.forEach((held, k) => {
        const base = nodes[nodes.length - 1]!;
        const now = base < 0 ? volts(nodes[k]!) : lines.keep(sub(volts(nodes[k]!), volts(base)));
        const jump = mul(number(steepness(part)), absolute(sub(now, held.get)));
        moved.set(greater(moved.get, div(jump, add(one, absolute(now)))));
        held.set(now);
      });
    });
    const { still, nearness, mostSteps } = newtonEnd;
    const ratio = lines.keep(div(moved.get, before.get));
    const next = mul(mul(number(100), moved.get), mul(ratio, ratio));
    // At the first step `before` is infinite: nothing is foretold from it.
    const foretold = both(isMore(number(1e300), before.get), both(near(moved.get, nearness), near(next, still)));
    solved.set(
      either(solved.get, devices.length === 0 ? isAtMost(zero, one) : either(near(moved.get, still), foretold)),
    );
    lines.add([allTrue(solved.get), 0x0d, 1]);
    lines.add([step, whole(1), 0x6a, 0x22, STEP, whole(mostSteps), 0x4f, 0x0d, 1]);
    before.set(moved.get);
    devices.forEach((device, d) => {
      this.look(device, d, tangents[d]!);
    });
    lines.add([0x0c, 0, 0x0b, 0x0b]);
    return solved;
  }

  /** The device's curve at the voltages now held. */
  private look(device: LaneDevice, d: number, tangent: Tangent): void {
    const { lines } = this;
    const held = { device, ...tangent };
    const u = tangent.volts.map((volts, k) => lines.keep(reached(held, k, volts.get)));
    const now = this.curveAt(d, u);
    tangent.at.forEach((at, k) => {
      at.set(tangent.volts[k]!.get);
    });
    for (const [k, j] of device.slopes) {
      tangent.slopes.get(3 * k + j)!.set(reached(held, j, scaled(held, k, now.slope[3 * k + j]!)));
    }
    for (const k of device.carriers) {
      let rest = scaled(held, k, now.current[k]!);
      for (const [row, j] of device.slopes) {
        if (row === k) rest = sub(rest, mul(tangent.slopes.get(3 * k + j)!.get, tangent.at[j]!.get));
      }
      tangent.rests.get(k)!.set(rest);
    }
  }

  private curveAt(d: number, u: readonly Code[]): WrittenCurve {
    const { lines } = this;
    const at = this.places.devices[d]!;
    const writer = this.writers[d];
    if (writer) return writer.write(lines, (name) => this.row(at.numbers.get(name)!), u);
    u.forEach((volts, k) => {
      this.keepRow(at.volts, k, volts);
    });
    for (const second of [0, 1]) {
      const lane: Code = [pair, whole(3), 0x76, whole(second), 0x6a];
      lines.add([whole(d), lane, 0x10, GIVEN_FUNCTION]);
    }
    return {
      current: Array.from({ length: mostElectrodes }, (_, k) => this.row(at.amps, k)),
      slope: Array.from({ length: mostElectrodes ** 2 }, (_, k) => this.row(at.slope, k)),
    };
  }

  private storing(tangents: readonly Tangent[], slots: readonly Variable[], solved: Variable): void {
    const { places, units } = this;
    this.keepRow(places.solved, 0, both(solved.get, one));
    this.answers.forEach((answer, k) => {
      this.keepRow(places.answers, k, answer.get);
    });
    this.lines.add([0x02, 0x40, anyTrue(load(whole(0), places.warm)), 0x0d, 0]);
    slots.forEach((slot, s) => {
      this.keepRow(places.slots, s, slot.get);
    });
    units.devices.forEach((device, d) => {
      const { volts, at, slopes, rests } = tangents[d]!;
      const place = places.devices[d]!;
      voltagesOf(device).forEach((k) => {
        this.keepRow(place.volts, k, volts[k]!.get);
        this.keepRow(place.u, k, at[k]!.get);
      });
      for (const k of device.carriers) {
        let amps = rests.get(k)!.get;
        for (const [row, j] of device.slopes) {
          if (row === k) amps = add(amps, mul(slopes.get(3 * k + j)!.get, at[j]!.get));
        }
        this.keepRow(place.amps, k, amps);
      }
      for (const [k, j] of device.slopes) this.keepRow(place.slope, 3 * k + j, slopes.get(3 * k + j)!.get);
    });
    this.lines.add([0x0b]);
  }
}

const near = (value: Code, limit: number): Code => isAtMost(value, number(limit));
const voltagesOf = ({ device }: LaneDevice): number[] => device.nodes.slice(0, -1).map((_, k) => k);

interface Scaling {
  readonly device: LaneDevice;
  readonly scale: Code | undefined;
  readonly reach: Code | undefined;
}
/** A factor on current leaves a valve's grid alone; one on mu, every electrode's voltage but the grid's. */
const scaled = ({ device: { part }, scale }: Scaling, k: number, value: Code): Code =>
  scale === undefined || (k === 1 && isValve(part)) ? value : mul(value, scale);
const reached = ({ reach }: Scaling, j: number, value: Code): Code =>
  reach === undefined || j === 1 ? value : mul(value, reach);
