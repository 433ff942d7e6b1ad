import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";
import { root } from "../helpers.ts";

/** Builds the page if a fresh clone has none, so that the real server has one to hand out. */
export function readyPage(): void {
  execFileSync(process.execPath, [join(root, "scripts", "ready.mjs")], { cwd: root, stdio: "ignore" });
}

export const bench = { width: 1280, height: 900 };
export const phone = { width: 390, height: 844 };

const wcag = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** What on the page breaks WCAG 2.2 AA, as far as a program can tell. */
export async function breaches(page: Page): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .options({ runOnly: { type: "tag", values: wcag }, resultTypes: ["violations"] })
    .analyze();
  return violations.map(({ id, nodes }) => `${new URL(page.url()).pathname}: ${id} ${nodes[0]?.html.slice(0, 160)}`);
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
