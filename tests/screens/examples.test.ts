import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { isTooWide, openPage, openScreens, pictures, type Screens } from "./page.ts";

let screens: Screens;
let page: Page;
let errors: readonly string[];
let names: readonly string[];

beforeAll(async () => {
  screens = await openScreens("preview");
  ({ page, errors } = await openPage(screens.browser, 1440));
  await page.goto(`${screens.address}preview.html`);
  names = await page
    .locator("[data-example]")
    .evaluateAll((links) => links.map((link) => link.getAttribute("data-example") ?? ""));
});
afterAll(() => screens?.close());

const bench = { width: 1440, height: 900 };
const phone = { width: 390, height: 844 };
const enlarged = { width: 320, height: 256 };

async function show(name: string, size = bench): Promise<void> {
  await page.setViewportSize(size);
  await page.evaluate((hash) => {
    location.hash = hash;
  }, name);
  await page.waitForFunction((hash) => location.hash === `#${hash}` && !document.querySelector("[data-example]"), name);
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

/** The fullest example of each screen. */
const fullest = ["unit-many", "hum-cannot-tell", "hum-decided", "morning-usual", "promises-few", "units-many"];

/** More of the same: only their width is at stake. */
const longer = [
  "unit-very-long",
  "hum-many",
  "morning-busy",
  "promises-many",
  "timber-many",
  "timber-very-long",
  "timber-case-proven",
];

const wcag = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
async function breaches(name: string): Promise<readonly string[]> {
  // One frame, so the slower way of gathering from many is not needed.
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .options({ runOnly: { type: "tag", values: wcag }, resultTypes: ["violations"] })
    .analyze();
  return violations.map(({ id, nodes }) => `${name}: ${id} ${nodes[0]?.html.slice(0, 160)}`);
}

test("every screen has its examples: empty, waiting, error, one, many, very long", () => {
  expect(names.length).toBeGreaterThanOrEqual(20);
  expect(names).toEqual(expect.arrayContaining(fullest));
});

test("no example breaks WCAG 2.2 AA", async () => {
  const found: string[] = [];
  for (const name of names.filter((one) => !longer.includes(one))) {
    await show(name);
    found.push(...(await breaches(name)));
  }
  for (const name of ["unit-many", "hum-cannot-tell", "morning-usual", "promises-few"]) {
    await show(name, phone);
    found.push(...(await breaches(`${name} on a phone`)));
  }
  expect(found).toEqual([]);
  expect(errors).toEqual([]);
}, 180_000);

test("nothing needs sideways scrolling at phone width, nor at 400 % zoom of a bench screen", async () => {
  const wide: string[] = [];
  for (const name of names) {
    for (const size of [phone, enlarged]) {
      await show(name, size);
      if (await isTooWide(page)) wide.push(`${name} at ${size.width}`);
    }
  }
  expect(wide).toEqual([]);
}, 120_000);

test("what is hit with dirty hands is at least 44 px high", async () => {
  const small: string[] = [];
  for (const name of fullest) {
    await show(name, phone);
    const found = await page
      .locator("button, input:not([type=radio]):not([type=checkbox]), select, summary, .choice-option")
      .evaluateAll((all) =>
        all
          .filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 44)
          .map((one) => one.outerHTML.slice(0, 90)),
      );
    small.push(...found);
  }
  expect(small).toEqual([]);
});

test("states are told by words, not by colour alone, and red means stop", async () => {
  await show("unit-many");
  const signs = await page.locator(".claim .state-sign").allInnerTexts();
  expect(signs).toHaveLength(9);
  for (const text of signs) {
    expect(["Open", "Proven", "Refuted", "Undecided", "Void", "Conceded"]).toContain(text.trim());
  }
  const red = await page.evaluate(() => {
    const probe = document.body.appendChild(document.createElement("i"));
    probe.style.color = "var(--stop)";
    const stop = getComputedStyle(probe).color;
    probe.remove();
    return [...document.querySelectorAll("main *")]
      .filter((one) => one.children.length === 0 && one.textContent?.trim() && getComputedStyle(one).color === stop)
      .map((one) => one.textContent);
  });
  expect(red).toEqual(["It may not leave: 4 proofs are missing."]);
});

test("pictures of the fullest examples are kept for looking at", async () => {
  for (const size of [bench, phone]) {
    for (const name of fullest) {
      await show(name, size);
      const picture = await page.screenshot({ path: `${pictures}${name}-${size.width}.png`, fullPage: true });
      expect(picture.byteLength).toBeGreaterThan(5_000);
    }
  }
}, 120_000);

test("a printed folder has its proofs and leaves out forms, ways and buttons", async () => {
  await show("unit-many");
  const areAllSeen = (selector: string) =>
    page.locator(selector).evaluateAll((all) => all.every((one) => one.checkVisibility()));
  expect(await areAllSeen(".figure-row")).toBe(false);
  await page.emulateMedia({ media: "print" });
  expect(await page.locator("form:visible, button:visible, nav:visible").count()).toBe(0);
  expect(await page.locator(".claim:visible").count()).toBe(9);
  expect(await areAllSeen(".figure-row")).toBe(true);
  const paper = await page.pdf({ path: `${pictures}unit-many.pdf`, preferCSSPageSize: true });
  expect(paper.byteLength).toBeGreaterThan(20_000);
  await page.emulateMedia({ media: "screen" });
});
