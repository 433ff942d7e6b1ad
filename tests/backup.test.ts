import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { backupsIn } from "../src/store/index.ts";
import { serve, stillglow, temporaryFolder } from "./helpers.ts";

const headphone = (name: string) =>
  JSON.stringify({
    at: "2026-03-01T12:00:00.000Z",
    by: "bench",
    kind: "headphone",
    headphone: name,
    impedance_ohm: 32,
    sensitivity_dB_per_V: 110,
  });

async function until(told: () => boolean): Promise<void> {
  for (const end = Date.now() + 60_000; !told(); ) {
    if (Date.now() > end) throw new Error("nothing came within a minute");
    await new Promise((later) => setTimeout(later, 200));
  }
}

test("a server keeps a copy every day beside its folder; after a loss the copy is put back, served and answers", async () => {
  const folder = join(temporaryFolder(), "shop");
  expect(stillglow(["enter", "--data", folder], headphone("first"))).toMatchObject({ status: 0 });
  const first = await serve(["serve", "--data", folder]);
  const copies = `${folder}-backups`;
  await until(() => backupsIn(copies).length === 1);
  // A day has not gone by: opened again at once, no second copy is taken.
  await first.stop();
  const second = await serve(["serve", "--data", folder]);
  await new Promise((later) => setTimeout(later, 1500));
  await second.stop();
  expect(backupsIn(copies)).toHaveLength(1);

  const back = join(temporaryFolder(), "back");
  expect(stillglow(["restore", copies, "--data", back])).toMatchObject({ status: 0, stderr: "" });
  expect(stillglow(["restore", copies, "--data", back])).toMatchObject({ status: 2 });
  expect(stillglow(["verify", "--data", back, "--head", backupsIn(copies)[0]!.head])).toMatchObject({ status: 0 });
  const restored = await serve(["serve", "--data", back, "--no-backup"]);
  const said = (await (await fetch(`${restored.address}/api/workshop`)).json()) as { head: string };
  expect(said.head).toBe(backupsIn(copies)[0]!.head);
  await restored.stop();
  expect(existsSync(`${back}-backups`)).toBe(false);
  expect(readdirSync(back)).toContain("stillglow.db");
});

test("what is missing is said, and a chain that lost its tail is told by a hash noted earlier", () => {
  const folder = join(temporaryFolder(), "shop");
  expect(stillglow(["backup", join(folder, "copies"), "--data", folder])).toMatchObject({ status: 2 });
  stillglow(["enter", "--data", folder], headphone("one"));
  const cut = stillglow(["verify", "--data", folder, "--head", "f".repeat(64)]);
  expect(cut).toMatchObject({ status: 1, stderr: "" });
  expect(cut.stdout).toMatch(/its tail was cut/);
  expect(stillglow(["verify", "--data", folder, "--copy", "1999"])).toMatchObject({ status: 2 });
});
