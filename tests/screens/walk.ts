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
  run(
    root: Document,
    options: object,
  ): Promise<{ violations: readonly { id: string; nodes: readonly { html: string }[] }[] }>;
}

/** What on the page breaks WCAG 2.2 AA, as far as a program can tell. The rules are loaded once per document. */
export async function breaches(page: Page): Promise<readonly string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(rules);
  const found = await page.evaluate(async (values) => {
    const { violations } = await (window as unknown as { axe: Rules }).axe.run(document, {
      runOnly: { type: "tag", values },
      resultTypes: ["violations"],
    });
    return violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html.slice(0, 160)}`);
  }, wcag);
  return found.map((breach) => `${new URL(page.url()).pathname}${new URL(page.url()).hash}: ${breach}`);
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
