import type { Yard } from "../../claims/timber/yard.ts";
import { meanAir } from "./placeAir.ts";

/** What a piece would see in a place from now on: the mean air of its last day, on a plate that of the room. */
export function placeStage(timber: Yard, place: string, to_ms: number) {
  const known = timber.places.get(place);
  if (!known) return undefined;
  const { what, faces, set_C } = known;
  const lies = what === "plate" || what === "amplifier";
  if (lies && set_C === undefined) return undefined;
  const room = [...timber.places].find(([name, one]) => one.what === "room" && timber.airOf(name).length > 0)?.[0];
  const air = meanAir(timber, place, to_ms) ?? (lies && room !== undefined ? meanAir(timber, room, to_ms) : undefined);
  return air && { ...air, ...(lies ? { plate_C: set_C } : { faces }) };
}
