import type { Random } from "../../maths/random.ts";
import { type Course, runCourse, type Stretch } from "../course.ts";
import { equilibriumMoisture_pct } from "../emc.ts";
import { woodDoubt_pct } from "../life.ts";
import type { PieceQuestion } from "../piece.ts";

const law = { kind: "arrhenius", d0_m2_per_s: 19.2e-4, activation_K: 5280, moistureFactor: 1.15 } as const;

/** A question as the shop would ask it, and the truth that it hides. */
export interface DrawnPiece {
  readonly question: PieceQuestion;
  readonly factor: number;
  readonly later_h: number;
  readonly now_pct: number;
  readonly later_pct: number;
  /** When it truly comes to a target from an hour on; nothing where it never does. */
  hoursTo(target_pct: number, from_h: number): number | undefined;
}

export interface Draw {
  /** Hidden factor: 0.5 to 3 evenly in its logarithm, or about the judgement as the fit believes. */
  readonly factor: "even" | "believed";
  readonly hasDry: "piece" | "offcut" | "none";
  readonly weighings: number;
  /** Wood off the table and logger off: as believed, none, or the wood by that much. */
  readonly off: "believed" | "none" | number;
}

/**
 * A board that stood in shop air, then in a chamber whose air drifted, and goes on to recover.
 *
 * Its truth is made by the finite volumes of twice the cells; wood and logger are off as they are believed to be.
 */
export function drawPiece(random: Random, draw: Draw): DrawnPiece {
  const judged = 1;
  const factor =
    draw.factor === "even" ? 0.5 * 6 ** random.uniform() : judged * Math.exp((random.normal() * Math.log(4)) / 1.96);
  const [z, logger] = draw.off === "believed" ? [random.normal(), random.normal()] : [0, 0];
  const thickness_mm = 12 + 16 * random.uniform();
  const start_pct = 12 + random.normal();
  const shop = { hours: 24 + 72 * random.uniform(), temperature_C: 17, humidity_pct: 60 + 10 * random.uniform() };
  const chamber_h = 40 + 60 * random.uniform();
  const aimed = 22 + 10 * random.uniform();
  const log = Array.from({ length: 9 }, (_, i) => ({
    hour: (chamber_h * i) / 8,
    temperature_C: 45 - 8 * Math.exp(-i) + random.normal(0, 0.3),
    humidity_pct: aimed + 8 * Math.exp(-i / 2) + random.normal(0, 0.6),
  }));
  const rest = { hours: 240, temperature_C: 19, humidity_pct: 40 + 10 * random.uniform() };
  const stages = [
    { place: "shop air", ...shop },
    { place: "warm chamber", hours: chamber_h, log },
    { place: "recovery", ...rest },
  ];

  const seen = (temperature_C: number, logged_pct: number) => {
    const table = equilibriumMoisture_pct(temperature_C, Math.max(0, Math.min(100, logged_pct + (logger * 3) / 1.96)));
    const width = woodDoubt_pct(equilibriumMoisture_pct(temperature_C, logged_pct));
    return Math.max(0, table + (typeof draw.off === "number" ? draw.off : (z * width) / 1.96));
  };
  const stretch = (hours: number, temperature_C: number, humidity_pct: number): Stretch => {
    const face = {
      open: true,
      emc_pct: seen(temperature_C, humidity_pct),
      surface_m_per_s: Number.POSITIVE_INFINITY,
    } as const;
    return { hours, wood_C: temperature_C, faces: [face, face] };
  };
  const edges = log.map((_, i) => (i === 0 ? 0 : (chamber_h * (i - 0.5)) / 8)).concat(chamber_h);
  const stretches = [
    stretch(shop.hours, shop.temperature_C, shop.humidity_pct),
    ...log.map((one, i) => stretch(edges[i + 1]! - edges[i]!, one.temperature_C, one.humidity_pct)),
    stretch(rest.hours, rest.temperature_C, rest.humidity_pct),
  ];
  const count = draw.weighings;
  const last_h = shop.hours + chamber_h * (0.35 + 0.5 * random.uniform());
  const hours = Array.from({ length: count }, (_, i) => (i === 0 ? 1 : last_h * (0.4 + (0.6 * i) / (count - 1))));
  const dry_g = 300 + 500 * random.uniform();
  const later_h = shop.hours + chamber_h + 100;
  const truth: Course = { thickness_mm, start_pct, stretches, law, cells: 121 };
  const means = runCourse(truth, factor, [...hours, last_h, later_h, 1]).means_pct;
  const [now_pct, later_pct, cut_pct] = [means[count]!, means[count + 1]!, means[count + 2]!];
  const weighings = hours.map((hour, i) => ({
    hour,
    mass_g: Math.round(10 * (dry_g * (1 + means[i]! / 100) + random.normal(0, 0.05))) / 10,
  }));
  const offcut_pct = cut_pct + random.normal(0, 0.5 / 1.96);
  return {
    question: {
      density_kg_m3: 700,
      thickness_mm,
      start_pct: 12,
      startDoubt_pct: 1.96,
      stages,
      weighings,
      balance_g: Math.hypot(0.05 * 1.96, (0.1 / Math.sqrt(12)) * 1.96),
      ...(draw.hasDry === "piece" ? { ovenDry_g: dry_g * Math.exp((random.normal() * 0.001) / 1.96) } : {}),
      ...(draw.hasDry === "offcut" ? { offcut: { hour: 1, wet_g: 60 * (1 + offcut_pct / 100), dry_g: 60 } } : {}),
      outputs_h: [later_h],
    },
    factor,
    later_h,
    now_pct,
    later_pct,
    hoursTo: (target_pct, from_h) =>
      runCourse({ ...truth, target_pct, searchFrom_h: from_h }, factor, [0], "means").hoursToTarget,
  };
}
