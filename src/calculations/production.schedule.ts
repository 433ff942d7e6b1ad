import { z } from "zod";
import { mostOperations, scheduleSearch } from "../production/index.ts";
import { calculation } from "./calculation.ts";

const hours = z.number().min(0).max(1e9);
const longest_s = 600;

export default calculation({
  name: "production.schedule",
  title: "The shortest schedule of jobs over places, and the proof that none is shorter",
  input: z.object({
    jobs: z
      .array(
        z
          .array(
            z.object({
              place: z.union([z.string().min(1).max(200), z.number()]),
              hours: hours.describe("How long the place is taken up."),
            }),
          )
          .max(mostOperations)
          .describe("Operations of one job, in the order in which they must be done."),
      )
      .max(mostOperations),
    seconds: z.number().positive().max(longest_s).default(5).describe("Time to search; 5 if left out."),
  }),
  output: z.object({
    makespan_h: z.number().min(0).describe("From the first start to the last end."),
    start_h: z.array(z.array(z.number())).describe("Per job, the start of each operation."),
    optimal: z.boolean().describe("True when proved that no schedule is shorter."),
    bound_h: z.number().describe("Proved: no schedule is shorter than this."),
    notes: z.array(z.string()),
  }),
  async compute({ jobs, seconds }, { signal, progress }) {
    const begun_ms = performance.now();
    const search = scheduleSearch(jobs);
    for (let paused_ms = begun_ms; !search.isDone; ) {
      search.step();
      const now_ms = performance.now();
      const share = (now_ms - begun_ms) / (1000 * seconds);
      if (share >= 1) break;
      if (now_ms - paused_ms < longestHold_ms) continue;
      signal?.throwIfAborted();
      progress?.(share, "shortening the schedule");
      await new Promise((resume) => setImmediate(resume));
      paused_ms = performance.now();
    }
    const { start_h, ...answer } = search.answer();
    return {
      ...answer,
      start_h: start_h.map((starts) => [...starts]),
      notes: [
        ...(answer.optimal
          ? []
          : [
              `Not proved shortest in ${seconds} s: at most ${percent(answer.makespan_h / answer.bound_h - 1)} longer than need be. More seconds may shorten it or prove it.`,
            ]),
        "Everything is taken as certain and all places as open at hour 0 and ever after; for dates to promise use production.promise.",
      ],
    };
  },
  sources: [
    "J. Carlier and E. Pinson, An algorithm for solving the job-shop problem, Management Science 35 (1989) 164-176 (remembered)",
    "E. Balas and A. Vazacopoulos, Guided local search with shifting bottleneck for job shop scheduling, Management Science 44 (1998) 262-275 (remembered)",
    "Instances it is held to: reference/schedule.json",
  ],
  validity: `Up to ${mostOperations} operations. Each place does one operation at a time, none is broken off, no time to change over or to carry. Instances of ten jobs on five places are proved in seconds, ten on ten in some more; larger ones keep a gap.`,
  cautions: [],
  example: {
    jobs: [
      [
        { place: "saw", hours: 2 },
        { place: "bench", hours: 3.5 },
      ],
      [
        { place: "bench", hours: 1.5 },
        { place: "saw", hours: 1 },
        { place: "bench", hours: 2 },
      ],
    ],
  },
});

/** After so long others that share the process have their turn. */
const longestHold_ms = 50;

function percent(share: number): string {
  return `${(100 * share).toPrecision(2)} %`;
}
