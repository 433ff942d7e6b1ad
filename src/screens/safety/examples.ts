import { touchGuides } from "../../safety/index.ts";
import type { SafetyFigureView, SafetyLimitsView, SafetySheetView } from "../../workshop/safety/views.ts";

/** Invented safety sheets for the preview page and the browser tests. */

const bond: SafetyFigureView = {
  claim: "earth-bond",
  title: "Every touchable metal part is bonded to earth",
  quantity: "bond_ohm",
  test: "protective earth continuity",
  how: "10 A for 3 s from the earth pin to chassis, jack and screws",
  caution:
    "The unit is unplugged from the mains. Press the probe on bare metal; read the voltage drop at the unit, not at the tester.",
  danger: "mains",
  high: 0.1,
  limit: { source: "routine tests, detachable cord", seen: "memory" },
  state: "proven",
  because: "reads bond_ohm 0.036 ± 0.002, inside at most 0.1 by its doubt",
  value: 0.036,
  doubt: 0.002,
  instrument: "earth-bond",
  at: "2026-11-23T09:20:00Z",
  acceptance: 0.098,
  riskFalseAccept: 0,
  waitsFor: [],
  outOfTurn: [],
};

const insulation: SafetyFigureView = {
  ...bond,
  claim: "insulation",
  quantity: "resistance_Mohm",
  test: "insulation",
  how: "500 V between both mains pins and earth for a minute, then discharge",
  caution: "500 V stand on mains parts: guard the area, touch nothing, discharge before opening.",
  danger: "high-voltage",
  low: 4,
  limit: { source: "500 V for a minute", seen: "own" },
  state: "void",
  because: "the rework of 2026-11-24 14:10 touched the tap it rests on",
  value: 181,
  doubt: 12,
  instrument: "insulation",
  acceptance: 16,
  riskFalseAccept: 0,
};
const { high: _noHigh, ...insulated } = insulation;

const {
  value: _value,
  doubt: _doubt,
  instrument: _instrument,
  at: _at,
  acceptance: _acceptance,
  riskFalseAccept: _risk,
  ...blank
} = bond;
const touch: SafetyFigureView = {
  ...blank,
  claim: "touch-current",
  quantity: "touch_mA",
  test: "touch current",
  how: "Touch current with the earth lifted, both ways round, at 110 % of the destination’s mains",
  caution: "Mains on, earth lifted in the tester and nowhere else. Touch nothing metal; both ways round.",
  high: 0.25,
  limit: { source: "half of class 1 for AC, table 4", seen: "copy" },
  state: "open",
  because: "no evidence yet",
  waitsFor: ["insulation"],
  outOfTurn: [],
};

const jack: SafetyFigureView = {
  ...bond,
  claim: "dc-at-jack",
  quantity: "jack_mV",
  channel: "left",
  test: "direct voltage at the jack",
  how: "Millivolts at the jack into 300 ohm, cold, at switching on and settled",
  caution: "Into a resistor, never into a headphone on a head, cold and at switching on.",
  danger: "hot",
  low: -15,
  high: 15,
  limit: { source: "model Ebb C", seen: "model" },
  state: "undecided",
  because: "reads jack_mV 14.8 ± 0.5, nearer than one doubt to at most 15",
  value: 14.8,
  doubt: 0.5,
  instrument: "meter-A",
  acceptance: 14.5,
  riskFalseAccept: 0.22,
};

const instruments = [
  { instrument: "earth-bond", title: "Earth-bond tester", quantity: "bond_ohm", state: "good" },
  { instrument: "insulation", title: "Insulation tester", quantity: "resistance_Mohm", state: "good" },
  { instrument: "touch-current", title: "Touch-current meter", quantity: "touch_mA", state: "untried" },
  { instrument: "meter-A", title: "Bench multimeter", quantity: "level_V", state: "good" },
];

const cautions = [
  "Figures are guides; local codes and a licensed practitioner decide.",
  "Valve amplifiers hold lethal voltages after unplugging, and a bleeder can fail open: measure before touching.",
  "Earth continuity comes first: a broken earth gives a false pass of leakage. Stop at the first failure.",
];

export const half: SafetySheetView = {
  unit: "0231",
  model: "Ebb",
  place: "Jutland, Denmark",
  supply: { nominal_V: 230, frequency_Hz: 50 },
  market: {
    market: "European 230 V",
    edition: "IEC 62911:2016 and IEC 62368-1:2018, adopted 2026-11-02",
    by: "owner",
    at: "2026-11-02T07:45:00Z",
  },
  state: "open",
  figures: [bond, insulated, touch, jack],
  instruments,
  headphones: [
    { headphone: "Fulmar open", impedance_ohm: 300, at80_Vrms: 0.087, at100_Vrms: 0.87, dc_mW: 0.00073 },
    { headphone: "Skua closed", impedance_ohm: 32, at80_Vrms: 0.0071, at100_Vrms: 0.071, dc_mW: 0.0068 },
  ],
  stores: [{ part: "C9", capacitance_uF: 120, bleeder: "R20", bleeder_ohm: 220_000 }],
  touch: touchGuides,
  greatest_Vrms: 8.4,
  cautions,
};

export const refuted: SafetySheetView = {
  ...half,
  state: "refuted",
  figures: [
    {
      ...bond,
      state: "refuted",
      value: 0.134,
      because: "reads bond_ohm 0.134 ± 0.002, outside at most 0.1 by its doubt",
    },
    { ...insulated, waitsFor: ["protective earth continuity"] },
    { ...touch, waitsFor: ["protective earth continuity", "insulation"] },
  ],
  headphones: [],
};

export const proven: SafetySheetView = {
  ...half,
  state: "proven",
  figures: [bond, { ...insulated, state: "proven" }],
  headphones: [],
};

const { market: _market, ...unadopted } = half;
export const bare: SafetySheetView = { ...unadopted, state: "open", figures: [], headphones: [] };

export const limits: SafetyLimitsView = {
  markets: [
    {
      id: "e1",
      market: "European 230 V",
      places: ["Graubünden, Switzerland", "Jutland, Denmark"],
      edition: "IEC 62911:2016 and IEC 62368-1:2018, adopted 2026-11-02",
      by: "owner",
      at: "2026-11-02T07:45:00Z",
      limits: [
        {
          quantity: "bond_ohm",
          test: "protective earth continuity",
          high: 0.1,
          source: "routine tests, detachable cord",
          seen: "memory",
        },
        {
          quantity: "resistance_Mohm",
          test: "insulation",
          low: 4,
          source: "500 V for a minute",
          seen: "own",
        },
        {
          quantity: "touch_mA",
          test: "touch current",
          high: 0.25,
          source: "half of class 1 for AC, table 4",
          seen: "copy",
        },
      ],
    },
  ],
  uncovered: ["Chiba, Japan"],
  able: ["bench technician", "owner"],
  quantities: [
    { quantity: "bond_ohm", test: "protective earth continuity", high: 0.1 },
    { quantity: "resistance_Mohm", test: "insulation", low: 4 },
    { quantity: "touch_mA", test: "touch current", high: 0.25 },
    { quantity: "discharge_s", test: "discharge of the stores", high: 60 },
  ],
};

export const noLimits: SafetyLimitsView = { ...limits, markets: [] };
