import { BadInput, quote } from "../maths/badInput.ts";
import { heatersOf } from "./heaters.ts";
import { endsOf, isValve, type Netlist, type Part } from "./netlist.ts";

/**
 * Refuses a net list that no arithmetic could answer: every refusal names the part, the node and the mend.
 *
 * `steady` asks what direct current needs: a path to ground for every node that is not only capacitors, and no loop
 * of voltage sources and coils without resistance. Without it only what alternating current needs is asked.
 *
 * @throws BadInput
 */
export function checkNetlist(netlist: Netlist, path: string, steady: boolean): void {
  checkNames(netlist, path);
  checkLoops(netlist, path, steady);
  checkPaths(netlist, path, steady);
  if (!steady) return;
  checkElectrodes(netlist, path);
  checkHeaters(netlist, path);
}

function checkNames(netlist: Netlist, path: string): void {
  const seen = new Map<string, number>();
  netlist.parts.forEach((part, i) => {
    const before = seen.get(part.id);
    if (before !== undefined) {
      throw new BadInput(
        `${path}.parts[${i}].id`,
        quote(part.id),
        `one part of that name; parts[${before}] has it already`,
        "give every part a name of its own",
      );
    }
    seen.set(part.id, i);
  });
  const nodes = new Set(netlist.parts.flatMap((part) => endsOf(part).map(([, node]) => node)));
  if (!nodes.has(netlist.ground)) {
    throw new BadInput(
      `${path}.ground`,
      quote(netlist.ground),
      `a node that a part is joined to (${listed([...nodes])})`,
      "name the node that voltages are counted from",
    );
  }
  netlist.testPoints?.forEach((point, i) => {
    const node = typeof point === "string" ? point : point.node;
    if (nodes.has(node)) return;
    throw new BadInput(
      `${path}.testPoints[${i}]${typeof point === "string" ? "" : ".node"}`,
      quote(node),
      `a node that a part is joined to (${listed([...nodes])})`,
      "correct the node's name",
    );
  });
}

/** Ways through a part that set a voltage, whatever the current: where two of them form a loop, nothing sets the current. */
function rigidWays(part: Part, steady: boolean): readonly (readonly [field: string, a: string, b: string])[] {
  switch (part.kind) {
    case "voltage":
      return [["between", ...part.between]];
    case "inductor":
      return steady && !part.resistance_ohm ? [["between", ...part.between]] : [];
    case "transformer":
      return part.windings.flatMap((winding, i) =>
        steady && !winding.resistance_ohm ? [[`windings[${i}].between`, ...winding.between] as const] : [],
      );
    default:
      return [];
  }
}

function checkLoops(netlist: Netlist, path: string, steady: boolean): void {
  const groups = new Groups();
  netlist.parts.forEach((part, i) => {
    for (const [field, a, b] of rigidWays(part, steady)) {
      if (groups.join(a, b)) continue;
      const coil = part.kind !== "voltage";
      throw new BadInput(
        `${path}.parts[${i}].${field}`,
        `${quote(part.id)} between ${quote(a)} and ${quote(b)}`,
        a === b
          ? "two different nodes"
          : "no loop of voltage sources and coils without resistance; other such parts already join these nodes",
        a === b
          ? "correct one of the node names"
          : coil
            ? "give the coil its resistance_ohm"
            : "put a resistor in series, or take one source out",
      );
    }
  });
}

/** Ways through a part by which current can flow. Grids, gates and current sources set no voltage of their node. */
function conductingWays(part: Part, steady: boolean): readonly (readonly [a: string, b: string])[] {
  switch (part.kind) {
    case "capacitor":
      return steady ? [] : [part.between];
    case "current":
      return [];
    case "switch":
      return part.closed ? [part.between] : [];
    case "transformer":
      return part.windings.map((winding) => winding.between);
    case "triode":
      return [[part.plate, part.cathode]];
    case "pentode":
      return [
        [part.plate, part.cathode],
        [part.screen, part.cathode],
      ];
    case "jfet":
      return [[part.drain, part.source]];
    case "bipolar":
      return [
        [part.collector, part.emitter],
        [part.base, part.emitter],
      ];
    default:
      return [part.between];
  }
}

function checkPaths(netlist: Netlist, path: string, steady: boolean): void {
  const groups = new Groups();
  for (const part of netlist.parts) for (const [a, b] of conductingWays(part, steady)) groups.join(a, b);
  netlist.parts.forEach((part, i) => {
    for (const [field, node] of endsOf(part)) {
      if (groups.same(node, netlist.ground)) continue;
      const touching = netlist.parts.filter((p) => endsOf(p).some(([, n]) => groups.same(n, node)));
      throw new BadInput(
        `${path}.parts[${i}].${field}`,
        `node ${quote(node)}, touched by ${listed(touching.map((p) => p.id))}`,
        steady
          ? `a path for direct current to ground ${quote(netlist.ground)}; capacitors, grids, open switches and current sources give none`
          : `a path to ground ${quote(netlist.ground)}`,
        `join ${quote(node)} to ground by a resistor, or correct the node's name`,
      );
    }
  });
}

/** A plate, cathode or screen that nothing else carries current to or from has no voltage of its own. */
function checkElectrodes(netlist: Netlist, path: string): void {
  const ways = new Map<string, number>();
  for (const part of netlist.parts) {
    for (const node of conductingWays(part, true).flat()) ways.set(node, (ways.get(node) ?? 0) + 1);
  }
  const sourced = new Set(netlist.parts.flatMap((part) => (part.kind === "current" ? part.between : [])));
  netlist.parts.forEach((part, i) => {
    if (!isValve(part) && part.kind !== "jfet") return;
    const electrodes = isValve(part)
      ? part.kind === "pentode"
        ? (["plate", "screen", "cathode"] as const).map((name) => [name, part[name as "plate"]] as const)
        : (["plate", "cathode"] as const).map((name) => [name, part[name]] as const)
      : (["drain", "source"] as const).map((name) => [name, part[name]] as const);
    const own = conductingWays(part, true).flat();
    for (const [electrode, node] of electrodes) {
      const others = (ways.get(node) ?? 0) - own.filter((n) => n === node).length;
      if (node === netlist.ground || others > 0 || sourced.has(node)) continue;
      throw new BadInput(
        `${path}.parts[${i}].${electrode}`,
        `node ${quote(node)}, the ${electrode} of ${quote(part.id)}, joined to nothing else that carries direct current`,
        `a ${electrode} whose current can flow on`,
        `join ${quote(node)} to a resistor, a coil or a supply, or correct the node's name`,
      );
    }
  });
}

/** Where a net list draws heaters, every valve has one: a valve left out is a slip, and would stay cold. */
function checkHeaters(netlist: Netlist, path: string): void {
  const heaters = heatersOf(netlist);
  netlist.parts.forEach((part, i) => {
    if (!isValve(part)) return;
    const heater = heaters.get(part.id);
    if (heater === undefined) {
      if (heaters.size === 0) return;
      throw new BadInput(
        `${path}.parts[${i}].heater`,
        `nothing for valve ${quote(part.id)}, while ${listed([...heaters.keys()])} have a heater`,
        "a heater supply for every valve, or none drawn at all",
        `add a resistor "${part.id.replace(/(\d)[a-d]$/i, "$1")}h" as its heater, or give the valve its "heater":{"between":[…]} or "heater_V"`,
      );
    }
    if (heater.by === "potential") return;
    const nodes = new Set(netlist.parts.flatMap((p) => endsOf(p).map(([, node]) => node)));
    const missing = heater.between.findIndex((node) => !nodes.has(node));
    if (missing < 0) return;
    throw new BadInput(
      `${path}.parts[${i}].heater.between[${missing}]`,
      quote(heater.between[missing]),
      "a node that a part is joined to",
      "correct the node's name, or draw the heater supply",
    );
  });
}

/** Nodes that only one end is joined to: mostly a slip in a name, sometimes meant. */
export function lonelyNodes(netlist: Netlist): string[] {
  const ends = new Map<string, number>();
  for (const part of netlist.parts) for (const [, node] of endsOf(part)) ends.set(node, (ends.get(node) ?? 0) + 1);
  return [...ends].filter(([node, count]) => count === 1 && node !== netlist.ground).map(([node]) => node);
}

const mostListed = 12;
function listed(names: readonly string[]): string {
  const shown = names.slice(0, mostListed).map((name) => (name.length > 24 ? `${name.slice(0, 23)}…` : name));
  return shown.join(", ") + (names.length > mostListed ? ", …" : "");
}

/** Nodes sorted into groups that hang together. */
class Groups {
  readonly #parent = new Map<string, string>();

  /** False when the two were together already. */
  join(a: string, b: string): boolean {
    const rootA = this.#root(a);
    const rootB = this.#root(b);
    if (rootA === rootB) return false;
    this.#parent.set(rootA, rootB);
    return true;
  }

  same(a: string, b: string): boolean {
    return this.#root(a) === this.#root(b);
  }

  #root(node: string): string {
    let at = node;
    for (let up = this.#parent.get(at); up !== undefined; up = this.#parent.get(at)) {
      const above = this.#parent.get(up);
      if (above !== undefined) this.#parent.set(at, above);
      at = up;
    }
    return at;
  }
}
