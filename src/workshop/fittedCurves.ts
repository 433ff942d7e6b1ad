import type { Model } from "../claims/evidence.ts";
import { testerFrom } from "../valves/index.ts";
import type { Calculate } from "./calculate.ts";
import { groupBy } from "./groupBy.ts";
import type { TypeReadings } from "./valveTable.ts";

interface CurvedPart {
  readonly id: string;
  readonly kind?: string;
}

export interface ValveCurves {
  readonly id: string;
  /** A curve for each section of the position. */
  readonly models: Readonly<Record<string, object>>;
}

/** A position of a model: section name to the net list's part. */
type Sections = Readonly<Record<string, string>>;

/** Fewer points than these say too little of a curve. */
const leastPoints = 3;

/** Valves with a curve for each section, fitted to their own readings put right; those with too few are left out. */
export async function withCurves(
  valves: readonly string[],
  sections: Sections,
  readings: TypeReadings,
  calculate: Calculate,
  kind: "triode" | "pentode" = "triode",
): Promise<readonly ValveCurves[]> {
  const { limits, reference } = readings;
  const taken = reference.map(({ body }) => ({ time_h: body.time_h, plate_mA: body.plate_mA }));
  // Without its reference valve the tester is taken at its word.
  const tester = taken.length > 0 ? testerFrom(taken, limits.referenceTrue_mA) : undefined;
  const drawn = await Promise.all(
    valves.map(async (id): Promise<ValveCurves | undefined> => {
      const bySection = groupBy(readings.byValve.get(id) ?? [], ({ body }) => body.section);
      const models: Record<string, object> = {};
      for (const section of Object.keys(sections)) {
        const points = (bySection.get(section) ?? [])
          .filter(({ body }) => body.phase !== "cold" && (kind === "triode" || body.screen_V !== undefined))
          .map(({ body }) => ({
            plate_V: body.plate_V,
            grid_V: body.grid_V,
            plate_mA: body.plate_mA / (tester?.factorAt(body.time_h).value ?? 1),
            ...(body.screen_V !== undefined && { screen_V: body.screen_V }),
            ...(body.screen_mA !== undefined && { screen_mA: body.screen_mA }),
          }));
        if (points.length < leastPoints) return undefined;
        models[section] = (
          await calculate<{ model: object }>("valves.fit", {
            type: readings.limits.type,
            kind,
            points,
            curveOnly: true,
          })
        ).model;
      }
      return { id, models };
    }),
  );
  return drawn.filter((valve) => valve !== undefined);
}

/** What kind of valve the net list draws at a position. */
export function kindAt(model: Model, sections: Sections): "triode" | "pentode" {
  const named = new Set(Object.values(sections));
  return partsOf(model).some(({ id, kind }) => named.has(id) && kind === "pentode") ? "pentode" : "triode";
}

/**
 * How far a measured valve may stand from its own fitted curve once it glows in the chassis, as the 99 % half-widths
 * of a net list: another heater voltage, another warmth, the points left unread. Common practice, no source.
 */
const fromTesterToChassis = { current: 0.06, mu: 0.03 };

/** What a net list says of a measured valve: the type's own spread no longer counts, only what its readings leave open. */
function measuredTolerance(reading_doubt_pct: number): { readonly current: number; readonly mu: number } {
  const { current, mu } = fromTesterToChassis;
  return { current: Math.min(1, Math.hypot(current, (1.32 * reading_doubt_pct) / 100)), mu };
}

export interface FittedNetlist {
  readonly netlist: Readonly<Record<string, unknown>>;
  /** Positions whose valve is drawn by its own readings; at the others the type's printed curve stands. */
  readonly drawn: ReadonlySet<string>;
}

/** A model's net list with the valves that stand in it, each drawn by its own readings where there are enough. */
export async function fittedNetlist(
  model: Model,
  fitted: Readonly<Record<string, string>>,
  readingsOf: (type: string, valve: string) => TypeReadings | undefined,
  calculate: Calculate,
): Promise<FittedNetlist> {
  const curves = new Map<string, { readonly model: object; readonly tolerance: object }>();
  const drawn = new Set<string>();
  for (const { position, type, sections } of model.positions) {
    const valve = fitted[position];
    const readings = valve === undefined ? undefined : readingsOf(type, valve);
    if (valve === undefined || !readings) continue;
    const [own] = await withCurves([valve], sections, readings, calculate, kindAt(model, sections));
    if (!own) continue;
    drawn.add(position);
    for (const [section, part] of Object.entries(sections)) {
      const curve = own.models[section];
      if (!curve) continue;
      curves.set(part, { model: curve, tolerance: measuredTolerance(readings.limits.reading_doubt_pct) });
    }
  }
  return {
    netlist: {
      ...model.netlist,
      parts: partsOf(model).map((part) => ({ ...part, ...curves.get(part.id) })),
    },
    drawn,
  };
}

function partsOf({ netlist }: Model): readonly CurvedPart[] {
  return Array.isArray(netlist.parts) ? (netlist.parts as readonly CurvedPart[]) : [];
}
