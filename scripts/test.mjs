// The whole suite, as npm test runs it: layers, types, form, dead code, then every test with a real browser.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { buildPage, buildProgram, installLibraries, root, run } from "./ready.mjs";

installLibraries();
const chromium = findChromium() ?? installChromium();
if (!hasPostgres()) installPostgres();

const tool = (name, ...args) => [process.execPath, [join(root, "node_modules", ...name.split("/")), ...args]];
const types = started("types", ...tool("typescript/bin/tsc", "-p", "."));
step("form", ...tool("@biomejs/biome/bin/biome", "check"));
checkLayers();
buildPage();
buildProgram();
await types;

const report = join(root, ".stillglow", "tests.json");
rmSync(report, { force: true });
const [node, vitest] = tool(
  "vitest/vitest.mjs",
  "run",
  "--reporter=dot",
  "--reporter=json",
  `--outputFile.json=${report}`,
);
const { status } = spawnSync(node, vitest, {
  cwd: root,
  stdio: "inherit",
  env: { ...process.env, STILLGLOW_WHOLE_SUITE: "1", STILLGLOW_CHROMIUM: chromium },
});
if (!existsSync(report)) fail("the tests ended without a report");
const { numPassedTests, numFailedTests, numPendingTests, success } = JSON.parse(readFileSync(report, "utf8"));
console.log(`${numPassedTests} passed, ${numFailedTests} failed, ${numPendingTests} skipped`);
process.exit(status === 0 && success && numPassedTests > 0 ? 0 : status || 1);

function step(title, command, args) {
  console.log(`stillglow: checking ${title} …`);
  run(command, args);
}

/** A check beside the others, on the second core; a fault in it ends the run where it is awaited. */
function started(title, command, args) {
  console.log(`stillglow: checking ${title} …`);
  const child = spawn(command, args, { cwd: root, stdio: "inherit" });
  process.on("exit", () => child.kill());
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("exit", (code, signal) =>
      code === 0 ? resolve() : fail(`${title}: ended with ${signal ?? `status ${code}`}`),
    );
  });
}

/** The layer rule, and that it really looked at the code: a checker that reads no module passes everything. */
function checkLayers() {
  console.log("stillglow: checking layers …");
  const [command, args] = tool(
    "dependency-cruiser/bin/dependency-cruise.mjs",
    "--config",
    ".dependency-cruiser.cjs",
    "--output-type",
    "json",
    "src",
  );
  const { stdout, stderr } = spawnSync(command, args, { cwd: root, encoding: "utf8", maxBuffer: 1 << 28 });
  if (!stdout) fail(`the layer check gave no answer: ${stderr.slice(0, 400)}`);
  const { summary } = JSON.parse(stdout);
  if (!(summary.totalCruised > 50))
    fail(`the layer check saw ${summary.totalCruised} modules; it should see the whole of src`);
  for (const { rule, from, to } of summary.violations) console.error(`  ${rule.name}: ${from} -> ${to}`);
  if (summary.error > 0) fail(`${summary.error} imports against the layer rule`);
}

function findChromium() {
  const places = [
    process.env.STILLGLOW_CHROMIUM,
    "/usr/bin/chromium",
    "/usr/bin/chromium-browser",
    "/usr/bin/google-chrome",
  ];
  return places.find((place) => place && existsSync(place));
}

function installChromium() {
  const mayInstall = process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
  if (!mayInstall)
    fail("the tests need a Chromium browser; install Debian's package 'chromium', or name one in STILLGLOW_CHROMIUM");
  console.log("stillglow: installing Debian's chromium for the tests …");
  run("apt-get", ["update", "-qq"]);
  run("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "chromium"], {
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  });
  return (
    findChromium() ?? fail("chromium was installed but is not at /usr/bin/chromium; name it in STILLGLOW_CHROMIUM")
  );
}

function hasPostgres() {
  const home = "/usr/lib/postgresql";
  return existsSync(home) && readdirSync(home).some((version) => existsSync(join(home, version, "bin", "initdb")));
}

function installPostgres() {
  const mayInstall = process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get");
  if (!mayInstall) fail("the tests need a PostgreSQL server; install Debian's package 'postgresql'");
  console.log("stillglow: installing Debian's postgresql for the tests …");
  run("apt-get", ["update", "-qq"]);
  run("apt-get", ["install", "-y", "-qq", "--no-install-recommends", "postgresql"], {
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  });
  if (!hasPostgres()) fail("postgresql was installed but its programs are not in /usr/lib/postgresql");
}

function fail(message) {
  console.error(`stillglow: ${message}`);
  process.exit(1);
}
