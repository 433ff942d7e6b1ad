/**
 * Valid questions that are answered at once, for calculations whose example takes its time: what grows from them gets
 * past the first refusal hundreds of times a minute.
 */
const quick = { recording: "quick.wav", fullScale_Vpk: 2 };
const resistor = (id: string, a: string, b: string) => ({
  id,
  kind: "resistor",
  between: [a, b],
  ohm: 10_000,
  tolerance: 0.05,
});
const divider = {
  ground: "0",
  testPoints: [{ name: "middle", node: "m", tolerance: 0.05 }],
  parts: [
    { id: "HT", kind: "voltage", between: ["ht", "0"], dc_V: 100, tolerance: 0.05 },
    resistor("R1", "ht", "m"),
    resistor("R2", "m", "0"),
    { id: "C1", kind: "capacitor", between: ["m", "0"], uF: 1 },
  ],
};
const shop = {
  now: "2027-03-01T08:00:00Z",
  calendars: { bench: { week: { mon: ["08:00-17:00"], tue: ["08:00-17:00"] } } },
  people: [{ id: "one", skills: ["wire"], calendar: "bench" }],
  places: [{ id: "plate", kind: "batch", capacity: 2 }],
  routes: {
    amp: [
      { step: "wire", skill: "wire", hours: { fast: 1, usual: 2, slow: 4 } },
      { step: "heat", place: "plate", hours: { fast: 2, usual: 2, slow: 2 } },
    ],
  },
  orders: [{ id: "a", model: "amp", units: 1, due: "2027-03-04T12:00:00Z" }],
  seed: 1,
};
const board = {
  density_kg_m3: 650,
  diffusionFactor: 1,
  thickness_mm: 20,
  start_pct: 12,
  stages: [{ place: "shop", hours: 48, temperature_C: 20, humidity_pct: 50 }],
  now_h: 10,
  outputs_h: [24],
};

export const quickInputs: Readonly<Record<string, readonly object[]>> = {
  "bench.balance": [{ recordings: [{ ...quick, position: 5 }], kind: "tone" }],
  "bench.impedance": [
    {
      loads: [
        { ...quick, load_ohm: 32 },
        { recording: "quick.wav", fullScale_Vpk: 4, load_ohm: 300 },
      ],
    },
  ],
  "bench.loopback": [{ recording: "quick.wav", applied_Vrms: 0.4 }],
  "bench.noise": [{ recording: "quick-hum.wav", fullScale_Vpk: 2, building_Hz: 50 }],
  "bench.supply": [{ recording: "quick-supply.wav", fullScale_Vpk: 1, volts_per_V: 400, limits: { nominal_V: 230 } }],
  "bench.sweep": [
    {
      recording: "quick-sweep.wav",
      fullScale_Vpk: 1,
      sweep: { start_Hz: 60, stop_Hz: 2400, duration_s: 0.4, level_Vpk: 0.3 },
      frequencies_Hz: [200, 1000],
    },
  ],
  "bench.switchon": [{ recording: "quick-step.wav", fullScale_Vpk: 2, coupling: "dc", load_ohm: 300 }],
  "bench.tap": [{ recording: "quick-tap.wav", fullScale_Vpk: 1 }],
  "bench.tone": [{ ...quick, fundamental_Hz: 440 }],
  "bench.twotone": [{ recording: "quick-pair.wav", fullScale_Vpk: 2, kind: "difference" }],
  "hum.trace": [
    {
      building_Hz: 50,
      seconds: 1,
      recordings: [
        {
          id: "r1",
          recording: "quick-hum.wav",
          fullScale_Vpk: 1,
          channels: ["left"],
          supply: { source: "building", frequency_Hz: 50 },
          valves: { V1: "T-1" },
        },
      ],
    },
  ],
  "circuits.startup": [{ netlist: divider, duration_s: 0.02, points: ["m"] }],
  "circuits.suspects": [{ netlist: divider, measured: { middle: 40 }, doubt_V: 0.3 }],
  "circuits.version": [{ netlist: divider, channels: [] }],
  "circuits.yield": [{ netlist: divider, channels: [], draws: 50 }],
  "production.promise": [{ ...shop, runs: 10 }],
  "production.whatif": [{ ...shop, runs: 200, changes: [{ kind: "place", place: "plate", slots: 1 }] }],
  "timber.piece": [board],
  "timber.runs": [
    {
      pieces: [{ id: "B-1", ...board, target_pct: 9 }],
      places: [{ name: "chamber", stage: { temperature_C: 45, humidity_pct: 25 }, capacity: 4 }],
    },
  ],
  "valves.fit": [
    {
      kind: "triode",
      curveOnly: true,
      points: [
        { plate_V: 250, grid_V: -8, plate_mA: 9 },
        { plate_V: 200, grid_V: -6, plate_mA: 8 },
        { plate_V: 150, grid_V: -2, plate_mA: 12 },
      ],
      at: [{ plate_V: 240, grid_V: -7 }],
    },
  ],
};
