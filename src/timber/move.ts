import { BadInput, quote } from "../maths/badInput.ts";
import { acrossWidth, boardsDiffer, type Coefficients, coefficientsOf } from "./coefficients.ts";
import { pithIsWithin, ringCup_mm } from "./cup.ts";
import { type OwnWood, speciesOf } from "./ownWood.ts";

export interface Step {
  readonly species?: string;
  /** In place of the catalogue's: the wood as the shop measured it. */
  readonly wood?: OwnWood;
  readonly width_mm: number;
  /** 0 flat-sawn, 90 quarter-sawn. */
  readonly ringAngle_deg: number;
  readonly from_pct: number;
  readonly to_pct: number;
  readonly tangential_per_pct?: number;
  readonly radial_per_pct?: number;
  /** From the pith to the middle of the board's face. */
  readonly pith_mm?: number;
}

export interface Range {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface Movement {
  readonly change_mm: Range;
  readonly cup_mm?: Range;
  readonly best: Coefficients;
  readonly notes: readonly string[];
}

/**
 * How far a board grows or shrinks across its width between two moistures, and how far it cups.
 *
 *     change = width·(C_T·cos²θ + C_R·sin²θ)·(to − from)
 *
 * @returns mm, positive when wider; low and high span what sources and boards of a species differ by (95 %)
 * @throws BadInput  an unknown species without both coefficients, or a number out of range
 * @remarks Coefficients hold from 6 to 14 % moisture; coefficients given in the input are used as they stand, without
 *   a range. Above fibre saturation wood does not move, which widens the range there.
 * @source  Wood Handbook, FPL-GTR-190, eq. 13-2, tables 13-5, 4-3, 4-4
 * @example move({ species: "white fir", width_mm: 232, ringAngle_deg: 0, from_pct: 8, to_pct: 11,
 *   tangential_per_pct: 0.00245, radial_per_pct: 0.00112 }) // change 1.7
 */
export function move(step: Step): Movement {
  requirePlausible(step);
  const { width_mm, ringAngle_deg, from_pct, to_pct, pith_mm } = step;
  const known = knownFor(step);
  const all = known.bySource.flatMap((one) =>
    known.shares.map((share) => ({
      ...scaled(one, share, step),
    })),
  );
  const { saturation_pct } = known;
  const kept_pct = Math.min(to_pct, saturation_pct) - Math.min(from_pct, saturation_pct);
  const spanned = (drop_pct: number, of: (c: Coefficients, d: number) => number, best: number): Range => {
    const values = [best, ...all.flatMap((one) => [of(one, drop_pct), of(one, -kept_pct)])];
    return { value: best, low: Math.min(...values), high: Math.max(...values) };
  };
  const change = (c: Coefficients, drop_pct: number) => -width_mm * acrossWidth(c, ringAngle_deg) * drop_pct;
  const cup = (c: Coefficients, drop_pct: number) => ringCup_mm(c, width_mm, pith_mm ?? 0, drop_pct, ringAngle_deg);
  const drop_pct = from_pct - to_pct;
  const hasCup = pith_mm !== undefined && !pithIsWithin(width_mm, pith_mm, ringAngle_deg);
  return {
    change_mm: spanned(drop_pct, change, change(known.best, drop_pct) + 0),
    ...(hasCup ? { cup_mm: spanned(drop_pct, cup, cup(known.best, drop_pct)) } : {}),
    best: known.best,
    notes: [
      ...known.notes,
      ...(Math.min(from_pct, to_pct) < 6 || Math.max(from_pct, to_pct) > 14
        ? ["Coefficients hold from 6 to 14 % moisture; beyond, take the figure as a guide."]
        : []),
      ...(Math.max(from_pct, to_pct) > saturation_pct
        ? [`Above about ${saturation_pct} % (fibre saturation) wood does not move; the range allows for that.`]
        : []),
      ...(hasCup
        ? ["Cup is that of the rings alone; one percent of moisture between the faces can bend a board more."]
        : [
            pith_mm === undefined
              ? "Cup is left out: it needs pith_mm, the distance from the pith to the board's face."
              : "Cup is left out: the pith lies within the board's width, where its rings have no one angle; such a board splits along the pith.",
          ]),
    ],
  };
}

interface Known {
  readonly best: Coefficients;
  readonly bySource: readonly Coefficients[];
  readonly shares: readonly number[];
  readonly saturation_pct: number;
  readonly notes: readonly string[];
}

function knownFor(step: Step): Known {
  const { tangential_per_pct, radial_per_pct } = step;
  if (tangential_per_pct !== undefined && radial_per_pct !== undefined) {
    const best = { tangential_per_pct, radial_per_pct };
    return {
      best,
      bySource: [best],
      shares: [1],
      saturation_pct: Number.POSITIVE_INFINITY,
      notes: [
        "The coefficients given are used as they stand; their own doubt is not known, so low and high are equal to the figure.",
      ],
    };
  }
  if (step.species === undefined && !step.wood) {
    throw new BadInput(
      "species",
      "nothing",
      "a species, a wood of the shop's own, or both coefficients",
      "name the species, or give wood, or tangential_per_pct and radial_per_pct",
    );
  }
  const one = speciesOf(step.species ?? "the shop's own wood", step.wood);
  const { best, bySource } = coefficientsOf(one);
  const spread = Math.max(
    ...bySource.map((c) => Math.abs(acrossWidth(c, step.ringAngle_deg) / acrossWidth(best, step.ringAngle_deg) - 1)),
  );
  const differ = boardsDiffer(one, step.ringAngle_deg);
  return {
    best: scaled(best, 1, step),
    bySource,
    shares: [Math.max(0, 1 - differ), 1 + differ],
    saturation_pct: one.fibreSaturation_pct,
    notes: [
      `Coefficients of ${one.name.toLowerCase()} from ${[...new Set(bySource.map(({ source }) => source))].join("; ")}. ${step.wood ? "Boards, with the doubt of that mean," : "Boards of one species"} differ by some ${Math.round(100 * differ)} % (95 %).`,
      ...(spread > 0.05 ? [`The sources differ by up to ${Math.round(100 * spread)} %; low and high span them.`] : []),
    ],
  };
}

/** A source's coefficients for boards that move more or less than its mean; what the input gives stands. */
function scaled(c: Coefficients, share: number, given: Step): Coefficients {
  return {
    tangential_per_pct: given.tangential_per_pct ?? share * c.tangential_per_pct,
    radial_per_pct: given.radial_per_pct ?? share * c.radial_per_pct,
  };
}

function requirePlausible(step: Step): void {
  const within = (name: keyof Step, low: number, high: number, mend: string) => {
    const value = step[name];
    if (value === undefined || (typeof value === "number" && value >= low && value <= high)) return;
    throw new BadInput(name, quote(value), `${low} to ${high}`, mend);
  };
  within("width_mm", 0, 1e5, "give the width across the grain in millimetres");
  within("ringAngle_deg", 0, 90, "give 0 for flat-sawn, 90 for quarter-sawn");
  within("from_pct", 0, 200, "give percent of oven-dry mass");
  within("to_pct", 0, 200, "give percent of oven-dry mass");
  within("tangential_per_pct", 0, 0.02, "give the share per percent of moisture, 0.0025 for a quarter of a percent");
  within("radial_per_pct", 0, 0.02, "give the share per percent of moisture, 0.0013 for instance");
  if (step.pith_mm !== undefined && !(step.pith_mm > 0 && step.pith_mm <= 1e5)) {
    throw new BadInput("pith_mm", quote(step.pith_mm), "above 0, up to 100000", "give the distance from pith to face");
  }
}
