import { solveRealTransposed } from "../maths/linear/realLu.ts";
import { checkNetlist } from "./check.ts";
import { buildCircuit, type Circuit, type Fitted } from "./circuit.ts";
import { type Device, deviceCurrents, mostElectrodes } from "./device.ts";
import { isValve, type Netlist, type Part } from "./netlist.ts";
import { type Output, outputNodes } from "./response.ts";
import { electrodeVolts, type Settled, settle, type Unsettled } from "./settle.ts";

/** What an output's voltage does when one value of a part goes up by a small share of itself. */
interface PartSensitivity {
  readonly part: string;
  readonly value: "ohm" | "dc_V" | "dc_mA" | "resistance_ohm" | "saturation" | "gain" | "current" | "mu";
  /** Volts per unit of relative change: 0.01 of it is what one per cent does. */
  readonly perShare_V: number;
}

export interface RestSensitivities {
  readonly state: "solved";
  readonly volts: number;
  readonly parts: readonly PartSensitivity[];
}

/**
 * Slopes of one output's direct voltage against every part's value, by a single adjoint solve.
 *
 *     F(x, p) = 0,  Jᵀ·λ = ∂V/∂x,  dV/dp = −λ·∂F/∂p
 *
 * Values are those that carry a tolerance: resistances, sources, saturation, and of valves a factor on plate current and
 * on mu.
 *
 * @throws BadInput as `solveRest`, or at `output`
 */
export function restSensitivities(
  netlist: Netlist,
  output: Output,
  fitted: Fitted = {},
  path = "netlist",
): RestSensitivities | Unsettled {
  checkNetlist(netlist, path, true);
  const circuit = buildCircuit(netlist, path, fitted);
  const [plus, minus] = outputNodes(circuit, output);
  const settled = settle(circuit);
  if (settled.state !== "solved") return settled;
  const { parts } = sensitivitiesAt(circuit, settled, plus, minus);
  return { state: "solved", volts: at(settled.x, plus) - at(settled.x, minus), parts };
}

/**
 * The same at a rest that was found already, between two unknowns (−1 for ground), with the voltage that one ampere
 * into each row gives there.
 */
export function sensitivitiesAt(
  circuit: Circuit,
  { x, slopes }: Settled,
  plus: number,
  minus: number,
): { readonly parts: readonly PartSensitivity[]; readonly reach: Float64Array } {
  const probe = new Float64Array(circuit.size);
  if (plus >= 0) probe[plus] = 1;
  if (minus >= 0) probe[minus] = probe[minus]! - 1;
  const reach = new Float64Array(circuit.size);
  solveRealTransposed(slopes, probe, reach);
  const devices = new Map(circuit.devices.map((device) => [device.part, device]));
  const parts = circuit.netlist.parts.flatMap((part, i): PartSensitivity[] => {
    const device = devices.get(i);
    if (device === undefined) return straightSlopes(circuit, part, circuit.currentOf[i]!, x, reach);
    return isValve(part) ? valveSlopes(part.id, device, x, reach) : bentSlopes(part, device, x, reach);
  });
  return { parts, reach };
}

const at = (values: Float64Array, unknown: number): number => (unknown >= 0 ? values[unknown]! : 0);

function straightSlopes(
  circuit: Circuit,
  part: Part,
  branch: number,
  x: Float64Array,
  reach: Float64Array,
): PartSensitivity[] {
  switch (part.kind) {
    case "resistor": {
      const [a, b] = part.between.map((node) => circuit.unknownOf(node)!) as [number, number];
      const perShare_V =
        branch >= 0
          ? reach[branch]! * part.ohm * x[branch]!
          : ((at(reach, a) - at(reach, b)) * (at(x, a) - at(x, b))) / part.ohm;
      return [{ part: part.id, value: "ohm", perShare_V }];
    }
    case "inductor":
      return part.resistance_ohm
        ? [{ part: part.id, value: "resistance_ohm", perShare_V: reach[branch]! * part.resistance_ohm * x[branch]! }]
        : [];
    case "transformer": {
      const perShare_V = part.windings.reduce(
        (sum, { resistance_ohm = 0 }, w) => sum + reach[branch + w]! * resistance_ohm * x[branch + w]!,
        0,
      );
      return perShare_V === 0 ? [] : [{ part: part.id, value: "resistance_ohm", perShare_V }];
    }
    case "voltage":
      return [{ part: part.id, value: "dc_V", perShare_V: reach[branch]! * part.dc_V }];
    case "current": {
      const [a, b] = part.between.map((node) => circuit.unknownOf(node)!) as [number, number];
      return [{ part: part.id, value: "dc_mA", perShare_V: ((at(reach, b) - at(reach, a)) * part.dc_mA) / 1e3 }];
    }
    default:
      return [];
  }
}

/** A factor on the saturation of a diode or field-effect transistor, or a rectifier's perveance, scales its current; a gain, its base's. */
function bentSlopes(part: Part, { nodes, evaluate }: Device, x: Float64Array, reach: Float64Array): PartSensitivity[] {
  const u = new Float64Array(mostElectrodes);
  const now = deviceCurrents();
  electrodeVolts(nodes, x, u);
  evaluate(u, now);
  const last = nodes.length - 1;
  const lever = (k: number): number => at(reach, nodes[k]!) - at(reach, nodes[last]!);
  // Gain upwards is base current downwards.
  if (part.kind === "bipolar") return [{ part: part.id, value: "gain", perShare_V: lever(1) * now.current_A[1]! }];
  return [{ part: part.id, value: "saturation", perShare_V: -lever(0) * now.current_A[0]! }];
}

/** A factor on current scales plate and screen current; a factor on mu acts as plate and screen voltage divided by it. */
function valveSlopes(
  part: string,
  { nodes, evaluate }: Device,
  x: Float64Array,
  reach: Float64Array,
): PartSensitivity[] {
  const u = new Float64Array(mostElectrodes);
  const now = deviceCurrents();
  electrodeVolts(nodes, x, u);
  evaluate(u, now);
  const last = nodes.length - 1;
  let current = 0;
  let mu = 0;
  for (let k = 0; k < last; k++) {
    const lever = at(reach, nodes[k]!) - at(reach, nodes[last]!);
    if (k !== 1) current -= lever * now.current_A[k]!;
    for (let j = 0; j < last; j++) if (j !== 1) mu += lever * now.slope[mostElectrodes * k + j]! * u[j]!;
  }
  return [
    { part, value: "current", perShare_V: current },
    { part, value: "mu", perShare_V: mu },
  ];
}
