import { randomStream } from "../../src/maths/random.ts";
import { type Course, runCourse, type Stretch } from "../../src/timber/course.ts";
import { least_ms, pythonAnswer, type Row } from "./row.ts";

const boards = 140;
const accuracy_pct = 0.01;
/** As few as reach it, as for the reference. */
const cells = 29;
const law = { kind: "arrhenius", d0_m2_per_s: 19.2e-4, activation_K: 5280, moistureFactor: 1.15 } as const;

/** A year of four stages for every board on the shelf, beside a stiff solver at the same accuracy. */
export function rows(): Row[] {
  const random = randomStream("a year of boards");
  const shelf = Array.from({ length: boards }, () => {
    const stages = [
      { hours: 4380, temperature_C: 16, emc_pct: 12.5, faces: "both", asked_h: [720, 2160] },
      {
        hours: 48 + 48 * random.uniform(),
        temperature_C: 45,
        emc_pct: 4 + random.uniform(),
        faces: "both",
        asked_h: [24],
      },
      { hours: 24, temperature_C: 70, emc_pct: 2, faces: "one", asked_h: [12] },
      { hours: 4200, temperature_C: 21, emc_pct: 7 + 2 * random.uniform(), faces: "both", asked_h: [168, 1000] },
    ];
    return {
      thickness_mm: 12 + 18 * random.uniform(),
      start_pct: 12 + 4 * random.uniform(),
      factor: Math.exp(random.normal(0.3, 0.5)),
      stages,
    };
  });
  const asked = (stages: (typeof shelf)[number]["stages"]) => {
    let begun = 0;
    return stages.flatMap(({ hours, asked_h }) => {
      const here = [...asked_h.map((hour) => begun + hour), begun + hours];
      begun += hours;
      return here;
    });
  };
  const courses = shelf.map(({ stages, thickness_mm, start_pct, factor }) => {
    const stretches = stages.map(({ hours, temperature_C, emc_pct, faces }): Stretch => {
      const open = { open: true, emc_pct, surface_m_per_s: Number.POSITIVE_INFINITY } as const;
      return { hours, wood_C: temperature_C, faces: [open, faces === "both" ? open : { open: false }] };
    });
    return {
      course: { thickness_mm, start_pct, stretches, law, cells } satisfies Course,
      factor,
      hours: asked(stages),
    };
  });
  let means: (readonly number[])[] = [];
  const ours = () =>
    least_ms(() => {
      means = courses.map(({ course, factor, hours }) => runCourse(course, factor, hours, "means").means_pct);
    }, 15);
  const before_ms = ours();
  const reference = pythonAnswer<{ ms: number; method: string; cells: number; error_pct: number; exact: number[][] }>(
    "timber.py",
    { boards: shelf, accuracy_pct },
  );
  // The machine may be busier at one time than at another: the best of before and after, and of several runs there.
  const ours_ms = Math.min(before_ms, ours());
  const every = Math.max(1, Math.floor(boards / 6));
  const worst = reference?.exact.reduce(
    (most, exact, k) => Math.max(most, ...exact.map((mean, i) => Math.abs(mean - means[k * every]![i]!))),
    0,
  );
  return [
    {
      what: `a year of four stages for ${boards} boards`,
      ours_ms,
      reference: reference
        ? `scipy solve_ivp (${reference.method}, ${reference.cells} cells, the fastest of three that reach it)`
        : "scipy solve_ivp",
      reference_ms: reference?.ms,
      ...(reference && worst !== undefined
        ? {
            seen: `worst mean ${worst.toFixed(4)} % MC from a fine solution, there ${reference.error_pct.toFixed(4)} % MC`,
          }
        : {}),
    },
  ];
}
