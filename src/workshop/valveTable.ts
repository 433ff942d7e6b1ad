import type { BodyOf, Evidence } from "../claims/evidence.ts";
import type { Calculate } from "./calculate.ts";
import { groupBy } from "./groupBy.ts";
import type { ValvePlace } from "./valvePlaces.ts";

type Reading = Evidence<"valve-reading">;

interface SectionDrift {
  readonly name: string;
  readonly drift_pct?: number;
  readonly doubt_pct?: number;
  /** Put right by the reference valve. */
  readonly cold_mA?: number;
  readonly hot_mA?: number;
  readonly settling?: { readonly reason: string };
}

export interface ValveVerdict {
  readonly id: string;
  readonly verdict: "use" | "hold" | "reject";
  readonly reasons: readonly string[];
  readonly sections: readonly SectionDrift[];
  readonly sectionSpread_pct?: number;
  readonly doubt?: { readonly sectionSpread_pct: number };
  /** One for each place asked about. */
  readonly advice?: readonly {
    readonly position: string;
    readonly serves: "yes" | "no" | "undecided";
    readonly reasons: readonly string[];
    readonly shifts: readonly {
      readonly section: string;
      readonly biasShift_V: number;
      readonly doubt: { readonly biasShift_V: number };
    }[];
  }[];
}

/** What was read of the valves of one type: the readings that count, and the reference valve's beside them. */
export interface TypeReadings {
  readonly limits: BodyOf<"valve-limits">;
  readonly byValve: ReadonlyMap<string, readonly Reading[]>;
  readonly reference: readonly Evidence<"reference-reading">[];
}

/** Verdicts of valves of a type around their heat run; one without readings has none. */
export async function verdictsOf(
  readings: TypeReadings,
  calculate: Calculate,
  places: readonly ValvePlace[] = [],
): Promise<readonly ValveVerdict[]> {
  const valves = [...readings.byValve].map(([id, entries]) => ({
    id,
    type: readings.limits.type,
    sections: [
      ...groupBy(
        entries.filter(({ body }) => body.phase !== "curve"),
        ({ body }) => body.section,
      ),
    ].map(([name, taken]) => ({
      name,
      readings: taken.map(({ body }) => ({
        time_h: body.time_h,
        phase: body.phase,
        plate_mA: body.plate_mA,
        ...(body.gm_mS !== undefined && { gm_mS: body.gm_mS }),
        ...(body.gridCurrent_uA !== undefined && { gridCurrent_uA: body.gridCurrent_uA }),
        ...(body.leakage_uA !== undefined && { leakage_uA: body.leakage_uA }),
      })),
    })),
  }));
  const known = valves.filter((valve) => valve.sections.length > 0);
  if (known.length === 0 || readings.reference.length === 0) return [];
  const { limits } = readings;
  const answer = await calculate<{ valves: ValveVerdict[] }>("valves.verdict", {
    limits: limits.limits,
    reference: readings.reference.map(({ body }) => ({ time_h: body.time_h, plate_mA: body.plate_mA })),
    referenceTrue_mA: limits.referenceTrue_mA,
    reading_doubt_pct: limits.reading_doubt_pct,
    ...(places.length > 0 && { positions: places }),
    valves: known,
  });
  return answer.valves;
}
