import { BadInput } from "../maths/badInput.ts";
import type { Diffusivity } from "./face.ts";
import { type OwnWood, ownSpecies, tellsMovement, usualDoubt } from "./ownWood.ts";
import { type Species, speciesNamed } from "./species.ts";

export type DiffusivityLaw =
  | { readonly kind: "constant"; readonly m2_per_s: number }
  | {
      readonly kind: "arrhenius";
      readonly d0_m2_per_s: number;
      readonly activation_K: number;
      /** Of moisture as a share: exp(moistureFactor·M/100). */
      readonly moistureFactor: number;
    };

/**
 * Diffusion of moisture across the grain of northern red oak, drying.
 *
 * @source  W. T. Simpson and J. Y. Liu, Wood and Fiber Science 29(4), 1997 (regression read in a public calculation)
 */
const redOak: DiffusivityLaw = {
  kind: "arrhenius",
  d0_m2_per_s: 19.2e-4,
  activation_K: 5280,
  moistureFactor: 1.15,
};

/** A wood's diffusivity against red oak's is known no better than by this factor either way (95 %). */
const factorDoubt = 2;

export interface KnownDiffusivity {
  readonly law: DiffusivityLaw;
  readonly factor: number;
  /** Factor, either way, that holds 95 %; 1 where the law is the caller's. */
  readonly doubt: number;
  readonly species?: Species;
  readonly note: string;
}

/** D at a temperature, times the factor of the piece. */
export function diffusivityAt(law: DiffusivityLaw, factor: number, temperature_C: number): Diffusivity {
  return law.kind === "constant"
    ? { base_m2_per_s: factor * law.m2_per_s, slope_per_pct: 0 }
    : {
        base_m2_per_s: factor * law.d0_m2_per_s * Math.exp(-law.activation_K / (temperature_C + 273.15)),
        slope_per_pct: law.moistureFactor / 100,
      };
}

/**
 * The law and factor of a piece from what is said of it: a law of its own, a species, or density with a factor.
 *
 * @throws BadInput  nothing of these, or an unknown species
 * @remarks The factor of a species or density is a judgement: 1 for dense and for ring-porous woods, up to 3 for light
 *   diffuse-porous ones.
 */
export function knownDiffusivity(piece: {
  readonly species?: string;
  /** In place of the catalogue's: the wood as the shop measured it. */
  readonly wood?: OwnWood;
  readonly density_kg_m3?: number;
  readonly diffusionFactor?: number;
  readonly diffusivity?: DiffusivityLaw;
}): KnownDiffusivity {
  const { diffusivity, wood, density_kg_m3 = wood?.density_kg_m3, diffusionFactor } = piece;
  const species = speciesAmong(piece);
  const its = species ? { species } : {};
  if (diffusivity) {
    return {
      ...its,
      law: diffusivity,
      factor: diffusionFactor ?? 1,
      doubt: 1,
      note: "The diffusivity given is used as it stands.",
    };
  }
  if (!species && density_kg_m3 === undefined && diffusionFactor === undefined) {
    throw new BadInput(
      "species",
      "nothing",
      "a species, or density_kg_m3 with diffusionFactor, or diffusivity",
      "say what wood it is",
    );
  }
  const factor =
    diffusionFactor ?? usualFactor(species?.density_kg_m3 ?? density_kg_m3 ?? 650, species?.porous === "ring");
  return {
    ...its,
    law: redOak,
    factor,
    doubt: diffusionFactor === undefined ? factorDoubt * byDensity(wood) : 1,
    note:
      diffusionFactor === undefined
        ? `Diffusivity is northern red oak's times ${factor}, a judgement good to a factor of ${factorDoubt}; two or three weighings with the oven-dry mass would tell.`
        : `Diffusivity is northern red oak's times the factor given, ${factor}.`,
  };
}

/** The catalogue's, or the shop's own where it tells how far it moves. */
function speciesAmong({ species, wood }: { readonly species?: string; readonly wood?: OwnWood }): Species | undefined {
  if (wood) return tellsMovement(wood) ? ownSpecies(species ?? "the shop's own wood", wood) : undefined;
  return species === undefined ? undefined : speciesNamed(species);
}

/** Factor by which the diffusivity's may be further off, as far as the density is in doubt. */
function byDensity(wood: OwnWood | undefined): number {
  if (!wood) return 1;
  const { density_kg_m3: mean, densityDoubt_kg_m3: doubt = usualDoubt.ofDensity * mean } = wood;
  const factor = usualFactor(mean, false);
  return Math.max(usualFactor(mean - doubt, false) / factor, factor / usualFactor(mean + doubt, false));
}

function usualFactor(density_kg_m3: number, isRingPorous: boolean): number {
  if (isRingPorous || density_kg_m3 >= 650) return 1;
  if (density_kg_m3 >= 550) return 1.5;
  return density_kg_m3 >= 450 ? 2 : 3;
}
