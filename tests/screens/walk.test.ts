import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openBrowser, openPage } from "./page.ts";
import { bench, breaches } from "./walk.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser?.close());

const pageOf = (words: string) =>
  `<!doctype html><html lang="en"><title>Trial</title><body style="background: #fff"><main><h1>Trial</h1>${words}</main>`;
const contrast = (words: string) => expect.stringMatching(new RegExp(`color-contrast <.*${words}`));

test("faint words are found wherever they stand, and again as long as they are faint", async () => {
  const { page } = await openPage(browser, bench.width);
  const found = async (words: string) => {
    await page.setContent(pageOf(words));
    return breaches(page);
  };
  const clear = '<p style="color: #222">clear</p>';
  expect(await found(clear)).toEqual([]);
  const faint = '<p style="color: #aaa">faint</p>';
  expect(await found(clear + faint)).toEqual([contrast("faint")]);
  expect(await found(clear + faint)).toEqual([contrast("faint")]);
  // The same colour as what was judged clear, on another ground, and in other places and shades.
  expect(await found(`${clear}<div style="background: #444">${clear.replace("clear", "dark")}</div>`)).toEqual([
    contrast("dark"),
  ]);
  expect(await found(`<div style="opacity: 0.3">${clear.replace("clear", "pale")}</div>`)).toEqual([contrast("pale")]);
  expect(await found(`${clear}${clear}`)).toEqual([]);
  // What is no matter of colours is looked at each time.
  const unnamed = [expect.stringContaining("button-name <button")];
  expect(await found(`${clear}<button></button>`)).toEqual(unnamed);
  expect(await found(`${clear}<button></button>`)).toEqual(unnamed);
  await page.context().close();
});
