import type { Random } from "../../../maths/random.ts";
import type { Netlist } from "../../netlist.ts";
import {
  breakUnit,
  type DrawnUnit,
  drawUnit,
  type GainAsked,
  hearUnit,
  ohmsOf,
  readUnit,
  type TrueFault,
} from "./faultyUnit.ts";

const doubt_V = 0.3;
const doubt_dB = 0.1;
const meter_Mohm = 10;
const mostGains = 8;
const mostOhms = 3;

export interface Sheet {
  readonly volts: Readonly<Record<string, number>>;
  readonly gains: readonly number[];
  readonly ohms: readonly number[];
}

export interface Form {
  readonly gains: readonly GainAsked[];
  readonly ohms: readonly { readonly point: string; readonly node: string }[];
}

/** Gains from the nearest input to plates and outputs, by turns at three frequencies; resistances of every fifth point. */
export function formOf(netlist: Netlist): Form {
  const points = (netlist.testPoints ?? []).map((own) =>
    typeof own === "string" ? { point: own, node: own } : { point: own.name, node: own.node },
  );
  const inputs = netlist.parts.flatMap((part) => (part.kind === "voltage" && part.dc_V === 0 ? [part.id] : []));
  const heard = points.filter(({ point }) => /plate|output|stator|^a\d|^out|^k\d/i.test(point));
  return {
    gains: heard.slice(0, mostGains).map(({ point, node }, i) => ({
      point,
      node,
      input: (/^right/.test(point) ? inputs.find((id) => id.endsWith("R")) : undefined) ?? inputs[0]!,
      frequency_Hz: [1000, 20, 10_000][i % 3]!,
    })),
    ohms: points.filter((_, i) => i % 5 === 2).slice(0, mostOhms),
  };
}

export function taken(netlist: Netlist, unit: DrawnUnit, { gains, ohms }: Form): Sheet | undefined {
  const volts = readUnit(netlist, unit, meter_Mohm);
  const heard = hearUnit(netlist, unit, gains);
  if (volts === undefined || heard === undefined) return undefined;
  const nodes = ohms.map(({ node }) => node);
  return { volts, gains: heard, ohms: ohmsOf(netlist, unit, nodes) };
}

/** As a sheet has it, each reading with the scatter of its instrument. */
export function questionOf({ volts, gains, ohms }: Sheet, form: Form, random: Random) {
  return {
    measured: Object.fromEntries(
      Object.entries(volts).map(([point, read_V]) => [point, read_V + random.normal(0, doubt_V / 1.96)]),
    ),
    doubt_V,
    meter_Mohm,
    gains: form.gains.map(({ point, input, frequency_Hz }, i) => ({
      point,
      input,
      frequency_Hz,
      gain_dB: gains[i]! + random.normal(0, doubt_dB / 1.96),
      doubt_dB,
    })),
    resistances: form.ohms.map(({ point }, i) => ({
      between: [point, "0"] as const,
      ohm: Math.max(0, ohms[i]! * (1 + random.normal(0, 0.01 / 1.96))),
    })),
  };
}

function moved(a: Sheet, b: Sheet): boolean {
  return (
    Object.keys(a.volts).some((point) => Math.abs(a.volts[point]! - b.volts[point]!) >= doubt_V) ||
    a.gains.some((gain, i) => Math.abs(gain - b.gains[i]!) >= doubt_dB && Math.max(gain, b.gains[i]!) > -80) ||
    a.ohms.some((ohm, i) => Math.abs(ohm - b.ohms[i]!) >= 0.2 + 0.01 * ohm)
  );
}

/** A faulty unit whose sheet shows it. */
export function faultyUnit(netlist: Netlist, form: Form, random: Random): { sheet: Sheet; fault: TrueFault } {
  for (;;) {
    const good = drawUnit(netlist, random);
    const broken = breakUnit(good, random, true);
    if (broken === undefined) continue;
    const before = taken(netlist, good, form);
    const after = taken(netlist, broken.unit, form);
    if (before !== undefined && after !== undefined && moved(before, after))
      return { sheet: after, fault: broken.fault };
  }
}
