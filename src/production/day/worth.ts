import { BadInput, quote } from "../../maths/badInput.ts";
import { type Counted, type Odds, softened } from "../odds.ts";
import type { Suspected, Worth } from "./day.ts";

/** Hands are never asked for less than half a minute, so that an automatic check has a finite worth. */
const least_min = 0.5;

/**
 * What a check is expected to save, and which fault most of it comes from.
 *
 * @param known  counts softened before, as many checks share them
 */
export function worthOf(
  faults: readonly Suspected[],
  hands_min: number,
  at = "task",
  known = new Map<string, Odds>(),
): Worth {
  let saves_h = 0;
  let chief: Worth["chief"];
  let most = -1;
  faults.forEach(({ fault, odds, finds = 1, now_h, later_h }, k) => {
    const path = `${at}.faults[${k}]`;
    for (const [field, value] of Object.entries({ now_h, later_h })) {
      if (!(value >= 0 && value <= 1e6)) throw new BadInput(`${path}.${field}`, quote(value), "0 to 1e6", "give hours");
    }
    const there = oddsOf(odds, `${path}.odds`, known);
    const found = oddsOf(finds, `${path}.finds`, known);
    const part = there.odds * found.odds * Math.max(0, later_h - now_h);
    saves_h += part;
    if (part <= most) return;
    most = part;
    chief = {
      fault,
      odds: there,
      finds: found,
      now_h,
      later_h,
      ...(typeof odds === "number" ? {} : { records: odds }),
    };
  });
  return {
    saves_h,
    others: Math.max(0, faults.length - 1),
    saves_h_per_min: saves_h / Math.max(least_min, hands_min),
    ...(chief && { chief }),
  };
}

function oddsOf(odds: number | Counted, path: string, known: Map<string, Odds>): Odds {
  if (typeof odds !== "number") {
    const key = [odds.found, odds.of, odds.guess, odds.weight].join(" ");
    const found = known.get(key) ?? softened(odds, path);
    known.set(key, found);
    return found;
  }
  if (!(odds >= 0 && odds <= 1))
    throw new BadInput(path, quote(odds), "0 to 1", "give a share, 0.05 for one in twenty");
  return { odds, low: odds, high: odds };
}
