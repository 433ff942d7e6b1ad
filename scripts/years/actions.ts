import { now } from "./look.ts";

interface Action {
  readonly what: string;
  readonly taken_ms: readonly number[];
  /** Why it could not be done, in the server's words. */
  readonly fault?: string;
}

type Entry = Readonly<Record<string, unknown>> & { readonly kind: string };

/** One of each kind of work, the n-th time; names are new each time. */
type Work = readonly (readonly [what: string, entries: (n: string) => readonly Entry[]])[];

/** Does every kind of work so many times, each as a page sends it, and says how long the server took. */
export async function* everyAction(address: string, times: number): AsyncGenerator<Action> {
  for (const [kind, [what, entriesOf]] of (await workIn(address)).entries()) {
    const taken_ms: number[] = [];
    let fault: string | undefined;
    for (let i = 0; i < times && fault === undefined; i++) {
      const at = await now(address);
      const entries = entriesOf(`${run}-${kind}-${i}`).map((entry) => ({ at, by: "owner", ...entry }));
      const begun = performance.now();
      const answered = await post(address, "/api/evidence", { entries });
      taken_ms.push(performance.now() - begun);
      if (!answered.ok) fault = await answered.text();
      else await answered.arrayBuffer();
    }
    yield { what, taken_ms, ...(fault !== undefined && { fault }) };
  }
}

/** Told apart from the work of an earlier run on the same folder. */
const run = `y${Date.now().toString(36)}`;

function post(address: string, path: string, body: unknown): Promise<Response> {
  return fetch(new URL(path, address), {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });
}

/** Every kind of work, on a unit, a tray and a board that are entered for it first. */
async function workIn(address: string): Promise<Work> {
  const [unit, order, piece] = [`${run}-unit`, `${run}-order`, `${run}-board`];
  const valve = `${run}-tray-0`;
  const place = { place: "Saskatchewan, Canada", nominal_V: 120, frequency_Hz: 60 };
  const blank = (n: string): Entry => ({
    kind: "blank",
    piece: n,
    species: "white ash",
    length_mm: 780,
    width_mm: 223,
    thickness_mm: 24,
    ringAngle_deg: 30,
    seller: "Inland sawmill",
    place: "case shop",
  });
  const ordered = (n: string): Entry => ({
    kind: "order",
    order: n,
    customer: "c-01",
    model: "Ebb",
    revision: "C",
    units: [`u${n}`],
    destination: place,
  });
  const batch = (n: string): Entry => ({
    kind: "batch",
    batch: `b${n}`,
    type: "6SN7GT",
    seller: "Harbour radio",
    valves: Array.from({ length: 24 }, (_, i) => `${n}-${i}`),
    sections: ["a", "b"],
  });
  const at = await now(address);
  const setUp = await post(address, "/api/evidence", {
    entries: [
      batch(`${run}-tray`),
      blank(piece),
      { ...ordered(order), units: [unit] },
      { kind: "unit", unit, order, model: "Ebb", revision: "C", fitted: { V1: valve }, tap: "120 V" },
    ].map((entry) => ({ at, by: "owner", ...entry })),
  });
  if (!setUp.ok) throw new Error(`what is worked on could not be entered: ${await setUp.text()}`);
  return [
    [
      "a reading of a unit",
      () => [
        {
          kind: "reading",
          subject: { unit, point: "HT" },
          quantity: "level_V",
          value: 240.4,
          doubt: 0.5,
          instrument: "meter-A",
        },
      ],
    ],
    [
      "a unit's ten readings at once",
      () =>
        Array.from({ length: 10 }, (_, i) => ({
          kind: "reading",
          subject: { unit, point: `TP${i}` },
          quantity: "level_V",
          value: 100 + i,
          doubt: 0.5,
          instrument: "meter-A",
        })),
    ],
    ["a trial of an instrument", () => [{ kind: "trial", instrument: "meter-A", value: 10, doubt: 0.0024 }]],
    ["a batch of 24 valves received", (n) => [batch(n)]],
    [
      "a valve's reading",
      () => [
        {
          kind: "valve-reading",
          valve,
          section: "a",
          phase: "hot",
          time_h: 2170,
          plate_V: 250,
          grid_V: -8,
          plate_mA: 9.4,
          instrument: "valve-tester",
        },
      ],
    ],
    [
      "a reading of a reference valve",
      () => [
        {
          kind: "reference-reading",
          valve: "REF-6SN7GT",
          type: "6SN7GT",
          time_h: 2170,
          plate_mA: 10.3,
          instrument: "valve-tester",
        },
      ],
    ],
    [
      "a heat run begun and ended",
      (n) => [
        batch(n),
        { kind: "begun", run: n, valves: [`${n}-0`], place: "burn-in rack", hours: 48 },
        { kind: "ended", run: n, outcome: "good" },
      ],
    ],
    ["a rework", () => [{ kind: "rework", unit, touched: [{ position: "V1" }], why: "contacts cleaned" }]],
    [
      "a concession",
      () => [{ kind: "concession", unit, claim: "balance", reason: "played for a week and keeps its place" }],
    ],
    [
      "an order taken",
      (n) => [
        ordered(n),
        { kind: "promise", order: n, date: "2027-06-04T17:00:00Z", share_pct: 80, assumptions: "By the thumb" },
      ],
    ],
    [
      "a unit opened and a step done",
      (n) => [
        ordered(n),
        { kind: "unit", unit: `u${n}`, order: n, model: "Ebb", revision: "C", fitted: {}, tap: "120 V" },
        { kind: "step", unit: `u${n}`, step: "chassis" },
      ],
    ],
    [
      "a part ordered and come",
      (n) => [
        {
          kind: "part",
          part: n,
          model: "Ebb",
          step: "wiring",
          lead_days: { fast: 3, usual: 5, slow: 9 },
          orders: [order],
        },
        { kind: "arrival", part: n },
      ],
    ],
    [
      "a board received and weighed",
      (n) => [blank(n), { kind: "weighing", piece: n, mass_g: 2900, instrument: "balance" }],
    ],
    ["a board moved", () => [{ kind: "stood", pieces: [piece], place: "warm chamber" }]],
    ["a board marked", (n) => [blank(n), { kind: "board-marks", piece: n, defects: [], figure: 2 }]],
    [
      "a board planed and sawn",
      (n) => [
        blank(n),
        { kind: "machined", piece: n, length_mm: 780, width_mm: 223, thickness_mm: 20 },
        {
          kind: "sawn",
          piece: n,
          into: [{ piece: `${n}.1`, length_mm: 310, width_mm: 215, thickness_mm: 20, ringAngle_deg: 30 }],
        },
      ],
    ],
    ["a flaw", () => [{ kind: "flaw", piece, flaw: "crack", length_mm: 30, found: "sanding" }]],
    ["a coat", (n) => [blank(n), { kind: "coat", pieces: [n], finish: "oil", hardens_h: 48 }]],
    [
      "an air log of a week",
      () => [
        {
          kind: "air",
          place: "case shop",
          readings: Array.from({ length: 14 }, (_, i) => ({
            at: `2027-02-${String(10 + i)}T08:00:00Z`,
            temperature_C: 15,
            humidity_pct: 66,
          })),
          instrument: "air-logger",
        },
      ],
    ],
    [
      "a fault",
      () => [{ kind: "fault", unit, fault: "dry joint", possible: "wiring", found: "wiring", repair_h: 0.4 }],
    ],
    ["a return", () => [{ kind: "return", unit, says: "it hums" }]],
    ["rates", () => [{ kind: "rates", currency: "EUR", hour_cents: { wiring: 4800 } }]],
    [
      "an account",
      () => [
        { kind: "account", unit, currency: "EUR", parts_cents: 90_000, hours: { wiring: 12 }, price_cents: 248_000 },
      ],
    ],
    [
      "a gauge study",
      () => [
        {
          kind: "gauge-study",
          instrument: "meter-A",
          quantity: "level_V",
          readings: ["1", "2", "3"].flatMap((part) =>
            ["a", "b"].flatMap((operator) =>
              [1, 2].map((value) => ({ part, operator, value: Number(part) + value / 1000 })),
            ),
          ),
        },
      ],
    ],
    ["a headphone", (n) => [{ kind: "headphone", headphone: n, impedance_ohm: 300, sensitivity_dB_per_V: 103 }]],
  ];
}
