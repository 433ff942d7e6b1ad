import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { at, Book } from "../../src/claims/testing/smallShop.ts";
import { openStore } from "../../src/store/index.ts";
import { keptFolder, serve } from "../helpers.ts";
import { isTooWide, openBrowser, openPage, readyPage } from "./page.ts";
import { bench, breaches, phone, smallTargets } from "./walk.ts";

const folder = join(keptFolder(), "workshop");
let browser: Browser;
let address: string;
let stop: (() => Promise<void>) | undefined;
beforeAll(async () => {
  readyPage();
  browser = await openBrowser();
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "workshop.json"), JSON.stringify({ title: "A small shop", ownDate: at(30) }));
  const store = await openStore(folder, { write: true, clock: () => at(29) });
  await store.append(Book.opened().entries.map(({ id, at: when, by, body }) => ({ id, at: when, by, ...body })));
  await store.close();
  ({ address, stop } = await serve(["serve", "--data", folder], { kept: true }));
});
afterAll(async () => {
  await browser?.close();
  await stop?.();
});

test("a safety test is made in its order, and falls with the instrument it was read on", async () => {
  const { page, errors } = await openPage(browser, bench.width);
  page.setDefaultTimeout(60_000);
  await page.goto(`${address}/unit/0101/safety`);
  const testOf = (name: string) => page.getByRole("listitem").filter({ has: page.getByRole("heading", { name }) });
  const bond = testOf("Protective earth continuity");
  const touch = testOf("Touch current");
  await touch.getByText("Not yet. First: protective earth continuity, insulation.").waitFor();
  await page.getByText("Nobody adopted limits for this destination").waitFor();
  expect(await breaches(page)).toEqual([]);

  // A reading just inside the limit is not proven until its doubt is inside too.
  await bond.getByRole("textbox", { name: "Reading" }).fill("0,098");
  await bond.getByRole("textbox", { name: "Doubt" }).fill("0,005");
  await bond.getByLabel("Instrument").fill("meter");
  await bond.getByLabel("Tested by").fill("bench");
  await bond.getByRole("button", { name: "Write it down" }).click();
  await bond.getByText("Undecided").waitFor();
  await bond.getByText("Proven up to a reading of 0.095 Ω.").waitFor();
  if (!(await bond.getByRole("textbox", { name: "Reading" }).isVisible()))
    await bond.getByText("Enter a reading").click();
  await bond.getByRole("textbox", { name: "Reading" }).fill("0,05");
  await bond.getByRole("button", { name: "Write it down" }).click();
  await bond.getByText("Proven", { exact: true }).waitFor();
  await touch.getByText("Not yet. First: insulation.").waitFor();

  // The instrument fails its next trial, and what it proved falls with it.
  await page.getByRole("link", { name: "Instruments on trial" }).click();
  const meter = page.getByRole("listitem").filter({ has: page.getByRole("heading", { name: "meter", exact: true }) });
  await meter.getByText("One proof of an open unit rests on it.").waitFor();
  await meter.getByText("Enter a trial").click();
  await meter.getByLabel("It reads").fill("10.5");
  await meter.getByLabel("Doubt of that reading").fill("0.01");
  expect(await breaches(page)).toEqual([]);
  await meter.getByRole("button", { name: "Write the trial down" }).click();
  await meter.getByText("Failed: stop using it").waitFor();
  await meter.getByText("One proof fell with it:").waitFor();
  await meter.getByRole("link", { name: /0101/ }).waitFor();

  await page.setViewportSize(phone);
  expect(await isTooWide(page)).toBe(false);
  expect(await smallTargets(page)).toEqual([]);
  await page.goto(`${address}/unit/0101/safety`);
  await bond.getByText("Void", { exact: true }).waitFor();
  await touch.getByText("Not yet. First: protective earth continuity, insulation.").waitFor();
  expect(errors).toEqual([]);
});

test("limits are adopted by somebody who answers for them, and judge the units that go there", async () => {
  const { page } = await openPage(browser, bench.width);
  page.setDefaultTimeout(60_000);
  await page.goto(`${address}/safety`);
  await page.getByText("Open orders go to inland, for which nobody adopted limits.").waitFor();
  await page.getByText("Adopt limits for another market").click();
  expect(await breaches(page)).toEqual([]);
  await page.getByLabel("Market").fill("Inland 120 V");
  await page.getByLabel("Standard and edition").fill("A standard, edition 3");
  await page.getByLabel("Adopted by").fill("owner");
  const bond = page.getByRole("group", { name: "Protective earth continuity" });
  await bond.getByLabel("At most").fill("0,2");
  await bond.getByLabel("From", { exact: true }).fill("clause 5");
  await page.getByRole("button", { name: "Adopt these limits" }).click();
  await page.getByText("Say that you answer for them.").waitFor();
  await page.getByLabel("I answer for these figures, in the edition named.").check();
  await page.getByRole("button", { name: "Adopt these limits" }).click();
  await page.getByRole("heading", { name: "Inland 120 V" }).waitFor();
  await page.goto(`${address}/unit/0101/safety`);
  await page.getByText("Limits of Inland 120 V: A standard, edition 3. The owner answers for them.").waitFor();
  await page.getByText("Limit: at most 0.2 Ω").waitFor();
  await page.getByText("clause 5; from memory: confirm before relying on it").waitFor();
});
