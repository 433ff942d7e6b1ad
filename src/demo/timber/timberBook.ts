import type { BodyOf } from "../../claims/evidence.ts";
import type { Random } from "../../maths/random.ts";
import { now, on, paperTypedIn, workingDays } from "../days.ts";
import { type DemoEntry, entry, shown } from "../entry.ts";
import { roles } from "../shop.ts";
import { BoardBook, places, plate_C, throughTheShop, type Written } from "./boards.ts";
import { caseBook } from "./cases.ts";
import { timberTruth } from "./drawTruth.ts";
import { homeClimates } from "./homes.ts";
import { panelLists } from "./panelLists.ts";
import { openPlans, type PastCase, pastPlans } from "./plan.ts";
import { finishPlans } from "./plans.ts";
import { standingBoards } from "./standing.ts";
import type { TimberTruth } from "./truth.ts";
import { Weather } from "./weather.ts";

const logBegan = "2026-02-20T00:00:00Z";
const day_ms = 86_400_000;
const week_ms = 7 * day_ms;

/** Everything that was written down about timber, and how it really is. */
export interface TimberBook {
  readonly entries: readonly DemoEntry[];
  readonly truth: TimberTruth;
}

/** The shop's timber from the year before until now: boards, their way through the shop, cases, the air of its places. */
export function timberBook(past: readonly PastCase[], chance: Random): TimberBook {
  const weather = new Weather(logBegan, now, chance.fork("weather"));
  const book = new BoardBook(weather, chance.fork("boards"));
  const plans = [...pastPlans(past), ...openPlans].map((plan) => ({
    plan,
    boards: throughTheShop(book, plan, chance.fork("cases")),
  }));
  const standing = standingBoards(book);
  book.number();
  const cases = plans.flatMap(({ plan, boards }) => caseBook(plan, boards, chance.fork("joining")));
  const written = [...book.close(), ...cases];
  return {
    entries: [
      ...opening(),
      ...logs(weather, chance.fork("logger")),
      ...typedIn(written),
      ...panelLists,
      ...finishPlans,
    ],
    truth: timberTruth(
      plans.flatMap(({ boards }) => boards),
      standing,
    ),
  };
}

/** Paper is typed in on one afternoon, all else as it was done. */
function typedIn(written: readonly Written[]): readonly DemoEntry[] {
  const byClock = (a: Written, b: Written) => Date.parse(a.entry.at) - Date.parse(b.entry.at);
  const paper = written.filter((one) => one.paper).toSorted(byClock);
  const since = written.filter((one) => !one.paper).toSorted(byClock);
  return [
    ...paper.map(({ entry: one }) => ({ ...one, recordedAt: on(paperTypedIn, "16:00") })),
    ...since.map(({ entry: one }) => {
      const isBefore = Date.parse(one.at) < Date.parse(on(paperTypedIn, "16:00"));
      return isBefore ? { ...one, recordedAt: on(paperTypedIn, "16:00") } : one;
    }),
  ];
}

/** Places, the logger, and the air that units go to. */
function opening(): readonly DemoEntry[] {
  const recordedAt = on(paperTypedIn, "15:40");
  const bodies: readonly (BodyOf<"timber-place"> | BodyOf<"instrument">)[] = [
    { kind: "timber-place", place: places.shop, what: "room", faces: "both" },
    { kind: "timber-place", place: places.chamber, what: "chamber", faces: "both", set_C: 45 },
    { kind: "timber-place", place: places.plate, what: "plate", faces: "one", set_C: plate_C },
    // A case stands on it with the amplifier running inside; its walls come to this.
    { kind: "timber-place", place: places.soak, what: "amplifier", faces: "one", set_C: 40, holds: 2 },
    {
      kind: "instrument",
      instrument: "air-logger",
      title: "Logger of air",
      trial: { reference: "jar of wet table salt", quantity: "humidity_pct", true: 75.3, limit: 3 },
    },
  ];
  return [
    ...bodies.map((body) => ({ ...entry(logBegan, roles.wood, body), recordedAt })),
    ...homeClimates.map((body) => entry(on("2026-12-04", "15:45"), roles.owner, body)),
  ];
}

/** Morning and evening of the shop and the chamber, taken off the logger every week, and its trial on Mondays. */
function logs(weather: Weather, chance: Random): readonly DemoEntry[] {
  const entries: DemoEntry[] = [];
  const began_ms = Date.parse(logBegan);
  const end_ms = Date.parse(now);
  for (let week_at = began_ms; week_at < end_ms; week_at += week_ms) {
    const until_ms = Math.min(end_ms - 1_800_000, week_at + week_ms);
    const at = new Date(until_ms).toISOString().replace(".000Z", "Z");
    for (const place of ["shop", "chamber"] as const) {
      const readings: BodyOf<"air">["readings"] = [];
      for (let t = week_at + 8 * 3_600_000; t <= until_ms; t += 12 * 3_600_000) {
        const air = place === "shop" ? weather.at(t) : weather.chamber(t);
        const draw = chance.fork(`${place} ${t}`);
        readings.push({
          at: new Date(t).toISOString().replace(".000Z", "Z"),
          temperature_C: shown(air.temperature_C + draw.normal(0, 0.2), 1),
          humidity_pct: shown(air.humidity_pct + draw.normal(0, 0.8), 1),
        });
      }
      if (readings.length === 0) continue;
      const body: BodyOf<"air"> = { kind: "air", place: places[place], readings, instrument: "air-logger" };
      const isPaper = until_ms < Date.parse(on(paperTypedIn, "15:41"));
      entries.push({ ...entry(at, roles.wood, body), ...(isPaper && { recordedAt: on(paperTypedIn, "15:50") }) });
    }
  }
  for (const day of workingDays("2026-12-07", now)) {
    if (new Date(`${day}T12:00:00Z`).getUTCDay() !== 1) continue;
    const value = shown(75.3 + chance.fork(day).normal(0.3, 0.4), 1);
    entries.push(entry(on(day, "08:20"), roles.wood, { kind: "trial", instrument: "air-logger", value, doubt: 1.2 }));
  }
  return entries.toSorted((a, b) => Date.parse(a.recordedAt) - Date.parse(b.recordedAt));
}
