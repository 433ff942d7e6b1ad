import instances from "../../reference/schedule.json" with { type: "json" };
import { scheduleSearch } from "../../src/production/index.ts";
import { median_ms, pythonAnswer, type Row } from "./row.ts";

/** The shortest schedule of six jobs on six places, found and proved, beside a whole-number program of the same. */
export function rows(): Row[] {
  const { instance, operations, optimal_makespan } = instances.instances[0]!;
  const jobs = operations.map((job) => job.map(([place, hours]) => ({ place: place!, hours: hours! })));
  let makespan_h = 0;
  const ours_ms = median_ms(() => {
    const search = scheduleSearch(jobs);
    while (!search.isDone) search.step();
    makespan_h = search.answer().makespan_h;
  }, 5);
  const answer = pythonAnswer<{ makespan: number; ms: number; proved: boolean }>("schedule.py", { jobs: operations });
  const both = answer
    ? `${answer.makespan} there${answer.proved ? ", proved" : ", not proved in 60 s"}`
    : "not compared";
  return [
    {
      what: `shortest schedule of ${instance}, proved`,
      ours_ms,
      reference: "scipy.optimize.milp (HiGHS), one yes-or-no per pair",
      reference_ms: answer?.ms,
      seen: `makespan ${makespan_h} of ${optimal_makespan} published; ${both}`,
    },
  ];
}
