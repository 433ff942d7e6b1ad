import type { BodyOf } from "../claims/evidence.ts";
import type { Random } from "../maths/random.ts";
import { bookOpened, later, on, workingDays } from "./days.ts";
import { type DemoEntry, entry, shown, writtenAt } from "./entry.ts";
import { roles } from "./shop.ts";

export interface InstrumentPlan {
  readonly body: BodyOf<"instrument">;
  /** Scatter of one trial, one standard deviation, and where the instrument really stands. */
  readonly scatter: number;
  readonly offset: number;
  readonly weekly: boolean;
  /** A time when it stood elsewhere: found at its next trial, mended, and tried again on that day. */
  readonly ailing?: { readonly from: string; readonly mended: string; readonly offset: number };
}

type Trial = BodyOf<"instrument">["trial"];

function plan(
  instrument: string,
  title: string,
  trial: Trial,
  scatter: number,
  offset: number,
  weekly = false,
): InstrumentPlan {
  return { body: { kind: "instrument", instrument, title, trial }, scatter, offset, weekly };
}

/** All but the valve tester, which has a book of its own. */
export const instruments: readonly InstrumentPlan[] = [
  plan(
    "audio-recorder",
    "Audio recorder",
    { reference: "loop-back lead", quantity: "level_Vrms", true: 0.1, limit: 0.0012 },
    0.00012,
    0.0002,
  ),
  plan(
    "meter-A",
    "Bench multimeter",
    { reference: "voltage reference", quantity: "level_V", true: 10, limit: 0.02 },
    0.0012,
    -0.003,
  ),
  plan(
    "meter-B",
    "Wiring bench multimeter",
    { reference: "known resistor", quantity: "resistance_ohm", true: 9997, limit: 25 },
    2.5,
    6,
  ),
  plan(
    "earth-bond",
    "Earth-bond tester",
    { reference: "known link", quantity: "bond_ohm", true: 0.05, limit: 0.006 },
    0.0007,
    0.001,
  ),
  plan(
    "insulation",
    "Insulation tester",
    { reference: "known high resistor", quantity: "resistance_Mohm", true: 10, limit: 0.5 },
    0.06,
    -0.1,
  ),
  plan(
    "touch-current",
    "Touch-current meter",
    { reference: "known current", quantity: "touch_mA", true: 0.25, limit: 0.012 },
    0.0015,
    0.002,
  ),
  plan(
    "balance",
    "Weighing balance",
    { reference: "check weight", quantity: "mass_g", true: 500, limit: 0.3 },
    0.04,
    0.02,
  ),
  plan(
    "moisture-meter",
    "Timber moisture meter",
    { reference: "check block", quantity: "moisture_pct", true: 12, limit: 0.6 },
    0.1,
    0.15,
  ),
  plan(
    "thermometer",
    "Surface thermometer",
    { reference: "melting ice", quantity: "temperature_C", true: 0, limit: 0.8 },
    0.12,
    0.1,
    true,
  ),
  plan(
    "feeler-gauge",
    "Feeler gauge",
    { reference: "gauge block", quantity: "gap_mm", true: 1, limit: 0.04 },
    0.006,
    0,
    true,
  ),
  {
    ...plan(
      "regenerator",
      "Regenerator of the audio bench",
      { reference: "the bench's rectifier load", quantity: "crestFactor", true: 1.41, limit: 0.034 },
      0.003,
      -0.002,
      true,
    ),
    // One of its output bridges had gone: under a rectifier its peaks were cut.
    ailing: { from: "2027-01-19", mended: "2027-01-26", offset: -0.067 },
  },
  plan("lens", "Lens", { reference: "card of hairlines", quantity: "lines", true: 12, limit: 0.9 }, 0.2, 0, true),
];

/** The shop's instruments, each read every morning, or every Monday, on the thing it is tried against. */
export function instrumentBook(until: string, chance: Random): readonly DemoEntry[] {
  const bought = instruments.map(({ body }) => entry(on("2026-12-03", "07:45"), roles.owner, body));
  const trials = workingDays(bookOpened, until).flatMap((day) => {
    const isMonday = new Date(`${day}T12:00:00Z`).getUTCDay() === 1 || day === bookOpened.slice(0, 10);
    const read = instruments
      .filter(({ weekly, ailing }) => isMonday || !weekly || ailing?.mended === day)
      .map(({ body, scatter, offset: usual, ailing }, i) => {
        const draw = chance.fork(`${body.instrument} ${day}`);
        const offset = ailing && day >= ailing.from && day < ailing.mended ? ailing.offset : usual;
        const decimals = Math.max(0, Math.ceil(-Math.log10(scatter)));
        return entry(later(on(day, "07:58"), i), roles.bench, {
          kind: "trial",
          instrument: body.instrument,
          value: shown(body.trial.true + offset + draw.normal(0, scatter), decimals),
          doubt: Number((2 * scatter).toPrecision(2)),
        });
      });
    return writtenAt(on(day, "08:12"), read);
  });
  return [...bought, ...trials];
}
