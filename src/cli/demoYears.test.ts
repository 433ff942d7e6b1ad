import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { yearsBefore } from "../demo/index.ts";
import { openStore } from "../store/index.ts";
import { openWorkshop } from "../workshop/workshop.ts";
import { writeYears } from "./demoYears.ts";

/** A tenth of the usual shop. */
const share = 0.1;
const years = 1;

// source: what the command promises, 500 units and 4,000 valves a year
test("a year is written as a shop would have: chain whole, each unit proven and gone, nothing left to draw", async () => {
  const folder = mkdtempSync(join(tmpdir(), "stillglow-years-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  await writeYears(folder, { seed: 1, years, share });

  const store = await openStore(folder, { clock: () => "2026-12-03T07:00:00Z" });
  const { shop } = store;
  expect(await store.verify()).toMatchObject({ ok: true });
  expect(shop.units.size).toBe(500 * share * years);
  expect(shop.valves.size).toBe(4000 * share * years);
  expect([...shop.units.keys()].filter((unit) => !shop.isReleased(unit))).toEqual([]);
  const kinds = new Set(store.evidence().map(({ body }) => body.kind));
  for (const kind of ["valve-reading", "reading", "finding", "release", "weighing", "fault", "return", "account"])
    expect(kinds, kind).toContain(kind);
  const written = store.evidence();
  expect(written.every(({ recordedAt }, i) => i === 0 || recordedAt >= written[i - 1]!.recordedAt)).toBe(true);
  expect(written.at(-1)!.recordedAt < "2026-12-03").toBe(true);
  await store.close();

  const workshop = await openWorkshop(folder, { write: true });
  await workshop.settle();
  expect(workshop.entries).toBe(written.length);
  await workshop.close();
}, 300_000);

test("the same seed makes the same years, another other ones", () => {
  const begins = (seed: number) => {
    const told: string[] = [];
    for (const happening of yearsBefore(seed, years, share).happenings()) {
      told.push(JSON.stringify(happening));
      if (told.length === 150) break;
    }
    return told.join("\n");
  };
  const [first, again, other] = [begins(1), begins(1), begins(2)];
  expect(again).toBe(first);
  expect(other).not.toBe(first);
});
