import fastify, { type FastifyInstance } from "fastify";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { addGuards } from "../../src/server/guards.ts";
import { addPageFiles, isScreen } from "../../src/server/pageFiles.ts";
import { builtPage, openBrowser, readyPage } from "./page.ts";

let browser: Browser;
let app: FastifyInstance;
let address: string;
beforeAll(async () => {
  readyPage();
  app = fastify({ forceCloseConnections: true });
  addGuards(app);
  await addPageFiles(app, builtPage);
  app.setNotFoundHandler((request, reply) =>
    isScreen(request) ? reply.sendFile("index.html") : reply.code(404).send(),
  );
  address = await app.listen({ port: 0, host: "127.0.0.1" });
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await app?.close();
});

test.each([
  ["by day", {}, "light", "rgb(246, 244, 238)"],
  ["in a room that wishes for dark", {}, "dark", "rgb(22, 19, 15)"],
  ["by the lamp that was chosen here, wherever", { "stillglow.light": "lamp" }, "light", "rgb(22, 19, 15)"],
  ["by day that was chosen here, in the dark", { "stillglow.light": "day" }, "dark", "rgb(246, 244, 238)"],
] as const)("paper and name stand before any part of the page has come: %s", async (_, wishes, scheme, ground) => {
  const context = await browser.newContext({ colorScheme: scheme });
  try {
    const page = await context.newPage();
    const told: string[] = [];
    page.on("console", (message) => /content security/i.test(message.text()) && told.push(message.text()));
    await context.addInitScript((kept) => {
      for (const [key, value] of Object.entries(kept)) localStorage.setItem(key, value as string);
    }, wishes);
    // Parts that never come.
    await page.route("**/assets/**", () => {});
    await page.goto(`${address}/unit/0417`, { waitUntil: "commit" });
    const name = page.locator(".masthead-shop");
    await name.waitFor();
    await page.waitForFunction(() => performance.getEntriesByName("first-contentful-paint").length > 0);
    const painted = await page.evaluate(() => {
      const of = (selector: string) => getComputedStyle(document.querySelector(selector)!);
      return {
        ground: of("html").backgroundColor,
        style: of(".masthead-shop").fontStyle,
        line: of(".masthead-line").display,
      };
    });
    expect(painted).toEqual({ ground, style: "italic", line: "flex" });
    expect(told).toEqual([]);
  } finally {
    await context.close();
  }
});
