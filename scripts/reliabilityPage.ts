import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const page = join(import.meta.dirname, "..", "docs", "reliability.md");
const head =
  "# Reliability\n\nWhat was done to it, and what was found. Each section is written by the command it names.\n";

/** The day and the revision that a result was reached with. */
export function reachedWith(): string {
  const revision = execFileSync("git", ["rev-parse", "--short=12", "HEAD"], { encoding: "utf8" }).trim();
  return `${new Date().toISOString().slice(0, 10)}, on revision ${revision}`;
}

/** Puts a section into `docs/reliability.md`, in the place of an earlier one of that title; the others stay. */
export function writeSection(title: string, text: string): void {
  const old = existsSync(page) ? readFileSync(page, "utf8") : head;
  const others = old
    .split(/^(?=## )/m)
    .slice(1)
    .filter((one) => !one.startsWith(`## ${title}\n`));
  const all = [...others.map((one) => one.trimEnd()), `## ${title}\n\n${text.trimEnd()}`].toSorted();
  writeFileSync(page, `${[head.trimEnd(), ...all].join("\n\n")}\n`);
}
