import type { Random } from "../../maths/random.ts";
import { later, on } from "../days.ts";
import { type DemoEntry, entry, shown, writtenAt } from "../entry.ts";
import { instruments } from "../instruments.ts";
import { roles } from "../shop.ts";
import { testerBought, testerMorning } from "../tester.ts";
import { places } from "../timber/boards.ts";
import type { Weather } from "../timber/weather.ts";

const day_ms = 86_400_000;
const airLogger = "air-logger";

/** The instruments as they were bought on the first day. */
export function instrumentsBought(day: string): readonly DemoEntry[] {
  return [
    ...instruments.map(({ body }) => entry(on(day, "07:45"), roles.owner, body)),
    entry(on(day, "07:46"), roles.owner, {
      kind: "instrument",
      instrument: airLogger,
      title: "Logger of air",
      trial: { reference: "jar of wet table salt", quantity: "humidity_pct", true: 75.3, limit: 3 },
    }),
    ...testerBought(day),
  ];
}

/** How the shop's instruments drift: each year its own way, brought back when they are seen to in the New Year. */
export class Drifts {
  constructor(private readonly chance: Random) {}

  /** What the tester reads over what is: some tenths of a percent up or down over a year, and breathing in between. */
  readonly tester = (at: string): number => {
    const year = at.slice(0, 4);
    const draw = this.yearOf("tester", year);
    const share = (Date.parse(at) - Date.parse(`${year}-01-01T00:00:00Z`)) / (365 * day_ms);
    return 1 + draw.start + draw.slope * share + 0.0015 * Math.sin(Date.parse(at) / day_ms / 9);
  };

  /** Of an instrument its trial's own scatter, times this, over the year. */
  offset(instrument: string, day: string): number {
    const draw = this.yearOf(instrument, day.slice(0, 4));
    return 100 * draw.start + 100 * draw.slope * (Number(day.slice(5, 7)) / 12);
  }

  private readonly years = new Map<string, { readonly start: number; readonly slope: number }>();

  private yearOf(instrument: string, year: string) {
    const key = `${instrument} ${year}`;
    const known = this.years.get(key);
    if (known) return known;
    const draw = this.chance.fork(key);
    const made = { start: draw.normal(0, 0.004), slope: draw.normal(0, 0.006) };
    this.years.set(key, made);
    return made;
  }
}

/** A morning's trials, the tester's reference valves, and on Mondays what is tried once a week with the air's log. */
export function morning(day: string, weather: Weather, drifts: Drifts, chance: Random): readonly DemoEntry[] {
  const isMonday = new Date(`${day}T12:00:00Z`).getUTCDay() === 1;
  const trials = instruments
    .filter(({ weekly }) => isMonday || !weekly)
    .map(({ body, scatter, offset }, i) => {
      const draw = chance.fork(`${body.instrument} ${day}`);
      const decimals = Math.max(0, Math.ceil(-Math.log10(scatter)));
      const stands = offset + scatter * Math.max(-1.5, Math.min(1.5, drifts.offset(body.instrument, day)));
      return entry(later(on(day, "07:58"), i), roles.bench, {
        kind: "trial",
        instrument: body.instrument,
        value: shown(body.trial.true + stands + draw.normal(0, scatter), decimals),
        doubt: Number((2 * scatter).toPrecision(2)),
      });
    });
  const logger = isMonday ? weekOfAir(day, weather, chance) : [];
  return [...writtenAt(on(day, "08:12"), trials), ...testerMorning(day, chance, drifts.tester), ...logger];
}

/** The logger's week, morning and evening of the shop and the chamber, and its trial. */
function weekOfAir(monday: string, weather: Weather, chance: Random): readonly DemoEntry[] {
  const until_ms = Date.parse(on(monday, "08:00"));
  const logs = (["shop", "chamber"] as const).map((place) => {
    const readings = Array.from({ length: 14 }, (_, i) => {
      const t = until_ms - (13 - i) * (day_ms / 2);
      const air = place === "shop" ? weather.at(t) : weather.chamber(t);
      const draw = chance.fork(`${place} ${t}`);
      return {
        at: new Date(t).toISOString().replace(".000Z", "Z"),
        temperature_C: shown(air.temperature_C + draw.normal(0, 0.2), 1),
        humidity_pct: shown(air.humidity_pct + draw.normal(0, 0.8), 1),
      };
    });
    return entry(on(monday, "08:40"), roles.wood, {
      kind: "air",
      place: places[place],
      readings,
      instrument: airLogger,
    });
  });
  const value = shown(75.3 + chance.fork(`salt ${monday}`).normal(0.3, 0.4), 1);
  const trial = entry(on(monday, "08:20"), roles.wood, { kind: "trial", instrument: airLogger, value, doubt: 1.2 });
  return [...writtenAt(on(monday, "08:20"), [trial]), ...writtenAt(on(monday, "08:40"), logs)];
}
