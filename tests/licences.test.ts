import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { licencesPage, page, root } from "../scripts/licences.ts";

const lock = readFileSync(join(root, "package-lock.json"), "utf8");

test("the page of licences is that of the lock file", () => {
  expect(readFileSync(page, "utf8")).toBe(licencesPage(lock));
});

test("a package whose licence nobody looked at is refused by name", () => {
  const withOne = (licence: object) =>
    JSON.stringify({ packages: { "": {}, "node_modules/a/node_modules/@b/c": { version: "1.2.3", ...licence } } });
  expect(() => licencesPage(withOne({ license: "GPL-3.0-only" }))).toThrow(/@b\/c 1\.2\.3 \(GPL-3\.0-only\)/);
  expect(() => licencesPage(withOne({ license: "MIT AND GPL-3.0-only" }))).toThrow();
  expect(() => licencesPage(withOne({}))).toThrow(/none stated/);
  expect(licencesPage(withOne({ license: "(MIT OR GPL-3.0-only)" }))).toContain("@b/c 1.2.3");
});
