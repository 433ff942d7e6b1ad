// Brings a clone to where the program runs: libraries from the lock file, the page built. Plain Node, no libraries.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";

export const root = join(dirname(fileURLToPath(import.meta.url)), "..");

/** Installs what the lock file names, unless that was done for this very lock file. */
export function installLibraries() {
  const stamp = join(root, "node_modules", ".stillglow-lock");
  const wanted = hashOf([join(root, "package-lock.json")]);
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return;
  if (!isWholeInstall()) {
    console.log("stillglow: installing the libraries of the lock file (about a minute, once) …");
    run("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"]);
  }
  writeFileSync(stamp, wanted);
}

/** Builds the page when its sources are newer than what was built. */
export function buildPage() {
  const stamp = join(root, "dist", "screens.sha256");
  const sources = [
    ...filesBelow(join(root, "src", "screens")),
    // From which the page takes a rule or two.
    ...filesBelow(join(root, "src", "workshop")),
    join(root, "vite.config.ts"),
    join(root, "package-lock.json"),
  ];
  const wanted = hashOf(sources);
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return;
  console.log("stillglow: building the page …");
  // Asked for from a test, the page would else be built as for a developer, at twice the weight.
  const env = { ...process.env, NODE_ENV: "production" };
  run(process.execPath, [join(root, "node_modules", "vite", "bin", "vite.js"), "build", "--logLevel", "warn"], { env });
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, wanted);
}

export function run(command, args, more = {}) {
  const { status, error, signal } = spawnSync(command, args, {
    cwd: root,
    stdio: "inherit",
    shell: process.platform === "win32" && command === "npm",
    ...more,
  });
  if (error) throw error;
  if (status !== 0) {
    console.error(
      `stillglow: '${[command, ...args].join(" ").slice(0, 120)}' ended with ${signal ?? `status ${status}`}`,
    );
    process.exit(status ?? 1);
  }
}

/** `npm ci` run by hand leaves npm's own record of the tree: when it matches the lock file, nothing is missing. */
function isWholeInstall() {
  const record = join(root, "node_modules", ".package-lock.json");
  if (!existsSync(record)) return false;
  const installed = JSON.parse(readFileSync(record, "utf8")).packages;
  const wanted = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")).packages;
  return Object.entries(wanted).every(
    ([path, { version, optional }]) =>
      path === "" || installed[path]?.version === version || (optional && installed[path] === undefined),
  );
}

function filesBelow(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.includes(".test."))
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .sort();
}

function hashOf(files) {
  const hash = createHash("sha256");
  for (const file of files) if (existsSync(file)) hash.update(relative(root, file)).update(readFileSync(file));
  return hash.digest("hex");
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  installLibraries();
  buildPage();
}
