import { AxeBuilder } from "@axe-core/playwright";
import { afterAll, beforeAll, expect, test } from "vitest";
import { isTooWide, openPage, openScreens, pictures, type Screens } from "./page.ts";

let screens: Screens;
let names: readonly string[];

beforeAll(async () => {
  screens = await openScreens("preview");
  const { page } = await openPage(screens.browser, 1440);
  await page.goto(`${screens.address}preview.html`);
  names = await page
    .locator("[data-example]")
    .evaluateAll((links) => links.map((a) => a.getAttribute("data-example") ?? ""));
  await page.context().close();
});
afterAll(() => screens?.close());

const path = (name: string) => `${screens.address}preview.html?example=${name}`;
const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

test("every screen has its examples: empty, waiting, error, one, many, very long", () => {
  expect(names.length).toBeGreaterThanOrEqual(20);
});

test("no example breaks WCAG 2.2 AA, on a bench screen or a phone", async () => {
  const found: string[] = [];
  for (const width of [1440, 390]) {
    const { page, errors } = await openPage(screens.browser, width);
    for (const name of names) {
      await page.goto(path(name));
      await page.locator("h1, h2, [role=status]").first().waitFor();
      const { violations } = await new AxeBuilder({ page }).withTags(tags).analyze();
      for (const { id, nodes } of violations) found.push(`${name} at ${width}: ${id} ${nodes[0]?.html.slice(0, 160)}`);
    }
    expect(errors).toEqual([]);
    await page.context().close();
  }
  expect(found).toEqual([]);
});

test("no example needs sideways scrolling at phone width, nor at 400 % zoom of a bench screen", async () => {
  const wide: string[] = [];
  for (const width of [390, 320]) {
    const { page } = await openPage(screens.browser, width);
    for (const name of names) {
      await page.goto(path(name));
      await page.locator("main").waitFor();
      if (await isTooWide(page)) wide.push(`${name} at ${width}`);
    }
    await page.context().close();
  }
  expect(wide).toEqual([]);
});

test("what must be hit with dirty hands is large: at least 44 px high, inline words aside", async () => {
  const { page } = await openPage(screens.browser, 390);
  const small: string[] = [];
  for (const name of ["unit-many", "hum-cannot-tell", "morning-usual", "units-many"]) {
    await page.goto(path(name));
    await page.locator("h1").waitFor();
    const found = await page
      .locator("button, input:not([type=radio]):not([type=checkbox]), select, summary")
      .evaluateAll((all) =>
        all
          .filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 44)
          .map((one) => one.outerHTML.slice(0, 90)),
      );
    small.push(...found);
  }
  await page.context().close();
  expect(small).toEqual([]);
});

test("states are told by words, not by colour alone, and red means stop", async () => {
  const { page } = await openPage(screens.browser, 1440);
  await page.goto(path("unit-many"));
  const signs = page.locator(".claim .state-sign");
  expect(await signs.count()).toBeGreaterThan(5);
  for (const text of await signs.allInnerTexts()) {
    expect(["Open", "Proven", "Refuted", "Undecided", "Void", "Conceded"]).toContain(text.trim());
  }
  const red = await page.evaluate(() => {
    const stop = getComputedStyle(document.documentElement).getPropertyValue("--stop").trim();
    const probe = document.createElement("i");
    probe.style.color = stop;
    document.body.append(probe);
    const rgb = getComputedStyle(probe).color;
    probe.remove();
    return [...document.querySelectorAll("main *")]
      .filter((el) => getComputedStyle(el).color === rgb && el.children.length === 0 && el.textContent?.trim())
      .map((el) => el.textContent);
  });
  expect(red).toEqual(["It may not leave: 4 proofs are missing."]);
  await page.context().close();
});

test("pictures of every example are kept for looking at", async () => {
  for (const width of [1440, 390]) {
    const { page } = await openPage(screens.browser, width);
    for (const name of names) {
      await page.goto(path(name));
      await page.locator("main").waitFor();
      await page.evaluate(() => document.fonts.ready);
      const picture = await page.screenshot({ path: `${pictures}${name}-${width}.png`, fullPage: true });
      expect(picture.byteLength).toBeGreaterThan(5_000);
    }
    await page.context().close();
  }
});

test("the printed folder leaves out what is only for the hand: forms, ways, buttons", async () => {
  const { page } = await openPage(screens.browser, 1440);
  await page.goto(path("unit-many"));
  await page.locator("h1").waitFor();
  await page.emulateMedia({ media: "print" });
  expect(await page.locator("main form:visible, main button:visible, nav:visible").count()).toBe(0);
  expect(await page.locator(".claim:visible").count()).toBe(9);
  const paper = await page.pdf({ path: `${pictures}unit-many.pdf`, format: "A4" });
  expect(paper.byteLength).toBeGreaterThan(20_000);
  await page.context().close();
});
