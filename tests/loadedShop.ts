import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openStore } from "../src/store/index.ts";
import { at, by, opening } from "../src/workshop/testing/ownShop.ts";

/** A shop of its own with so many units under work, one for each bench, written into a folder or a database. */
export async function makeLoadedShop(folder: string, units: number, database?: string): Promise<void> {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "workshop.json"), JSON.stringify({ title: "A shop under load" }));
  const store = await openStore(folder, { database, clock: () => at(60) });
  try {
    await store.append(opening);
    const serials = Array.from({ length: units }, (_, i) => String(1000 + i));
    await store.append([
      {
        at: at(30),
        by,
        kind: "order",
        order: "W-2",
        customer: "k-2",
        model: "Lighthouse",
        revision: "A",
        units: serials,
        destination: { place: "next town", nominal_V: 120, frequency_Hz: 60 },
      },
      ...serials.map((unit) => ({
        at: at(31),
        by,
        kind: "unit",
        unit,
        order: "W-2",
        model: "Lighthouse",
        revision: "A",
        fitted: {},
        tap: "120",
        built: ["wire"],
      })),
    ]);
  } finally {
    await store.close();
  }
}
