// npm run bench [WORD …]: each figure is a ratio beside a general-purpose reference run on this machine, just now.
import { readdirSync } from "node:fs";
import type { Row } from "./bench/row.ts";

const asked = process.argv.slice(2);
const files = readdirSync(new URL("bench", import.meta.url))
  .filter((file) => file.endsWith(".ts") && file !== "row.ts")
  .filter((file) => asked.length === 0 || asked.some((word) => file.includes(word)))
  .sort();

for (const file of files) {
  const { rows } = (await import(new URL(`bench/${file}`, import.meta.url).href)) as {
    rows: () => Row[] | Promise<Row[]>;
  };
  for (const { what, ours_ms, reference, reference_ms, seen } of await rows()) {
    const beside =
      reference_ms === undefined
        ? `(${reference})`
        : `${(reference_ms / ours_ms).toFixed(reference_ms > 10 * ours_ms ? 0 : 2)} times as fast as ${reference} at ${reference_ms.toFixed(1)} ms`;
    console.log(`${what}: ${ours_ms.toFixed(1)} ms, ${beside}${seen === undefined ? "" : `; ${seen}`}`);
  }
}
