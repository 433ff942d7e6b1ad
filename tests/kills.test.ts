import { join } from "node:path";
import { expect, test } from "vitest";
import { temporaryFolder } from "./helpers.ts";
import { killMany } from "./killing.ts";

/** A sample; `node --import tsx scripts/kills.ts` makes 500 or more. */
const kills = Number(process.env.STILLGLOW_KILLS ?? 25);

test("killed at any moment under load from four clients, the server loses nothing that it acknowledged", async () => {
  const told = await killMany({ folder: join(temporaryFolder(), "shop"), kills, clients: 4, seed: "sample" });
  expect(told).toMatchObject({ kills, lost: [], torn: [], broken: [] });
  expect(told.acknowledged).toBeGreaterThan(kills);
  // A kill that hits no write under way tries nothing.
  expect(told.duringWrite).toBeGreaterThan(0.8 * kills);
  expect(told.insideWrite).toBeGreaterThan(0.5 * kills);
}, 600_000);
