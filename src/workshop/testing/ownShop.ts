import type { Submission } from "../../claims/evidence.ts";

/**
 * A workshop of somebody else, for tests: one preamplifier stage a channel, each valve given by the bare three-halves
 * law, so that what its points read can be worked out by hand.
 */

type Body = Submission extends infer S ? (S extends Submission ? Omit<S, "id" | "at" | "by"> : never) : never;

export const by = "technician";
export const at = (minute: number): string =>
  new Date(Date.parse("2026-03-02T09:00:00Z") + minute * 60_000).toISOString();

export const stage = { ht_V: 250, load_ohm: 47_000, cathode_ohm: 1_500, mu: 20, perveance_mA_per_V1p5: 0.012 } as const;
type Stage = { readonly [K in keyof typeof stage]: number };

/**
 * Rest of one stage with its grid at ground, by halving: I = p·(Vp/mu − I·Rk)^1.5, Vp = HT − I·(Rl + Rk).
 *
 * source: the three-halves law and Ohm's law, worked apart from the project's solver
 */
export function restByHand({ ht_V, load_ohm, cathode_ohm, mu, perveance_mA_per_V1p5 }: Stage): {
  readonly plate_V: number;
  readonly cathode_V: number;
} {
  let [low, high] = [0, ht_V / (load_ohm + cathode_ohm)];
  for (let i = 0; i < 200; i += 1) {
    const amperes = (low + high) / 2;
    const drive_V = (ht_V - amperes * (load_ohm + cathode_ohm)) / mu - amperes * cathode_ohm;
    const law_A = (perveance_mA_per_V1p5 * Math.max(0, drive_V) ** 1.5) / 1000;
    if (law_A > amperes) low = amperes;
    else high = amperes;
  }
  return { plate_V: ht_V - low * load_ohm, cathode_V: low * cathode_ohm };
}

const sides = [
  { side: "L", channel: "left", valve: "V1a", x_mm: 50 },
  { side: "R", channel: "right", valve: "V1b", x_mm: 150 },
] as const;

const resistor = (id: string, ohm: number, a: string, b: string, channel: string, label: string) => ({
  id,
  kind: "resistor",
  ohm,
  tolerance: 0.02,
  between: [a, b],
  stage: "gain",
  channel,
  label,
});

const netlist = {
  ground: "0",
  testPoints: [
    { name: "HT", node: "ht", stage: "supply", channel: "both", x_mm: 100, y_mm: 120 },
    ...sides.flatMap(({ side, channel, x_mm }) => [
      { name: `${channel} plate`, node: `a${side}`, stage: "gain", channel, x_mm, y_mm: 70 },
      { name: `${channel} cathode`, node: `k${side}`, stage: "gain", channel, x_mm: x_mm + 18, y_mm: 70 },
    ]),
  ],
  parts: [
    { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: stage.ht_V, tolerance: 0.02, stage: "supply" },
    resistor("RB", 220_000, "ht", "0", "both", "bleeder"),
    ...sides.flatMap(({ side, channel, valve }) => [
      { id: `IN${side}`, kind: "voltage", between: [`g${side}`, "0"], dc_V: 0, ac_V: 1, stage: "gain", channel },
      resistor(`RL${side}`, stage.load_ohm, "ht", `a${side}`, channel, "plate load"),
      resistor(`RK${side}`, stage.cathode_ohm, `k${side}`, "0", channel, "cathode"),
      {
        id: valve,
        kind: "triode",
        type: "6SN7GT",
        law: { mu: stage.mu, perveance_mA_per_V1p5: stage.perveance_mA_per_V1p5 },
        tolerance: { current: 0.2, mu: 0.1 },
        plate: `a${side}`,
        grid: `g${side}`,
        cathode: `k${side}`,
        stage: "gain",
        channel,
      },
    ]),
  ],
};

const model: Body = {
  kind: "model",
  model: "Lighthouse",
  revision: "A",
  title: "Line preamplifier",
  netlist,
  positions: [{ position: "V1", type: "6SN7GT", sections: { a: "V1a", b: "V1b" } }],
  channels: ["left", "right"],
  input: { left: "INL", right: "INR" },
  output: { left: "aL", right: "aR" },
  outputImpedance_ohm: 10_000,
  balanceLimit_dB: 0.5,
  claims: [
    {
      claim: "left-plate",
      title: "Left plate inside its window",
      sheet: "voltages",
      requires: [{ quantity: "level_V", point: "left plate", low: 120, high: 200 }],
      restsOn: [{ stage: "gain" }],
      check: { how: "probe it", skill: "bench", hands_min: 5, danger: "high-voltage" },
    },
  ],
  build: [{ step: "wire", skill: "bench", hours: { fast: 4, usual: 5, slow: 8 } }],
};

const instrument = (name: string, reference: string, quantity: string, value: number, limit: number): Body => ({
  kind: "instrument",
  instrument: name,
  title: name,
  trial: { reference, quantity, true: value, limit },
});

export const order: Body = {
  kind: "order",
  order: "W-1",
  customer: "k-1",
  model: "Lighthouse",
  revision: "A",
  units: ["77", "78"],
  destination: { place: "next town", nominal_V: 120, frequency_Hz: 60 },
};

const batch: Body = {
  kind: "batch",
  batch: "N",
  type: "6SN7GT",
  seller: "a market stall",
  valves: ["N-1", "N-2", "N-3", "N-4", "N-5"],
  sections: ["a", "b"],
};

export const limits: Body = {
  kind: "valve-limits",
  type: "6SN7GT",
  plate_V: 250,
  grid_V: -8,
  referenceTrue_mA: 9,
  reading_doubt_pct: 0.5,
  heatRun_h: 48,
  limits: { drift_pct: 5, sectionSpread_pct: 15 },
};

/** Model, order, one of its two units, a tray not yet read, and instruments that passed their trials. */
export const opening: readonly Submission[] = [
  instrument("meter", "known cell", "level_V", 10, 0.1),
  instrument("tester", "REF-6SN7GT", "plate_mA", 9, 0.9),
  { kind: "trial", instrument: "meter", value: 10.01, doubt: 0.02 } satisfies Body,
  model,
  batch,
  limits,
  order,
  {
    kind: "unit",
    unit: "77",
    order: "W-1",
    model: "Lighthouse",
    revision: "A",
    fitted: { V1: "N-5" },
    tap: "120",
    built: ["wire"],
  } satisfies Body,
].map((body, i) => ({ at: at(i), by, ...(body as Body) }) as Submission);

/**
 * Readings of the tray before and after its heat run, on a tester that reads 3 % low the second time. Section b of N-2
 * truly fell 9 %; every other by 1 %.
 */
export function trayRead(phases: readonly ("cold" | "hot")[]): readonly Submission[] {
  const shown = { cold: 1, hot: 0.97 };
  const currents: Readonly<Record<string, readonly [number, number]>> = {
    "N-1": [9.1, 9.0],
    "N-2": [9.2, 9.3],
    "N-3": [8.8, 8.9],
    "N-4": [9.4, 9.2],
  };
  return phases.flatMap((phase) => {
    const start_h = phase === "cold" ? 1 : 73;
    const stamp = { at: at(60 * start_h), by };
    const reference = (time_h: number) =>
      ({
        ...stamp,
        kind: "reference-reading",
        valve: "REF-6SN7GT",
        type: "6SN7GT",
        time_h,
        plate_mA: Number((9 * shown[phase]).toFixed(4)),
        instrument: "tester",
      }) as Submission;
    return [
      reference(start_h),
      ...Object.entries(currents).flatMap(([valve, pair]) =>
        pair.map((true_mA, i): Submission => {
          const section = "ab"[i]!;
          const left = phase === "cold" ? 1 : valve === "N-2" && section === "b" ? 0.91 : 0.99;
          return {
            ...stamp,
            kind: "valve-reading",
            valve,
            section,
            phase,
            time_h: start_h + 0.5,
            plate_V: 250,
            grid_V: -8,
            plate_mA: Number((true_mA * left * shown[phase]).toFixed(4)),
            instrument: "tester",
          };
        }),
      ),
      reference(start_h + 1),
    ];
  });
}

/** A probe reading of unit 77 as the bench hands it in. */
export function probed(
  minute: number,
  point: string,
  value: number,
  more: Partial<Extract<Submission, { kind: "reading" }>> = {},
): Submission {
  return {
    at: at(minute),
    by,
    kind: "reading",
    subject: { unit: "77", point },
    quantity: "level_V",
    value,
    doubt: Number((0.02 + 0.002 * Math.abs(value)).toPrecision(2)),
    instrument: "meter",
    conditions: { meter_Mohm: 10 },
    ...more,
  };
}
