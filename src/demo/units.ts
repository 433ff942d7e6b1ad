import type { Random } from "../maths/random.ts";
import { boreWiring } from "./models/bore.ts";
import { ebbWiring } from "./models/ebb.ts";
import { floodWiring } from "./models/flood.ts";
import type { ModelName } from "./models/models.ts";
import { neapWiring } from "./models/neap.ts";
import { type ChannelTraits, channelPhysics } from "./physics/channel.ts";
import type { ChannelPhysics } from "./physics/humLines.ts";
import type { Wiring } from "./physics/workingPoint.ts";
import type { UnitTruth, ValveTruth } from "./truth.ts";

/** What a unit brings of its own: where it was built well, and where not. Levels in µV at the output, 50 Hz. */
export interface UnitPlan {
  readonly unit: string;
  readonly model: ModelName;
  readonly fitted: Readonly<Record<string, string>>;
  readonly channels: Readonly<
    Record<
      string,
      {
        /** Orders 1, 3 and 5 of the building's field. */
        readonly field_uVrms: readonly [number, number, number];
        /** Orders 2, 4 and 6 of the supply. */
        readonly ripple_uVrms: readonly [number, number, number];
        readonly winding_uVrms: number;
        /** Earth path shared with the reservoir's charging pulses. */
        readonly charging_mohm?: number;
      }
    >
  >;
  readonly reservoir?: UnitTruth["reservoir"];
  readonly control?: UnitTruth["control"];
}

export const wirings: Readonly<Record<UnitPlan["model"], Wiring>> = {
  Ebb: ebbWiring,
  Neap: neapWiring,
  Flood: floodWiring,
  Bore: boreWiring,
};
export const hissCorner_Hz: Readonly<Record<UnitPlan["model"], number>> = {
  Ebb: 700,
  Neap: 600,
  Flood: 900,
  Bore: 900,
};

export function buildUnit(plan: UnitPlan, valves: ReadonlyMap<string, ValveTruth>, chance: Random): UnitTruth {
  const wiring = wirings[plan.model];
  const draw = chance.fork(`unit ${plan.unit}`);
  const resistors = resistorsOf(wiring, draw.fork("resistors"));
  const fitted = valvesAt(plan.fitted, valves);
  const channels = wiring.channels.map((channel): ChannelPhysics => {
    const own = plan.channels[channel]!;
    const near = draw.fork(channel);
    const traits: ChannelTraits = {
      channel,
      field: [1, 3, 5].map((order, i) => ({ order, level_Vrms: 1e-6 * own.field_uVrms[i]! * near.normal(1, 0.05) })),
      ripple: [2, 4, 6].map((order, i) => ({ order, level_Vrms: 1e-6 * own.ripple_uVrms[i]! * near.normal(1, 0.05) })),
      winding_Vrms: 1e-6 * own.winding_uVrms * near.normal(1, 0.05),
      hissCorner_Hz: hissCorner_Hz[plan.model] * near.normal(1, 0.15),
      hissExcess: near.normal(1.1, 0.03),
      ...(own.charging_mohm !== undefined && { charging_ohm: own.charging_mohm / 1000 }),
    };
    return channelPhysics(wiring, resistors, fitted, traits);
  });
  const { unit, model, reservoir, control } = plan;
  return { unit, model, resistors, channels, ...(reservoir && { reservoir }), ...(control && { control }) };
}

/** One-percent resistors are as good as their print says: a third of it is one standard deviation. */
export function resistorsOf(wiring: Wiring, draw: Random): Readonly<Record<string, number>> {
  const parts = wiring.netlist.parts as readonly { id: string; kind: string; tolerance?: number; stage?: string }[];
  return Object.fromEntries(
    parts
      .filter(({ kind, stage }) => kind === "resistor" && stage !== "heaters")
      .map(({ id, tolerance = 0.05 }) => [id, 1 + draw.fork(id).normal(0, tolerance / 3.5)]),
  );
}

export function valvesAt(
  fitted: Readonly<Record<string, string>>,
  valves: ReadonlyMap<string, ValveTruth>,
): Readonly<Record<string, ValveTruth>> {
  return Object.fromEntries(
    Object.entries(fitted).map(([position, id]) => {
      const valve = valves.get(id);
      if (!valve) throw new RangeError(`no valve ${id} on the shelf`);
      return [position, valve];
    }),
  );
}
