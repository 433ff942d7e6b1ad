import type { BodyOf } from "../../claims/evidence.ts";
import type { Yard } from "../../claims/timber/yard.ts";
import type { Calculate } from "../calculate.ts";
import { meanAir } from "./placeAir.ts";

/** No finish cures in air colder than this. */
const coldest_C = 5;

/** Air of the room that coats are put on in, where it is logged and not too cold for any finish. */
export function coatingAir(yard: Yard, at: string) {
  const room = [...yard.places].find(([name, { what }]) => what === "room" && yard.airOf(name).length > 0)?.[0];
  const air = room === undefined ? undefined : meanAir(yard, room, Date.parse(at));
  return air && air.temperature_C >= coldest_C ? air : undefined;
}

/** Hours until a coat is hard: what its tin says, longer in the cool or damp air of the room it was put on in. */
export async function hardAfter_h(
  yard: Yard,
  { at, finish, hardens_h }: { readonly at: string } & Pick<BodyOf<"coat">, "finish" | "hardens_h">,
  calculate: Calculate,
): Promise<number> {
  const air = coatingAir(yard, at);
  if (!air) return hardens_h;
  const { hard_h } = await calculate<{ hard_h: number }>("timber.finish", {
    coats: [{ finish, coats: 1 }],
    ...air,
    cure: { [finish]: { hard_h: hardens_h, handle_h: 0 } },
  });
  // A warm room is no reason to hurry: what the tin says is the least.
  return Math.max(hardens_h, hard_h);
}
