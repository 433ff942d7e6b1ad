import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { UnitView } from "../../src/workshop/views.ts";
import { keptFolder, serve } from "../helpers.ts";
import { channel, wavFile } from "../synthesis.ts";
import { isTooWide, openBrowser, openPage, readyPage } from "./page.ts";
import { bench, breaches, phone, smallTargets } from "./walk.ts";

/**
 * One unit from an empty folder to its parcel and back, by somebody who has nothing but the screens: no command, no
 * demo, files of their own. What single screens do beside this is tried in their own tests.
 */
const folder = keptFolder();
const workshop = join(folder, "workshop");
let browser: Browser;
let page: Page;
let errors: readonly string[];
let served: Awaited<ReturnType<typeof serve>>;
beforeAll(async () => {
  readyPage();
  browser = await openBrowser();
  served = await serve(["serve", "--data", workshop, "--no-backup"], { kept: true });
  ({ page, errors } = await openPage(browser, bench.width));
  page.setDefaultTimeout(60_000);
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await served?.stop();
});

const open = (path: string) => page.goto(`${served.address}${path}`);
const unit = async () => (await (await fetch(`${served.address}/api/units/0001`)).json()) as UnitView;
const sectionOf = (heading: string) => page.locator("section", { has: page.locator(`#${heading}`) });

async function fill(within: Locator | Page, typed: Readonly<Record<string, string>>): Promise<void> {
  for (const [label, text] of Object.entries(typed)) await within.getByLabel(label, { exact: true }).fill(text);
}

test("the shop, its instruments and its headphones are set up from the first steps on", async () => {
  await open("/");
  await page.getByRole("link", { name: /The shop: its people/ }).click();
  await page.getByRole("heading", { name: "The shop", level: 1 }).waitFor();
  const house = page.locator("main form").first();
  await fill(house, {
    "What the workshop calls itself": "Three Lamps",
    "By role, not by name": "owner",
    Place: "bench",
  });
  await house.getByLabel("Can do").fill("wiring, voltages, audio, safety, valves, wood");
  await house.getByLabel("Currency").fill("euro");
  await house.getByLabel("Mains of this building").fill("50");
  await house.getByLabel("Clean supply").fill("57");
  await house.getByLabel("Monday").fill("8-12");
  await house.getByLabel("Who writes this down").fill("owner");
  await house.getByRole("button", { name: "Write the shop down" }).click();
  await house.getByText("Three capital letters, such as EUR.").waitFor();
  await house.getByText("Monday: write hours as 08:00-12:00").waitFor();
  await page.reload();
  await house.getByText("What you had typed here is still here.").waitFor();
  await house.getByLabel("Currency").fill("EUR");
  await house.getByLabel("Monday").fill("08:00-12:00");
  await house.getByRole("button", { name: "Write the shop down" }).click();
  await page.getByText("Three Lamps").first().waitFor();

  const instruments = sectionOf("instruments");
  const sorts = [
    ["Multimeter, on a known voltage", "meter-1", "10", "0,05"],
    ["Recorder, on a loop-back lead", "recorder-1", "0,5", "0,02"],
    ["Valve tester, on a reference valve", "tester-1", "9", "0,9"],
  ] as const;
  for (const [sort, name, value, limit] of sorts) {
    await instruments.getByLabel(sort).check();
    await instruments.getByLabel("Its short name").fill(name);
    await fill(instruments, { "Its true value": value, "May read off by": limit });
    await instruments.getByRole("button", { name: "Put it on trial" }).click();
    await instruments.getByText(`${name} is on record`).waitFor();
  }
  const headphones = sectionOf("headphones");
  await fill(headphones, { "Called here": "closed", Impedance: "250", Sensitivity: "98" });
  await headphones.getByRole("button", { name: "Write the headphone down" }).click();
  await headphones.getByText("closed is on record.").waitFor();
  expect(await breaches(page)).toEqual([]);

  await page.getByRole("link", { name: "Instruments on trial" }).first().click();
  for (const [, name, value] of sorts) {
    const one = page.getByRole("listitem").filter({ has: page.getByRole("heading", { name, exact: true }) });
    await one.getByText("Enter a trial").click();
    await one.getByLabel("It reads").fill(value);
    await one.getByLabel("Doubt of that reading").fill("0,001");
    await one.getByRole("button", { name: "Write the trial down" }).click();
    await one.getByText("Good", { exact: true }).waitFor();
  }
});

test("a model is drawn in two channels, its steps are made the shop's own, and it can be ordered", async () => {
  await open("/notebook");
  await page.getByRole("button", { name: "Put in a small stage to begin from" }).click();
  const text = page.getByRole("textbox", { name: "Net list" });
  await text.fill(twice(await text.inputValue()));
  await page.getByText("Reads well: 15 parts.").waitFor();
  await page.getByLabel("Model").fill("Holm");
  await page.getByLabel("Why, in a sentence").fill("A first drawing");
  await page.getByRole("button", { name: "Write this version down" }).click();
  await page.getByRole("heading", { name: "Holm" }).waitFor();
  const release = page.locator(".release");
  await release.getByRole("button", { name: "Draw up its claims" }).click();
  // Proofs of wood, of sound and by the probe card have walks of their own.
  const elsewhere = ["Gain is", "Gain stage", "Output impedance", "No direct voltage", "The hiss", "Heaters get"];
  for (const title of [...elsewhere, "The supply’s points", "The case will", "The closed case"]) {
    const claim = release.locator("details").filter({ has: page.locator("summary", { hasText: title }) });
    await claim.locator("summary").click();
    await claim.getByLabel("Leave this claim out").check();
  }
  await release.getByText("Steps before the checks").click();
  await release.getByRole("button", { name: "Take out heat run" }).click();
  await release.getByRole("button", { name: "Another step" }).click();
  const last = release.locator("fieldset", { hasText: "2." }).last();
  await fill(last, { Step: "burn-in", quick: "24", usual: "24", slow: "24" });
  await last.getByLabel("goes on by itself once begun").check();
  await release.getByRole("button", { name: "Release as revision A" }).click();
  await release.getByText("Holm revision A is on record.").waitFor();
});

/** The sample's stage for the right channel too, on the other section of its valve. */
function twice(sample: string): string {
  type Named = Readonly<Record<string, unknown>>;
  const { parts, testPoints, ...rest } = JSON.parse(sample) as { parts: Named[]; testPoints: Named[] };
  const right = (one: Named) =>
    JSON.parse(
      JSON.stringify(one)
        .replace(/"(in|a|k|out)"/g, '"$1R"')
        .replace('"left"', '"right"'),
    ) as Named;
  return JSON.stringify({
    ...rest,
    parts: [
      ...parts,
      ...parts.slice(1).map((part) => ({ ...right(part), id: part.id === "V1a" ? "V1b" : `${part.id}R` })),
    ],
    testPoints: [
      ...testPoints,
      ...testPoints.slice(1).map((point) => ({ ...right(point), name: `${point.name} right` })),
    ],
  });
}

test("an order is taken with what was chosen, its route told, its part waited for, and its date given", async () => {
  await open("/promises");
  await page.getByRole("link", { name: "Orders" }).first().click();
  const take = page.locator("#take");
  await take.getByLabel("Customer’s number").fill("c-1");
  await take.getByLabel("Goes to").fill("Prairie town, Canada");
  await fill(take, { "Mains there": "120", "Frequency there": "60" });
  await take.getByLabel("What they chose").fill("ash");
  await take.getByRole("button", { name: "Take the order" }).click();
  await take.getByText("“ash” can’t be read as a choice.").waitFor();
  await take.getByLabel("What they chose").fill("timber: white ash; finish: oil");
  await take.getByRole("button", { name: "Take the order" }).click();
  await page.getByRole("heading", { name: "Order W-1" }).waitFor();
  await page.getByText("timber: white ash; finish: oil").waitFor();
  await page.getByRole("row", { name: /burn-in by itself/ }).waitFor();
  await page.getByText("Every touchable metal part is bonded to earth (safety)").waitFor();

  await page.getByLabel("Tap of its mains").fill("120");
  await page.getByRole("button", { name: "Open the folder of 0001" }).click();
  await page.getByText("0 of 2 steps done").waitFor();
  await page.getByText("Another part it waits for").click();
  await fill(page, { Part: "transformer", "Usual days until it comes": "10", "Days if it is late": "20" });
  await page.getByRole("button", { name: "Write the part down" }).click();
  await page.getByRole("button", { name: /It has come.*transformer/ }).click();
  await page.getByText(/transformer .*came \w/).waitFor();
  await page.getByRole("link", { name: "Give a date in the promise book" }).click();
  await page.getByText("Give a date").first().click();
  await page.getByRole("button", { name: "Write the promise down" }).click();
  await page.getByText(/W-1 is promised for/).waitFor();
});

test("a tray read by file before and after its heat run says which valve goes into the unit and which goes back", async () => {
  await open("/valves");
  await page.getByLabel("Name of the batch").fill("M");
  await page.getByLabel("Valve type").fill("6SN7GT");
  await page.getByLabel("Where it came from").fill("a clearance");
  await page.getByLabel("First number").fill("M-1");
  await page.getByLabel("How many").fill("3");
  await page.getByRole("button", { name: "Receive it" }).click();
  await page.getByLabel("Tester").fill("tester-1");
  await fill(page, { "Plate voltage": "250", "Grid voltage": "−8" });
  await page.getByLabel(/its true plate current/).fill("9,00");
  await page.getByRole("button", { name: "Set these limits" }).click();
  const file = page.locator("#file");
  await file.locator("summary").click();
  for (const { session, hours, shown, fallen } of [
    { session: "cold", hours: 1, shown: 1, fallen: 1 },
    { session: "hot", hours: 49, shown: 0.97, fallen: 0.9 },
  ]) {
    const mA = (value: number) => (value * shown).toFixed(3).replace(".", ",");
    const rows = ["Tube;Half;Ip [mA];Clock", `REF-6SN7GT;a;${mA(9)};${hours}`];
    for (const [valve, a, b] of [
      ["M-1", 9.1, 9.05],
      ["M-2", 9.2, 9.1 * fallen],
      ["M-3", 9, 9],
    ] as const)
      rows.push(`${valve};a;${mA(a)};${hours}`, `${valve};b;${mA(b)};${hours}`);
    const table = join(folder, `${session}.csv`);
    writeFileSync(table, rows.join("\n"));
    await file.getByLabel("The file").setInputFiles(table);
    if (session === "cold") {
      await file.getByLabel("Valve’s number").selectOption("Tube");
      await file.getByLabel("Section", { exact: true }).selectOption("Half");
      await file.getByLabel("Plate current, mA").selectOption("Ip [mA]");
      await file.getByLabel("Hours on the tester’s clock").selectOption("Clock");
      await file.getByLabel("Tester", { exact: true }).fill("tester-1");
    } else await file.getByText("Chosen as you last chose").waitFor();
    await file.getByLabel(session === "cold" ? "Cold, before the heat run" : "Hot, after it").check();
    await file.getByRole("button", { name: "Write 7 readings down" }).click();
    await file.getByText("7 readings written down.").waitFor();
  }
  // source: M-2's section b was typed as 9.1 and 0.9 times that; the tester's own 3 % are told by the reference valve
  await page.getByRole("button", { name: "M-2: reject" }).waitFor();
  await page.getByRole("link", { name: "Sheet for the seller" }).click();
  await page.getByText(/2 may be used.*1 rejected/).waitFor();
  await page.getByText(/Section b: drift −10(\.0)? %/).waitFor();
  await page.getByText(/off its true current in the cold session and −3/).waitFor();

  await page.goto(`${served.address}/unit/0001/work`);
  await page.getByRole("button", { name: /It is done.*wiring/ }).click();
  await page.getByText(/^done \w/).waitFor();
  const place = page.getByLabel("Put in V1");
  expect(await place.locator("option").allInnerTexts()).toEqual([
    "leave as it is",
    "M-1 (may be used)",
    "M-3 (may be used)",
    "M-2 (rejected)",
  ]);
  await place.selectOption("M-1");
  await page.getByRole("button", { name: "Write it down" }).click();
  await page.locator(".work-valves").getByText("M-1", { exact: true }).waitFor();
  await page.getByText("Set it going").click();
  await page.locator(".begin").getByLabel("Where").fill("bench");
  await page.getByRole("button", { name: "It is begun" }).click();
  await page.getByText(/goes on by itself, bench, until/).waitFor();
  await open("/soaks");
  await page.getByRole("listitem").filter({ hasText: "0001" }).getByText("It ended, or something failed").waitFor();
  await open("/unit/0001/work");
  await page.getByRole("button", { name: /It is done.*burn-in/ }).click();
  await expect.poll(() => page.getByText(/^done \w/).count()).toBe(2);
});

test("what the destination's mains make of the unit is told ahead from readings at two supplies here", async () => {
  await open("/unit/0001");
  await page.getByRole("link", { name: "Supply at its destination" }).click();
  await page.getByText("It goes to Prairie town, Canada: 120 V, 60 Hz.").waitFor();
  await page.getByLabel("Taps, by their volts").fill("120 240");
  await fill(page, { "HT at most": "400", "At the lowest and highest mains by": "12", "Frequency here": "50" });
  for (const [reading, supply, heater, ht] of [
    ["Reading 1", "216", "5,7", "270"],
    ["Reading 2", "240", "6,3", "300"],
  ] as const) {
    const row = page.getByRole("group", { name: reading });
    await row.getByLabel("On the tap").fill("242");
    await fill(row, { "Volts at the plug": supply, Heaters: heater, HT: ht });
  }
  await page.getByRole("button", { name: "Work it out" }).click();
  await page.getByText("No tap is called 242.").first().waitFor();
  for (const reading of ["Reading 1", "Reading 2"])
    await page.getByRole("group", { name: reading }).getByLabel("On the tap").fill("240");
  await page.getByRole("button", { name: "Work it out" }).click();
  // source: by hand, heaters rise by 0.6 V and HT by 30 V for a tenth of the mains: 5.7, 6.3, 6.9 V and 270, 300, 330 V,
  // each to 0.5 % of the meter and 0.1 % of scatter, which the line carries 2.24-fold to a tenth beyond the readings
  await page.getByRole("heading", { name: /Set it to tap 120\. It bears the mains there\./ }).waitFor();
  await page.getByRole("row", { name: /At the lowest mains, 108 V 5\.700 ± 0\.029 V 270\.0 ± 1\.4 V/ }).waitFor();
  await page.getByRole("row", { name: /At the highest mains, 132 V 6\.90 ± 0\.04 V 330\.0 ± 1\.8 V/ }).waitFor();
  expect(await breaches(page)).toEqual([]);
});

test("every proof is brought on the screens, in the order that protects, and the owner releases", async () => {
  await open("/unit/0001/safety");
  for (const [name, value, doubt] of [
    ["Protective earth continuity", "0,05", "0,005"],
    ["Insulation", "200", "20"],
    ["Discharge of the stores", "12", "1"],
    ["Touch current", "0,05", "0,01"],
  ] as const) {
    const one = page.getByRole("listitem").filter({ has: page.getByRole("heading", { name }) });
    await one.getByRole("textbox", { name: "Reading" }).fill(value);
    await one.getByRole("textbox", { name: "Doubt" }).fill(doubt);
    await one.getByLabel("Instrument").fill("meter-1");
    await one.getByRole("button", { name: "Write it down" }).click();
    await one.getByText("Proven", { exact: true }).waitFor();
  }

  for (const supply of [50, 57]) {
    const wav = join(folder, `${supply}.wav`);
    const side = (seed: number) => channel([{ frequency_Hz: 2 * supply, level_Vrms: 2e-7 }], 2e-8, 4, 22_050, seed);
    writeFileSync(wav, wavFile([side(supply), side(supply + 1)], 22_050, 0.01));
    await open("/unit/0001/hum");
    await page.getByLabel("WAV file").setInputFiles(wav);
    if (supply === 57) {
      await page.getByLabel("clean supply").check();
      await page.getByLabel("Frequency of its supply").fill("57");
    }
    await page.getByLabel("Full scale of the recorder").fill("0,01");
    await page.getByLabel("Recorder", { exact: true }).fill("recorder-1");
    await page.getByRole("button", { name: "Bring it in" }).click();
    await page.getByText("Brought in: recording").waitFor();
  }

  await open("/unit/0001");
  await page.getByRole("heading", { name: "Enter readings" }).waitFor();
  for (const [title, value, doubt] of [
    ["The fuse suits", "1,6", "0,01"],
    ["The rating label", "0", "0"],
  ] as const) {
    const form = page.locator("#readings details").filter({ has: page.locator("summary", { hasText: title }) });
    await form.waitFor();
    if (!(await form.evaluate((one) => (one as HTMLDetailsElement).open))) await form.locator("summary").click();
    await form.getByLabel("Reading").fill(value);
    await form.getByLabel("Doubt").fill(doubt);
    await form.getByLabel("Instrument").fill("meter-1");
    await form.getByRole("button", { name: "Write it down" }).click();
    await form.waitFor({ state: "detached" });
  }
  await page.getByText("Every proof is in the folder. It may be released.").waitFor();
  await page.getByRole("button", { name: "Release unit 0001" }).click();
  await page.getByText("Released. Unit 0001 may leave.").first().waitFor();
}, 120_000);

test("it is packed on a phone with its valve apart and the right label, and another bench sees it", async () => {
  const other = await (await browser.newContext({ viewport: bench })).newPage();
  await other.goto(`${served.address}/order/W-1`);
  await other.getByText("2 of 2 steps done, released").waitFor();
  await page.setViewportSize(phone);
  await page.getByRole("link", { name: "Pack it" }).click();
  await page.getByRole("heading", { name: "Pack 0001" }).waitFor();
  await fill(page, { "Voltage on the label": "230", "Frequency on the label": "60" });
  const pack = page.getByRole("button", { name: "It is packed" });
  await pack.click();
  await page.getByText("Not accounted for: M-1.").waitFor();
  await page.getByLabel("Scan or type a valve").focus();
  for (const [code, said] of [
    ["M-3", "M-3 does not belong to this unit."],
    ["M-1", "M-1 is in, for V1."],
  ] as const) {
    await page.keyboard.type(code);
    await page.keyboard.press("Enter");
    await page.getByText(said).waitFor();
  }
  for (const thing of ["the unit, cold", "mains lead", "a spare fuse", "the dossier", "the sheet of cautions"])
    await page.getByLabel(new RegExp(`^${thing}`)).check();
  await page.getByLabel(/goes without.*dry packing/).check();
  // What is typed outlives a reload, and the wrong label is refused in words.
  await page.reload();
  await page.getByText("What you had typed here is still here.").waitFor();
  await pack.click();
  await page.getByText(/order W-1 goes to 120/).waitFor();
  expect(await isTooWide(page)).toBe(false);
  expect(await smallTargets(page)).toEqual([]);
  expect(await breaches(page)).toEqual([]);
  await page.getByLabel("Voltage on the label").fill("120");
  await pack.click();
  await page.getByText(/^Packed /).waitFor();
  await other.getByText("2 of 2 steps done, packed").waitFor();
  await other.context().close();
});

test("it comes back: what it left with stands beside today's, a valve stands ready, and it is released anew", async () => {
  await page.getByRole("link", { name: "It came back" }).click();
  await page.getByLabel("What the customer says").fill("hums on the left since the move");
  await page.getByRole("button", { name: "Write the return down" }).click();
  await page.getByText("Nothing was read anew yet.").waitFor();
  const reserve = sectionOf("reserve");
  await reserve.getByText("M-3", { exact: true }).waitFor();
  expect(await isTooWide(page)).toBe(false);
  expect(await smallTargets(page)).toEqual([]);
  await page.setViewportSize(bench);
  await open("/");
  const cameBack = sectionOf("back-name");
  await cameBack.getByText("hums on the left since the move").waitFor();
  await cameBack.getByRole("link", { name: "Read it anew" }).click();
  await page.getByRole("link", { name: "Safety sheet first" }).click();
  const bond = page
    .getByRole("listitem")
    .filter({ has: page.getByRole("heading", { name: "Protective earth continuity" }) });
  await bond.getByText("Enter a reading").click();
  await bond.getByRole("textbox", { name: "Reading" }).fill("0,075");
  await bond.getByRole("textbox", { name: "Doubt" }).fill("0,005");
  await bond.getByLabel("Instrument").fill("meter-1");
  await bond.getByRole("button", { name: "Write it down" }).click();
  await bond
    .getByText(/0\.075/)
    .first()
    .waitFor();
  await open("/unit/0001/return");
  // source: by hand, 0.075 − 0.050 = 0.025, √2·0.005 = 0.007
  await page.getByRole("row", { name: /bond .*0\.050 ± 0\.005.*0\.075 ± 0\.005.*0\.025 ± 0\.007 Ω, moved/ }).waitFor();
  await fill(page, { "What was found": "half a turn", "The repair took": "0,5" });
  await page.getByLabel("Fault, in few words").fill("loose earth screw");
  await page.getByRole("button", { name: "Write the fault down" }).click();
  await page.getByText("loose earth screw", { exact: true }).waitFor();
  expect(await breaches(page)).toEqual([]);

  await page.getByRole("link", { name: "Work and rework" }).click();
  await page.getByLabel("case opened").check();
  const rework = page.locator("form").filter({ hasText: "Parts exchanged" });
  await rework.getByLabel("Why").fill("earth screw tightened");
  await rework.getByRole("button", { name: "Write the rework down" }).click();
  await page.getByText(/owner: earth screw tightened/).waitFor();
  await open("/unit/0001");
  await page.getByText(/^Came back .*hums on the left since the move/).waitFor();
  expect((await unit()).release.missing.map(({ claim }) => claim)).toEqual(["earth-bond"]);
  const form = page
    .locator("#readings details")
    .filter({ has: page.locator("summary", { hasText: "bonded to earth" }) });
  if (!(await form.evaluate((one) => (one as HTMLDetailsElement).open))) await form.locator("summary").click();
  await form.getByLabel("Reading").fill("0,03");
  await form.getByLabel("Doubt").fill("0,005");
  await form.getByLabel("Instrument").fill("meter-1");
  await form.getByRole("button", { name: "Write it down" }).click();
  await form.waitFor({ state: "detached" });
  await page.getByRole("button", { name: "Release unit 0001" }).click();
  await page.getByText("Released. Unit 0001 may leave.").first().waitFor();
  expect(errors).toEqual([]);
}, 120_000);
