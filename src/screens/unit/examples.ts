import type { ClaimView, State, UnitView } from "../../workshop/views.ts";

/** Invented folders for the preview page and the browser tests. */

type Figure = ClaimView["figures"][number];

const check = (how: string, hands_min: number, danger = "none", wait_h = 0, skill = "bench"): ClaimView["check"] => ({
  how,
  hands_min,
  wait_h,
  danger,
  skill,
});

const proven = (
  quantity: string,
  where: string,
  value: number,
  doubt: number,
  limits: { low?: number; high?: number },
  at: string,
  instrument?: string,
): Figure => ({
  subject: { unit: "0231", ...(where.endsWith(" channel") && { channel: where.split(" ")[0]! }) },
  quantity,
  where,
  value,
  doubt,
  ...limits,
  state: "proven",
  evidence: `e-${quantity}`,
  ...(instrument && { instrument }),
  at,
  why: "inside its limits by its doubt",
});

const monday = "2026-11-23T10:40:00+00:00";
const tuesday = "2026-11-24T15:20:00+00:00";

const bond: ClaimView = {
  claim: "earth-bond",
  title: "Earth bond from inlet to every bare metal part",
  sheet: "safety",
  safety: true,
  state: "proven",
  because: "earthBond_ohm reads 0.042 ± 0.006, inside at most 0.1 by its doubt.",
  figures: [proven("earthBond_ohm", "unit 0231", 0.042, 0.006, { high: 0.1 }, monday, "bond tester")],
  check: check("25 A from the inlet's earth pin to jack, chassis and screws, worst reading", 6, "mains"),
};

const dcAtJack: ClaimView = {
  claim: "dc-at-jack",
  title: "No direct voltage at the headphone jack",
  sheet: "safety",
  safety: true,
  state: "undecided",
  because: "Right channel: jackDc_V reads 0.047 ± 0.006, nearer to at most 0.05 than its doubt.",
  figures: [
    proven("jackDc_V", "left channel", 0.012, 0.004, { high: 0.05 }, tuesday, "bench meter 2"),
    {
      quantity: "jackDc_V",
      subject: { unit: "0231", channel: "right" },
      where: "right channel",
      value: 0.047,
      doubt: 0.006,
      high: 0.05,
      state: "undecided",
      instrument: "bench meter 2",
      at: tuesday,
      why: "jackDc_V reads 0.047 ± 0.006, nearer to at most 0.05 than its doubt",
    },
  ],
  wouldDecide: "measure jackDc_V again with a doubt of at most 0.003",
  check: check("Meter across the jack, ten minutes after switching on, greatest reading", 12, "high-voltage"),
};

const humClaim: ClaimView = {
  claim: "hum",
  title: "Hum below hearing on the customer's headphones",
  sheet: "hum",
  safety: false,
  state: "refuted",
  because: "Left channel: humMargin_dB reads 14 ± 2, outside at most 0 by its doubt.",
  figures: [
    {
      quantity: "humMargin_dB",
      subject: { unit: "0231", channel: "left" },
      where: "left channel",
      value: 14,
      doubt: 2,
      high: 0,
      state: "refuted",
      at: tuesday,
      why: "humMargin_dB reads 14 ± 2, outside at most 0 by its doubt",
    },
    proven("humMargin_dB", "right channel", -9, 2, { high: 0 }, tuesday),
  ],
  wouldDecide: "repair, record the rework, then record 8 s with the input shorted and hear it through (10 min)",
  check: check("record 8 s with the input shorted and hear it through", 10),
};

const balance: ClaimView = {
  claim: "balance",
  title: "Left and right equally loud",
  sheet: "sound",
  safety: false,
  state: "proven",
  because: "balance_dB reads -0.18 ± 0.06, inside -0.5 to 0.5 by its doubt.",
  figures: [proven("balance_dB", "unit 0231", -0.18, 0.06, { low: -0.5, high: 0.5 }, monday)],
  check: check("1 kHz tone into both inputs, control at noon, three positions", 8),
};

const distortion: ClaimView = {
  claim: "distortion",
  title: "Distortion at half power",
  sheet: "sound",
  safety: false,
  state: "open",
  because: "No thd_pct on record.",
  figures: [
    {
      quantity: "thd_pct",
      subject: { unit: "0231", channel: "left" },
      where: "left channel",
      high: 0.3,
      state: "open",
      why: "no thd_pct on record",
    },
    {
      quantity: "thd_pct",
      subject: { unit: "0231", channel: "right" },
      where: "right channel",
      high: 0.3,
      state: "open",
      why: "no thd_pct on record",
    },
  ],
  wouldDecide: "1 kHz tone at 1 V into 300 ohm, both channels (10 min)",
  check: check("1 kHz tone at 1 V into 300 ohm, both channels", 10),
};

const points: ClaimView = {
  claim: "test-points",
  title: "Test points inside the windows of the drawing",
  sheet: "voltages",
  safety: false,
  state: "proven",
  because: "All 4 figures lie inside their limits by their doubt.",
  figures: [
    proven("point_V", "left channel a1", 148.2, 0.9, { low: 138, high: 162 }, monday, "bench meter 2"),
    proven("point_V", "right channel a1", 151.6, 0.9, { low: 138, high: 162 }, monday, "bench meter 2"),
    proven("point_V", "left channel k2", 62.4, 0.4, { low: 56, high: 69 }, monday, "bench meter 2"),
    proven("point_V", "right channel k2", 61.8, 0.4, { low: 56, high: 69 }, monday, "bench meter 2"),
  ],
  check: check("Points a1 and k2 of both channels to ground, unit warm", 15, "high-voltage"),
};

const valves: ClaimView = {
  claim: "valves",
  title: "Valves steady through the heat run",
  sheet: "valves",
  safety: false,
  state: "void",
  because: "V2 section b (T-117): leakage rose from 0.4 to 9.6 µA in the heat run.",
  figures: [
    proven("drift_pct", "V1 section a (T-001)", -1.2, 0.8, { low: -5, high: 5 }, monday, "valve tester"),
    proven("drift_pct", "V1 section b (T-001)", 0.4, 0.8, { low: -5, high: 5 }, monday, "valve tester"),
    {
      quantity: "leakage_uA",
      subject: { valve: "T-117", section: "b" },
      where: "V2 section b (T-117)",
      value: 9.6,
      doubt: 0.3,
      high: 5,
      state: "void",
      instrument: "valve tester",
      at: monday,
      why: "the rework of Tue 24 Nov touched what it rests on (position V2)",
    },
  ],
  wouldDecide: "read both sections cold and hot around a 24 h heat run (15 min, then 24 h by itself)",
  check: check("read both sections cold and hot around a 24 h heat run", 15, "hot", 24),
};

const soak: ClaimView = {
  claim: "case-soak",
  title: "Case steady after its soak",
  sheet: "timber",
  safety: false,
  state: "conceded",
  because: "The owner conceded it on Mon 23 Nov: customer lives nearby and brings it in for a look in spring.",
  figures: [
    {
      quantity: "gapChange_mm",
      subject: { unit: "0231" },
      where: "unit 0231",
      value: 0.31,
      doubt: 0.05,
      low: -0.3,
      high: 0.3,
      state: "undecided",
      instrument: "feeler set",
      at: monday,
      why: "gapChange_mm reads 0.31 ± 0.05, nearer to -0.3 to 0.3 than its doubt",
    },
  ],
  check: check("Gaps before and after 48 h at the destination's air", 10, "dust", 48, "case"),
};

const heaters: ClaimView = {
  claim: "heaters",
  title: "Heaters right on the destination's mains",
  sheet: "supply",
  safety: false,
  state: "proven",
  because: "heater_V reads 6.24 ± 0.05, inside 6.0 to 6.6 by its doubt.",
  figures: [proven("heater_V", "unit 0231", 6.24, 0.05, { low: 6, high: 6.6 }, monday, "bench meter 2")],
  check: check("At the jack of the regenerated supply set to 120 V, 60 Hz", 10, "mains"),
};

const claims = [bond, dcAtJack, humClaim, balance, distortion, points, valves, soak, heaters];
const missing = claims
  .filter(({ state }) => state !== "proven" && state !== "conceded")
  .map(({ claim, title, state, because }) => ({ claim, title, state, because }));

export const manyGaps: UnitView = {
  unit: "0231",
  model: "Ebb",
  revision: "C",
  order: "O-231",
  destination: { place: "Canadian prairie", nominal_V: 120, frequency_Hz: 60 },
  due: "2026-11-27T16:00:00+00:00",
  fitted: {
    V1: { valve: "T-001", type: "6SN7GT", verdict: "use", reasons: [] },
    V2: { valve: "T-117", type: "6SN7GT", verdict: "reject", reasons: ["section b: leakage 9.6 µA, limit 5 µA"] },
    V3: { valve: "T-044", type: "6AS7G", verdict: "use", reasons: [] },
    V4: {
      valve: "T-052",
      type: "6AS7G",
      verdict: "hold",
      reasons: ["section a drifted 4.6 ± 0.8 %, too near its limit of 5 %"],
    },
  },
  claims,
  released: false,
  release: { granted: false, missing },
  nextChecks: [
    {
      claim: "dc-at-jack",
      title: dcAtJack.title,
      why: "cheapest of those that may still stop it",
      hands_min: 12,
      danger: "high-voltage",
    },
    {
      claim: "distortion",
      title: distortion.title,
      why: "ten minutes, and one unit in twelve fails here",
      hands_min: 10,
      danger: "none",
    },
    { claim: "hum", title: humClaim.title, why: "after the exchange", hands_min: 10, danger: "none" },
  ],
  history: [
    {
      id: "h9",
      at: "2026-11-24T16:02:00+00:00",
      by: "bench",
      kind: "recording",
      words: "Recording r3 on clean supply at 57 Hz, V2 exchanged for T-118",
    },
    {
      id: "h8",
      at: "2026-11-24T15:48:00+00:00",
      by: "bench",
      kind: "recording",
      words: "Recording r2 on clean supply at 57 Hz",
    },
    {
      id: "h7",
      at: "2026-11-24T15:20:00+00:00",
      by: "bench",
      kind: "recording",
      words: "Recording r1 on the building's mains",
    },
    { id: "h6", at: monday, by: "bench", kind: "reading", words: "Balance −0.18 ± 0.06 dB" },
    {
      id: "h5",
      at: "2026-11-23T09:00:00+00:00",
      by: "owner",
      kind: "concession",
      words: "Conceded: case steady after its soak",
    },
    { id: "h4", at: "2026-11-20T17:30:00+00:00", by: "assembly", kind: "step", words: "Wiring finished" },
  ],
  proposal: {
    because: ["T-117, section b: leakage_uA 2.2 before the heat run, 145 after it."],
    position: "V2",
    out: "T-117",
    in: "T-118",
    balance_dB: 0.12,
    doubt_dB: 0.09,
    limit_dB: 0.5,
    considered: 214,
    voids: [
      { claim: "valves", title: "Valves steady through the heat run" },
      { claim: "balance", title: "Left and right equally loud" },
      { claim: "hum", title: "Hum below hearing on the customer's headphones" },
      { claim: "dc-at-jack", title: "No direct voltage at the headphone jack" },
    ],
    retests: [
      {
        claim: "dc-at-jack",
        title: "No direct voltage at the headphone jack",
        hands_min: 12,
        wait_h: 0,
        danger: "high-voltage",
      },
      {
        claim: "hum",
        title: "Hum below hearing on the customer's headphones",
        hands_min: 10,
        wait_h: 0,
        danger: "none",
      },
      { claim: "balance", title: "Left and right equally loud", hands_min: 8, wait_h: 0, danger: "none" },
      { claim: "valves", title: "Valves steady through the heat run", hands_min: 15, wait_h: 24, danger: "hot" },
    ],
    promise: {
      promised: "2026-11-27T16:00:00+00:00",
      before_p80: "2026-11-27T12:30:00+00:00",
      after_p80: "2026-11-30T15:10:00+00:00",
      heldBy: "the valve tester",
    },
  },
  cautions: [
    "Valve amplifiers hold lethal voltages after unplugging. Discharge the supply, then measure that it is gone, before you reach in.",
    "Limits here are guides. Local codes and a licensed practitioner decide.",
  ],
};

const closed = (claim: ClaimView): ClaimView => ({
  ...claim,
  state: "proven",
  because: "All figures lie inside their limits by their doubt.",
  wouldDecide: undefined,
  figures: claim.figures.map((figure) => ({
    ...figure,
    state: "proven" as State,
    value: figure.value ?? 0.11,
    doubt: figure.doubt ?? 0.02,
    why: "inside",
  })),
});

export const complete: UnitView = {
  ...manyGaps,
  unit: "0402",
  claims: [bond, balance, points, heaters, closed(distortion)],
  release: { granted: true, missing: [] },
  nextChecks: [],
  proposal: undefined,
};

export const released: UnitView = { ...complete, unit: "0398", released: true };

export const untouched: UnitView = {
  ...manyGaps,
  unit: "0431",
  fitted: {},
  claims: claims.map((claim) => ({
    ...claim,
    state: "open",
    because: "Nothing is on record.",
    wouldDecide: claim.check.how,
    figures: claim.figures.map(({ subject, quantity, where, low, high }) => ({
      subject,
      quantity,
      where,
      low,
      high,
      state: "open",
      why: `no ${quantity} on record`,
    })),
  })),
  release: {
    granted: false,
    missing: claims.map(({ claim, title }) => ({ claim, title, state: "open", because: "Nothing is on record." })),
  },
  history: [],
  proposal: undefined,
  due: undefined,
};

export const bare: UnitView = {
  ...untouched,
  unit: "0440",
  claims: [],
  nextChecks: [],
  release: { granted: false, missing: [] },
  cautions: [],
};

const long = "a test point with a name that goes on as names do when three people have each added their own word to it";

export const veryLong: UnitView = {
  ...manyGaps,
  unit: "QN-2026-0231-REBUILT-AFTER-RETURN-B",
  model: "Bore with the external supply in the second case",
  destination: { place: "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogoch", nominal_V: 230, frequency_Hz: 50 },
  claims: [
    {
      ...points,
      figures: points.figures.map((figure) => ({ ...figure, where: `${figure.where} ${long}` })),
      title: `Every voltage at ${long}`,
    },
    ...claims,
  ],
  history: Array.from({ length: 60 }, (_, i) => ({
    id: `l${i}`,
    at: `2026-11-${String(1 + (i % 24)).padStart(2, "0")}T09:${String(i).padStart(2, "0")}:00+00:00`,
    by: "bench",
    kind: "reading",
    words: `Reading ${i + 1} at ${long}`,
  })),
};
