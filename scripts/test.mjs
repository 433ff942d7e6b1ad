// The whole suite, as npm test runs it: types, form and layers beside every test, with a real browser.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { findChromium, shell } from "./chromium.mjs";
import { buildPage, buildProgram, installLibraries, root } from "./ready.mjs";

installLibraries();
const chromium = chosenChromium();
if (!hasPostgres()) installPostgres();

const tool = (name, ...args) => [process.execPath, [join(root, "node_modules", ...name.split("/")), ...args]];
/** Names of test files, to run these alone: `npm test -- src/maths`. */
const only = process.argv.slice(2);
const faults = [];
// A run that is ended ends what it has started.
for (const signal of ["SIGINT", "SIGTERM"]) process.once(signal, () => process.exit(1));
// A third of what the compiler in JavaScript takes; one checker, as each further one would check the libraries anew.
const types = checked("types", ...tool("typescript-7/bin/tsc", "-p", ".", "--checkers", "1"), { GOGC: "400" });
buildPage();
buildProgram();
const checks = types
  .then(() => checked("form", ...tool("@biomejs/biome/bin/biome", "check", "--diagnostic-level=error")))
  .then(checkLayers);

const report = join(root, ".stillglow", "tests.json");
rmSync(report, { force: true });
await checked(
  "the rest by tests",
  ...tool(
    "vitest/vitest.mjs",
    "run",
    ...only,
    "--reporter=./tests/atOnce.ts",
    "--reporter=json",
    `--outputFile.json=${report}`,
  ),
  { STILLGLOW_WHOLE_SUITE: only.length === 0 ? "1" : "", STILLGLOW_CHROMIUM: chromium },
);
await checks;
if (!existsSync(report)) fail("the tests ended without a report");
const { numPassedTests, numFailedTests, numPendingTests, success, testResults } = JSON.parse(
  readFileSync(report, "utf8"),
);
console.log(`${numPassedTests} passed, ${numFailedTests} failed, ${numPendingTests} skipped`);
if (!(success && numPassedTests > 0)) faults.push("tests");
if (process.env.STILLGLOW_LASTED === "1" && only.length === 0) keepLasted();
if (process.env.STILLGLOW_WHOLE === "1" && only.length === 0) await keepWhole();
if (faults.length > 0) fail(`not in order: ${[...new Set(faults)].join(", ")}`);

/** A check beside the others; its faults are said at once and counted at the end. */
function checked(title, command, args, env = {}) {
  console.log(`stillglow: checking ${title} …`);
  const child = spawn(command, args, { cwd: root, stdio: "inherit", env: { ...process.env, ...env } });
  const end = () => child.kill();
  process.on("exit", end);
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("exit", (code, signal) => {
      process.off("exit", end);
      if (code !== 0) {
        console.error(`stillglow: ${title} ended with ${signal ?? `status ${code}`}`);
        faults.push(title);
      }
      resolve();
    });
  });
}

/** How long each test file took, for the order of the next run; see tests/order.ts. */
function keepLasted() {
  const lasted = testResults
    .map(({ name, startTime, endTime }) => [
      relative(root, name).replaceAll("\\", "/"),
      Math.round((endTime - startTime) / 1000),
    ])
    .filter(([, seconds]) => seconds >= 2)
    .sort(([a, s], [b, t]) => t - s || (a < b ? -1 : 1));
  writeFileSync(join(root, "tests", "lasted.json"), `${JSON.stringify(Object.fromEntries(lasted), undefined, 2)}\n`);
}

/** What came of a run with every case of the long checks; usually they take turns, see tests/inTurn.ts. */
async function keepWhole() {
  const { tsImport } = await import("tsx/esm/api");
  const { reachedWith, writeSection } = await tsImport("./reliabilityPage.ts", import.meta.url);
  const failed = testResults.flatMap(({ assertionResults }) =>
    assertionResults.filter(({ status }) => status === "failed").map(({ fullName }) => `- ${fullName}`),
  );
  const text = [
    "The suite with every look at every screen, which takes turns from day to day otherwise (`tests/inTurn.ts`). By `STILLGLOW_WHOLE=1 npm test`.",
    `${numPassedTests} tests passed, ${numFailedTests} failed, ${numPendingTests} skipped, ${reachedWith()}.`,
    ...(failed.length > 0 ? [failed.join("\n")] : []),
  ];
  writeSection("The whole suite", text.join("\n\n"));
}

/** The layer rule, and that it really looked at the code. */
async function checkLayers() {
  console.log("stillglow: checking layers …");
  const [command, args] = tool(
    "dependency-cruiser/bin/dependency-cruise.mjs",
    "--config",
    ".dependency-cruiser.cjs",
    "--output-type",
    "json",
    "src",
  );
  const child = spawn(command, args, { cwd: root, stdio: ["ignore", "pipe", "inherit"] });
  let said = "";
  child.stdout.setEncoding("utf8").on("data", (text) => {
    said += text;
  });
  await new Promise((resolve, reject) => child.on("error", reject).on("close", resolve));
  const { summary } = said === "" ? {} : JSON.parse(said);
  // An answer that is none, or that has seen but a few modules, would pass everything.
  if (!(summary?.totalCruised > 50)) {
    console.error(`stillglow: the layer check saw ${summary?.totalCruised ?? 0} modules; it should see all of src`);
    faults.push("layers");
    return;
  }
  for (const { rule, from, to } of summary.violations) console.error(`  ${rule.name}: ${from} -> ${to}`);
  if (summary.error > 0) {
    console.error(`stillglow: ${summary.error} imports against the layer rule`);
    faults.push("layers");
  }
}

/** The browser named, else Debian's without its windows, which is put there if that is possible; else any. */
function chosenChromium() {
  const named = process.env.STILLGLOW_CHROMIUM;
  if (named) return named;
  const mayInstall = process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
  if (!existsSync(shell) && mayInstall) {
    console.log("stillglow: installing Debian's chromium-headless-shell for the tests …");
    install("chromium-headless-shell");
  }
  if (!findChromium() && mayInstall) {
    console.log("stillglow: installing Debian's chromium for the tests …");
    install("chromium");
  }
  return (
    findChromium() ??
    fail(
      "the tests need a Chromium browser; install Debian's package 'chromium-headless-shell', or name one in STILLGLOW_CHROMIUM",
    )
  );
}

/** @returns whether it is there now */
function install(name) {
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  const steps = [
    ["update", "-qq"],
    ["install", "-y", "-qq", "--no-install-recommends", name],
  ];
  return steps.every((args) => spawnSync("apt-get", args, { stdio: "inherit", env }).status === 0);
}

function hasPostgres() {
  const home = "/usr/lib/postgresql";
  return existsSync(home) && readdirSync(home).some((version) => existsSync(join(home, version, "bin", "initdb")));
}

function installPostgres() {
  const mayInstall = process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
  if (!mayInstall) fail("the tests need a PostgreSQL server; install Debian's package 'postgresql'");
  console.log("stillglow: installing Debian's postgresql for the tests …");
  install("postgresql");
  if (!hasPostgres()) fail("postgresql was installed but its programs are not in /usr/lib/postgresql");
}

function fail(message) {
  console.error(`stillglow: ${message}`);
  process.exit(1);
}
