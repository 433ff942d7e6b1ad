import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { opening, restByHand, stage } from "../../src/workshop/testing/ownShop.ts";
import type { ProbeCardView } from "../../src/workshop/views.ts";
import { keptFolder, serve, stillglow } from "../helpers.ts";
import { isTooWide, openBrowser, openPage, picture, readyPage } from "./page.ts";
import { bench, breaches, phone, smallTargets } from "./walk.ts";

const folder = join(keptFolder(), "workshop");
const data = ["--data", folder];
let browser: Browser;
beforeAll(async () => {
  readyPage();
  browser = await openBrowser();
});
afterAll(() => browser?.close());

test("a unit is probed dead, then under power, until the part at fault is named", async () => {
  const { address } = await serve(["serve", ...data]);
  const entered = await fetch(`${address}/api/evidence`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ entries: opening }),
  });
  expect(entered.status).toBe(200);
  const { page, errors } = await openPage(browser, bench.width);
  page.setDefaultTimeout(60_000);
  await page.goto(`${address}/unit/77`);
  await page.getByRole("link", { name: "Probe card" }).click();
  await page.getByRole("heading", { name: "Probe card of unit 77" }).waitFor();
  const form = page.locator(".probe-form");
  await form.getByText("Good units read").waitFor();
  await form.getByText("Discharge the reservoirs").waitFor();
  expect(await breaches(page)).toEqual([]);

  const reading = form.getByRole("textbox", { name: "Reading" });
  const isAsked = (point: string, what: string) =>
    form.getByRole("heading", { name: new RegExp(`${point}.*${what}`) }).waitFor();
  await isAsked("HT", "Resistance");
  await reading.fill("22O k");
  await reading.press("Enter");
  await form.getByText("“22O k” is not a resistance").waitFor();
  expect(await reading.inputValue()).toBe("22O k");
  await form.getByLabel("Meter").fill("meter");
  await form.getByLabel("Who writes this down").fill("bench");

  // Keyboard alone from here: a reading, Enter, the next probe is asked for with the field ready.
  const dead: readonly (readonly [string, string])[] = [
    ["HT", "219k"],
    ["left plate", "267 k"],
    ["left cathode", "1k5"],
    ["right plate", "266,5k"],
    ["right cathode", "1502"],
  ];
  await reading.fill("");
  await reading.focus();
  for (const [point, typed] of dead) {
    await isAsked(point, "Resistance");
    await page.keyboard.type(typed);
    await page.keyboard.press("Enter");
    await form.getByText(`${point}:`).waitFor();
  }
  await isAsked("HT", "Direct voltage");
  await form.getByText("Lethal voltages.").waitFor();
  await page.getByText("5 of 5 read with the circuit dead").waitFor();

  // source: the left stage with a section that passes a third of its current, by hand; no ohmmeter can show that
  const left = restByHand({ ...stage, perveance_mA_per_V1p5: stage.perveance_mA_per_V1p5 / 3 });
  const right = restByHand(stage);
  const volts: Readonly<Record<string, number>> = {
    HT: stage.ht_V,
    "left plate": left.plate_V,
    "left cathode": left.cathode_V,
    "right plate": right.plate_V,
    "right cathode": right.cathode_V,
  };
  for (const [point, value] of Object.entries(volts)) {
    const mark = page.locator(`[data-point="${point}"]`);
    if ((await mark.getAttribute("aria-pressed")) !== "true") await mark.click();
    await form.getByLabel("volts").check();
    await isAsked(point, "Direct voltage");
    await reading.fill(value.toFixed(2).replace(".", ","));
    await reading.press("Enter");
    await form.getByText(`${point}:`).waitFor();
  }
  await page.getByRole("heading", { name: "Something is wrong" }).waitFor();
  await page.locator(".suspect-list").getByText(/V1a/).first().waitFor();
  expect(await page.locator('[data-point="left plate"]').getAttribute("aria-label")).toContain("outside");
  expect(await page.locator('[data-point="right plate"]').getAttribute("aria-label")).toContain("inside");
  expect(await breaches(page)).toEqual([]);
  await picture(page, `probe-${bench.width}`);

  // Read again: the newer takes the place of the older, which stays in the ledger.
  await page.getByRole("button", { name: "Read left plate" }).click();
  await form.getByText("It takes the place of").waitFor();
  await reading.fill(right.plate_V.toFixed(2));
  await reading.press("Enter");
  await form.getByText("left plate:").waitFor();
  const card = (await (await fetch(`${address}/api/units/77/probe`)).json()) as ProbeCardView;
  const plate = card.points.find(({ point }) => point === "left plate")!;
  expect(plate.readings.filter(({ kind }) => kind === "dc").map(({ value }) => value.toFixed(2))).toEqual([
    right.plate_V.toFixed(2),
  ]);

  await page.setViewportSize(phone);
  // The drawing measures its room anew once the view has shrunk.
  await expect.poll(() => isTooWide(page)).toBe(false);
  expect(await smallTargets(page)).toEqual([]);
  expect(await breaches(page)).toEqual([]);
  await picture(page, `probe-${phone.width}`);
  expect(errors).toEqual([]);
  await page.context().close();
}, 240_000);

test("the terminal shows the same card, and takes readings by name while the server has the workshop", () => {
  const before = stillglow(["probe", "77", "--json", ...data]);
  expect(before).toMatchObject({ status: 0, stderr: "" });
  const view = JSON.parse(before.stdout) as { windows: { dc: Record<string, { low: number; high: number }> } };
  // source: the good stage by hand
  const { plate_V } = restByHand(stage);
  expect(view.windows.dc["right plate"]!.low).toBeLessThan(plate_V);
  expect(view.windows.dc["right plate"]!.high).toBeGreaterThan(plate_V);
  const good = restByHand(stage);
  const read = ["--read", `left cathode=${good.cathode_V.toFixed(3).replace(".", ",")}`, "--instrument", "meter"];
  const after = stillglow(["probe", "77", ...read, ...data]);
  expect(after).toMatchObject({ status: 0, stderr: "" });
  expect(after.stdout).toContain("GOOD");
  expect(stillglow(["probe", "77", "--read", "left knee=1", "--instrument", "meter", ...data])).toMatchObject({
    status: 2,
    stdout: "",
  });
  expect(stillglow(["tray", "N", ...data]).stdout).toContain("Begin with the reference valve");
});
