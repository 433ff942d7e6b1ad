// Asks the registry for known faults of the locked packages: node scripts/audit.mjs
// Exit status: 0 none known, 1 some are, 2 the registry could not be asked, which says nothing either way.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = join(dirname(fileURLToPath(import.meta.url)), "..");
const { stdout, error } = spawnSync("npm", ["audit", "--json"], {
  cwd: root,
  encoding: "utf8",
  maxBuffer: 1 << 28,
  shell: process.platform === "win32",
});
const report = read(stdout);
if (error || !report?.metadata?.vulnerabilities) {
  const why = error?.message ?? report?.message ?? report?.error?.summary ?? "no answer that can be read";
  console.error(`not audited: the registry could not be asked (${String(why).slice(0, 300)})`);
  process.exit(2);
}
const found = Object.values(report.vulnerabilities ?? {});
for (const { name, severity, range, via, fixAvailable } of found) {
  const why = via.map((one) => (typeof one === "string" ? `through ${one}` : `${one.title} ${one.url}`)).join("; ");
  console.log(`${severity}: ${name} ${range}: ${why}${fixAvailable ? "" : " (no mend yet)"}`);
}
const { dependencies, vulnerabilities } = report.metadata;
console.log(
  `${new Date().toISOString().slice(0, 10)}: ${dependencies.total} packages, ${vulnerabilities.total} with known faults`,
);
process.exit(vulnerabilities.total === 0 ? 0 : 1);

function read(text) {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
