import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { handbookFolder } from "../../src/server/reading/handbook.ts";
import { handbookLanguages } from "../../src/server/reading/words.ts";
import { keptFolder, serve } from "../helpers.ts";
import { inTurn } from "../inTurn.ts";
import { madeDemo, madeWithin_ms } from "../madeDemo.ts";
import { type Shot, shots } from "./handbookShots.ts";
import { isTooWide, openBrowser, openPage, readyPage } from "./page.ts";
import { breaches } from "./walk.ts";

/**
 * The handbook's pictures, taken from the made workshop: `STILLGLOW_PICTURES=1` takes anew those that no longer show
 * what the screen says. Without it, every other one a day is only held against the words of its screen, numbers left
 * out, in one of its languages; `docs/handbook/pictures/shown.json` keeps what each showed.
 */
const takesPictures = process.env.STILLGLOW_PICTURES === "1";
const shownFile = join(handbookFolder, "pictures", "shown.json");
const mend = "take the handbook's pictures anew: STILLGLOW_PICTURES=1 npx vitest run tests/screens/handbook.test.ts";

const folder = join(keptFolder(), "handbook");
let browser: Browser;
let stop: () => Promise<void>;
let address: string;
beforeAll(async () => {
  readyPage();
  madeDemo(folder);
  browser = await openBrowser();
  ({ address, stop } = await serve(["serve", "--data", folder, "--no-backup"], { kept: true }));
  await untilTold();
}, madeWithin_ms);

/** The morning card comes without boards that are still being computed, and a picture of it must not. */
async function untilTold(): Promise<void> {
  for (const end = Date.now() + 180_000; Date.now() < end; ) {
    const { computing } = (await (await fetch(`${address}/api/timber`)).json()) as { computing: number };
    if (computing === 0) return;
    await new Promise((later) => setTimeout(later, 500));
  }
}
afterAll(async () => {
  await browser?.close();
  await stop?.();
});

async function openIn(language: string): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 860, height: 1000 }, reducedMotion: "reduce" });
  await context.addInitScript((tag) => {
    localStorage.setItem("stillglow.language", tag);
    localStorage.setItem("stillglow.light", "day");
  }, language);
  const page = await context.newPage();
  page.setDefaultTimeout(240_000);
  await page.goto(address);
  await page.locator("main").waitFor();
  return page;
}

interface Part {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly words: string;
}

/** Goes to a screen within the page and waits until nothing of it is being fetched or computed. */
async function goTo(page: Page, { path, from = "main" }: Shot): Promise<void> {
  await page.evaluate((to) => history.pushState(null, "", to), path);
  await page.locator(from).first().waitFor();
  // What is still being fetched or computed says so, at the end of a line: "Windows are being drawn …".
  const settled = () =>
    page.waitForFunction(
      () =>
        !document.querySelector("[aria-busy=true], .waiting, .outcome-busy") &&
        // biome-ignore lint/performance/useDomNodeTextContent: only as laid out do its lines end.
        !/\s\u2026$/m.test(document.querySelector("main")?.innerText ?? " \u2026"),
      undefined,
      { polling: 50 },
    );
  await settled();
  await page.evaluate(() => document.fonts.ready);
  await page.waitForTimeout(150);
  await settled();
}

/** What part of the screen is pictured: cut where no line of words is cut through. */
function partOf(page: Page, { from = "main", height }: Shot): Promise<Part> {
  return page.evaluate(
    ({ start, most }) => {
      const region = document.querySelector(start)!.getBoundingClientRect();
      const top = region.top + window.scrollY;
      const words: { readonly bottom: number; readonly top: number; readonly text: string }[] = [];
      const walker = document.createTreeWalker(document.querySelector(start)!, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const text = node.textContent?.trim() ?? "";
        if (text === "" || !node.parentElement?.checkVisibility()) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        const box = range.getBoundingClientRect();
        if (box.height > 0) words.push({ top: box.top + window.scrollY, bottom: box.bottom + window.scrollY, text });
      }
      const wholes = [...document.querySelectorAll(`${start} :is(button, input, svg, select)`)].map((one) => {
        const box = one.getBoundingClientRect();
        return { top: box.top + window.scrollY, bottom: box.bottom + window.scrollY };
      });
      const all = [...words, ...wholes.filter(({ top: a, bottom: b }) => b - a < 500 && b > a)];
      const wanted = top + Math.min(most, region.height);
      const isFree = (at: number) => !all.some((one) => one.top < at + 13 && one.bottom > at - 2);
      let end = wanted;
      for (let off = 4; off <= 160 && !isFree(end); off += 4) {
        end = [wanted - off, Math.min(wanted + off, top + region.height)].find(isFree) ?? end;
      }
      return {
        x: 0,
        y: Math.round(top) + 1,
        width: 860,
        height: Math.round(end - top + 12),
        words: words
          .filter(({ bottom, top: a }) => a >= top - 1 && bottom <= end)
          .map(({ text }) => text)
          .join(" ")
          .replaceAll(/[\s\u00a0\u202f]+/g, " ")
          .replaceAll(/\d[\d.,:\u2212\u00b1 ]*/g, "0 ")
          .trim(),
      };
    },
    { start: from, most: height },
  );
}

const printOf = (words: string) => createHash("sha256").update(words).digest("hex").slice(0, 16);
const fileOf = (language: string, name: string) => join(handbookFolder, "pictures", language, `${name}.webp`);

/** A PNG as WebP, by the browser's own encoder; far smaller for pages of words. */
async function asWebp(page: Page, png: Buffer): Promise<Buffer> {
  const url = await page.evaluate(
    async (data) => {
      const picture = new Image();
      picture.src = data;
      await picture.decode();
      const canvas = document.createElement("canvas");
      canvas.width = picture.width;
      canvas.height = picture.height;
      canvas.getContext("2d")!.drawImage(picture, 0, 0);
      return canvas.toDataURL("image/webp", 0.52);
    },
    `data:image/png;base64,${png.toString("base64")}`,
  );
  return Buffer.from(url.replace(/^data:image\/webp;base64,/, ""), "base64");
}

test(
  "the handbook's pictures show what the screens say",
  async () => {
    const known: Record<string, string> = existsSync(shownFile)
      ? (JSON.parse(readFileSync(shownFile, "utf8")) as Record<string, string>)
      : {};
    const now = { ...known };
    const stale: string[] = [];
    const held = takesPictures ? shots : inTurn(shots, 2);
    for (const [i, language] of handbookLanguages.entries()) {
      const here = takesPictures ? held : inTurn(held, handbookLanguages.length, i);
      const page = await openIn(language);
      for (const shot of here) {
        const key = `${language}/${shot.name}`;
        await goTo(page, shot);
        let { words, ...clip } = await partOf(page, shot);
        // On a busy machine a part of the page may come after the rest; a picture is taken of what stays so.
        for (let again = 0, before = ""; again < 20 && printOf(words) !== known[key]; again += 1) {
          if (takesPictures && before === words) break;
          before = words;
          await page.waitForTimeout(takesPictures ? 700 : 250);
          if (takesPictures || again % 8 === 7) {
            await page.reload();
            await goTo(page, shot);
          }
          ({ words, ...clip } = await partOf(page, shot));
        }
        const print = printOf(words);
        const file = fileOf(language, shot.name);
        if (known[key] === print && existsSync(file)) continue;
        if (!takesPictures) {
          stale.push(key);
          continue;
        }
        const blank = await page.context().newPage();
        mkdirSync(dirname(file), { recursive: true });
        writeFileSync(file, await asWebp(blank, await page.screenshot({ fullPage: true, clip })));
        await blank.close();
        now[key] = print;
      }
      await page.context().close();
    }
    const sorted = Object.fromEntries(
      Object.entries(now)
        .filter(([key]) => shots.some(({ name }) => key.endsWith(`/${name}`)))
        .toSorted(([a], [b]) => (a < b ? -1 : 1)),
    );
    const written = `${JSON.stringify(sorted, undefined, 2)}\n`;
    if (takesPictures && (!existsSync(shownFile) || readFileSync(shownFile, "utf8") !== written)) {
      writeFileSync(shownFile, written);
    }
    expect(stale, mend).toEqual([]);
    expect(Object.keys(sorted)).toHaveLength(shots.length * handbookLanguages.length);
  },
  // On a busy machine what a screen waits for is computed behind the rest.
  takesPictures ? 900_000 : 600_000,
);

test("F1 leads from a screen to its chapter, and pages to read keep to their paper on a phone too", async () => {
  const { page, errors } = await openPage(browser, 1200);
  await page.addInitScript(() => localStorage.setItem("stillglow.language", "de"));
  await page.goto(`${address}/valves`);
  await page.locator("h1").waitFor();
  await page.keyboard.press("F1");
  await page.waitForURL(`${address}/handbook/de/heat-run`);
  expect(await page.locator("h1").textContent()).toBe("Ein Einbrennlauf und seine Urteile");
  const picture = page.locator("article img").first();
  await picture.scrollIntoViewIfNeeded();
  await expect.poll(() => picture.evaluate((one) => (one as HTMLImageElement).naturalWidth)).toBe(860);
  for (const path of ["/handbook/de/first-day", "/papers/timber.dry?language=pl", "/papers"]) {
    await page.goto(`${address}${path}`);
    expect(await breaches(page), path).toEqual([]);
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await isTooWide(page), path).toBe(false);
    await page.setViewportSize({ width: 1200, height: 900 });
  }
  await page.evaluate(() => localStorage.setItem("stillglow.light", "lamp"));
  await page.goto(`${address}/handbook/pl/safety`);
  expect(await breaches(page)).toEqual([]);
  expect(errors).toEqual([]);
  await page.context().close();
});

test("every chapter's picture is one that is taken", () => {
  for (const { name, chapter } of shots) {
    for (const language of handbookLanguages) {
      const text = readFileSync(join(handbookFolder, language, `${chapter}.md`), "utf8");
      expect(text).toContain(`(../pictures/${language}/${name}.webp)`);
    }
  }
});
