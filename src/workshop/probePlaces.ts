import type { Model } from "../claims/evidence.ts";

/** A test point as a net list writes it: a bare node, or a name with its place. */
export interface TestPoint {
  readonly point: string;
  readonly node: string;
  readonly stage?: string;
  readonly channel?: string;
  readonly x_mm?: number;
  readonly y_mm?: number;
}

export type Placed = TestPoint & { readonly x_mm: number; readonly y_mm: number };

const column_mm = 70;
const row_mm = 34;
const beside_mm = 26;

/** The test points of a net list, whatever else stands in it. */
export function testPointsOf(netlist: Readonly<Record<string, unknown>>): readonly TestPoint[] {
  const given = netlist.testPoints;
  if (!Array.isArray(given)) return [];
  return given.flatMap((one: unknown): TestPoint[] => {
    if (typeof one === "string") return [{ point: one, node: one }];
    if (typeof one !== "object" || one === null) return [];
    const { name, node, stage, channel, x_mm, y_mm } = one as Record<string, unknown>;
    if (typeof name !== "string" || typeof node !== "string") return [];
    return [
      {
        point: name,
        node,
        ...(typeof stage === "string" && { stage }),
        ...(typeof channel === "string" && { channel }),
        ...(typeof x_mm === "number" && { x_mm }),
        ...(typeof y_mm === "number" && { y_mm }),
      },
    ];
  });
}

/**
 * Where each point lies. A model that names no places, or only some, is laid out as a chassis mostly is: a column a
 * channel with what serves both in the middle, the first stage at the back.
 */
export function placedPoints(points: readonly TestPoint[]): {
  readonly isModels: boolean;
  readonly points: readonly Placed[];
} {
  const isPlaced = (point: TestPoint): point is Placed => point.x_mm !== undefined && point.y_mm !== undefined;
  if (points.every(isPlaced)) return { isModels: points.length > 0, points };
  const channels = [...new Set(points.map(({ channel }) => channel ?? "both"))].filter((name) => name !== "both");
  const half = Math.ceil(channels.length / 2);
  const columns = [...channels.slice(0, half), "both", ...channels.slice(half)];
  const stages = [...new Set(points.map(({ stage }) => stage ?? ""))];
  const seats = new Map<string, number>();
  return {
    isModels: false,
    points: points.map((point) => {
      const column = columns.indexOf(point.channel ?? "both");
      const row = stages.indexOf(point.stage ?? "");
      const seat = `${column} ${row}`;
      const taken = seats.get(seat) ?? 0;
      seats.set(seat, taken + 1);
      return {
        ...point,
        x_mm: column * column_mm + (taken % 2) * beside_mm,
        y_mm: (stages.length - 1 - row) * row_mm - Math.floor(taken / 2) * beside_mm,
      };
    }),
  };
}

/** Every node that a part's ends are joined to, whatever its kind calls them. */
export function nodesOf(part: Readonly<Record<string, unknown>>): readonly string[] {
  const ends = ["plate", "grid", "cathode", "screen", "drain", "gate", "source", "collector", "base", "emitter"];
  const between = (holder: unknown) =>
    typeof holder === "object" && holder !== null && Array.isArray((holder as { between?: unknown }).between)
      ? (holder as { between: unknown[] }).between
      : [];
  const windings = Array.isArray(part.windings) ? part.windings.flatMap(between) : [];
  return [...ends.map((end) => part[end]), ...between(part), ...windings].filter((node) => typeof node === "string");
}

/** The node that all voltages and resistances are read against. */
export function groundOf({ netlist }: Pick<Model, "netlist">): string {
  return typeof netlist.ground === "string" ? netlist.ground : "0";
}
