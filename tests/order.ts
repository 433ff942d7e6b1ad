import { readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { BaseSequencer, type TestSpecification } from "vitest/node";
import lasted from "./lasted.json" with { type: "json" };

const root = join(import.meta.dirname, "..");
/** Makes the demo that others want a copy of. */
const maker = "tests/mainJob.test.ts";
/** Work for the other worker while the demo is being made. */
const whileMade_s = 200;

/**
 * Files that took longest go first, so that no worker is left with one of them at the end; and files that wait for the
 * made demo come after the one that makes it, when it is there. `lasted.json` holds seconds of the files that took some:
 * `STILLGLOW_LASTED=1 npm test` writes it anew.
 */
export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const seconds: Readonly<Record<string, number>> = lasted;
    const known = (await super.sort(files)).map((file) => {
      const path = relative(root, file.moduleId).replaceAll("\\", "/");
      const isApart = file.project.config.isolate !== false;
      return { file, path, isApart, lasted_s: seconds[path] ?? 0 };
    });
    // A worker that goes on within one project keeps what it has loaded.
    const ranked = known.sort((a, b) => Number(a.isApart) - Number(b.isApart) || b.lasted_s - a.lasted_s);
    const waits = ranked.filter(({ file }) => readFileSync(file.moduleId, "utf8").includes("madeDemo("));
    const first = waits.filter(({ path }) => path === maker);
    let busy_s = 0;
    for (const one of ranked) {
      if (waits.includes(one) || busy_s > whileMade_s) continue;
      first.push(one);
      busy_s += one.lasted_s;
    }
    return [...first, ...ranked.filter((one) => !first.includes(one))].map(({ file }) => file);
  }
}
