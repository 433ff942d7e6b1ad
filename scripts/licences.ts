// Writes docs/licences.md from the lock file: node --import tsx scripts/licences.ts
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = join(import.meta.dirname, "..");
export const page = join(root, "docs", "licences.md");

interface Locked {
  readonly version?: string;
  readonly license?: string;
  readonly dev?: boolean;
}

/** Licences that leave the program free to be used, sold and kept to oneself, with names and texts kept. */
const free = new Set([
  "0BSD",
  "Apache-2.0",
  "BSD-2-Clause",
  "BSD-3-Clause",
  "BSL-1.0",
  "BlueOak-1.0.0",
  "CC-BY-4.0",
  "CC0-1.0",
  "ISC",
  "MIT",
  "MIT/X11",
  "MPL-2.0",
  "OFL-1.1",
  "Python-2.0",
  "Unlicense",
  "Zlib",
]);

/** Packages that say nothing, each looked at, with what there is to say. */
const silent: Readonly<Record<string, string>> = {
  buffers:
    "neither its package nor its files state a licence; it comes with `exceljs` (through `unzipper` and `binary`), for spreadsheets read as a stream, which is not done here",
};

/** The packages of a lock file, by licence and by whether the program runs with them or is only made with them. */
export function licencesPage(lockText: string): string {
  const { packages } = JSON.parse(lockText) as { packages: Record<string, Locked> };
  const all = Object.entries(packages)
    .filter(([path]) => path !== "")
    .map(([path, { version = "", license, dev = false }]) => ({
      name: path.slice(path.lastIndexOf("node_modules/") + "node_modules/".length),
      version,
      licence: license ?? "none stated",
      dev,
    }));
  const strange = all.filter(({ name, licence }) => (licence === "none stated" ? !(name in silent) : !isFree(licence)));
  if (strange.length > 0) {
    const names = strange.map(({ name, version, licence }) => `${name} ${version} (${licence})`);
    throw new Error(`look at the licence of ${names.join(", ")}, then write it down in scripts/licences.ts`);
  }
  return `# Licences

Stillglow itself is under the MIT licence (\`LICENSE\`). Beside the packages below it carries letters cut from Source
Serif 4, under the SIL Open Font License 1.1 (\`src/screens/fonts/OFL.txt\`).

Written by \`node --import tsx scripts/licences.ts\` from the lock file; a test holds it to be current, and refuses a
package whose licence nobody has looked at. ${all.length} packages, as their own descriptions state it.

## What the program runs with

${table(all.filter(({ dev }) => !dev))}

## What it is made and tested with

${table(all.filter(({ dev }) => dev))}

## Worth knowing

${Object.entries(silent)
  .map(([name, words]) => `- \`${name}\`: ${words}.`)
  .join("\n")}
- MPL-2.0 asks that changes to those files themselves be given on; none were changed here.
`;
}

/** `(MIT OR GPL-3.0-or-later)`: one free choice is enough; of `AND` every one counts. */
function isFree(licence: string): boolean {
  const plain = licence.replaceAll(/[()]/g, "");
  return plain.split(" OR ").some((choice) => choice.split(" AND ").every((one) => free.has(one.trim())));
}

type Entry = { readonly name: string; readonly version: string; readonly licence: string };

function table(entries: readonly Entry[]): string {
  const byLicence = new Map<string, Set<string>>();
  for (const { name, version, licence } of entries) {
    const known = byLicence.get(licence) ?? new Set();
    byLicence.set(licence, known.add(`${name} ${version}`));
  }
  const rows = [...byLicence].toSorted(([a, x], [b, y]) => y.size - x.size || (a < b ? -1 : 1));
  return rows
    .map(([licence, names]) => `**${licence}** (${names.size}): ${[...names].toSorted().join(", ")}.`)
    .join("\n\n");
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync(page, licencesPage(readFileSync(join(root, "package-lock.json"), "utf8")));
  console.log(`written: ${page}`);
}
