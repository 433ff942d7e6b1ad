import { appendFileSync, mkdirSync } from "node:fs";
import { join } from "node:path";

/** One line of docs/accuracy.md: what was checked, against which published source, how near it came. */
export interface AccuracyRow {
  readonly area: string;
  readonly what: string;
  readonly source: string;
  readonly reached: string;
  readonly limit: string;
}

export const accuracyFolder = join(import.meta.dirname, "..", ".stillglow", "accuracy");

/** Notes what a test reached. The whole suite's rows become docs/accuracy.md when the suite ends. */
export function recordAccuracy(row: AccuracyRow): void {
  mkdirSync(accuracyFolder, { recursive: true });
  appendFileSync(join(accuracyFolder, `${process.pid}.jsonl`), `${JSON.stringify(row)}\n`);
}
