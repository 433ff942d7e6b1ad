import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { writeWorkbook } from "../../src/exchange/workbook.ts";
import type { TrayView } from "../../src/workshop/views.ts";
import { keptFolder, serve, temporaryFolder } from "../helpers.ts";
import { isTooWide, openBrowser, openPage, picture, readyPage } from "./page.ts";
import { bench, breaches, phone, smallTargets } from "./walk.ts";

const folder = join(keptFolder(), "workshop");
let browser: Browser;
beforeAll(async () => {
  readyPage();
  browser = await openBrowser();
});
afterAll(() => browser?.close());

test("a newcomer with an empty workshop receives a batch, reads it, and knows which valve to send back", async () => {
  const { address } = await serve(["serve", "--data", folder]);
  const { page, errors } = await openPage(browser, bench.width);
  page.setDefaultTimeout(60_000);
  await page.goto(`${address}/valves`);
  await page.getByRole("heading", { name: "No valve has come in yet" }).waitFor();
  expect(await breaches(page)).toEqual([]);

  await page.getByLabel("Name of the batch").fill("M");
  await page.getByLabel("Valve type").fill("6sn7gt");
  await page.getByLabel("Where it came from").fill("a house clearance");
  await page.getByLabel("First number").fill("M-09");
  await page.getByLabel("How many").fill("3,5");
  await page.getByLabel("Who writes this down").fill("bench");
  await page.getByRole("button", { name: "Receive it" }).click();
  await page.getByText("A whole number from 1 to 500.").waitFor();
  await page.getByLabel("How many").fill("3");
  await page.getByText("They are numbered M-09 to M-11.").waitFor();
  await page.getByRole("button", { name: "Receive it" }).click();
  await page.getByRole("heading", { name: "Tray M" }).waitFor();
  await page.getByText("No test point or limits of the 6SN7GT").waitFor();

  await page.getByLabel("Tester").fill("hand tester");
  await page.getByLabel("Plate voltage").fill("250");
  await page.getByLabel("Grid voltage").fill("−8");
  await page.getByLabel("REF-6SN7GT: its true plate current").fill("9,00");
  await page.getByRole("button", { name: "Set these limits" }).click();
  await page.getByText("Next: the reference valve REF-6SN7GT").waitFor();
  expect(await breaches(page)).toEqual([]);

  // Keyboard alone: a current, Enter, the next section is proposed.
  const current = page.getByRole("textbox", { name: "Plate current" });
  await current.focus();
  const read = async (typed: string, next: string | RegExp) => {
    await page.keyboard.type(typed);
    await page.keyboard.press("Enter");
    await page.getByText(next).waitFor();
    await page.waitForFunction(() => document.activeElement?.closest(".round-current") !== null);
  };
  await read("9,00", "Next: M-09, section a");
  await read("9,10", "Next: M-09, section b");
  await read("9.05", "Next: M-10, section a");
  await read("8,80", "Next: M-10, section b");
  await read("8,90", "Next: M-11, section a");
  await page.keyboard.type("8,8o");
  await page.keyboard.press("Enter");
  await page.getByText("“8,8o” is not a number").waitFor();
  expect(await current.inputValue()).toBe("8,8o");
  await current.fill("");
  // A scanner types a valve's number into whatever field has the keys.
  await page.keyboard.type("M-11");
  await page.keyboard.press("Enter");
  await expect.poll(() => page.getByRole("textbox", { name: "Valve" }).inputValue()).toBe("M-11");
  await read("9,30", "Next: M-11, section b");
  await page.keyboard.type("9,2");
  await page.reload();
  await page.getByText("What you had typed here is still here.").waitFor();
  expect(await current.inputValue()).toBe("9,2");
  await current.press("Enter");
  await page.getByText("Every section of the tray was read").waitFor();

  // The hot session comes as a file of somebody's own columns.
  const table = join(temporaryFolder(), "hot.csv");
  writeFileSync(table, "Tube;Half;Ip [mA]\nM-09;a;9,01\nM-09;b;8,96\nM-10;a;8,71\nM-10;b;8,05\nM-11;a;9,21\nX-1;a;9\n");
  const byFile = page.locator("#file");
  await byFile.locator("summary").click();
  await byFile.getByLabel("The file").setInputFiles(table);
  await byFile.getByLabel("Valve’s number").selectOption("Tube");
  await byFile.getByLabel("Section", { exact: true }).selectOption("Half");
  await byFile.getByLabel("Plate current, mA").selectOption("Ip [mA]");
  await byFile.getByLabel("Hot, after it").check();
  await byFile.getByText("5 readings would be written down.").waitFor();
  await byFile.getByText("line 7: “X-1” is not in this tray").waitFor();
  await byFile.getByLabel("Tester", { exact: true }).fill("hand tester");
  expect(await breaches(page)).toEqual([]);
  await byFile.getByRole("button", { name: "Write 5 readings down" }).click();
  await byFile.getByText("5 readings written down.").waitFor();
  // The last one stands in a spreadsheet with the same head.
  const sheet = join(temporaryFolder(), "hot.xlsx");
  const head = ["Tube", "Half", "Ip [mA]"];
  writeFileSync(sheet, await writeWorkbook({ name: "hot", head, rows: [["M-11", "b", 9.12]] }, new Date(0)));
  await byFile.getByLabel("The file").setInputFiles(sheet);
  await byFile.getByText("Chosen as you last chose").waitFor();
  await byFile.getByLabel("Hot, after it").check();
  await byFile.getByRole("button", { name: "Write 1 reading down" }).click();
  await byFile.getByText("1 reading written down.").waitFor();

  // source: section b of M-10 was typed as 8.90 and 8.05, a fall of 9.6 %
  await page.getByRole("button", { name: "M-10: reject" }).click();
  const card = page.locator(".valve-card");
  await card.getByRole("heading", { name: "M-10" }).waitFor();
  await card.getByText(/Section b: drift −9\.55/).waitFor();
  expect(await breaches(page)).toEqual([]);
  const view = (await (await fetch(`${address}/api/trays/M`)).json()) as TrayView;
  expect(view.valves.map(({ standing }) => standing)).toEqual(["use", "reject", "use"]);

  // A mistyped reading is put right by a newer one.
  await card.getByRole("button", { name: "Correct" }).first().click();
  await card.getByLabel(/^Correct b, hot/).fill("8,81");
  await card.getByRole("button", { name: "Write the correction" }).click();
  await page.getByRole("button", { name: "M-10: use" }).waitFor();
  await card.getByRole("button", { name: "Back to the tray" }).click();
  expect(await page.evaluate(() => document.activeElement?.getAttribute("data-valve"))).toBe("M-10");
  await page.keyboard.press("ArrowRight");
  expect(await page.evaluate(() => document.activeElement?.getAttribute("data-valve"))).toBe("M-11");

  await page.locator("#sets summary").click();
  await page.getByText("No model on record has a place for valves of this type.").waitFor();

  await page.setViewportSize(phone);
  expect(await isTooWide(page)).toBe(false);
  expect(await smallTargets(page)).toEqual([]);
  expect(await breaches(page)).toEqual([]);
  await picture(page, `tray-${phone.width}`);

  await page.getByRole("link", { name: "Sheet for the seller" }).click();
  await page.getByRole("heading", { name: "What was found in batch M" }).waitFor();
  await page.getByText("3 may be used").waitFor();
  expect(await isTooWide(page)).toBe(false);
  expect(await breaches(page)).toEqual([]);
  await page.emulateMedia({ media: "print" });
  expect(await page.locator("button:visible, nav:visible").count()).toBe(0);
  expect((await page.pdf({ preferCSSPageSize: true })).byteLength).toBeGreaterThan(10_000);
  await page.emulateMedia({ media: "screen" });
  await page.getByRole("link", { name: "Back to the tray" }).click();
  await page.getByRole("link", { name: "All trays" }).click();
  await page.getByText("Read before and after the heat run").waitFor();
  expect(await isTooWide(page)).toBe(false);
  expect(await breaches(page)).toEqual([]);
  expect(errors).toEqual([]);
  await page.context().close();
}, 240_000);
