import type { BodyOf } from "../claims/evidence.ts";
import type { Random } from "../maths/random.ts";
import { later, on, paperTypedIn } from "./days.ts";
import { type DemoEntry, entry, writtenAt } from "./entry.ts";
import { type ModelName, modelNamed, modelNames } from "./models/models.ts";
import { revisions } from "./orders.ts";
import { destinations, roles } from "./shop.ts";

const currency = "EUR";

/** A unit that left, and where it went. */
export interface AccountedUnit {
  readonly unit: string;
  readonly model: ModelName;
  readonly left: string;
  readonly to: keyof typeof destinations;
}

type Part = BodyOf<"bill">["parts"][number];

const part = (name: string, cost_cents: number, count = 1, scrap = 0): Part => ({
  part: name,
  count,
  cost_cents,
  scrap,
});

const common: readonly Part[] = [
  part("sockets, switch and control", 14_200),
  part("resistors, capacitors and wire", 11_800),
  part("chassis and plates", 11_300),
  part("timber set", 9_600, 1, 0.06),
  part("finish and screws", 2_900),
  part("packing", 3_900),
];

const bills: Readonly<Record<ModelName, { readonly price_cents: number; readonly parts: readonly Part[] }>> = {
  Ebb: {
    price_cents: 248_000,
    parts: [...common, part("mains transformer", 14_800), part("6SN7GT", 3_300, 1, 0.15), part("6AS7G", 4_900, 1, 0.2)],
  },
  Neap: {
    price_cents: 262_000,
    parts: [...common, part("mains transformer", 13_100), part("small valves", 3_400, 3, 0.15)],
  },
  Flood: {
    price_cents: 495_000,
    parts: [
      ...common,
      part("mains transformer", 22_600),
      part("output transformer", 31_500, 2),
      part("6SL7GT", 3_700, 1, 0.15),
      part("EL34", 4_100, 2, 0.12),
    ],
  },
  Bore: {
    price_cents: 610_000,
    parts: [
      ...common,
      part("mains transformer", 26_400),
      part("high-voltage parts", 18_700),
      part("output valves", 6_200, 4, 0.18),
    ],
  },
};

const hour_cents = {
  wiring: 4_800,
  voltages: 4_800,
  audio: 5_200,
  valves: 5_200,
  safety: 5_200,
  wood: 4_600,
  finish: 4_600,
  packing: 3_600,
};

/** What a choice really takes more than the commonest; hands find out, nobody writes it down. */
const timbers = [
  { choice: "white ash", weight: 5, wood_h: 0, cents: 0 },
  { choice: "black cherry", weight: 3, wood_h: 0.3, cents: 2_100 },
  { choice: "American elm", weight: 3, wood_h: 2.4, cents: 1_400 },
  { choice: "doussié", weight: 2, wood_h: 1.6, cents: 9_800 },
] as const;
const finishes = [
  { choice: "oil", weight: 6, wood_h: 0, cents: 0 },
  { choice: "shellac", weight: 3, wood_h: 2.9, cents: 900 },
  { choice: "soap", weight: 1, wood_h: -0.4, cents: -300 },
] as const;
const valves = [
  { choice: "as sorted", weight: 5, audio_h: 0, cents: 0 },
  { choice: "closely paired", weight: 2, audio_h: -0.3, cents: 6_400 },
] as const;
/** A transformer for 100 V is wound for the order. */
const voltageCents: Readonly<Record<number, number>> = { 100: 3_600 };

/** What hours and parts cost, and what was taken over as limits of the safety tests. */
export function ratesAndLimits(): readonly DemoEntry[] {
  return [...prices(on("2026-12-03", "07:45"), revisions), ...limitsOfMarkets(on("2026-12-03", "07:45"))];
}

export function limitsOfMarkets(at: string): readonly DemoEntry[] {
  return markets.map(({ edition, ...market }) =>
    entry(at, roles.owner, {
      kind: "safety-limits",
      ...market,
      edition: `${edition}, adopted ${at.slice(0, 10)}`,
    }),
  );
}

/** What hours and parts cost, `level` times what they cost at the end of 2026. */
export function prices(at: string, of: Readonly<Partial<Record<ModelName, string>>>, level = 1): readonly DemoEntry[] {
  const then = (cents: number) => Math.round(level * cents);
  const hours = Object.fromEntries(Object.entries(hour_cents).map(([skill, cents]) => [skill, then(cents)]));
  return [
    entry(at, roles.owner, { kind: "rates", currency, hour_cents: hours, waiting_cents_per_h: then(150) }),
    ...modelNames.flatMap((model) => {
      const revision = of[model];
      if (revision === undefined) return [];
      const { price_cents, parts } = bills[model];
      return entry(at, roles.owner, {
        kind: "bill",
        model,
        revision,
        currency,
        price_cents: then(price_cents),
        parts: parts.map((one) => ({ ...one, cost_cents: then(one.cost_cents) })),
      });
    }),
  ];
}

type Limits = Omit<BodyOf<"safety-limits">, "kind">;

const limits = (touch_mA: number, touchSource: string, insulation_Mohm: number): Limits["limits"] => [
  { quantity: "bond_ohm", high: 0.1, source: "routine tests, detachable cord", seen: "memory" },
  { quantity: "resistance_Mohm", low: insulation_Mohm, source: "500 V for a minute", seen: "own" },
  { quantity: "touch_mA", high: touch_mA, source: touchSource, seen: touch_mA === 0.5 ? "copy" : "own" },
  { quantity: "discharge_s", high: 60, source: "to 60 V, class 1 for DC in table 4, within a minute", seen: "own" },
];

const { canada, desert, japan, singapore, alps, australia, denmark } = destinations;
const markets: readonly Limits[] = [
  {
    market: "European 230 V",
    places: [alps.place, denmark.place],
    edition: "IEC 62911:2016 and IEC 62368-1:2018",
    limits: limits(0.25, "half of class 1 for AC, table 4", 4),
  },
  {
    market: "North America 120 V",
    places: [canada.place, desert.place],
    edition: "UL 62368-1, third edition",
    limits: limits(0.5, "class 1 for AC up to 1 kHz, table 4", 4),
  },
  {
    market: "Japan 100 V",
    places: [japan.place],
    edition: "J62368-1 (2018), to be confirmed by the importer",
    limits: limits(0.25, "half of class 1 for AC, table 4", 4),
  },
  {
    market: "Singapore and Australia 230 V",
    places: [singapore.place, australia.place],
    edition: "AS/NZS 62368.1:2018",
    limits: limits(0.25, "half of class 1 for AC, table 4", 4),
  },
];

/** What each unit of the years before took, as its job card said. */
export function accountsBefore(units: readonly AccountedUnit[], chance: Random): readonly DemoEntry[] {
  return units.flatMap((one, i) =>
    writtenAt(later(on(paperTypedIn, "16:05"), Math.floor(i / 12)), [account(one, chance.fork(`account ${one.unit}`))]),
  );
}

/** @param level  of prices, over that of the end of 2026 */
export function account({ unit, model, left, to }: AccountedUnit, chance: Random, level = 1): DemoEntry {
  const { price_cents, parts } = bills[model];
  const timber = pick(timbers, chance.fork("timber"));
  const finish = pick(finishes, chance.fork("finish"));
  const paired = pick(valves, chance.fork("valves"));
  const volts = destinations[to].nominal_V;
  const hours: Record<string, number> = {};
  let rework_h = 0;
  const work = modelNamed(model).build.flatMap(({ skill, hours: usual, failOdds = 0, unattended }) =>
    skill === undefined || unattended ? [] : [{ skill, usual, failOdds }],
  );
  for (const { skill, usual, failOdds } of work) {
    const once = chance.triangle(usual.fast, usual.usual, usual.slow);
    const again = chance.uniform() < failOdds ? chance.triangle(0.3, 0.6, 1) * usual.usual : 0;
    rework_h += again;
    hours[skill] = (hours[skill] ?? 0) + once + again;
  }
  hours.wood = (hours.wood ?? 0) + timber.wood_h + finish.wood_h;
  hours.audio = chance.triangle(2.2, 3.1, 5.5) + paired.audio_h;
  hours.packing = chance.triangle(0.6, 0.8, 1.4);
  const scrap_cents = parts.reduce(
    (sum, { cost_cents, count, scrap }) =>
      sum + Array.from({ length: count }, () => (chance.uniform() < scrap ? cost_cents : 0)).reduce((a, b) => a + b, 0),
    0,
  );
  const bought = parts.reduce((sum, { cost_cents, count }) => sum + cost_cents * count, 0);
  return entry(later(left, 30), roles.owner, {
    kind: "account",
    unit,
    currency,
    options: { timber: timber.choice, finish: finish.choice, voltage: `${volts} V`, valves: paired.choice },
    parts_cents: Math.round(
      level *
        (bought * chance.triangle(0.97, 1, 1.05) +
          timber.cents +
          finish.cents +
          paired.cents +
          (voltageCents[volts] ?? 0)),
    ),
    hours: Object.fromEntries(Object.entries(hours).map(([skill, h]) => [skill, Number(Math.max(0.1, h).toFixed(1))])),
    rework_h: Number(rework_h.toFixed(1)),
    scrap_cents: Math.round(level * scrap_cents),
    price_cents: Math.round(level * price_cents),
  });
}

function pick<T extends { readonly weight: number }>(of: readonly T[], chance: Random): T {
  let left = chance.uniform() * of.reduce((sum, { weight }) => sum + weight, 0);
  for (const one of of) {
    left -= one.weight;
    if (left < 0) return one;
  }
  return of.at(-1)!;
}
