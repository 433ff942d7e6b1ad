import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Evidence } from "../../src/claims/evidence.ts";
import { Book, smallModel } from "../../src/claims/testing/smallShop.ts";
import { meterAt, sourceAnswers, sourceAt } from "../../src/instruments/testing/meter.ts";
import { type Simulated, simulated } from "../../src/instruments/testing/simulated.ts";
import { openStore } from "../../src/store/index.ts";
import { keptFolder, serve } from "../helpers.ts";
import { isTooWide, openBrowser, openPage, picture, readyPage } from "./page.ts";
import { bench, breaches, phone, smallTargets } from "./walk.ts";

const folder = join(keptFolder(), "workshop");
const supply = { V: 0, Hz: 50, on: false, error: "" };
let volts = "196.40";
let browser: Browser;
let address: string;
let meter: Simulated;
let source: Simulated;
let stop: (() => Promise<void>) | undefined;

const stage = { stage: "input", channel: "left" };
/** The small amplifier's first stage as a circuit that can be solved, with a test point. */
const netlist = {
  ground: "0",
  testPoints: ["a1"],
  parts: [
    { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 250, stage: "reservoir", supply: "ht" },
    { id: "R1", kind: "resistor", ohm: 47_000, tolerance: 0.01, between: ["ht", "a1"], ...stage },
    { id: "RK", kind: "resistor", ohm: 1_000, tolerance: 0.01, between: ["k1", "0"], ...stage },
    { id: "RG", kind: "resistor", ohm: 470_000, tolerance: 0.01, between: ["g1", "0"], ...stage },
    { id: "V1a", kind: "triode", type: "6SN7GT", plate: "a1", grid: "g1", cathode: "k1", ...stage },
    ...(smallModel.netlist.parts as readonly { readonly id: string }[]).filter(({ id }) => !["R1", "V1a"].includes(id)),
  ],
};

beforeAll(async () => {
  readyPage();
  browser = await openBrowser();
  meter = await simulated((line) => (line === "*IDN?" ? "BENCH,METER,1,2" : line === "READ?" ? volts : undefined));
  source = await simulated(sourceAnswers(supply));
  mkdirSync(folder, { recursive: true });
  const store = await openStore(folder, { write: true });
  const now = new Date().toISOString();
  const opened = Book.opened().entries.map(({ id, at, by, body }) => ({
    id,
    at,
    by,
    ...(body.kind === "model" ? { ...body, netlist } : body),
  }));
  const link = (instrument: string, title: string, description: object) => [
    {
      kind: "instrument",
      instrument,
      title,
      trial: { reference: "a reference", quantity: "level_V", true: 10, limit: 0.1 },
    },
    { kind: "link", instrument, description },
  ];
  const fresh = [
    ...link("meter-lan", "Bench multimeter", meterAt(meter.wire)),
    ...link("ac-source", "Mains supply", sourceAt(source.wire)),
    { kind: "trial", instrument: "meter-lan", value: 10, doubt: 0.01 },
  ].map((body) => ({ at: now, by: "owner", ...body }));
  await store.append([...opened, ...fresh]);
  await store.close();
  ({ address, stop } = await serve(["serve", "--data", folder, "--no-backup"], { kept: true }));
});
afterAll(async () => {
  await browser?.close();
  await stop?.();
  await meter?.close();
  await source?.close();
});

async function ledger(): Promise<readonly Evidence[]> {
  const store = await openStore(folder, { write: false });
  const entries = store.evidence();
  await store.close();
  return entries;
}

const withoutFault = async (page: Page) => {
  expect(await breaches(page)).toEqual([]);
  await page.setViewportSize(phone);
  await expect.poll(() => isTooWide(page)).toBe(false);
  expect(await smallTargets(page)).toEqual([]);
};

test("a meter on the wire feeds the probe card, names a garbled line, and its reading stands once", async () => {
  const { page, errors } = await openPage(browser, bench.width);
  page.setDefaultTimeout(60_000);
  await page.goto(`${address}/unit/0101/probe`);
  await page.getByRole("radio", { name: "volts" }).check();
  const take = page.getByRole("button", { name: "Take from Bench multimeter" });
  const reading = page.getByRole("textbox", { name: "Reading", exact: true });
  meter.slips = ["none", "garble"];
  await take.click();
  await page.getByText(/Its answer can.t be read/).waitFor();
  expect(await reading.inputValue()).toBe("");
  await take.focus();
  await page.keyboard.press("Enter");
  await page.getByText("196.40 ± 0.22 V from Bench multimeter.").waitFor();
  expect(await reading.inputValue()).toBe("196.4");
  await page.getByLabel("Who writes this down").fill("bench");
  await picture(page, "instruments-probe");
  await withoutFault(page);
  await picture(page, "instruments-probe-phone");
  await page.getByRole("button", { name: "Write it down" }).click();
  await page
    .getByText(/a1.*196/)
    .first()
    .waitFor();
  const read = async () => (await ledger()).filter(({ body }) => body.kind === "reading");
  await expect.poll(async () => (await read()).length).toBe(1);
  const [entry] = await read();
  expect(entry).toMatchObject({
    id: expect.stringMatching(/^m-/),
    body: { quantity: "level_V", value: 196.4, doubt: 0.217, instrument: "meter-lan", subject: { point: "a1" } },
  });
  expect(errors).toEqual([]);
});

test("a supply is set inside its owner's limits, and what lies beyond never reaches it", async () => {
  const { page, errors } = await openPage(browser, bench.width);
  page.setDefaultTimeout(60_000);
  await page.goto(`${address}/instruments`);
  const one = page.getByRole("listitem").filter({ has: page.getByRole("heading", { name: "Mains supply", level: 3 }) });
  await one.getByText("The owner has set no limits for it").waitFor();
  await one.getByText("What it may be set to").click();
  const owner = one.locator("details").filter({ hasText: "What it may be set to" });
  const fill = async (form: Locator, fields: Readonly<Record<string, string>>) => {
    for (const [label, text] of Object.entries(fields)) await form.getByLabel(label, { exact: true }).fill(text);
  };
  await fill(owner, {
    "Voltage, at least": "0",
    "Voltage, at most": "253",
    "Frequency, at least": "45",
    "Frequency, at most": "62",
    "Who writes this down": "owner",
  });
  await owner.getByRole("button", { name: "Set these limits" }).click();
  await one.getByText("Limits set by owner").waitFor();

  const desk = one.locator(".supply-desk > form");
  await desk.getByLabel("Voltage").fill("260");
  await desk.getByRole("button", { name: "Set it" }).click();
  await desk.getByText("260; 0 to 253 V, as the owner set it").waitFor();
  await desk.getByLabel("Voltage").fill("230");
  await desk.getByLabel("Frequency").fill("47");
  await desk.getByRole("button", { name: "Set it" }).click();
  await desk.getByText("the core's flux rises").waitFor();
  expect(source.heard.filter((line) => !line.endsWith("?"))).toEqual([]);
  await desk.getByLabel("Frequency").fill("57,5");
  await page.keyboard.press("Enter");
  await desk.getByText("It says that it is set to 230.0 V r.m.s., 57.50 Hz.").waitFor();
  expect(supply).toMatchObject({ V: 230, Hz: 57.5, on: false });

  await desk.getByRole("button", { name: "Switch its output on" }).click();
  await desk.getByText("Say first that hands are off").waitFor();
  await desk.getByLabel("Hands are off and the leads are where they should be").check();
  await desk.getByRole("button", { name: "Switch its output on" }).click();
  await desk.locator("strong").getByText("Its output is on.").waitFor();
  expect(supply.on).toBe(true);
  await desk.getByRole("button", { name: "Switch its output off" }).click();
  await desk.locator("strong").getByText("Its output is off.").waitFor();
  expect(supply.on).toBe(false);
  expect(errors).toEqual([]);
});

test("a log goes on with its page closed, shows each reading as it comes, and is stopped", async () => {
  const first = await openPage(browser, bench.width);
  first.page.setDefaultTimeout(60_000);
  const oneOf = (page: Page) =>
    page.getByRole("listitem").filter({ has: page.getByRole("heading", { name: "Bench multimeter", level: 3 }) });
  await first.page.goto(`${address}/instruments`);
  const one = oneOf(first.page);
  await one.getByText("Read it again and again").click();
  const form = one.locator("details").filter({ hasText: "Read it again and again" });
  await form.getByLabel("Unit", { exact: true }).fill("0101");
  await form.getByLabel("Every").fill("1");
  await form.getByLabel("Who writes this down").fill("bench");
  await form.getByRole("button", { name: "Begin" }).click();
  await one.getByText(/level \(V\) of 0101/).waitFor();
  await first.page.close();

  volts = "201.10";
  const { page, errors } = await openPage(browser, bench.width);
  page.setDefaultTimeout(60_000);
  await page.goto(`${address}/instruments`);
  const again = oneOf(page);
  await again.getByText("201.10 ± 0.22 V").first().waitFor();
  await again.getByText(/^[3-9] of 1800/).waitFor();
  // Its word stands until the next reading comes; several in a row can't be overlooked by a busy browser.
  meter.slips = ["silent", "silent", "silent", "silent", "silent", "silent"];
  await again.getByText("It does not answer").first().waitFor();
  await again.getByText(/\d missed/).waitFor();
  await picture(page, "instruments-linked");
  expect(await breaches(page)).toEqual([]);
  await withoutFault(page);
  await picture(page, "instruments-linked-phone");
  await page.setViewportSize(bench);
  await again.getByLabel("Who writes this down").first().fill("bench");
  await again.getByRole("button", { name: "Stop", exact: true }).click();
  await page.getByText("Logs that have ended").click();
  await page.getByText(/stopped by bench/i).waitFor();
  const logged = (await ledger()).flatMap(({ id, body }) =>
    body.kind === "reading" && id.startsWith("log-") ? [id] : [],
  );
  expect(logged.length).toBeGreaterThanOrEqual(3);
  expect(new Set(logged).size).toBe(logged.length);
  expect(errors).toEqual([]);
});
