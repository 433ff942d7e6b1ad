import { isDeepStrictEqual } from "node:util";
import resistance from "../../../src/calculations/circuits.resistance.ts";
import spread from "../../../src/calculations/circuits.spread.ts";
import suspects from "../../../src/calculations/circuits.suspects.ts";
import yieldOf from "../../../src/calculations/circuits.yield.ts";
import { type NetlistInput, readNetlist } from "../../../src/circuits/netlist.ts";
import type { Fault, FaultDetail } from "../../../src/circuits/suspects/fault.ts";
import { drawUnit, ohmsOf, readUnit } from "../../../src/circuits/suspects/testing/faultyUnit.ts";
import { cascode, lineStage, pushPull, regulator } from "../../../src/circuits/suspects/testing/netlists.ts";
import { drawByOdds } from "../../../src/circuits/suspects/testing/unitByOdds.ts";
import type { Random } from "../../../src/maths/random.ts";
import { type Calibration, calibrated, odds, type Said, within } from "../trial.ts";
import { between, decades, pick, times } from "./chance.ts";

const nets = [lineStage, pushPull, regulator, cascode];
type Input = NetlistInput;
const written = (net: unknown) => JSON.parse(JSON.stringify(net)) as Input;

/** A ladder of two to six resistors of 0.5 to 20 % on a supply of up to 10 %. */
function ladder(random: Random, dc_V = between(random, 12, 400)): Input {
  const steps = 2 + random.integer(5);
  return {
    ground: "0",
    parts: [
      { id: "HT", kind: "voltage", between: ["n0", "0"], dc_V, tolerance: decades(random, -2.3, -1) },
      ...times(steps, (i) => ({
        id: `R${i}`,
        kind: "resistor" as const,
        between: [`n${i}`, i === steps - 1 ? "0" : `n${i + 1}`] as [string, string],
        ohm: decades(random, 3, 6),
        tolerance: decades(random, -2.3, -0.7),
      })),
      {
        id: "RX",
        kind: "resistor" as const,
        between: ["n1", "0"] as [string, string],
        ohm: decades(random, 4, 6),
        tolerance: decades(random, -2.3, -0.7),
      },
    ],
    testPoints: ["n1"],
  };
}

/** source: a unit drawn by its tolerances and read with an ohmmeter of its own network. */
const dead = calibrated(resistance, {
  drawn:
    "ladders of resistors of 0.5 to 20 % and four amplifier stages with 5 %; one more unit read from a point to ground",
  draw(random) {
    const net = random.uniform() < 0.6 ? readNetlist(ladder(random)) : pick(random, nets);
    const points = (net.testPoints ?? []).map((point) => (typeof point === "string" ? point : point.node));
    const node = pick(random, points);
    const [ohm] = ohmsOf(net, drawUnit(net, random), [node]);
    return {
      input: { netlist: written(net), between: [[node, net.ground]] },
      said({ resistances: [read] }): Said[] {
        if (read!.low_ohm === undefined || read!.ohm! > 1e8) return [];
        return [within("window", read!.low_ohm, ohm!, read!.high_ohm!, { stated: 0.99 })];
      },
    };
  },
});

/** source: one more unit, solved alone with the meter in the circuit. */
const windows = calibrated(spread, {
  drawn:
    "ladders of resistors, 400 or 1000 units drawn, with a meter of 1 to 20 Mohm; one more unit solved alone, and whether it keeps a limit one to three spreads away",
  suite: 50,
  why: "each draw solves hundreds of units",
  draw(random) {
    const netlist = ladder(random);
    const meter_Mohm = decades(random, 0, 1.3);
    const net = readNetlist(netlist);
    const unit = drawUnit(net, random);
    const [truth, again] = [unit, drawUnit(net, random)].map((one) => readUnit(net, one, meter_Mohm)!.n1!);
    const high_V =
      readUnit(net, { parts: net.parts, factors: new Map() }, meter_Mohm)!.n1! * between(random, 0.99, 1.1);
    return {
      input: {
        netlist,
        samples: pick(random, [400, 1000]),
        seed: random.integer(1e9),
        meter_Mohm,
        limits: { n1: { high_V } },
      },
      said(answer): Said[] {
        if (answer.state !== "solved") return [];
        const { low_V, median_V, high_V: most_V } = answer.points.n1!;
        return [
          within("window", low_V, truth!, most_V, { stated: 0.99 }),
          { what: "under the median", stated: 0.5, isTrue: truth! < median_V },
          // With the meter moved over, limits are judged on the unit alone.
          odds("yield", answer.yield!, again! <= high_V),
        ];
      },
    };
  },
});

/** source: 20,000 dividers worked by hand. */
const yields = calibrated(yieldOf, {
  drawn:
    "a divider with parts of 1 to 15 % whose point must lie within 2 to 12 %; 60 to 200 units, against 20,000 worked by hand",
  suite: 40,
  why: "each draw solves hundreds of units",
  draw(random) {
    const pointTolerance = between(random, 0.02, 0.12);
    const netlist: Input = {
      ground: "0",
      testPoints: [{ name: "plate", node: "a", stage: "gain", tolerance: pointTolerance }],
      parts: [
        {
          id: "HT",
          kind: "voltage",
          between: ["ht", "0"],
          dc_V: between(random, 150, 350),
          tolerance: decades(random, -2, -0.9),
        },
        { id: "R1", kind: "resistor", between: ["ht", "a"], ohm: 47_000, tolerance: decades(random, -2, -0.8) },
        {
          id: "R2",
          kind: "resistor",
          between: ["a", "0"],
          ohm: decades(random, 4, 5.5),
          tolerance: decades(random, -2, -0.8),
        },
      ],
    };
    // A divider, worked by hand; 99 % of good parts lie within a tolerance.
    const part = (i: number) => netlist.parts[i] as unknown as { dc_V?: number; ohm?: number; tolerance: number };
    const drawnOf = (i: number) => {
      const { dc_V, ohm, tolerance } = part(i);
      return (dc_V ?? ohm!) * random.normal(1, tolerance / 2.5758);
    };
    const plate_V = (ht_V: number, upper_ohm: number, lower_ohm: number) =>
      (ht_V * lower_ohm) / (upper_ohm + lower_ohm);
    const usual_V = plate_V(part(0).dc_V!, part(1).ohm!, part(2).ohm!);
    const isGood = () => Math.abs(plate_V(drawnOf(0), drawnOf(1), drawnOf(2)) / usual_V - 1) <= pointTolerance;
    return {
      input: { netlist, channels: [], draws: 60 + random.integer(141), seed: random.integer(1e9) },
      said(answer): Said[] {
        if (answer.state !== "solved") return [];
        const many = 20_000;
        const truth = times(many, isGood).filter(Boolean).length / many;
        return [within("yield", answer.low, truth, answer.high, { atLeast: true })];
      },
    };
  },
});

/**
 * source: units drawn as often as faults are said to be met before any reading, read by a full solution with the meter
 * in it. Faults of another make and other frequencies stand in src/circuits/suspects/suspects.test.ts.
 */
const faults = calibrated(suspects, {
  drawn:
    "units of four stages, seventy in a hundred good, the others with one fault by its odds before any reading, laid in as the library has it, its degree even on a logarithmic scale; every test point solved with the meter in it and read with 10 Mohm and 0.3 V",
  suite: 12,
  why: "each draw solves the unit with every fault",
  draw(random) {
    const net = pick(random, nets);
    const [doubt_V, meter_Mohm] = [0.3, 10];
    const { unit, fault } = drawByOdds(net, random);
    const read = readUnit(net, unit, meter_Mohm);
    if (!read) return undefined;
    // Beside the meter's doubt, what no net list describes: 2 mV and 0.1 %, as docs/decisions/suspects.md says.
    const scatter_V = (value: number) => Math.hypot(doubt_V / 1.96, 0.002 + 0.001 * Math.abs(value));
    const measured = Object.fromEntries(
      Object.entries(read).map(([point, value]) => [point, value + random.normal(0, scatter_V(value))]),
    );
    return {
      input: { netlist: written(net), measured, doubt_V, meter_Mohm },
      said: ({ suspects: [first, ...later], goodChance, state }): Said[] => [
        ...(fault
          ? []
          : [
              { what: "goodChance over 0.05 of good units", stated: 0.95, isTrue: goodChance > 0.05, atLeast: true },
              { what: "good units not called faulty", stated: 0.99, isTrue: state !== "faulty", atLeast: true },
            ]),
        ...(first ? [odds("odds of the first suspect", first.odds, isNamed(fault, first))] : []),
        ...later.slice(0, 5).map((one) => odds("odds of a later suspect", one.odds, isNamed(fault, one))),
      ],
    };
  },
});

type Named = Pick<Fault, "part" | "fault"> & FaultDetail;

function isNamed(truth: Fault | undefined, { part, fault, with: other, between, winding }: Named): boolean {
  const named = { part, fault, with: other, between, winding };
  return (
    truth !== undefined &&
    isDeepStrictEqual(named, { ...noDetail, part: truth.part, fault: truth.fault, ...truth.also })
  );
}

const noDetail = { with: undefined, between: undefined, winding: undefined };

export const circuits: readonly Calibration[] = [dead, windows, yields, faults];
