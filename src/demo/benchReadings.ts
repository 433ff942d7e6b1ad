import type { Netlist, RestSolution } from "../circuits/index.ts";
import type { BodyOf } from "../claims/evidence.ts";
import { type Random, randomStream } from "../maths/random.ts";
import { shown } from "./entry.ts";
import type { Claim, ModelBody } from "./models/common.ts";
import { namedPoints } from "./models/windows.ts";
import type { Fault } from "./physics/fault.ts";
import { weightedHiss_Vrms } from "./physics/hiss.ts";
import { dividedReading, meter_Mohm, meterReads, ownResistance_ohm } from "./physics/meter.ts";
import { type ChannelResponse, channelResponse, readOnce, rest, unitCircuit } from "./physics/workingPoint.ts";
import type { UnitTruth, ValveTruth } from "./truth.ts";

export interface BenchUnit {
  readonly model: ModelBody;
  readonly truth: UnitTruth;
  readonly fitted: Readonly<Record<string, ValveTruth>>;
  readonly fault?: Fault;
  /** The meter's load is reckoned by the drawn circuit at every point, where thousands of units are read. */
  readonly byDivider?: boolean;
}

type Requirement = Claim["requires"][number];
type Reading = BodyOf<"reading">;

/** What a quantity really is, how well the bench reads it, and with what. */
interface Truly {
  readonly value: number;
  readonly doubt: number;
  readonly instrument: string;
  readonly decimals: number;
}

/**
 * What the bench reads for a claim of a unit as it stands: every figure it requires of the unit itself, from the
 * unit's own circuit, its valves and its case. Figures of valves come from the tester, hum from recordings.
 */
export function benchReadings(unit: BenchUnit, claim: Pick<Claim, "requires">, chance: Random): readonly Reading[] {
  return claim.requires
    .filter(({ of, quantity }) => of !== "valve" && quantity !== "hum_margin_dB")
    .map((required) => {
      const draw = chance.fork(`${required.quantity} ${required.channel ?? ""} ${required.point ?? ""}`);
      const { value, doubt, instrument, decimals } = truly(unit, required);
      const conditions: Record<string, number> = required.quantity === "level_V" ? { meter_Mohm } : {};
      return {
        kind: "reading",
        subject: {
          unit: unit.truth.unit,
          ...(required.channel === undefined ? {} : { channel: required.channel }),
          ...(required.point === undefined ? {} : { point: required.point }),
        },
        quantity: required.quantity,
        value: shown(value + draw.normal(0, doubt / 2.5), decimals),
        doubt: Number(doubt.toPrecision(2)),
        instrument,
        conditions,
      };
    });
}

/** A unit's circuit and what was worked out of it so far, so that a sheet of twenty readings costs one solution. */
export interface BenchCircuit {
  readonly circuit: Netlist;
  readonly volts: Readonly<Record<string, number>>;
  readonly currents: RestSolution["parts"];
  response(channel: string): ChannelResponse;
}

const circuits = new WeakMap<BenchUnit, BenchCircuit>();
/** Middle, and the ends of the band. */
const frequencies_Hz = [1000, 20, 20_000];

export function benchCircuit(unit: BenchUnit): BenchCircuit {
  const known = circuits.get(unit);
  if (known) return known;
  const { model, truth, fitted, fault } = unit;
  const circuit = unitCircuit(model, truth.resistors, fitted, fault);
  const responses = new Map<string, ChannelResponse>();
  const { nodes: volts, parts: currents } = rest(circuit);
  const made: BenchCircuit = {
    circuit,
    volts,
    currents,
    response: (channel) => {
      const found =
        responses.get(channel) ??
        channelResponse(circuit, model.input[channel]!, model.output[channel]!, frequencies_Hz);
      responses.set(channel, found);
      return found;
    },
  };
  circuits.set(unit, made);
  return made;
}

/** What the bench's meter reads at a node, and how well. */
export function levelReading({ model, byDivider }: BenchUnit, { circuit, volts }: BenchCircuit, node: string) {
  const own_ohm = ownResistance_ohm(readOnce(model.netlist), node);
  const value = byDivider ? dividedReading(volts[node]!, own_ohm) : meterReads(circuit, volts, node, own_ohm);
  return { value, doubt: 0.002 * Math.abs(value) + 0.02, instrument: "meter-A", decimals: 2 };
}

function truly(unit: BenchUnit, { quantity, channel, point, low, high }: Requirement): Truly {
  const { model, truth } = unit;
  const bench = benchCircuit(unit);
  const response = (of: string) => bench.response(of);
  switch (quantity) {
    case "level_V": {
      const node = namedPoints(model.netlist).find(({ name }) => name === point)?.node;
      if (node === undefined) throw new RangeError(`${model.model} has no test point ${point}`);
      return levelReading(unit, bench, node);
    }
    case "balance_dB": {
      const [left, right] = model.channels.map((of) => response(of).gain_dB[0]!);
      return { value: left! - right!, doubt: 0.03, instrument: "audio-recorder", decimals: 3 };
    }
    case "gain_dB":
      return { value: response(channel!).gain_dB[0]!, doubt: 0.05, instrument: "audio-recorder", decimals: 2 };
    case "outputImpedance_ohm": {
      const value = response(channel!).outputImpedance_ohm[0]!;
      return { value, doubt: 0.03 * value, instrument: "audio-recorder", decimals: 2 };
    }
    case "response_dB": {
      const { gain_dB } = response(channel!);
      const end = frequencies_Hz.indexOf(Number.parseFloat(point!) * (point!.includes("kHz") ? 1000 : 1));
      return { value: gain_dB[end]! - gain_dB[0]!, doubt: 0.05, instrument: "audio-recorder", decimals: 2 };
    }
    case "hissA_uVrms": {
      const { hiss_V_per_rtHz, hissCorner_Hz } = truth.channels.find((c) => c.channel === channel)!;
      const value = 1e6 * weightedHiss_Vrms(hiss_V_per_rtHz, hissCorner_Hz);
      return { value, doubt: 0.05 * value, instrument: "audio-recorder", decimals: 2 };
    }
    default:
      return byNature(quantity, deviation(unit, `${quantity} ${channel ?? ""} ${point ?? ""}`), low, high);
  }
}

/** Quantities that no circuit here carries: a good unit's, with its own small deviation in −1 … 1. */
function byNature(quantity: string, deviation: number, low: number | undefined, high: number | undefined): Truly {
  const at = (value: number, reach: number, doubt: number, instrument: string, decimals: number): Truly => ({
    value: value + reach * deviation,
    doubt,
    instrument,
    decimals,
  });
  switch (quantity) {
    case "level_Vrms":
      return at(middle(low, high), 0.09, 0.03, "meter-B", 2);
    case "flux_T":
      return at(1.02, 0.05, 0.05, "meter-B", 2);
    case "fuseOverCurrent":
      return at(1.6, 0.06, 0.05, "meter-B", 2);
    case "labelDifference_V":
      return { value: 0, doubt: 0, instrument: "meter-B", decimals: 0 };
    case "jack_mV":
      return at(0, 3, 0.5, "meter-A", 1);
    case "hum_uVrms":
      return at(0.6 * (high ?? 0), 0.05 * (high ?? 0), 0.03 * (high ?? 0), "audio-recorder", 0);
    case "bond_ohm":
      return at(0.042, 0.008, 0.002, "earth-bond", 3);
    case "resistance_Mohm":
      return at(180, 60, 12, "insulation", 0);
    case "touch_mA":
      return at(0.09, 0.03, 0.005, "touch-current", 3);
    case "biasShort_mA":
      return at(0.12, 0.01, 0.005, "touch-current", 3);
    case "discharge_s":
      return at(24, 4, 1, "meter-A", 0);
    case "moistureDifference_pct":
      return at(0.2, 0.4, 0.6, "moisture-meter", 1);
    case "gap_mm":
      return at((low ?? 0) + 0.4, 0.12, 0.05, "feeler-gauge", 2);
    case "temperature_C":
      return at(47, 3, 1.2, "thermometer", 1);
    case "cracks":
    case "panelsAtRisk":
      return { value: 0, doubt: 0, instrument: "lens", decimals: 0 };
    default:
      throw new RangeError(`the demo's bench has no way to read ${quantity}`);
  }
}

/** A deviation of this unit, the same whenever it is asked for; what reaches the jack also goes with the valves. */
function deviation({ truth, fitted }: BenchUnit, what: string): number {
  const valves = what.startsWith("jack") ? Object.values(fitted).map(({ valve }) => valve) : [];
  return 2 * randomStream([truth.unit, what, ...valves].join(" ")).uniform() - 1;
}

function middle(low: number | undefined, high: number | undefined): number {
  return ((low ?? high ?? 0) + (high ?? low ?? 0)) / 2;
}
