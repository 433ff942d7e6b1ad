import { BadInput, quote } from "../../maths/badInput.ts";
import { readInstant } from "../instants.ts";
import type { Odds } from "../odds.ts";
import type { DayInput, Job } from "./day.ts";
import { worthOf } from "./worth.ts";

export const mostTasks = 5000;
const mostOffers = 200_000;

/** Tasks as they are weighed; instants in milliseconds from `now`. @throws BadInput naming the task */
export function readTasks({ tasks, people, depth }: DayInput, now: number): Job[] {
  if (tasks.length > mostTasks)
    throw new BadInput("tasks", `${tasks.length} tasks`, `${mostTasks} at most`, "leave the done ones out");
  if (tasks.length * people.length > mostOffers) {
    throw new BadInput(
      "tasks",
      `${tasks.length} tasks for ${people.length} people`,
      `${mostOffers} pairs of them at most`,
      "plan one shop at a time",
    );
  }
  if (depth !== undefined && !(Number.isInteger(depth) && depth >= 1 && depth <= 50)) {
    throw new BadInput("depth", quote(depth), "a whole number, 1 to 50", "3 fits a card");
  }
  const seen = new Set<string>();
  const softened = new Map<string, Odds>();
  return tasks.map((task, i): Job => {
    const at = `tasks[${i}]`;
    if (seen.has(task.id)) throw new BadInput(`${at}.id`, quote(task.id), "each id once", "give it another id");
    seen.add(task.id);
    if (!people.some(({ skills }) => skills.includes(task.skill))) {
      throw new BadInput(
        `${at}.skill`,
        `${quote(task.skill)} of ${quote(task.id)}`,
        `skills here are ${[...new Set(people.flatMap(({ skills }) => skills))].join(", ") || "none"}`,
        "correct it, or give somebody the skill",
      );
    }
    for (const [field, value] of Object.entries({ hands_min: task.hands_min, wait_h: task.wait_h ?? 0 })) {
      if (!(value >= 0 && value <= 100_000)) {
        throw new BadInput(`${at}.${field}`, quote(value), "0 to 100000", `give ${field} of ${task.id}`);
      }
    }
    return {
      id: task.id,
      ...(task.unit === undefined ? {} : { unit: task.unit }),
      skill: task.skill,
      hands_min: task.hands_min,
      wait_h: task.wait_h ?? 0,
      splits: task.splits ?? false,
      ...(task.place === undefined ? {} : { place: task.place }),
      danger: task.danger ?? "none",
      ready: task.ready === undefined ? 0 : Math.max(0, readInstant(task.ready, `${at}.ready`) - now),
      due: task.due === undefined ? Number.POSITIVE_INFINITY : readInstant(task.due, `${at}.due`),
      worth: worthOf(task.faults ?? [], task.hands_min, at, softened),
    };
  });
}
