const day = ["08:00-12:00", "13:00-17:00"];
const hours = { fast: 1, usual: 3, slow: 8 };

/** A question about promised dates that takes as long as its number of runs. */
export function longQuestion(runs: number, seed = 1): object {
  return {
    now: "2026-11-25T08:00:00+01:00",
    timeZone: "Europe/Paris",
    calendars: { day: { week: { mon: day, tue: day, wed: day, thu: day, fri: day } } },
    people: [{ id: "builder", skills: ["build"], calendar: "day" }],
    places: [],
    routes: { amp: Array.from({ length: 5 }, (_, i) => ({ step: `step ${i}`, skill: "build", hours })) },
    orders: Array.from({ length: 12 }, (_, i) => ({ id: `order ${i}`, model: "amp", units: 1 })),
    runs,
    seed,
  };
}
