import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { linkDescription, linkFile } from "../claims/links/description.ts";
import { type Answer, figureIn } from "./answer.ts";
import { fieldTable } from "./testing/fieldTable.ts";

const root = join(import.meta.dirname, "..", "..");
const [start, end] = ["<!-- fields -->\n", "\n<!-- /fields -->"];

test("the page on instruments lists every field as the schema knows it", async () => {
  const page = join(root, "docs", "instruments.md");
  const text = readFileSync(page, "utf8");
  const before = text.slice(0, text.indexOf(start) + start.length);
  const after = text.slice(text.indexOf(end));
  await expect(`${before}${fieldTable()}${after}`).toMatchFileSnapshot(page);
  const rows = fieldTable().split("\n").slice(2);
  expect(rows.length).toBeGreaterThan(40);
  expect(rows.filter((row) => /\|\s*\|$/.test(row))).toEqual([]);
});

const folder = join(root, "reference", "instruments");
const samples = readdirSync(folder).map(
  (name) => [name, JSON.parse(readFileSync(join(folder, name), "utf8"))] as const,
);

test.each(samples)("the sample %s is a description", (_name, file) => {
  const { instrument, title, trial, ...described } = linkFile.parse(file);
  linkDescription.parse(described);
  expect([instrument, title, trial].every(Boolean)).toBe(true);
});

const readBy = (sample: string, quantity: string, line: string): Answer => {
  const file = samples.find(([name]) => name === `${sample}.json`)![1];
  return figureIn(line, linkFile.parse(file).quantities.find((one) => one.quantity === quantity)!);
};

// source: number forms NR2 and NR3 of SCPI 1999, volume 1 (from memory); plain lines of bench balances (common practice)
test.each([
  ["scpi-meter", "level_V", "+1.23456789E+02", 123.456789],
  ["scpi-meter", "level_V", "-0.000123", -0.000123],
  ["scpi-meter", "resistance_ohm", "4.70213E+04", 47021.3],
  ["scpi-ac-source", "output_Vrms", "229.93", 229.93],
  ["serial-balance", "mass_g", "ST,GS,+   123.4 g", 123.4],
  ["serial-balance", "mass_g", "ST,GS,+  1.2045 kg", 1204.5],
])("by the sample %s, %s of %j is %s", (sample, quantity, line, value) => {
  expect(readBy(sample, quantity, line)).toMatchObject({ ok: true, value });
});

test.each([
  ["scpi-meter", "level_V", "9.9E37", "overload"],
  ["scpi-meter", "level_V", "+9.90000000E+37", "overload"],
  ["scpi-meter", "level_V", "+1.23x5E+01", "garbled"],
  ["scpi-meter", "level_V", "+2.5E+03", "out of range"],
  ["serial-balance", "mass_g", "US,GS,+   123.4 g", "unsteady"],
  ["serial-balance", "mass_g", "ST,GS,+   12#.4 g", "garbled"],
  ["serial-balance", "mass_g", "ST,GS,+   123.4 lb", "garbled"],
  ["serial-balance", "mass_g", "OL", "overload"],
])("by the sample %s, %s of %j is %s", (sample, quantity, line, problem) => {
  expect(readBy(sample, quantity, line)).toMatchObject({ ok: false, problem });
});
