import type { Yard } from "../../claims/timber/yard.ts";
import { type OwnWood, tellsMovement } from "../../timber/index.ts";
import { isListed } from "../../timber/species.ts";

interface Named {
  readonly species: string;
  /** Of the very piece. */
  readonly density_kg_m3?: number;
}

/** What stands beside `species` in a question: the wood as the shop measured it, lighter or denser where the piece is. */
export function ownWoodOf(timber: Yard, { species, density_kg_m3 }: Named): { readonly wood?: OwnWood } {
  const entry = timber.woodOf(species);
  if (!entry) return {};
  const { kind: _, species: __, basis: ___, supersedes: ____, ...wood } = entry.body;
  return { wood: density_kg_m3 === undefined ? wood : { ...wood, density_kg_m3 } };
}

/** Whether nobody knows how far a wood moves: neither the catalogue nor the shop. */
export function lacksMovement(timber: Yard, { species }: Named): boolean {
  const own = timber.woodOf(species);
  return own ? !tellsMovement(own.body) : !isListed(species);
}

export function wantingMovement(species: string): string {
  return `No source tells how far ${species} moves: measure a piece of it across the grain at two moistures, and write the wood down.`;
}
