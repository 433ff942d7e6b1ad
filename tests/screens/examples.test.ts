import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inTurn } from "../inTurn.ts";
import { isTooWide, openPage, openScreens, pictures, type Screens } from "./page.ts";
import { breaches, phone, smallTargets } from "./walk.ts";

let screens: Screens;
let page: Page;
let errors: readonly string[];
let names: readonly string[];

beforeAll(async () => {
  screens = await openScreens("preview");
  ({ page, errors } = await openPage(screens.browser, 1440));
  await page.goto(`${screens.address}preview.html`);
  await page.waitForSelector("[data-example]");
  names = await page
    .locator("[data-example]")
    .evaluateAll((links) => links.map((link) => link.getAttribute("data-example") ?? ""));
});
afterAll(() => screens?.close());

const bench = { width: 1440, height: 900 };
const enlarged = { width: 320, height: 256 };

async function show(name: string, size = bench): Promise<void> {
  if (page.viewportSize()?.width !== size.width) await page.setViewportSize(size);
  await page.evaluate((hash) => {
    location.hash = hash;
  }, name);
  await page.waitForFunction((hash) => location.hash === `#${hash}` && !document.querySelector("[data-example]"), name);
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

/** The fullest example of each screen. */
const fullest = [
  "unit-many",
  "hum-cannot-tell",
  "hum-decided",
  "morning-usual",
  "instruments-usual",
  "safety-half",
  "safety-limits",
  "costs-usual",
  "checks-usual",
  "listening-answered",
  "listening-running",
  "listening-closed",
  "listening-answer",
  "listening-switch",
  "soaks-usual",
  "promises-few",
  "what-if",
  "promises-kept",
  "look-back",
  "units-many",
  "shop-usual",
  "orders-few",
  "order-one",
  "work-usual",
  "pack-ready",
  "return-here",
  "notebook-three",
  "notebook-release",
  "people-register",
  "customers-few",
  "probe-faulty",
  "trays-many",
  "tray-leaning",
  "tray-sets",
  "timber-shelf",
  "timber-places",
  "timber-weigh",
  "timber-piece",
  "timber-case",
];

/** More of the same: only their width is at stake. */
const longer = [
  "unit-very-long",
  "hum-many",
  "morning-busy",
  "instruments-many",
  "promises-many",
  "notebook-many",
  "notebook-very-long",
  "tray-many",
  "timber-many",
  "timber-very-long",
  "timber-case-proven",
];

test("every screen has its examples: empty, waiting, error, one, many, very long", () => {
  expect(names.length).toBeGreaterThanOrEqual(20);
  expect(names).toEqual(expect.arrayContaining([...fullest, ...longer]));
});

test("no example breaks WCAG 2.2 AA", async () => {
  const found: string[] = [];
  for (const name of inTurn(
    names.filter((one) => !longer.includes(one)),
    3,
  )) {
    await show(name);
    found.push(...(await breaches(page)));
  }
  expect(found).toEqual([]);
  expect(errors).toEqual([]);
}, 300_000);

/** What a narrower page may break that the same document kept on a wide one. */
const laidOut = ["color-contrast", "link-in-text-block", "scrollable-region-focusable", "target-size"];

test("on a phone every screen fits, is hit with dirty hands (44 px) and obeys WCAG 2.2 AA", async () => {
  const wide: string[] = [];
  const small: string[] = [];
  const found: string[] = [];
  for (const name of inTurn(names, 3)) {
    await show(name, phone);
    if (await isTooWide(page)) wide.push(name);
    if (!fullest.includes(name)) continue;
    small.push(...(await smallTargets(page)).map((target) => `${name}: ${target}`));
    found.push(...(await breaches(page, laidOut)));
  }
  expect(wide).toEqual([]);
  expect(small).toEqual([]);
  expect(found).toEqual([]);
  expect(errors).toEqual([]);
}, 300_000);

/** Loads the page of examples anew as a machine that has chosen so. */
async function wish(language: string, light: string): Promise<void> {
  await page.evaluate(
    (kept) => {
      for (const [key, value] of Object.entries(kept)) localStorage.setItem(key, value);
    },
    { "stillglow.language": language, "stillglow.light": light },
  );
  await page.goto("about:blank");
  await page.goto(`${screens.address}preview.html`);
  await page.locator("[data-example]").first().waitFor();
}

test("by lamp light no example breaks WCAG 2.2 AA, and no ground is bright", async () => {
  await page.setViewportSize(bench);
  await wish("en", "lamp");
  const found: string[] = [];
  try {
    for (const name of inTurn(fullest, 3, 1)) {
      await show(name);
      // Nothing but colours differs from the light of day.
      found.push(...(await breaches(page, ["color-contrast"])));
      found.push(...(await brightGrounds()).map((bright) => `${name}: ${bright}`));
    }
  } finally {
    await wish("en", "day");
  }
  expect(found).toEqual([]);
}, 120_000);

/** What is drawn large and brighter than a quarter of white, buttons set apart. */
const brightGrounds = () =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("body, body *:not(button)")].flatMap((one) => {
      const [red = 0, green = 0, blue = 0, seen = 1] = getComputedStyle(one)
        .backgroundColor.match(/[\d.]+/g)!
        .map(Number);
      const { width, height } = one.getBoundingClientRect();
      const isBright = seen > 0.5 && width * height > 40_000 && 0.2126 * red + 0.7152 * green + 0.0722 * blue > 64;
      return isBright ? [`${one.tagName}.${one.className}`] : [];
    }),
  );

test.each([
  ["de", 1],
  ["pl", 2],
] as const)(
  "in %s the pages say so, and none needs sideways scrolling on a phone",
  async (language, check) => {
    await wish(language, "day");
    const wide: string[] = [];
    try {
      expect(await page.evaluate(() => document.documentElement.lang)).toBe(language);
      for (const name of inTurn([...fullest, ...longer], 3, check)) {
        await show(name, phone);
        if (await isTooWide(page)) wide.push(name);
      }
    } finally {
      await wish("en", "day");
    }
    expect(wide).toEqual([]);
  },
  120_000,
);

test("nothing needs sideways scrolling at 400 % zoom of a bench screen", async () => {
  const wide: string[] = [];
  for (const name of inTurn([...fullest, ...longer], 3)) {
    await show(name, enlarged);
    if (await isTooWide(page)) wide.push(name);
  }
  expect(wide).toEqual([]);
}, 120_000);

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

test.runIf(process.env.STILLGLOW_PICTURES)(
  "pictures of the fullest examples are kept for looking at",
  async () => {
    for (const size of [bench, phone]) {
      for (const name of fullest) {
        await show(name, size);
        const picture = await page.screenshot({ path: `${pictures}${name}-${size.width}.png`, fullPage: true });
        expect(picture.byteLength).toBeGreaterThan(5_000);
      }
    }
  },
  120_000,
);

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
