import { BadInput, quote } from "../maths/badInput.ts";
import { boardScatter } from "./coefficients.ts";
import { isListed, type MovementDoubt, type Species, speciesNamed } from "./species.ts";

/** One piece measured across the grain at two moistures. */
export interface MeasuredPair {
  /** 0 flat-sawn, 90 quarter-sawn. */
  readonly ringAngle_deg: number;
  readonly width_mm: number;
  readonly moisture_pct: number;
  readonly laterWidth_mm: number;
  readonly laterMoisture_pct: number;
  /** 95 % half-widths of a single reading. */
  readonly widthDoubt_mm?: number;
  readonly moistureDoubt_pct?: number;
}

/** A wood that the shop knows by its own measuring; doubts are 95 % half-widths. */
export interface OwnWood {
  /** At about 12 % moisture. */
  readonly density_kg_m3: number;
  readonly densityDoubt_kg_m3?: number;
  /** Percent of a dimension for each percent of moisture, along the rings and across them. */
  readonly tangential_pct_per_pct?: number;
  readonly tangentialDoubt_pct_per_pct?: number;
  readonly radial_pct_per_pct?: number;
  readonly radialDoubt_pct_per_pct?: number;
  readonly measured?: readonly MeasuredPair[];
}

/** What stands for a doubt that is left out: a calliper's reading, a moisture by an offcut (common practice, no source). */
export const usualDoubt = { ofCoefficient: 0.15, ofDensity: 0.1, width_mm: 0.05, moisture_pct: 0.3 } as const;

/**
 * Radial over tangential movement of woods at large, 95 %.
 *
 * @source  mean 0.60 and standard deviation 0.13 of the 22 woods of the catalogue with both coefficients (Wood
 *   Handbook, FPL-GTR-190, table 13-5)
 */
export const radialShare = { value: 0.6, doubt: 0.25 } as const;

/** Least change of moisture from which a movement is told. */
const leastStep_pct = 1;
/** Beyond any wood: the largest of the catalogue is 0.43 % per percent. */
const most_per_pct = 0.02;

/** Whether anything is said of how far it moves. */
export function tellsMovement(wood: OwnWood): boolean {
  const { tangential_pct_per_pct, radial_pct_per_pct, measured = [] } = wood;
  return tangential_pct_per_pct !== undefined || radial_pct_per_pct !== undefined || measured.length > 0;
}

/** The shop's own wood where it is given, else the catalogue's of that name. */
export function speciesOf(name: string, wood?: OwnWood, path = "species", woodPath = "wood"): Species {
  return wood ? ownSpecies(name, wood, woodPath) : speciesNamed(name, path);
}

/**
 * A wood of the shop's own as the catalogue would hold it, with the doubt of its mean.
 *
 *     a measured pair:   C(θ) = (Δwidth/width)/ΔM = C_T·cos²θ + C_R·sin²θ,   its board one of a species that scatters
 *     a coefficient:     C_T or C_R as stated
 *     at large:          C_R = (0.6 ± 0.25)·C_T, unless both are stated
 *
 * by least squares, each weighed by its doubt; the doubts of C_T, C_R and what they share follow.
 *
 * @throws BadInput  under `path`: nothing told of movement, a pair less than 1 % of moisture apart or that moves the
 *   wrong way or further than any wood
 * @remarks Pairs are taken as different boards. Valid from 6 to 14 % moisture, as table coefficients are.
 */
export function ownSpecies(name: string, wood: OwnWood, path = "wood"): Species {
  const rows = rowsOf(wood, path);
  const both = wood.tangential_pct_per_pct !== undefined && wood.radial_pct_per_pct !== undefined;
  let mean = { t: 0.0028, r: 0.0028 * radialShare.value };
  let doubt: MovementDoubt = { tangential_per_pct: 0, radial_per_pct: 0, shared_per_pct2: 0 };
  // A board scatters by a share of its movement, which is known once it is fitted.
  for (let i = 0; i < 8; i++) {
    const weighed = rows.map(({ doubtAt, ...row }) => ({ ...row, doubt: doubtAt(row.t * mean.t + row.r * mean.r) }));
    if (!both) weighed.push({ ...ratio, doubt: radialShare.doubt * mean.t });
    ({ mean, doubt } = leastSquares(weighed));
  }
  if (!(mean.t > 0 && mean.r > 0 && Math.max(mean.t, mean.r) <= most_per_pct)) {
    throw new BadInput(
      path,
      `${shown(mean.t)} along the rings and ${shown(mean.r)} across them by all that is given`,
      `both above 0, up to ${shown(most_per_pct)}`,
      "check ring angles, widths and moistures of the pieces measured",
    );
  }
  return {
    name,
    also: [],
    latin: "",
    coefficient: { tangential_per_pct: mean.t, radial_per_pct: mean.r, source: "the shop's own measuring" },
    coefficientDoubt: doubt,
    fibreSaturation_pct: 30,
    density_kg_m3: wood.density_kg_m3,
    porous: "not known",
  };
}

/**
 * Refuses a wood of the shop's own under a name that the catalogue has.
 *
 * @throws BadInput  at `species`, or what `ownSpecies` throws
 */
export function requireOwn(name: string, wood: OwnWood): void {
  if (isListed(name)) {
    throw new BadInput(
      "species",
      quote(name),
      "a wood that the catalogue lacks",
      "give the shop's own another name, such as with the valley it grew in",
    );
  }
  if (tellsMovement(wood)) ownSpecies(name, wood, "");
}

interface Row {
  readonly t: number;
  readonly r: number;
  readonly is: number;
}

const ratio: Row = { t: radialShare.value, r: -1, is: 0 };

function rowsOf(wood: OwnWood, path: string): (Row & { doubtAt(fitted_per_pct: number): number })[] {
  const { tangential_pct_per_pct: t, radial_pct_per_pct: r, measured = [] } = wood;
  const stated = (row: Omit<Row, "is">, value_pct?: number, doubt_pct?: number) =>
    value_pct === undefined
      ? []
      : [{ ...row, is: value_pct / 100, doubtAt: () => (doubt_pct ?? usualDoubt.ofCoefficient * value_pct) / 100 }];
  if (!tellsMovement(wood)) {
    throw new BadInput(
      within(path, "measured"),
      "nothing",
      "both coefficients, or a piece measured at two moistures",
      "measure one across the grain, dry it by 2 % or more, and measure it again",
    );
  }
  return [
    ...stated({ t: 1, r: 0 }, t, wood.tangentialDoubt_pct_per_pct),
    ...stated({ t: 0, r: 1 }, r, wood.radialDoubt_pct_per_pct),
    ...measured.map((pair, i) => rowOf(pair, within(path, `measured[${i}]`))),
  ];
}

function rowOf(pair: MeasuredPair, path: string) {
  const { ringAngle_deg, width_mm, moisture_pct, laterWidth_mm, laterMoisture_pct } = pair;
  const [step_pct, moved] = [laterMoisture_pct - moisture_pct, (laterWidth_mm - width_mm) / width_mm];
  if (Math.abs(step_pct) < leastStep_pct) {
    throw new BadInput(
      within(path, "laterMoisture_pct"),
      `${laterMoisture_pct} % after ${moisture_pct} %`,
      `${leastStep_pct} % of moisture apart, or more`,
      "dry or moisten the piece further, and measure it again",
    );
  }
  const is = moved / step_pct;
  if (!(is > 0 && is <= most_per_pct)) {
    throw new BadInput(
      within(path, "laterWidth_mm"),
      `${laterWidth_mm} mm after ${width_mm} mm, from ${moisture_pct} to ${laterMoisture_pct} %`,
      `wider when moister, narrower when drier, by up to ${shown(most_per_pct)}`,
      "check which width is which, and that both are across the grain in millimetres",
    );
  }
  const angle = (ringAngle_deg * Math.PI) / 180;
  const byWidth = (Math.SQRT2 * (pair.widthDoubt_mm ?? usualDoubt.width_mm)) / (width_mm * Math.abs(step_pct));
  const byMoisture = (Math.SQRT2 * (pair.moistureDoubt_pct ?? usualDoubt.moisture_pct)) / Math.abs(step_pct);
  return {
    t: Math.cos(angle) ** 2,
    r: Math.sin(angle) ** 2,
    is,
    doubtAt: (fitted: number) => Math.hypot(fitted * boardScatter, fitted * byMoisture, byWidth),
  };
}

function leastSquares(rows: readonly (Row & { readonly doubt: number })[]) {
  let [tt, tr, rr, ty, ry] = [0, 0, 0, 0, 0];
  for (const { t, r, is, doubt } of rows) {
    const weight = 1 / doubt ** 2;
    tt += weight * t * t;
    tr += weight * t * r;
    rr += weight * r * r;
    ty += weight * t * is;
    ry += weight * r * is;
  }
  const det = tt * rr - tr * tr;
  return {
    mean: { t: (rr * ty - tr * ry) / det, r: (tt * ry - tr * ty) / det },
    doubt: {
      tangential_per_pct: Math.sqrt(rr / det),
      radial_per_pct: Math.sqrt(tt / det),
      shared_per_pct2: -tr / det,
    },
  };
}

function within(path: string, field: string): string {
  return path === "" ? field : `${path}.${field}`;
}

function shown(per_pct: number): string {
  return `${Number((100 * per_pct).toFixed(3))} % per percent of moisture`;
}
