import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { keptFolder, serve } from "../helpers.ts";
import { isTooWide, openBrowser, picture, readyPage } from "./page.ts";
import { bench, breaches, phone, smallTargets } from "./walk.ts";

const folder = join(keptFolder(), "workshop");
let browser: Browser;
beforeAll(async () => {
  readyPage();
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const began = new Date(Date.now() - 86_400_000).toISOString();
const shop = [
  { kind: "timber-place", place: "shelf", what: "room", faces: "both" },
  ...["A-1", "A-2"].map((piece) => ({
    kind: "blank",
    piece,
    species: "white ash",
    ...{ length_mm: 900, width_mm: 180, thickness_mm: 27, ringAngle_deg: 30 },
    seller: "sawmill",
    place: "shelf",
  })),
  {
    kind: "instrument",
    instrument: "balance",
    title: "balance",
    trial: { reference: "check weight", quantity: "mass_g", true: 500, limit: 0.5 },
  },
].map((body) => ({ at: began, by: "woodworker", ...body }));

async function show(page: Page, name: string): Promise<void> {
  for (const size of [bench, phone]) {
    await page.setViewportSize(size);
    expect(await isTooWide(page), `${name} at ${size.width}`).toBe(false);
    expect(await breaches(page)).toEqual([]);
    if (size === phone) expect(await smallTargets(page)).toEqual([]);
    await picture(page, `exchange-${name}-${size.width}`);
  }
  await page.setViewportSize(bench);
}

test("a table of masses from another program is taken in by its own column names, a wrong row named first, and a list goes out", {
  timeout: 120_000,
}, async () => {
  const { address } = await serve(["serve", "--data", folder, "--no-backup"]);
  const entered = await fetch(`${address}/api/evidence`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ entries: shop }),
  });
  expect(entered.status).toBe(200);
  const page = await browser.newPage({ viewport: bench });
  await page.goto(`${address}/exchange`);
  await page.getByLabel("What its rows are").selectOption("weighing");
  await page.getByText("comma", { exact: true }).click();
  const bring = (text: string) =>
    page.getByLabel("File").setInputFiles({ name: "masses.csv", mimeType: "text/csv", buffer: Buffer.from(text) });

  await bring("Brett;Gramm;Regal\r\nA-1;3192,5;oben\r\nA-2;3050 g;unten\r\n");
  await page.getByLabel("“Brett” holds").selectOption("piece");
  await page.getByLabel("“Gramm” holds").selectOption("mass_g");
  await page.getByLabel("“Regal” holds").selectOption("");
  await page.getByLabel("instrument", { exact: true }).fill("balance");
  await page.getByLabel("Who writes this down").fill("woodworker");
  await page.getByText("Row 3, mass_g:").waitFor();
  expect(await page.getByRole("button", { name: /^Take .* in$/ }).count()).toBe(0);
  await show(page, "faults");

  // The columns are known by now: a table with the same head is read as the one before.
  await bring("Brett;Gramm;Regal\r\nA-1;3192,5;oben\r\nA-2;3050;unten\r\n");
  await page.getByRole("button", { name: "Take 2 entries in" }).waitFor();
  await show(page, "preview");
  await page.getByRole("button", { name: "Take 2 entries in" }).click();
  await page.getByText("2 entries taken in.").waitFor();

  await bring("Brett;Gramm;Regal\r\nA-9;3192,5;oben\r\n");
  await page.getByRole("button", { name: "Take one entry in" }).click();
  await page.getByText(/Row 2, piece: /).waitFor();

  const coming = page.waitForEvent("download");
  await page.getByRole("link", { name: "Boards and their moisture as CSV" }).click();
  const list = readFileSync(await (await coming).path(), "utf8");
  expect(list.split("\r\n").filter((row) => row.startsWith("A-"))).toHaveLength(2);
  await page.close();
});
