import { BadInput, quote } from "../maths/badInput.ts";
import data from "./species.json" with { type: "json" };

export interface Shrinkage {
  readonly radial_pct?: number;
  readonly tangential_pct?: number;
  readonly source: string;
}

/** 95 % half-widths of a mean, and the product that both have in common. */
export interface MovementDoubt {
  readonly tangential_per_pct: number;
  readonly radial_per_pct: number;
  readonly shared_per_pct2: number;
}

export interface Species {
  readonly name: string;
  readonly also: readonly string[];
  readonly latin: string;
  /** Change of a dimension, as a share of it, for each percent of moisture between 6 and 14 %. */
  readonly coefficient?: {
    readonly radial_per_pct?: number;
    readonly tangential_per_pct?: number;
    readonly source: string;
  };
  /** Of a wood that the shop measured itself. */
  readonly coefficientDoubt?: MovementDoubt;
  /** Green to oven-dry. */
  readonly shrinkage?: Shrinkage;
  readonly otherShrinkage?: readonly Shrinkage[];
  readonly fibreSaturation_pct: number;
  /** At about 12 % moisture. */
  readonly density_kg_m3?: number;
  readonly porous: string;
  readonly bendingModulus_MPa?: number;
  readonly tensionAcross_MPa?: number;
  readonly tangentialOverLong?: number;
}

/** Compiled from the tables named in `reference/timber.json`; densities at 12 % from specific gravity there. */
export const species = data as readonly Species[];

/**
 * The species of that English name, letter case, hyphens and accents aside.
 *
 * @throws BadInput  at `path`, when no species or alias has that name
 */
export function speciesNamed(name: string, path = "species"): Species {
  const found = listed(name);
  if (found) return found;
  throw new BadInput(
    path,
    quote(name),
    `one of ${species.map((one) => one.name.toLowerCase()).join(", ")}`,
    "choose one of these; or, for a wood the catalogue lacks, leave species out and give density_kg_m3 (drying) or its own coefficients (movement)",
  );
}

/** Whether the catalogue has a species of that name. */
export function isListed(name: string): boolean {
  return listed(name) !== undefined;
}

function listed(name: string): Species | undefined {
  return species.find((one) => [one.name, ...one.also].some((known) => plainName(known) === plainName(name)));
}

/** A name without letter case, accents, hyphens or what stands in brackets. */
export function plainName(name: string): string {
  return name
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/\(.*\)/, "")
    .replace(/[\s-]+/g, " ")
    .trim();
}
