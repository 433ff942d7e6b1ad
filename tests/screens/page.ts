import { execFileSync } from "node:child_process";
import { mkdirSync } from "node:fs";
import { type Browser, chromium, type Page } from "playwright-core";
import { type PreviewServer, preview } from "vite";
import { findChromium } from "../../scripts/chromium.mjs";

const config = new URL("../../vite.config.ts", import.meta.url).pathname;
const repository = new URL("../../", import.meta.url).pathname;

/** Where the pictures of the last run lie, for people to look at. */
export const pictures = `${repository}.stillglow/pictures/`;

/** The page as the workshop's server hands it out. */
export const builtPage = `${repository}dist/screens`;

let isReady = process.env.STILLGLOW_WHOLE_SUITE === "1";

/** Builds the page if there is none of these sources, so that the real server has one to hand out; once in a process. */
export function readyPage(): void {
  if (isReady) return;
  isReady = true;
  execFileSync(process.execPath, [`${repository}scripts/ready.mjs`, "page"], { cwd: repository, stdio: "ignore" });
}

export interface Screens {
  readonly browser: Browser;
  readonly address: string;
  close(): Promise<void>;
}

const flags = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** The real browser: the one named, else Debian's. */
export const openBrowser = (more: readonly string[] = []): Promise<Browser> =>
  chromium.launch({ executablePath: findChromium(), args: [...flags, ...more] });

/**
 * Serves the page of examples, or the real one as the workshop's server hands it out, on loopback and starts a browser.
 * The page of examples is built for it; the real one only if its sources have changed.
 */
export async function openScreens(mode: "preview" | "production"): Promise<Screens> {
  mkdirSync(pictures, { recursive: true });
  const outDir = mode === "preview" ? `${repository}.stillglow/tested-preview` : builtPage;
  if (mode === "production") readyPage();
  else {
    // In a process of its own: the test runner's environment would build the page as for a developer, twice the weight.
    const vite = `${repository}node_modules/vite/bin/vite.js`;
    execFileSync(
      process.execPath,
      [vite, "build", "--mode", mode, "--outDir", outDir, "--emptyOutDir", "--logLevel", "error"],
      { cwd: repository, env: { ...process.env, NODE_ENV: "production" } },
    );
  }
  const server: PreviewServer = await preview({
    configFile: config,
    mode,
    logLevel: "error",
    build: { outDir },
    preview: { host: "127.0.0.1", port: 0, proxy: {} },
  });
  const browser = await openBrowser();
  return {
    browser,
    address: server.resolvedUrls?.local[0] ?? "",
    close: async () => {
      await browser.close();
      await server.close();
    },
  };
}

/** A page that fails the test when its script does. */
export async function openPage(
  browser: Browser,
  width: number,
  height = 900,
): Promise<{ page: Page; errors: string[] }> {
  const context = await browser.newContext({ viewport: { width, height }, reducedMotion: "reduce" });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  return { page, errors };
}

export const isTooWide = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);

/** Keeps a picture for people to look at, when they asked for pictures; nothing is tried by it. */
export async function picture(page: Page, name: string): Promise<void> {
  if (process.env.STILLGLOW_PICTURES === "1") await page.screenshot({ path: `${pictures}${name}.png`, fullPage: true });
}
