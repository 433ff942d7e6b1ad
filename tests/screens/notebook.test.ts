import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { keptFolder, serve, stillglow } from "../helpers.ts";
import { isTooWide, openBrowser, openPage, picture, readyPage } from "./page.ts";
import { breaches } from "./walk.ts";

const folder = join(keptFolder(), "workshop");
let browser: Browser;
beforeAll(async () => {
  readyPage();
  browser = await openBrowser();
}, 120_000);
afterAll(() => browser?.close());

test("a newcomer draws a stage as text, mends it by line, saves, tries a value, compares and releases a revision", async () => {
  const { address, stop } = await serve(["serve", "--data", folder]);
  const { page, errors } = await openPage(browser, 1280);
  page.setDefaultTimeout(60_000);
  await page.goto(`${address}/notebook`);
  await page.getByRole("heading", { name: "No page is written yet" }).waitFor();
  expect(await breaches(page)).toEqual([]);

  // A fault is named by its line and part, in text that is no JSON and in text that is.
  await page.getByRole("button", { name: "Put in a small stage to begin from" }).click();
  await page.getByText("Reads well: 8 parts.").waitFor();
  const text = page.getByRole("textbox", { name: "Net list" });
  const whole = await text.inputValue();
  await text.fill(whole.replace('"ohm": 47000,', '"ohm": 47k,'));
  await page.getByRole("button", { name: "Line 8, R2" }).waitFor();
  await text.fill(whole.replace('"between": ["k", "0"], "ohm": 1000', '"between": ["k", "0"], "ohm": -1000'));
  await page.getByRole("button", { name: "Line 9, R3" }).click();
  expect(await text.evaluate((one) => one === document.activeElement)).toBe(true);
  await text.fill(whole);
  await page.getByText("Reads well: 8 parts.").waitFor();

  // What is typed outlives a reload.
  await page.getByLabel("Model").fill("Holm");
  await page.getByLabel("Why, in a sentence").fill("A first drawing");
  await page.reload();
  expect(await page.getByLabel("Model").inputValue()).toBe("Holm");
  await page.getByRole("button", { name: "Another load" }).click();
  await page.getByLabel("Name").fill("next input");
  await page.getByLabel("Resistance").fill("47000,0");
  await page.getByLabel("Who writes this down").fill("owner");
  await page.getByText("Reads well").waitFor();
  expect(await page.getByLabel("Output node").inputValue()).toBe("out");
  await page.getByRole("button", { name: "See what it comes to" }).click();
  await page.getByRole("heading", { name: "What the draft comes to" }).waitFor();
  await page.getByRole("button", { name: "Write this version down" }).click();
  await page.getByRole("heading", { name: "Holm" }).waitFor();
  await page.getByRole("row", { name: /plate heat/ }).waitFor();
  await page
    .getByText(/Of 100 units as drawn/)
    .first()
    .waitFor();
  expect(await breaches(page)).toEqual([]);

  // A value on trial, typed with a decimal comma, is told beside the page; kept, it becomes the next version.
  const trial = page.locator(".trial");
  await trial.getByRole("button", { name: /^R2, resistor/ }).click();
  await trial.getByLabel("On trial: R2").fill("33000,0");
  await trial.getByRole("button", { name: "Try it" }).click();
  const result = trial.getByRole("table");
  await result.getByText("R2: 47000 → 33000 Ω").waitFor();
  expect(
    await result
      .getByRole("row", { name: /unloaded gain/ })
      .locator(".sheet-difference")
      .count(),
  ).toBe(1);
  await trial.getByRole("button", { name: "Take it into a draft" }).click();
  await page.getByRole("button", { name: "Write this version down" }).click();
  await page.getByRole("columnheader", { name: /Version 2/ }).waitFor();
  await page
    .getByText(/Of 100 units as drawn/)
    .nth(1)
    .waitFor();
  await picture(page, "notebook-1280");
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await isTooWide(page)).toBe(false);
  expect(await breaches(page)).toEqual([]);
  await picture(page, "notebook-390");
  await page.setViewportSize({ width: 1280, height: 900 });

  // Released, with one limit set by hand.
  const release = page.locator(".release");
  await release.getByRole("button", { name: "Draw up its claims" }).click();
  await release.getByLabel("no more than").first().waitFor({ state: "attached" });
  const bond = release.locator("details").filter({ hasText: "bonded to earth" });
  await bond.getByLabel("no more than").fill("0,2");
  await picture(page, "notebook-release-1280");
  await release.getByRole("button", { name: "Release as revision A" }).click();
  await release.getByText("Holm revision A is on record.").waitFor();
  expect(errors).toEqual([]);
  await page.context().close();
  await stop();

  // An order can be built from it.
  const order = [
    {
      kind: "batch",
      batch: "B",
      type: "6SN7GT",
      seller: "a stall",
      valves: ["N-1"],
      sections: ["a"],
    },
    {
      kind: "order",
      order: "O-1",
      customer: "k",
      model: "Holm",
      revision: "A",
      units: ["1"],
      destination: { place: "here", nominal_V: 230, frequency_Hz: 50 },
    },
    { kind: "unit", unit: "1", order: "O-1", model: "Holm", revision: "A", fitted: { V1: "N-1" }, tap: "230" },
  ].map((body) => JSON.stringify({ at: new Date().toISOString(), by: "owner", ...body }));
  expect(stillglow(["enter", "--data", folder], order.join("\n"))).toMatchObject({ status: 0, stderr: "" });
  const unit = JSON.parse(stillglow(["unit", "1", "--json", "--data", folder]).stdout) as {
    claims: { claim: string; figures: { quantity: string; high?: number }[] }[];
  };
  const names = unit.claims.map(({ claim }) => claim);
  expect(names).toEqual(
    expect.arrayContaining(["valves", "test-points-gain", "balance", "noise", "earth-bond", "discharge"]),
  );
  expect(unit.claims.find(({ claim }) => claim === "earth-bond")?.figures[0]?.high).toBe(0.2);
}, 240_000);
