import type { Random } from "../../maths/random.ts";
import { type Air, warmed_pct } from "./nature.ts";

const day_ms = 86_400_000;

/** Air of a damp sea-coast town's workshop, day by day; the wood stands in this, the logger reads it a little wrong. */
export class Weather {
  private readonly days: readonly Air[];

  constructor(
    private readonly begin: string,
    end: string,
    chance: Random,
  ) {
    const count = Math.ceil((Date.parse(end) - Date.parse(begin)) / day_ms) + 2;
    let drift = 0;
    this.days = Array.from({ length: count }, (_, i) => {
      drift = 0.8 * drift + chance.normal(0, 2.4);
      const season = Math.cos((2 * Math.PI * (dayOfYear(begin) + i - 205)) / 365);
      return {
        temperature_C: 15.5 + 3.2 * season + chance.normal(0, 0.5),
        humidity_pct: Math.min(75, Math.max(60, 67.5 - 2 * season + drift)),
      };
    });
  }

  at(instant_ms: number): Air {
    const i = Math.floor((instant_ms - Date.parse(this.begin)) / day_ms);
    return this.days[Math.min(this.days.length - 1, Math.max(0, i))]!;
  }

  /** The warm chamber: shop air at 45 °C, damped by a wet cloth that somebody fills. */
  chamber(instant_ms: number): Air {
    const { temperature_C, humidity_pct } = this.at(instant_ms);
    const swing = Math.sin(instant_ms / 3.1e7);
    const chamber_C = 45 + 0.8 * swing;
    return {
      temperature_C: chamber_C,
      humidity_pct: warmed_pct(temperature_C, humidity_pct, chamber_C) + 17 + 2.5 * swing,
    };
  }
}

function dayOfYear(instant: string): number {
  const date = new Date(instant);
  return (date.getTime() - Date.UTC(date.getUTCFullYear(), 0, 1)) / day_ms;
}
