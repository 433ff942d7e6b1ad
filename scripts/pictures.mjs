// Takes pictures of the real screens with the demo's data: node scripts/pictures.mjs ADDRESS FOLDER
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { findChromium } from "./chromium.mjs";

const [address = "http://127.0.0.1:4170", folder = ".stillglow/pictures"] = process.argv.slice(2);
const pages = {
  "hum-hearing": "/unit/0417/hum",
  "unit-folder": "/unit/0417",
  "morning-card": "/",
  "promise-book": "/promises",
  "safety-sheet": "/unit/0417/safety",
  instruments: "/instruments",
  costs: "/costs",
  checks: "/checks",
  "what-if": "/promises/what-if",
  "promises-kept": "/promises/kept",
  "look-back": "/look-back",
  units: "/units",
  "probe-card": "/unit/0417/probe",
  "bench-sheet": "/unit/0417/bench",
  "valve-trays": "/valves",
  notebook: "/notebook",
  "timber-shelf": "/timber",
  "timber-places": "/timber/places",
  "timber-desk": "/timber/weigh",
  case: "/unit/0417/case",
  "supply-on-trial": "/unit/0585/hum",
  "balance-over-volume": "/unit/0237/bench",
};
const sizes = { desktop: { width: 1440, height: 900 }, phone: { width: 390, height: 844 } };

mkdirSync(folder, { recursive: true });
const browser = await chromium.launch({
  executablePath: findChromium(),
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ],
});
try {
  for (const [size, viewport] of Object.entries(sizes)) {
    const page = await browser.newPage({ viewport });
    for (const [name, path] of Object.entries(pages)) {
      await page.goto(new URL(path, address).href, { waitUntil: "load" });
      await page.waitForFunction(() => !document.querySelector("[aria-busy=true]"), undefined, { timeout: 60_000 });
      await page.waitForTimeout(1500);
      await page.screenshot({ path: join(folder, `${name}-${size}.png`), fullPage: true });
    }
    await page.close();
  }
} finally {
  await browser.close();
}
