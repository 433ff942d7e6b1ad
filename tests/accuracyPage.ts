import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { type AccuracyRow, accuracyFolder } from "./accuracy.ts";
import { countedFolder, sectionOfSuite } from "./calibration/page.ts";

const page = join(import.meta.dirname, "..", "docs", "accuracy.md");

/** Clears the rows of an earlier run, and turns this run's into the page when the whole suite was asked for. */
export default function setup(): () => void {
  for (const folder of [accuracyFolder, countedFolder]) rmSync(folder, { recursive: true, force: true });
  return () => {
    if (process.env.STILLGLOW_WHOLE_SUITE !== "1" || !existsSync(accuracyFolder)) return;
    const rows = readdirSync(accuracyFolder).flatMap((file) =>
      readFileSync(join(accuracyFolder, file), "utf8")
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line) as AccuracyRow),
    );
    mkdirSync(join(page, ".."), { recursive: true });
    const calibration = sectionOfSuite(existsSync(page) ? readFileSync(page, "utf8") : "");
    writeFileSync(page, accuracyPage(rows, calibration));
  };
}

function accuracyPage(rows: readonly AccuracyRow[], calibration?: string): string {
  const areas = [...new Set(rows.map((row) => row.area))].sort();
  const cell = (text: string) => text.replaceAll("|", "\\|").replaceAll("\n", " ");
  const tables = areas.map((area) => {
    const lines = rows
      .filter((row) => row.area === area)
      .map((row) => `| ${[row.what, row.reached, row.limit, row.source].map(cell).join(" | ")} |`)
      .sort();
    return `## ${area}\n\n| checked | reached | must reach | against |\n|---|---|---|---|\n${[...new Set(lines)].join("\n")}\n`;
  });
  return [
    "# How accurate Stillglow is, and against what",
    "",
    "Written by the test suite at its end: each row is a check that ran, with the outside source it was held against.",
    "Seeds are fixed in the suite, so the figures repeat; fresh draws come with `STILLGLOW_DRAWS` (see contributing.md).",
    "The calibration alone makes other draws each day, and keeps what its command last found.",
    "",
    ...(calibration === undefined ? [] : [calibration]),
    ...tables,
  ].join("\n");
}
