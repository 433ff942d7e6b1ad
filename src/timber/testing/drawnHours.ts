import { type Random, randomStream } from "../../maths/random.ts";
import { runCourse, type Stretch } from "../course.ts";
import { dry } from "../dry.ts";
import { equilibriumMoisture_pct } from "../emc.ts";
import { woodDoubt_pct } from "../life.ts";

const law = { kind: "arrhenius", d0_m2_per_s: 19.2e-4, activation_K: 5280, moistureFactor: 1.15 } as const;

/** How far a drawn wood rests off the table, by the table's own equilibrium. */
export type Off = (random: Random) => (emc_pct: number) => number;

export const offs: Readonly<Record<string, Off>> = {
  "air as logged": () => () => 0,
  "wood as believed": (random) => {
    const z = random.normal() / 1.96;
    return (emc_pct) => z * woodDoubt_pct(emc_pct);
  },
  "wood 1 % off": () => () => 1,
  "wood -1 % off": () => () => -1,
};

/**
 * Three weighings to 0.1 g of 300 g and more, a quarter of the way to three quarters of it between first and last.
 *
 * @param off_pct  how far this wood rests above the table, by the table's own equilibrium
 */
export function drawHours(random: Random, off_pct: (emc_pct: number) => number) {
  const factor = 0.5 * 6 ** random.uniform();
  const [temperature_C, humidity_pct] = [20 + 30 * random.uniform(), 15 + 35 * random.uniform()];
  const [thickness_mm, start_pct, ovenDry_g] = [
    10 + 20 * random.uniform(),
    9 + 6 * random.uniform(),
    300 + 500 * random.uniform(),
  ];
  const table_pct = equilibriumMoisture_pct(temperature_C, humidity_pct);
  const emc_pct = Math.max(0.2, table_pct + off_pct(table_pct));
  const face = { open: true, emc_pct, surface_m_per_s: Number.POSITIVE_INFINITY } as const;
  const stretches: Stretch[] = [{ hours: 1, wood_C: temperature_C, faces: [face, face] }];
  const target_pct = start_pct - (start_pct - emc_pct) * (0.4 + 0.4 * random.uniform());
  const course = { thickness_mm, start_pct, stretches, law, cells: 121 };
  /** Without end where it never comes there. */
  const to = (moisture_pct: number) =>
    runCourse({ ...course, target_pct: moisture_pct }, factor, [0], "means").hoursToTarget ?? Number.POSITIVE_INFINITY;
  const last_h = to(start_pct - (start_pct - target_pct) * (0.25 + 0.5 * random.uniform()));
  const hours = [0, last_h * (0.3 + 0.4 * random.uniform()), last_h];
  const weighings = runCourse(course, factor, hours, "means").means_pct.map((mean, i) => ({
    hour: hours[i]!,
    mass_g: Math.round(10 * ovenDry_g * (1 + mean / 100)) / 10,
  }));
  const stages = [{ hours: 1, temperature_C, humidity_pct, faces: "both" as const }];
  const question = {
    ...{ density_kg_m3: 650, thickness_mm, start_pct, stages, weighings, ovenDry_g, target_pct },
    outputs_h: [last_h],
  };
  return { question, factor, truly_h: to(target_pct), hoursTo: to, table_pct, isWorth: start_pct - emc_pct > 2 };
}

export interface HoursTold {
  /** Within a tenth of the truth. */
  readonly isNear: boolean;
  /** Nothing where it is said that it never comes there. */
  readonly isHeld?: boolean;
}

/** How the hours to its target of one drawn piece came out; nothing of a piece that was to lose under two percent. */
export function hoursTold(name: string, seed: number | string, draw: number): HoursTold | undefined {
  const random = randomStream(seed).fork(name).fork(draw);
  const { question, truly_h, isWorth } = drawHours(random, offs[name]!(random));
  if (!isWorth) return undefined;
  const { hoursToTarget, doubt } = dry(question);
  if (hoursToTarget === undefined) return { isNear: false };
  return {
    isNear: Math.abs(hoursToTarget / truly_h - 1) <= 0.1,
    isHeld: Math.abs(hoursToTarget - truly_h) <= doubt.hoursToTarget!,
  };
}
