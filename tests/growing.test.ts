import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { backupsIn, moveIntoDatabase, openStore } from "../src/store/index.ts";
import { freshDatabase } from "../src/store/testing/places.ts";
import { password } from "../src/store/testing/postgres.ts";
import { keptFolder, stillglow, temporaryFolder } from "./helpers.ts";
import { makeLoadedShop } from "./loadedShop.ts";
import { loadBenches } from "./loading.ts";
import { serverAt } from "./serverAt.ts";

/** A sample; `node --import tsx scripts/load.ts` takes fifty benches through ten minutes. */
const sample = { benches: 12, duration_s: 4, rest_ms: 250, seed: "sample", name: "sample" };

const headphone = (id: string) =>
  JSON.stringify({
    id,
    at: "2026-03-01T12:00:00.000Z",
    by: "bench",
    kind: "headphone",
    headphone: id,
    impedance_ohm: 32,
    sensitivity_dB_per_V: 110,
  });

describe("two servers beside one database", () => {
  const folder = join(keptFolder(), "shop");
  let database: string;
  beforeAll(async () => {
    await makeLoadedShop(folder, sample.benches);
    database = await freshDatabase();
    await moveIntoDatabase(folder, database, "2026-03-02T12:00:00.000Z");
  });

  test("what benches write is shown at once by the other server, heard by its pages, and all there after one is killed", async () => {
    const [one, two] = await Promise.all([
      serverAt({ folder, database }),
      serverAt({ folder: temporaryFolder(), database }),
    ]);
    try {
      const told = await loadBenches({ ...sample, addresses: [one.address, two.address] });
      expect(told).toMatchObject({ failed: [], unseen: [] });
      expect(told.acknowledged.length).toBeGreaterThan(2 * sample.benches);
      expect(told.heard_ms.length).toBeGreaterThan(sample.benches);

      // The same again, with one server killed in the middle of it: those at the other go on.
      const half = loadBenches({ ...sample, duration_s: 2, name: "killed", addresses: [one.address, two.address] });
      await new Promise((later) => setTimeout(later, 1200));
      await one.kill();
      const cut = await half;
      expect(cut.failed.length).toBeGreaterThan(0);
      const store = await openStore(temporaryFolder(), { write: false, database });
      try {
        const read = await store.verify();
        expect(read).toMatchObject({ ok: true });
        const there = new Map(store.evidence({ kind: "reading" }).map(({ id, body }) => [id, body]));
        for (const { id, unit, value } of [...told.acknowledged, ...cut.acknowledged]) {
          expect(there.get(id)).toMatchObject({ value, subject: { unit } });
        }
      } finally {
        await store.close();
      }
    } finally {
      await Promise.all([one.kill(), two.stop()]);
    }
  });

  test("commands work on it, and a copy of it goes into another database; none shows the password", async () => {
    const data = ["--data", temporaryFolder(), "--database", database];
    const written = stillglow(["enter", ...data], headphone("by-command"));
    expect(written).toMatchObject({ status: 0, stderr: "" });
    const copies = join(temporaryFolder(), "copies");
    const backup = stillglow(["backup", copies, ...data]);
    expect(backup).toMatchObject({ status: 0, stderr: "" });
    const { head } = backupsIn(copies)[0]!;
    const again = await freshDatabase();
    const restored = stillglow(["restore", copies, "--data", join(temporaryFolder(), "back"), "--database", again]);
    expect(restored).toMatchObject({ status: 0, stderr: "" });
    const store = await openStore(temporaryFolder(), { write: false, database: again });
    expect(store.head()).toBe(head);
    await store.close();
    const gone = stillglow(["verify", ...data.slice(0, 3), `${database}-gone`]);
    expect(gone).toMatchObject({ status: 2 });
    expect(gone.stderr).toMatch(/no such database/);
    for (const { stdout, stderr } of [written, backup, restored, gone]) {
      expect(`${stdout}${stderr}`).not.toContain(password);
    }
  });
});
