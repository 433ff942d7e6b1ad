import { BadInput, quote } from "../../maths/badInput.ts";
import type { Circuit } from "../circuit.ts";
import type { Netlist } from "../netlist.ts";
import { gainFloors } from "./gainFloor.ts";
import { type GainProbe, plainGain, plainOhm, type Reading } from "./probes.ts";
import type { Pattern } from "./specimen.ts";

/** Readings as they are taken down at the bench; doubts are 95 % half-widths. */
export interface BenchReadings {
  /** Volts to ground, by test point or node. */
  readonly measured: Readonly<Record<string, number>>;
  readonly doubt_V?: number | undefined;
  /** By point, where the meter's range made them unlike; wins over `doubt_V`. */
  readonly doubts_V?: Readonly<Record<string, number>> | undefined;
  readonly gains?: readonly {
    readonly point: string;
    readonly input: string;
    readonly frequency_Hz: number;
    readonly gain_dB: number;
    readonly doubt_dB?: number | undefined;
  }[];
  readonly resistances?: readonly {
    readonly between: readonly [string, string];
    readonly ohm: number;
    readonly doubt_ohm?: number | undefined;
  }[];
}

const halfWidthsPerSd = 1.959964;

/** Doubts taken where none are given, as for an ordinary hand-held meter. */
const usualDoubt = { volts_share: 0.005, volts_V: 0.02, gain_dB: 0.2, ohms_share: 0.01, ohms_ohm: 0.2 };

/** The node a point of the bench stands for: a test point by its name, else a node. */
function nodeOfPoint(netlist: Netlist, circuit: Circuit, point: string, path: string): string {
  for (const own of netlist.testPoints ?? []) {
    if (typeof own !== "string" && own.name === point) return own.node;
  }
  if (circuit.unknownOf(point) !== undefined) return point;
  const known = (netlist.testPoints ?? []).map((own) => (typeof own === "string" ? own : own.name));
  throw new BadInput(
    path,
    quote(point),
    `a test point or a node of the net list (${[...known, ...circuit.nodeNames].slice(0, 24).join(", ")}, …)`,
    "correct the point's name",
  );
}

/**
 * Readings in one form, each with its place and standard deviation.
 *
 * @throws BadInput at `measured.POINT`, `gains[i].point` or `resistances[i].between[j]` for a point that is not there,
 *         and for an input that is no source
 */
export function readingsOf(pattern: Pattern, given: BenchReadings): Reading[] {
  const { netlist, circuit } = pattern;
  const volts = Object.entries(given.measured).map(([point, read_V]): Reading => {
    const node = nodeOfPoint(netlist, circuit, point, `measured.${point.slice(0, 80)}`);
    const doubt_V =
      given.doubts_V?.[point] ?? given.doubt_V ?? usualDoubt.volts_V + usualDoubt.volts_share * Math.abs(read_V);
    return { probe: { kind: "volts", node }, value: read_V, sd: doubt_V / halfWidthsPerSd, name: point };
  });
  const asked = (given.gains ?? []).map(({ point, input, frequency_Hz }, i): GainProbe => {
    const node = nodeOfPoint(netlist, circuit, point, `gains[${i}].point`);
    checkInput(netlist, input, `gains[${i}].input`);
    return { kind: "gain", node, input, frequency_Hz, floor: 0 };
  });
  const floors = gainFloors(pattern, asked);
  const gains = (given.gains ?? []).map((gain, i): Reading => {
    const floor = floors[i]!;
    const { value, slope } = plainGain(gain.gain_dB, floor);
    const doubt_dB = (gain.doubt_dB ?? usualDoubt.gain_dB) * slope;
    return {
      probe: { ...asked[i]!, floor },
      value,
      sd: doubt_dB / halfWidthsPerSd,
      name: `gain from ${gain.input} to ${gain.point}`,
    };
  });
  const ohms = (given.resistances ?? []).map((read, i): Reading => {
    const [a, b] = read.between.map((point, end) =>
      nodeOfPoint(netlist, circuit, point, `resistances[${i}].between[${end}]`),
    ) as [string, string];
    const doubt_ohm = read.doubt_ohm ?? usualDoubt.ohms_ohm + usualDoubt.ohms_share * read.ohm;
    const low = plainOhm(Math.max(0, read.ohm - doubt_ohm), doubt_ohm).value;
    const high = plainOhm(read.ohm + doubt_ohm, doubt_ohm).value;
    return {
      probe: { kind: "ohms", between: [a, b], doubt_ohm },
      value: plainOhm(read.ohm, doubt_ohm).value,
      sd: (high - low) / 2 / halfWidthsPerSd,
      name: `${read.between[0]} to ${read.between[1]}`,
    };
  });
  return [...volts, ...gains, ...ohms];
}

function checkInput(netlist: Netlist, input: string, path: string): void {
  const sources = netlist.parts.filter(({ kind }) => kind === "voltage" || kind === "current");
  if (sources.some(({ id }) => id === input)) return;
  throw new BadInput(
    path,
    quote(input),
    `the id of a voltage or current source (${sources.map(({ id }) => id).join(", ") || "there is none"})`,
    "name the source that drives the signal",
  );
}
