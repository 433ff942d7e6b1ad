// Brings a clone to where the program runs: libraries from the lock file, page and program built. Plain Node, no libraries.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { builds, fittingBuild, hashOf, root, stampFile } from "./program.mjs";

export { root };

const vite = join(root, "node_modules", "vite", "bin", "vite.js");

/** Installs what the lock file names, unless that was done for this very lock file. */
export function installLibraries() {
  const stamp = join(root, "node_modules", ".stillglow-lock");
  const wanted = hashOfFiles([join(root, "package-lock.json")]);
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
  const wanted = hashOfFiles(sources);
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === wanted) return;
  console.log("stillglow: building the page …");
  // Asked for from a test, the page would else be built as for a developer, at twice the weight.
  const env = { ...process.env, NODE_ENV: "production" };
  // Beside the page that stands, and put in its place whole: another process may be building it at this moment.
  const built = join(root, "dist", `screens.${process.pid}`);
  run(process.execPath, [vite, "build", "--logLevel", "warn", "--outDir", built], { env });
  putInPlace(built, join(root, "dist", "screens"));
  mkdirSync(join(root, "dist"), { recursive: true });
  writeFileSync(stamp, wanted);
}

/** So many builds of the program are kept, for servers that were started from one and load the rest of it later. */
const keptBuilds = 4;

/** Builds the command, its server and its threads, unless that was done from these very sources. */
export function buildProgram() {
  if (fittingBuild() !== undefined) return;
  console.log("stillglow: building the program …");
  const place = join(root, builds);
  const half = join(place, `half-${process.pid}`);
  const env = { ...process.env, NODE_ENV: "production" };
  const config = join(root, "vite.program.config.ts");
  run(process.execPath, [vite, "build", "--config", config, "--outDir", half, "--logLevel", "warn"], { env });
  const sources = JSON.parse(readFileSync(join(half, "stamp.json"), "utf8"));
  const build = hashOf(
    JSON.stringify(
      Object.entries(sources)
        .map(([path, { sha256 }]) => [path, sha256])
        .sort(),
    ),
  );
  // Made before, or by somebody else meanwhile, it is the same.
  if (existsSync(join(place, build))) rmSync(half, { recursive: true, force: true });
  else renameSync(half, join(place, build));
  const stamp = join(root, stampFile);
  writeFileSync(`${stamp}.${process.pid}`, JSON.stringify({ build, sources }));
  renameSync(`${stamp}.${process.pid}`, stamp);
  const older = readdirSync(place)
    .filter((name) => name !== build)
    .map((name) => ({ path: join(place, name), time_ms: statSync(join(place, name)).mtimeMs }))
    .sort((a, b) => b.time_ms - a.time_ms);
  for (const { path } of older.slice(keptBuilds)) rmSync(path, { recursive: true, force: true });
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

function hashOfFiles(files) {
  const hash = createHash("sha256");
  for (const file of files) if (existsSync(file)) hash.update(relative(root, file)).update(readFileSync(file));
  return hash.digest("hex");
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  installLibraries();
  const only = process.argv[2];
  if (only !== "program") buildPage();
  if (only !== "page") buildProgram();
}

/** Where two come at once, either's page will do: both are of the same sources. */
function putInPlace(built, place) {
  for (let again = 0; ; again++) {
    rmSync(place, { recursive: true, force: true });
    try {
      renameSync(built, place);
      return;
    } catch (fault) {
      if (again === 9 || !["ENOTEMPTY", "EEXIST"].includes(fault.code)) throw fault;
    }
  }
}
