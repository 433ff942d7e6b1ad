import type { PackView, ReserveView, ReturnView, WorkView } from "../../workshop/orders/views.ts";

const now = "2026-11-25T09:10:00-06:00";
const about = { now, unit: "0231", model: "Skerry", revision: "B", order: "W-12" } as const;
const destination = { place: "Regina, Canada", nominal_V: 120, frequency_Hz: 60 };

export const usual: WorkView = {
  ...about,
  tap: "120",
  options: { timber: "white ash" },
  released: false,
  steps: [
    {
      step: "wiring",
      skill: "wiring",
      place: "wiring bench",
      hours: { fast: 8, usual: 12, slow: 20 },
      unattended: false,
      done: { at: now, by: "owner" },
    },
    {
      step: "heat run",
      place: "heat-run rack",
      hours: { fast: 24, usual: 24, slow: 24 },
      unattended: true,
      runs: { place: "heat-run rack", ripe: "2026-11-26T09:10:00-06:00" },
    },
    { step: "soak", hours: { fast: 12, usual: 12, slow: 12 }, unattended: true },
  ],
  places: ["wiring bench", "heat-run rack"],
  positions: [
    {
      position: "V1",
      type: "6SN7GT",
      valve: "T-001",
      free: [
        { valve: "T-118", standing: "use" },
        { valve: "T-119", standing: "unread" },
      ],
    },
    { position: "V2", type: "6AS7G", free: [] },
  ],
  things: [
    { aspect: "stage", name: "input" },
    { aspect: "supply", name: "tap" },
    { aspect: "case", name: "closure" },
    { aspect: "part", name: "R1" },
  ],
  reworks: [{ at: now, by: "owner", why: "Valves fitted" }],
};

const parcel: PackView = {
  ...about,
  customer: "c-12",
  tap: "120",
  destination,
  language: "en",
  options: {},
  hasCase: true,
  valves: [
    { position: "V1", valve: "T-001", type: "6SN7GT" },
    { position: "V2", valve: "T-117", type: "6AS7G" },
  ],
};

export const notReleased: PackView = parcel;
export const toPack: PackView = { ...parcel, released: { at: now, by: "owner" } };
export const packed: PackView = {
  ...toPack,
  packed: {
    id: "e9",
    at: now,
    by: "owner",
    label: { nominal_V: 120, frequency_Hz: 60 },
    valvesApart: { V1: "T-001" },
    leftIn: ["V2"],
    contents: ["mains lead for the destination", "the dossier, first page signed"],
    mass_kg: 9.4,
  },
};

export const cameBack: ReturnView = {
  ...about,
  place: destination.place,
  returns: [{ id: "e10", at: now, by: "owner", says: "hums on the left since the move" }],
  isHere: true,
  left: { at: "2026-06-01T15:00:00-06:00", by: "owner", version: "0.1.0" },
  figures: [
    {
      claim: "earth-bond",
      title: "Earth bond",
      quantity: "bond_ohm",
      where: "unit 0231",
      high: 0.1,
      left: { value: 0.04, doubt: 0.004 },
      now: { value: 0.085, doubt: 0.004, at: now },
      change: { value: 0.045, doubt: 0.0057, state: "moved" },
    },
    {
      claim: "balance",
      title: "Balance",
      quantity: "balance_dB",
      where: "unit 0231",
      left: { value: 0.12, doubt: 0.02 },
      now: { value: 0.13, doubt: 0.02, at: now },
      change: { value: 0.01, doubt: 0.028, state: "can't be told apart" },
    },
    {
      claim: "ht",
      title: "High tension",
      quantity: "ht_V",
      where: "unit 0231",
      left: { value: 201, doubt: 1 },
    },
  ],
  stages: [
    { stage: "wiring", title: "wiring" },
    { stage: "earth-bond", title: "Every touchable metal part is bonded to earth" },
  ],
  faults: [{ at: now, fault: "loose earth screw", what: "half a turn", found: "customer", possible: "earth-bond" }],
};

export const neverLeft: ReturnView = {
  ...about,
  place: destination.place,
  returns: [],
  isHere: false,
  figures: [],
  stages: [],
  faults: [],
};

export const reserve: ReserveView = {
  unit: about.unit,
  fits: [
    {
      type: "6SN7GT",
      positions: { V1: "T-118" },
      by: "circuit",
      cost: 0.08,
      doubt: 0.05,
      limit_dB: 0.5,
      ownParts: true,
      considered: 14,
    },
    { type: "6AS7G", positions: { V2: "T-120" }, by: "current", cost: 1.2, ownParts: false, considered: 3 },
  ],
  none: ["6X5GT"],
};
