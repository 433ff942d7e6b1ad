import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { foldShop } from "../claims/index.ts";
import { at, by, opening, trayRead } from "./testing/ownShop.ts";
import { placesFor } from "./valvePlaces.ts";
import { openWorkshop, type Workshop } from "./workshop.ts";

async function shopWith(...entries: readonly unknown[]): Promise<Workshop> {
  const folder = mkdtempSync(join(tmpdir(), "stillglow-tray-"));
  const workshop = await openWorkshop(folder, { write: true });
  onTestFinished(async () => {
    await workshop.close();
    rmSync(folder, { recursive: true, force: true });
  });
  if (entries.length > 0) await workshop.enter(entries);
  return workshop;
}

test("an empty workshop has no trays, and says so when one is asked for", async () => {
  const workshop = await shopWith();
  expect((await workshop.trays()).trays).toEqual([]);
  expect((await workshop.trays()).catalogue.map(({ type }) => type)).toContain("6SN7GT");
  await expect(workshop.tray("N")).rejects.toThrow(/no valves yet/);
});

test("a tray says what it waits for: limits, then readings, then its heat run", async () => {
  const withoutLimits = await shopWith(...opening.filter(({ kind }) => kind !== "valve-limits"));
  expect((await withoutLimits.tray("N")).wanting).toMatch(/limits of the 6SN7GT/);
  const workshop = await shopWith(...opening);
  expect((await workshop.tray("N")).wanting).toMatch(/Begin with the reference valve/);
  await workshop.enter(trayRead(["cold"]));
  const cold = await workshop.tray("N");
  // source: read at hour 1 of the second of March, and the limits ask for 48 hours of heat
  expect(cold.heatRunEnds).toBe(at(60 * 49));
  expect(cold.valves.map(({ standing }) => standing)).toEqual(["hold", "hold", "hold", "hold", "unread"]);
  expect((await workshop.trays()).trays[0]).toMatchObject({ valves: 5, coldRead: 4, hotRead: 0 });
});

test("a tester that sags leans the tray and rejects nothing but the valve that fell", async () => {
  const workshop = await shopWith(...opening, ...trayRead(["cold", "hot"]));
  const tray = await workshop.tray("N");
  // source: the readings were made with the tester at 1 cold and at 0.97 hot
  expect(tray.reference?.lean_pct).toBeCloseTo(-3, 3);
  expect(tray.valves.map(({ standing }) => standing)).toEqual(["use", "reject", "use", "use", "unread"]);
  const fallen = tray.valves[1]!;
  // source: section b was made to fall 9 %, section a 1 %
  expect(fallen.sections.map(({ drift_pct }) => drift_pct?.toFixed(2))).toEqual(["-1.00", "-9.00"]);
  expect(fallen.reasons.join()).toMatch(/b/);
  expect(fallen.readings[0]?.right_mA).toBeCloseTo(9.2, 3);
});

test("a reading put right by a newer one counts no longer, and both stay in the ledger", async () => {
  const workshop = await shopWith(...opening, ...trayRead(["cold", "hot"]));
  const wrong = (await workshop.tray("N")).valves[1]!.readings.find((r) => r.section === "b" && r.phase === "hot")!;
  const { evidence, at: _at, by: _by, right_mA: _right, ...rest } = wrong;
  await workshop.enter([
    { at: at(60 * 75), by, kind: "valve-reading", valve: "N-2", ...rest, plate_mA: 8.92, supersedes: evidence },
  ]);
  const mended = (await workshop.tray("N")).valves[1]!;
  expect(mended.standing).toBe("use");
  expect(mended.readings).toHaveLength(4);
});

test("sets are proposed for the unit that waits, never with a rejected valve or one that stands in a unit", async () => {
  const workshop = await shopWith(...opening, ...trayRead(["cold", "hot"]));
  const sets = await workshop.valveSets("N");
  expect(sets.considered).toBe(3);
  const [model] = sets.models;
  expect(model?.by).toBe("current");
  expect(model?.sets.map(({ unit, order }) => [unit, order])).toEqual([["78", "W-1"]]);
  const used = [...(model?.sets ?? []), ...(model?.reserve ?? [])].flatMap((set) => Object.values(set.positions));
  expect(new Set(used).size).toBe(used.length);
  expect(used).not.toContain("N-2");
  expect(used).not.toContain("N-5");
  await expect(workshop.valveSets("N", "attic")).rejects.toThrow(/tray or shelf/);
});

test("with curves read, a set is judged by the channels' imbalance in the model's own circuit", async () => {
  const points = [
    [150, -4],
    [250, -8],
    [250, -4],
    [200, -2],
  ] as const;
  const curves = ["N-1", "N-3", "N-4"].flatMap((valve, v) =>
    ["a", "b"].flatMap((section, s) =>
      points.map(([plate_V, grid_V]) => ({
        at: at(60 * 75),
        by,
        kind: "valve-reading",
        valve,
        section,
        phase: "curve",
        time_h: 73.5,
        plate_V,
        grid_V,
        // A valve of its own slope, the two sections a few per cent apart, as the tester showed them at 0.97.
        plate_mA: Number(
          (0.97 * 0.1 * (1 + 0.02 * v + 0.03 * s) * Math.max(0, grid_V + plate_V / 20) ** 1.5).toFixed(4),
        ),
        instrument: "tester",
      })),
    ),
  );
  const workshop = await shopWith(...opening, ...trayRead(["cold", "hot"]), ...curves);
  const [model] = (await workshop.valveSets("N")).models;
  expect(model).toMatchObject({ by: "circuit", limit: 0.5 });
  expect(model?.sets[0]?.cost).toBeGreaterThanOrEqual(0);
  expect(model?.sets[0]?.cost).toBeLessThanOrEqual(0.5);
  expect(model?.sets[0]?.doubt).toBeGreaterThan(0);
});

test("each valve is told the places of its type, with the grid leak that its grid current would flow through", async () => {
  const leaky = opening.map((entry) => {
    if (entry.kind !== "model") return entry;
    const netlist = entry.netlist as { parts: Record<string, unknown>[] };
    const parts = netlist.parts.flatMap((part) => {
      const side = part.id === "INL" ? "L" : part.id === "INR" ? "R" : "";
      if (side === "") return [part];
      const between = [`in${side}`, "0"];
      return [
        { ...part, between },
        { id: `C${side}`, kind: "capacitor", uF: 0.1, between: [`in${side}`, `g${side}`], stage: "gain" },
        { id: `RG${side}`, kind: "resistor", ohm: 1_000_000, between: [`g${side}`, "0"], stage: "gain" },
      ];
    });
    return { ...entry, netlist: { ...netlist, parts } };
  });
  const workshop = await shopWith();
  const shop = foldShop(await workshop.enter(leaky));
  const calculate = async <T>(name: string, input: unknown): Promise<T> => {
    const answer = await workshop.answer(name, input);
    if (!answer.ok) throw new Error(answer.error.message);
    return answer.output as T;
  };
  // source: the net list's own grid leak of one megohm and its cathode resistor
  expect(await placesFor(shop, "6SN7GT", calculate)).toMatchObject([
    { position: "Lighthouse V1", gridLeak_ohm: 1_000_000, cathode_ohm: 1500, sections: ["a", "b"] },
  ]);
  await workshop.enter(trayRead(["cold", "hot"]));
  expect((await workshop.tray("N")).valves[0]!.standing).toBe("use");
});
