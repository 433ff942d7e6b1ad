import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

export const bench = { width: 1280, height: 900 };
export const phone = { width: 390, height: 844 };

const wcag = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

const require = createRequire(import.meta.url);
/** The rules as they come with their runner, which would load them anew for every look. */
const rules = readFileSync(
  createRequire(require.resolve("@axe-core/playwright")).resolve("axe-core/axe.min.js"),
  "utf8",
);

interface Rules {
  configure(spec: object): void;
  run(
    root: Document,
    options: object,
  ): Promise<{ violations: readonly { id: string; nodes: readonly { html: string }[] }[] }>;
}

/** Words judged so far, each by its place among elements and by all that its contrast comes of. */
const judged = new Set<number>();

/**
 * What on the page breaks WCAG 2.2 AA, as far as a program can tell. The rules are loaded once per document.
 *
 * Words of the same colour, size and grounds in the same place among elements have the same contrast; each such way is
 * judged once in a process, wherever it is met first, and again as long as it fails.
 */
export async function breaches(page: Page, rulesAsked: readonly string[] = wcag): Promise<readonly string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(rules);
  const fresh = await page.evaluate(markUnjudged, [...judged]);
  if (fresh.length === 0 && rulesAsked.every((rule) => rule === "color-contrast")) return [];
  const found = await page.evaluate(async (values) => {
    const { axe } = window as unknown as { axe: Rules };
    axe.configure({ rules: [{ id: "color-contrast", selector: "[data-unjudged]" }] });
    const { violations } = await axe.run(document, {
      runOnly: values,
      resultTypes: ["violations"],
      preload: false,
      selectors: false,
    });
    for (const one of document.querySelectorAll("[data-unjudged]")) one.removeAttribute("data-unjudged");
    return violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html.slice(0, 160)}`);
  }, rulesAsked);
  if (!found.some((breach) => breach.startsWith("color-contrast"))) for (const way of fresh) judged.add(way);
  return found.map((breach) => `${new URL(page.url()).pathname}${new URL(page.url()).hash}: ${breach}`);
}

/** Marks one element for each way of standing there that was not judged yet, and tells these ways. */
function markUnjudged(known: readonly number[]): readonly number[] {
  const mixed = (start: number, text: string) => {
    let high = 0xdeadbeef ^ start;
    let low = 0x41c6ce57 ^ Math.floor(start / 2 ** 21);
    for (let i = 0; i < text.length; i += 1) {
      high = Math.imul(high ^ text.charCodeAt(i), 2_654_435_761);
      low = Math.imul(low ^ text.charCodeAt(i), 1_597_334_677);
    }
    high = Math.imul(high ^ (high >>> 16), 2_246_822_507) ^ Math.imul(low ^ (low >>> 13), 3_266_489_909);
    low = Math.imul(low ^ (low >>> 16), 2_246_822_507) ^ Math.imul(high ^ (high >>> 13), 3_266_489_909);
    return 2 ** 32 * (2_097_151 & low) + (high >>> 0);
  };
  const grounds = new Map<Element, number>();
  const groundOf = (one: Element): number => {
    const before = grounds.get(one);
    if (before !== undefined) return before;
    const { backgroundColor, backgroundImage, opacity } = getComputedStyle(one);
    const name = `${one.tagName}.${one.getAttribute("class") ?? ""}`;
    const own = [name, backgroundColor, backgroundImage, opacity].join(" ");
    const all = mixed(one.parentElement ? groundOf(one.parentElement) : 0, own);
    grounds.set(one, all);
    return all;
  };
  const holdsWords = (one: Element) =>
    [...one.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim()) ||
    one.matches("input, select, textarea");
  const seen = new Set(known);
  const fresh: number[] = [];
  for (const one of document.querySelectorAll("body, body *")) {
    if (!holdsWords(one) || !one.checkVisibility()) continue;
    const { color, fill, fontSize, fontWeight, textShadow } = getComputedStyle(one);
    const way = mixed(groundOf(one), [color, fill, fontSize, fontWeight, textShadow].join(" "));
    if (seen.has(way)) continue;
    seen.add(way);
    fresh.push(way);
    one.setAttribute("data-unjudged", "");
  }
  return fresh;
}

/** Targets of the page under 44 px in height. */
export const smallTargets = (page: Page): Promise<readonly string[]> =>
  page
    .locator("button, input:not([type=radio]):not([type=checkbox]), select, summary, .choice-option")
    .evaluateAll((all) =>
      all
        .filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 44)
        .map((one) => one.outerHTML.slice(0, 90)),
    );
