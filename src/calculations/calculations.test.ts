import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";
import type { Recording } from "../bench/recording.ts";
import { paperPage } from "../server/reading/paperPage.ts";
import { answer, answerWith, firstNotFinite } from "./answer.ts";
import type { Surroundings } from "./calculation.ts";
import { calculationNamed, calculations } from "./list.ts";
import { calculationsPage } from "./page.ts";

const names = Object.keys(calculations);

/** Two channels of a 1 kHz tone with hum and a little noise: something every recording-based example can chew on. */
function bench(): Recording {
  const rate_Hz = 48_000;
  let seed = 7;
  const noise = () => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    return seed / 1_073_741_824 - 1;
  };
  const channel = (level: number) =>
    new Float64Array(4 * rate_Hz).map((_, i) => {
      const t = i / rate_Hz;
      return level * Math.sin(2 * Math.PI * 1000.3 * t) + 1e-3 * Math.sin(2 * Math.PI * 50 * t) + 1e-5 * noise();
    });
  return { rate_Hz, samples: [channel(0.3), channel(0.29)], truncated: false, bits: 24, float: false };
}

/** The sweep that the example of a calculation on sweeps names. */
function swept(): Recording {
  const rate_Hz = 48_000;
  const L = 3 / Math.log(1000);
  const channel = (level: number) =>
    new Float64Array(4 * rate_Hz).map((_, i) => {
      const t = i / rate_Hz - 0.5;
      return t < 0 || t > 3 ? 0 : level * Math.sin(2 * Math.PI * 20 * L * (Math.exp(t / L) - 1));
    });
  return { rate_Hz, samples: [channel(0.3), channel(0.29)], truncated: false, bits: 24, float: false };
}

/** A supply for the example that puts one on trial. */
function supply(): Recording {
  const rate_Hz = 48_000;
  const wave = new Float64Array(2 * rate_Hz).map((_, i) => 0.8 * Math.sin((2 * Math.PI * 50 * i) / rate_Hz));
  return { rate_Hz, samples: [wave], truncated: false, bits: 24, float: false };
}

const surroundings: Surroundings = {
  recording: (path) => (path.startsWith("sweep") ? swept() : path.startsWith("supply") ? supply() : bench()),
};

test.each(names)("%s answers its own example as its schema promises", async (name) => {
  const paper = (await calculationNamed(name))!;
  expect(paper.name).toBe(name);
  const given = await answer(name, paper.example, surroundings);
  expect(given).toMatchObject({ ok: true });
  if (!given.ok) return;
  expect(paper.output.safeParse(given.output).error?.issues).toBeUndefined();
  expect(firstNotFinite(given.output)).toBeUndefined();
  expect(JSON.parse(JSON.stringify(given.output))).toEqual(given.output);
  expect(given.output.notes).toBeInstanceOf(Array);
});

test.each(names)("%s has its paper: sources, validity, and schemas that can be published", async (name) => {
  const paper = (await calculationNamed(name))!;
  expect(paper.title.length).toBeGreaterThan(10);
  expect(paper.sources.length).toBeGreaterThan(0);
  expect(paper.validity.length).toBeGreaterThan(20);
  expect(z.toJSONSchema(paper.input, { io: "input" })).toHaveProperty("type", "object");
  const output = z.toJSONSchema(paper.output, { io: "output", unrepresentable: "any" });
  for (const form of output.oneOf ?? [output]) expect(form).toHaveProperty("type", "object");
});

// Nothing a reader could check may stand in a paper that the code itself does not say.
test("each line of a formula stands in the docstring of the code that works by it", async () => {
  const source = join(import.meta.dirname, "..");
  const files = readdirSync(source, { recursive: true, encoding: "utf8" }).filter((file) =>
    /(?<!\.test)\.ts$/.test(file),
  );
  const said = new Set(
    files.flatMap((file) =>
      [...readFileSync(join(source, file), "utf8").matchAll(/^ *\* {5,}(.+)$/gm)].map(([, line]) => squeezed(line!)),
    ),
  );
  const papers = await Promise.all(names.map((name) => calculationNamed(name)));
  const withFormula = papers.filter((paper) => paper!.formula !== undefined);
  expect(withFormula.length).toBeGreaterThan(50);
  for (const paper of withFormula) {
    for (const line of paper!.formula!) expect(said, `${paper!.name}: ${line}`).toContain(squeezed(line));
  }
});
const squeezed = (line: string) => line.replaceAll(/\s+/g, " ").trim();

test.each(names)("%s has a page that says all of its paper", async (name) => {
  const paper = (await calculationNamed(name))!;
  const plain = paperPage(paper, "en").replaceAll(/<[^>]+>/g, "");
  const words = plain
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&amp;", "&");
  for (const said of [...(paper.formula ?? []), ...paper.cautions]) expect(words).toContain(said);
  for (const said of [...paper.sources, paper.validity]) expect(words).toContain(said.replaceAll("`", ""));
  expect(words).toContain("95 cases of 100");
});

const nonsense: readonly unknown[] = [
  {},
  [],
  null,
  7,
  "text",
  { recording: 5 },
  { points: "none" },
  { netlist: { parts: [] } },
];

test.each(names)("%s refuses nonsense with one field named and no stack trace", async (name) => {
  for (const input of nonsense) {
    const given = await answer(name, input, surroundings);
    expect(given.ok).toBe(false);
    if (given.ok) continue;
    expect(given.error.message.split("; ").length).toBeGreaterThanOrEqual(3);
    expect(given.error.message.length).toBeLessThan(2000);
    expect(given.error.message).not.toMatch(/\n\s+at /);
  }
});

test("a missing field is named by the path it should have", async () => {
  const given = await answer(
    "valves.fit",
    {
      kind: "triode",
      points: [
        { plate_V: 100, grid_V: -1, plate_mA: 5 },
        { plate_V: 100, grid_V: -2 },
      ],
    },
    surroundings,
  );
  expect(given).toMatchObject({ ok: false, error: { path: "points[1].plate_mA" } });
});

test("a value is quoted cut short", async () => {
  const given = await answer("timber.emc", { temperature_C: "x".repeat(100_000), humidity_pct: 50 }, surroundings);
  expect(given.ok).toBe(false);
  if (!given.ok) expect(given.error.message.length).toBeLessThan(400);
});

test("an unknown name, and a name that every object has, are refused alike", async () => {
  for (const name of ["timber.magic", "toString", "__proto__", ""]) {
    expect(await answer(name, {}, surroundings)).toMatchObject({ ok: false, error: { path: "name" } });
  }
});

test("a number that is not finite never leaves", async () => {
  const paper = (await calculationNamed("timber.emc"))!;
  const broken = { ...paper, compute: () => ({ emc_pct: Number.NaN, doubt: { emc_pct: 1 }, notes: [] }) };
  expect(await answerWith(broken, paper.example, surroundings)).toMatchObject({ ok: false });
});

// Our own page, kept readable beside the code; it changes only with the calculations.
test("the reference page is what the list says", async () => {
  const papers = await Promise.all(names.map((name) => calculationNamed(name)));
  await expect(calculationsPage(papers.map((paper) => paper!))).toMatchFileSnapshot("../../docs/calculations.md");
});
