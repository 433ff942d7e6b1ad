import type { Shop } from "../../claims/index.ts";
import type { CrackLookBackView } from "../timber/views.ts";
import type { WhatIfOptionsView } from "./views.ts";

/** Of what a place ever showed, so much must have shown by the hour at which pieces are taken off. */
const shown = 0.95;
/** Pieces are laid on and taken off once a day. */
const round_h = 24;

/**
 * A shorter stay on the plate, where the record of cracks says that the rest of it shows nothing: the whole days by which
 * 19 of 20 cracks that the plate ever showed had shown.
 */
export function suggestedChanges(shop: Shop, cracks: CrackLookBackView): WhatIfOptionsView["suggested"] {
  const points = cracks.plate.find(({ species }) => species === undefined)?.points ?? [];
  const last = points.at(-1);
  if (!last || last.survival >= 1) return [];
  const share = (survival: number) => (1 - survival) / (1 - last.survival);
  const by = points.find(({ survival }) => share(survival) >= shown);
  if (!by) return [];
  const enough_h = Math.max(1, Math.ceil(by.hours / round_h)) * round_h;
  const plates = new Set([...shop.timber.places].filter(([, { what }]) => what === "plate").map(([place]) => place));
  return (shop.shop?.places ?? []).flatMap(({ id, cycle_h }) => {
    if (!plates.has(id) || cycle_h === undefined || enough_h >= cycle_h) return [];
    return [
      {
        title: `${id}: ${enough_h} h instead of ${cycle_h} h`,
        because: `${shareWords(share(by.survival))} that it ever showed had shown by ${Math.round(by.hours)} h.`,
        change: { kind: "place" as const, place: id, cycle_h: enough_h },
      },
    ];
  });
}

function shareWords(share: number): string {
  return share > 0.995 ? "Every crack" : `${Math.round(100 * share)} of 100 cracks`;
}
