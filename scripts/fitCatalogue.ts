/**
 * Fits the curves of every type in `reference/tubes.json` to its published points and writes
 * `src/valves/catalogue/catalogue.json`; rectifiers go to `rectifiers.json` beside it. Run:
 * `node --import tsx scripts/fitCatalogue.ts`, or with `--check` to compare only (exit status 1 where they differ by more
 * than the last digits, in which machines may differ).
 *
 * Weights: plate current 0.5 % at the main working point and 3 % elsewhere, gm 2 %, rp and mu 4 % (the three are
 * rounded on the sheet and seldom agree to better), curve points by the reading error that their source names, mean
 * currents and power of a driven stage 6 % (they alone tell of the knee).
 */
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { leastSquares } from "../src/maths/leastSquares/leastSquares.ts";
import { valveCurrents } from "../src/valves/model.ts";
import type { ValveModel } from "../src/valves/valveModel.ts";
import { type DrivenStage, drivenStage } from "./catalogue/drivenStage.ts";
import { sheetBelief, sheetModel } from "./catalogue/sheetLaw.ts";

interface Point {
  plate_V: number;
  grid_V: number;
  screen_V?: number;
  plate_mA: number;
  screen_mA?: number;
  gm_mS?: number;
  rp_ohm?: number;
  mu?: number;
  mu_g2g1?: number;
  connection?: string;
  note?: string;
  source: string;
  seen: boolean;
}
interface Tube {
  type: string;
  aliases?: string[];
  kind: string;
  sections: number;
  heater: { V: number; A: number };
  max: Record<string, number | string>;
  maxSource?: string;
  maxSeen?: boolean;
  maxConfidence?: string;
  capacitance_pF?: Record<string, number | string | boolean>;
  points?: Point[];
  driven?: (DrivenStage & { plate_mA_max?: number; screen_mA_max?: number; power_W?: number })[];
  curvePoints?: { families: { grid_V: number; points: { plate_V: number; plate_mA: number }[] }[] };
}

const file = (path: string) => new URL(`../${path}`, import.meta.url);
const tubes = (JSON.parse(readFileSync(file("reference/tubes.json"), "utf8")) as { tubes: Tube[] }).tubes;

type Rated = { type: string; source: string; seen: boolean; confidence: string } & Record<string, unknown>;
const { ratings, heaterTolerance } = JSON.parse(readFileSync(file("reference/valveRatings.json"), "utf8")) as {
  ratings: Rated[];
  heaterTolerance: { tolerance_pct: number; source: string; seen: boolean; confidence: string };
};

const isTriodeConnected = (p: Point) => p.connection !== undefined;
const amplifying = tubes.filter((t) => t.points?.length);
const entries = amplifying.map((tube) => {
  const kind: ValveModel["kind"] = tube.kind === "triode" ? "triode" : "pentode";
  const points = tube.points!;
  const main = points.filter((p) => !isTriodeConnected(p) && p.gm_mS).at(mainPoint(points))!;
  const mu = main.mu ?? main.mu_g2g1 ?? points.find((p) => p.mu)?.mu ?? guessMu(main);
  const electrode_V = main.screen_V ?? main.plate_V;
  const scale = { drive_V: Math.max(electrode_V / mu + main.grid_V, (1.4 * main.plate_mA) / main.gm_mS!), electrode_V };
  const cathode_mA = main.plate_mA + (main.screen_mA ?? 0);
  const belief = sheetBelief(kind, cathode_mA / 1e3, mu);

  const residuals = (p: Float64Array): Float64Array => {
    const model = sheetModel(kind, p, scale);
    const out: number[] = [...p].map((v, i) => (v - belief[i]!.centre) / belief[i]!.sd);
    for (const point of points) {
      const tied = isTriodeConnected(point);
      const c = valveCurrents(model, point.plate_V, point.grid_V, tied ? point.plate_V : point.screen_V);
      const plate_A = tied ? c.plate_A + c.screen_A : c.plate_A;
      const gm = tied ? c.dPlate[1] + c.dScreen[1] : c.dPlate[1];
      const gp = tied ? c.dPlate[0] + c.dPlate[2] + c.dScreen[0] + c.dScreen[2] : c.dPlate[0];
      const isCutOff = point.plate_mA < 0.05 * main.plate_mA && point !== main;
      const certain = point === main ? 0.005 : isCutOff ? 0.7 : tied ? 0.08 : 0.03;
      out.push(Math.log((plate_A * 1e3 + 1e-9) / point.plate_mA) / certain);
      if (point.gm_mS) out.push(Math.log((gm * 1e3) / point.gm_mS) / (tied ? 0.06 : 0.02));
      if (point.rp_ohm) out.push(lowerBound(point, Math.log(1 / gp / point.rp_ohm)) / (kind === "triode" ? 0.04 : 0.1));
      if (point.mu) out.push(Math.log(gm / gp / point.mu) / (tied ? 0.06 : 0.04));
      if (point.screen_mA) out.push(Math.log((c.screen_A * 1e3) / point.screen_mA) / 0.02);
    }
    for (const row of tube.driven ?? []) {
      const now = drivenStage(model, row);
      for (const [value, printed] of [
        [now.plate_mA, row.plate_mA_max],
        [now.screen_mA, row.screen_mA_max],
        [now.power_W, row.power_W],
      ] as const) {
        if (printed !== undefined) out.push(Math.log(value / printed) / 0.06);
      }
    }
    for (const family of tube.curvePoints?.families ?? []) {
      for (const { plate_V, plate_mA } of family.points) {
        if (plate_mA === 0) continue;
        const c = valveCurrents(model, plate_V, family.grid_V);
        const reading_mA = Math.hypot(0.043 * main.plate_mA, 5 * c.dPlate[0] * 1e3);
        out.push((c.plate_A * 1e3 - plate_mA) / reading_mA);
      }
    }
    return Float64Array.from(out);
  };
  const fit = leastSquares({
    start: belief.map((b) => b.centre),
    residuals,
    low: belief.map((b) => b.low),
    high: belief.map((b) => b.high),
    mostSteps: 2000,
  });
  const model = rounded(sheetModel(kind, fit.parameters, scale));
  report(tube.type, model, points);
  const { plate_V, grid_V, screen_V, plate_mA, gm_mS, rp_ohm, mu: publishedMu, source } = main;
  return {
    type: tube.type,
    aliases: (tube.aliases ?? []).flatMap(names),
    kind,
    sections: tube.sections,
    heater: { V: tube.heater.V, A: tube.heater.A },
    ratings: ratingsOf(tube),
    max: numbersOf(tube.max),
    ...(tube.capacitance_pF ? { capacitance_pF: numbersOf(tube.capacitance_pF) } : {}),
    published: { plate_V, grid_V, screen_V, plate_mA, gm_mS, rp_ohm, mu: publishedMu, source },
    model,
  };
});
const rectifiers = tubes.filter((t): t is Parameters<typeof rectifierOf>[0] => /rectifier/.test(t.kind));
const lists = { catalogue: entries, rectifiers: rectifiers.map(rectifierOf) };
for (const [name, list] of Object.entries(lists)) {
  const path = file(`src/valves/catalogue/${name}.json`);
  if (!process.argv.includes("--check")) writeFileSync(path, `${JSON.stringify(list, null, 2)}\n`);
  else if (!isAlike(JSON.parse(JSON.stringify(list)), JSON.parse(readFileSync(path, "utf8")))) {
    console.error(`${name}.json is not what its sheets come to`);
    process.exitCode = 1;
  }
}
if (!process.argv.includes("--check")) {
  execFileSync("npx", ["biome", "format", "--write", "src/valves/catalogue"], { cwd: file("."), stdio: "ignore" });
}

/** The sheet's own names for a rating, the one that serves a working amplifier first. */
function ratingsOf({ type, heater, max, maxSource, maxSeen, maxConfidence }: Tube) {
  const own = numbersOf(max);
  const first = (...keys: string[]) => keys.map((key) => own[key]).find((value) => value !== undefined);
  const printed = {
    plate_V: first("plate_V"),
    screen_V: first("screen_V"),
    plateDissipation_W: first("plateDissipation_W_perSection", "plateDissipation_W"),
    screenDissipation_W: first("screenDissipation_W"),
    plate_mA: first("plate_mA_perSection", "plate_mA_selfBias", "plate_mA"),
    cathode_mA: first("cathode_mA"),
  };
  const { type: _, source, seen, confidence, ...further } = ratings.find((r) => r.type === type)!;
  const named = (record: object) =>
    Object.entries(record).flatMap(([key, value]) => (value === undefined ? [] : [key]));
  const { tolerance_pct, ...tolerance } = heaterTolerance;
  return {
    ...printed,
    ...further,
    heaterLow_V: Number((heater.V * (1 - tolerance_pct / 100)).toFixed(3)),
    heaterHigh_V: Number((heater.V * (1 + tolerance_pct / 100)).toFixed(3)),
    sources: [
      { of: named(printed), source: maxSource, seen: maxSeen ?? false, confidence: maxConfidence },
      { of: named(further), source, seen, confidence },
      { of: ["heaterLow_V", "heaterHigh_V"], ...tolerance },
    ],
  };
}

/** Thermionic rectifiers carry a drop at one current; the three-halves law goes through it. */
function rectifierOf(tube: Tube & { drop: { plate_mA: number; V: number }; source: string; seen: boolean }) {
  const { type, aliases = [], sections, heater, max, drop, source, seen } = tube;
  return {
    type,
    aliases,
    sections,
    heater: { V: heater.V, A: heater.A },
    max: numbersOf(max),
    drop: { plate_mA: drop.plate_mA, plate_V: drop.V },
    law: { perveance_mA_per_V1p5: Number((drop.plate_mA / drop.V ** 1.5).toPrecision(6)) },
    source,
    seen,
  };
}

/** A point that was read in a source stands for the type before a remembered one; then the highest plate voltage. */
function mainPoint(points: Point[]): number {
  const able = points.filter((p) => !isTriodeConnected(p) && p.gm_mS);
  const rank = (p: Point) => (p.seen ? 1e4 : 0) + p.plate_V;
  return able.indexOf(able.reduce((best, p) => (rank(p) > rank(best) ? p : best)));
}

/** Where a sheet gives no mu: the value that makes current and gm agree with an exponent of 1.4. */
function guessMu(p: Point): number {
  const drive_V = (1.4 * p.plate_mA) / p.gm_mS!;
  return (p.screen_V ?? p.plate_V) / (drive_V - p.grid_V);
}

function lowerBound(point: Point, log: number): number {
  return point.note?.includes("lower bound") ? Math.min(log, 0) : log;
}

/** "12SN7GT (12.6 V heater)" is a name and a remark; a near equivalent is no alias. */
function names(alias: string): string[] {
  if (/near/.test(alias)) return [];
  return alias
    .replace(/\(.*\)/, "")
    .split("/")
    .map((a) => a.trim());
}

function numbersOf(record: Record<string, unknown>): Record<string, number> {
  return Object.fromEntries(Object.entries(record).filter((e): e is [string, number] => typeof e[1] === "number"));
}

function isAlike(a: unknown, b: unknown): boolean {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= 1e-5 * Math.abs(b) + 1e-7;
  if (a === null || b === null || typeof a !== "object" || typeof b !== "object") return a === b;
  const keys = Object.keys({ ...a, ...b });
  return keys.every((key) => isAlike((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key]));
}

function rounded<T>(value: T): T {
  return JSON.parse(JSON.stringify(value), (_, v) => (typeof v === "number" ? Number(v.toPrecision(7)) : v)) as T;
}

function report(type: string, model: ValveModel, points: Point[]): void {
  for (const p of points) {
    const tied = isTriodeConnected(p);
    const c = valveCurrents(model, p.plate_V, p.grid_V, tied ? p.plate_V : p.screen_V);
    const plate = tied ? c.plate_A + c.screen_A : c.plate_A;
    const gm = tied ? c.dPlate[1] + c.dScreen[1] : c.dPlate[1];
    const gp = tied ? c.dPlate[0] + c.dPlate[2] + c.dScreen[0] + c.dScreen[2] : c.dPlate[0];
    const off = (a: number, b?: number) => (b ? `${(100 * (a / b - 1)).toFixed(1)}%` : "-");
    console.log(
      type.padEnd(8),
      `${p.plate_V}/${p.grid_V}${tied ? "t" : ""}`.padEnd(14),
      "Ia",
      off(plate * 1e3, p.plate_mA).padStart(7),
      " gm",
      off(gm * 1e3, p.gm_mS).padStart(7),
      " rp",
      off(1 / gp, p.rp_ohm).padStart(7),
      " mu",
      off(gm / gp, p.mu).padStart(7),
      " Is",
      off(c.screen_A * 1e3, p.screen_mA).padStart(7),
    );
  }
}
