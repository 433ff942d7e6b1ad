import type { Random } from "../../maths/random.ts";
import type { ModelName } from "../models/models.ts";
import type { Fault } from "../physics/fault.ts";
import { drawn } from "./numbers.ts";

/** What goes wrong in wiring, by model: the part, and between what sizes of it. */
type Kind = Readonly<Omit<Fault, "size">> & { readonly from?: number; readonly to?: number };

const sides = (part: string, kind: Fault["kind"], from: number, to: number): readonly Kind[] =>
  ["L", "R"].map((side) => ({ part: `${part}${side}`, kind, from, to }));

const kinds: Readonly<Record<ModelName, readonly Kind[]>> = {
  Ebb: [
    ...sides("R4", "high", 1.25, 1.8),
    ...sides("R7", "high", 1.3, 2),
    ...sides("R9", "high", 5, 20),
    ...sides("C1", "leaky", 30_000, 200_000),
    { part: "V1b", kind: "weak", from: 0.35, to: 0.55 },
  ],
  Neap: [
    ...sides("R3", "high", 1.4, 2),
    ...sides("C1", "leaky", 100_000, 500_000),
    { part: "V1a", kind: "weak", from: 0.35, to: 0.55 },
  ],
  Flood: [
    ...sides("R8", "high", 1.4, 2),
    ...sides("R4", "low", 0.4, 0.7),
    ...sides("C2", "leaky", 2_000_000, 8_000_000),
    ...sides("C1", "open", 1, 1),
    { part: "V3", kind: "weak", from: 0.3, to: 0.5 },
  ],
  Bore: [...sides("C1n", "leaky", 2_000_000, 6_000_000), ...sides("R10p", "high", 1.2, 1.5)],
};

/** Share of units whose first probe sheet is not that of a good unit. */
const share = 0.12;

/** What was wrong with a unit when it was first probed; of most, nothing. */
export function faultAtFirst(model: ModelName, draw: Random): Fault | undefined {
  if (draw.uniform() >= share) return undefined;
  const {
    part,
    kind,
    from = 1,
    to = 1,
  } = drawn(
    kinds[model].map((one) => [one, 1] as const),
    draw,
  );
  if (kind === "open") return { part, kind };
  return { part, kind, size: from * (to / from) ** draw.uniform() };
}
