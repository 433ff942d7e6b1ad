import type { BodyOf } from "../claims/evidence.ts";
import type { Random } from "../maths/random.ts";
import { type BenchUnit, benchCircuit, levelReading } from "./benchReadings.ts";
import { shown } from "./entry.ts";
import { namedPoints } from "./models/windows.ts";
import { deadResistance_ohm } from "./physics/deadMeter.ts";
import { meter_Mohm } from "./physics/meter.ts";
import { channelResponse } from "./physics/workingPoint.ts";

type Reading = BodyOf<"reading">;

/** Where a sheet asks for more than direct voltage: points to send a tone to, and to read with the unit unplugged. */
export interface SheetForm {
  readonly gains: readonly string[];
  readonly resistances: readonly string[];
}

/** What every probe sheet of a model has room for beside its voltages. */
export const forms: Readonly<Record<string, SheetForm>> = {
  Ebb: {
    gains: ["left V1 plate", "right V1 plate", "left output", "right output"],
    resistances: ["left V1 cathode", "right V1 cathode", "left V2 cathode", "right V2 cathode"],
  },
  Neap: {
    gains: ["left V1 plate", "right V1 plate", "left output", "right output"],
    resistances: ["left V1 cathode", "right V1 cathode", "left V2 cathode", "right V2 cathode"],
  },
  Flood: {
    gains: ["left V1 plate", "right V1 plate", "left output plate", "right output plate"],
    resistances: ["left V1 cathode", "right V1 cathode", "left output grid", "right output grid"],
  },
  Bore: {
    gains: ["left V1 plate a", "right V2 plate a", "left V3 plate", "right V5 plate"],
    resistances: ["bias reservoir", "left V3 grid", "right V5 grid"],
  },
};

const gainProbe_Hz = 1000;

/**
 * One probe sheet: the dead-circuit resistances and tones of its form, then direct voltage at every test point. What
 * the bench reads of the unit as it stands, gone wrong or not.
 */
export function probeSheet(unit: BenchUnit, { gains, resistances }: SheetForm, chance: Random): readonly Reading[] {
  const bench = benchCircuit(unit);
  const points = namedPoints(unit.model.netlist);
  const nodeOf = (name: string) => points.find((point) => point.name === name)!.node;
  const read = (
    quantity: string,
    point: string,
    { value, doubt, decimals }: { value: number; doubt: number; decimals: number },
    instrument: string,
    conditions: Reading["conditions"],
  ): Reading => ({
    kind: "reading",
    subject: { unit: unit.truth.unit, point },
    quantity,
    value: shown(value + chance.fork(`${quantity} ${point}`).normal(0, doubt / 2.5), decimals),
    doubt: Number(doubt.toPrecision(2)),
    instrument,
    conditions,
  });
  return [
    ...resistances.map((point) => {
      const value = deadResistance_ohm(bench.circuit, nodeOf(point));
      const figure = { value, doubt: 0.008 * value + 0.5, decimals: 1 };
      return read("resistance_ohm", point, figure, "meter-B", { to: "0", state: "dead" });
    }),
    ...points.map(({ name, node }) => {
      const { instrument, ...figure } = levelReading(unit, bench, node);
      return read("level_V", name, figure, instrument, { meter_Mohm });
    }),
    ...gains.map((point) => {
      const input = unit.model.input[point.split(" ")[0]!]!;
      const value = channelResponse(bench.circuit, input, nodeOf(point), [gainProbe_Hz]).gain_dB[0]!;
      const figure = { value, doubt: 0.1, decimals: 2 };
      return read("gain_dB", point, figure, "audio-recorder", { input, frequency_Hz: gainProbe_Hz });
    }),
  ];
}
