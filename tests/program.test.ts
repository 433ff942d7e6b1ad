import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { fittingBuild, stampOf } from "../scripts/program.mjs";
import { root, stillglow, temporaryFolder } from "./helpers.ts";

/** A project of one source that was built. */
function built(): { readonly home: string; readonly source: string; readonly build: string } {
  const home = temporaryFolder();
  const build = join(home, "dist/program/one");
  mkdirSync(build, { recursive: true });
  writeFileSync(join(build, "stamp.json"), "{}");
  mkdirSync(join(home, "src"));
  const source = join(home, "src", "answer.ts");
  writeFileSync(source, "export const answer = 41;\n");
  const sources = { "src/answer.ts": stampOf("src/answer.ts", home).stamp };
  writeFileSync(join(home, "dist/program.json"), JSON.stringify({ build: "one", sources }));
  return { home, source, build };
}

test("a build runs as long as its sources are what it was made from", () => {
  const { home, source, build } = built();
  expect(fittingBuild(home)).toBe(build);
  // Checked out anew, with the same in it.
  utimesSync(source, 1, 1);
  expect(fittingBuild(home)).toBe(build);
});

test("a changed, lost or half-written source, a lost build and a torn stamp send to the sources", () => {
  const changed = built();
  writeFileSync(changed.source, "export const answer = 42;\n");
  utimesSync(changed.source, 1, 1);
  expect(fittingBuild(changed.home)).toBeUndefined();
  const cut = built();
  writeFileSync(cut.source, "export const");
  expect(fittingBuild(cut.home)).toBeUndefined();
  const lost = built();
  writeFileSync(join(lost.home, "dist/program.json"), '{"build":"two","sources":{}}');
  expect(fittingBuild(lost.home)).toBeUndefined();
  const torn = built();
  writeFileSync(join(torn.home, "dist/program.json"), '{"build":"one","sour');
  expect(fittingBuild(torn.home)).toBeUndefined();
  expect(fittingBuild(temporaryFolder())).toBeUndefined();
});

test("an error of the built command names the line of the source it came from", () => {
  execFileSync(process.execPath, [join(root, "scripts", "ready.mjs"), "program"], { stdio: "ignore" });
  expect(fittingBuild()).toBeDefined();
  const folder = temporaryFolder();
  writeFileSync(join(folder, "stillglow.db"), "no database".repeat(200));
  process.env.STILLGLOW_DEBUG = "1";
  const { stderr } = stillglow(["unit", "1", "--data", folder]);
  delete process.env.STILLGLOW_DEBUG;
  const places = [...stderr.matchAll(/\((\/.*?\/src\/.+?\.ts):(\d+):\d+\)/g)];
  expect(places.length, stderr).toBeGreaterThan(2);
  const [, file, line] = places[0]!;
  expect(file!.startsWith(join(root, "src", "store"))).toBe(true);
  expect(readFileSync(file!, "utf8").split("\n")[Number(line) - 1]).toMatch(/new Store\w+\(/);
});
