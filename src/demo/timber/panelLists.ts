import { on } from "../days.ts";
import { type DemoEntry, entry } from "../entry.ts";
import type { ModelName } from "../models/models.ts";
import { roles } from "../shop.ts";
import { panelsOf } from "./plan.ts";

/** Units whose case is not joined yet, and the wood that was agreed for each. */
const unjoined: readonly { readonly unit: string; readonly model: ModelName; readonly species: string }[] = [
  { unit: "0420", model: "Ebb", species: "sugar maple" },
  { unit: "0421", model: "Ebb", species: "black cherry" },
  { unit: "0591", model: "Flood", species: "American elm" },
  { unit: "0592", model: "Flood", species: "American elm" },
];

/** Panels that the cases not joined yet are to have, finished sizes. */
export const panelLists: readonly DemoEntry[] = unjoined.map(({ unit, model, species }, i) => {
  const { first, second } = panelsOf(model);
  return entry(on("2027-02-26", `14:${10 + 5 * i}`), roles.wood, {
    kind: "case-panels",
    unit,
    panels: [...first, ...second].map((panel) => ({
      ...panel,
      ...{ species, thickness_mm: 20 },
      ...(panel.panel.endsWith("side") && { matched: "sides" }),
    })),
  });
});
