import { expect, test } from "vitest";
import { recordAccuracy } from "../../tests/accuracy.ts";
import { type Random, randomStream } from "../maths/random.ts";
import { runCourse, type Stretch } from "./course.ts";
import { dry } from "./dry.ts";
import { equilibriumMoisture_pct } from "./emc.ts";
import { woodDoubt_pct } from "./life.ts";

const draws = Number(process.env.STILLGLOW_DRAWS ?? 8);
const seed = Number(process.env.STILLGLOW_SEED ?? 5_117);
const law = { kind: "arrhenius", d0_m2_per_s: 19.2e-4, activation_K: 5280, moistureFactor: 1.15 } as const;

/** Three weighings to 0.1 g of 300 g and more, a quarter of the way to three quarters of it between first and last. */
function drawn(random: Random, off_pct: (emc_pct: number) => number) {
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
  const to = (moisture_pct: number) =>
    runCourse({ ...course, target_pct: moisture_pct }, factor, [0], "means").hoursToTarget!;
  const last_h = to(start_pct - (start_pct - target_pct) * (0.25 + 0.5 * random.uniform()));
  const hours = [0, last_h * (0.3 + 0.4 * random.uniform()), last_h];
  const weighings = runCourse(course, factor, hours, "means").means_pct.map((mean, i) => ({
    hour: hours[i]!,
    mass_g: Math.round(10 * ovenDry_g * (1 + mean / 100)) / 10,
  }));
  const stages = [{ hours: 1, temperature_C, humidity_pct, faces: "both" as const }];
  const question = {
    density_kg_m3: 650,
    thickness_mm,
    start_pct,
    stages,
    weighings,
    ovenDry_g,
    target_pct,
    outputs_h: [last_h],
  };
  return { question, truly_h: to(target_pct), isWorth: start_pct - emc_pct > 2 };
}

/** Shares of draws within a tenth, and held by the doubt; the fit that says it never comes there counts as said. */
function shares(off_pct: (random: Random) => (emc_pct: number) => number, label: string) {
  let [count, near, held, open] = [0, 0, 0, 0];
  for (let i = 0; count < draws; i++) {
    const random = randomStream(seed).fork(label).fork(i);
    const { question, truly_h, isWorth } = drawn(random, off_pct(random));
    if (!isWorth) continue;
    count++;
    const { hoursToTarget, doubt } = dry(question);
    if (hoursToTarget === undefined) open++;
    else if (Math.abs(hoursToTarget - truly_h) <= doubt.hoursToTarget!) held++;
    if (hoursToTarget !== undefined && Math.abs(hoursToTarget / truly_h - 1) <= 0.1) near++;
  }
  if (draws > 100) console.log(label, { count, near: near / count, held: held / count, undecided: open / count });
  return { near: near / count, held: held / Math.max(1, count - open) };
}

// source: the draws: hidden factor 0.5 to 3, air as logged
test("three weighings tell the hours to the target within a tenth", () => {
  const { near } = shares(() => () => 0, "air as logged");
  expect(near, `seed ${seed}`).toBeGreaterThanOrEqual(0.9);
  recordAccuracy({
    area: "timber",
    what: `hours to target from three weighings within 10 %, ${draws} draws`,
    source: "simulation, hidden factor 0.5 to 3, seed as printed",
    reached: `${(100 * near).toFixed(0)} % of draws`,
    limit: "90 % of draws",
  });
});

// source: the draws: wood that comes to rest off the table as it is believed to, and by one percent at least
test("wood off the table by one percent lies within the doubt of the hours", () => {
  const believed = shares((random) => {
    const z = random.normal() / 1.96;
    return (emc_pct) => z * woodDoubt_pct(emc_pct);
  }, "wood as believed");
  expect(believed.held, `seed ${seed}`).toBeGreaterThan(draws >= 500 ? 0.93 : 0.75);
  for (const one of [1, -1]) {
    const off = shares(() => () => one, `wood ${one} % off`);
    expect(off.held, `seed ${seed}`).toBeGreaterThan(draws >= 500 ? 0.9 : 0.7);
  }
});
