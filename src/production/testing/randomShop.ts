import type { Random } from "../../maths/random.ts";
import type { PromiseInput, Spread } from "../shop.ts";

/** A small shop drawn at random, in whole minutes and without steps of no length, for comparing two methods. */
export function randomShop(random: Random, kind: "fixed" | "chance"): PromiseInput {
  const some = (low: number, high: number) => low + random.integer(high - low + 1);
  const oneOf = <T>(list: readonly T[]): T => list[random.integer(list.length)]!;
  const maybe = (odds: number) => random.uniform() < odds;
  const spread = (usual: number): Spread =>
    kind === "fixed" || maybe(0.3)
      ? { fast: usual, usual, slow: usual }
      : { fast: usual * oneOf([0.5, 0.75, 1]), usual, slow: usual * oneOf([1.5, 2, 3]) };

  const [timeZone, begun_at] = oneOf([
    ["Europe/Paris", "2027-03-26T07:30:00+01:00"],
    ["Europe/Paris", "2026-10-23T10:00:00+02:00"],
    ["America/New_York", "2027-03-12T08:00:00-05:00"],
    ["Australia/Lord_Howe", "2027-04-02T08:00:00+11:00"],
    ["Asia/Kolkata", "2026-12-22T16:45:00+05:30"],
    ["UTC", "2026-11-25T00:00:00Z"],
  ] as const);
  const now = later(begun_at, some(0, 160));
  const shifts = [
    ["08:00-12:00", "13:00-17:00"],
    ["09:15-15:45"],
    ["22:00-06:00"],
    ["00:00-24:00"],
    ["06:00-09:00", "09:00-11:30", "18:00-23:00"],
  ];
  const calendar = () => {
    const hours = oneOf(shifts);
    const days = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"].filter(() => maybe(0.75));
    const closed = maybe(0.5) ? ["2027-03-29", "2026-10-26", "2026-11-27", "2026-12-25"] : undefined;
    return {
      week: Object.fromEntries((days.length > 0 ? days : ["tue"]).map((day) => [day, hours])),
      closed,
      ...(maybe(0.2) ? { timeZone: oneOf(["America/New_York", "Asia/Tokyo", "Europe/Dublin"]) } : {}),
    };
  };
  const calendars = { early: calendar(), late: calendar() };
  const dayOn = (days: number) => new Date(Date.parse(now) + days * 86_400_000).toISOString().slice(0, 10);
  const skills = ["wire", "test"];
  const people = Array.from({ length: some(1, 3) }, (_, i) => ({
    id: `person ${i}`,
    skills: i === 0 ? skills : skills.filter(() => maybe(0.6)),
    calendar: oneOf(["early", "late"]),
    ...(maybe(0.25) ? { away: [{ from: dayOn(some(0, 3)), to: dayOn(some(3, 6)) }] } : {}),
  }));
  const places = [
    { id: "bench", kind: "single" as const },
    { id: "stand", kind: "single" as const, capacity: some(1, 3) },
    { id: "rack", kind: "batch" as const, capacity: some(1, 3), ...(maybe(0.5) ? { cycle_h: some(2, 40) } : {}) },
  ];
  const models = ["A", "B"].slice(0, some(1, 2));
  const routes = Object.fromEntries(
    models.map((model) => {
      const names = Array.from({ length: some(1, 5) }, (_, i) => `${model}${i}`);
      return [
        model,
        names.map((step, i) => ({
          step,
          skill: maybe(0.7) ? oneOf(skills) : undefined,
          place: maybe(0.6) ? oneOf(places).id : undefined,
          hours: spread(some(1, 40) / 4),
          unattended: maybe(0.2) ? true : undefined,
          ...(maybe(0.1) ? { failsOnce: true } : {}),
          ...(kind === "chance" && maybe(0.4)
            ? {
                failOdds: oneOf([0.1, 0.3, 0.5]),
                onFail: maybe(0.8)
                  ? { back: maybe(0.7) ? names[random.integer(i + 1)] : undefined, repair_h: some(0, 8) / 4 }
                  : undefined,
              }
            : {}),
        })),
      ];
    }),
  );
  const hoursOn = (hours: number) => new Date(Date.parse(now) + hours * 3_600_000).toISOString();
  // What is left to do on units already begun.
  const begun = models.flatMap((model) => {
    const left = routes[model]!.slice(random.integer(routes[model]!.length + 1));
    const kept = new Set(left.map(({ step }) => step));
    const isWhole = left.every(({ onFail }) => onFail?.back === undefined || kept.has(onFail.back));
    return isWhole ? [[`${model} begun`, left] as const] : [];
  });
  const parts = Array.from({ length: some(0, 3) }, (_, i) => {
    const model = oneOf(models);
    return {
      id: `part ${i}`,
      model,
      step: oneOf(routes[model]!).step,
      lead_days: spread(some(1, 16) / 4),
      ordered: maybe(0.6) ? hoursOn(-some(0, 60)) : undefined,
    };
  });
  const taken = () => {
    const [model, units] = [oneOf(models), some(1, 3)];
    const names = [model, ...begun.map(([name]) => name).filter((name) => name.startsWith(model))];
    const route = maybe(0.3) ? Array.from({ length: units }, () => oneOf(names)) : undefined;
    return { model, units, ...(route && { route }) };
  };
  const orders = Array.from({ length: some(1, 4) }, (_, i) => ({
    id: `order ${i}`,
    ...taken(),
    due: maybe(0.6) ? hoursOn(some(1, 4) * 48) : undefined,
    released: maybe(0.4) ? hoursOn(some(-10, 60)) : undefined,
  }));
  const bought = parts.map((part) => {
    const takers = orders.filter(({ model }) => model === part.model).map(({ id }) => id);
    return takers.length > 1 && maybe(0.3) ? { ...part, orders: takers.slice(0, -1) } : part;
  });
  // Some places hold what was begun before.
  const held = places.map((place) => {
    if (!maybe(0.3)) return place;
    const busy = Array.from({ length: some(1, place.capacity ?? 1) }, () => ({
      slots: 1,
      until: hoursOn(some(1, 60)),
    }));
    return { ...place, busy };
  });
  return {
    now,
    timeZone,
    calendars,
    people,
    places: held,
    routes: { ...routes, ...Object.fromEntries(begun) },
    parts: bought,
    orders,
    runs: 1,
    seed: 1,
  };
}

/** So many hours on, written with the offset that it had. */
function later(instant: string, hours: number): string {
  const [, local, offset = ""] = /^(.{19})(.+)$/.exec(instant)!;
  const moved = new Date(Date.parse(`${local}Z`) + hours * 3_600_000).toISOString().slice(0, 19);
  return `${moved}${offset}`;
}
