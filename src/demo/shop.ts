import type { BodyOf } from "../claims/evidence.ts";
import { closed, timeZone } from "./days.ts";

const fullDay = ["08:00-12:30", "13:15-17:00"];
const fullWeek = { mon: fullDay, tue: fullDay, wed: fullDay, thu: fullDay, fri: ["08:00-12:30", "13:15-16:00"] };
const mornings = { mon: ["08:30-12:30"], tue: ["08:30-12:30"], wed: ["08:30-12:30"], thu: ["08:30-12:30"] };

export const roles = {
  bench: "bench technician",
  wiring: "wiring",
  wood: "woodworker",
  owner: "owner",
} as const;

/** Quarrin Ness: four pairs of hands above a harbour, damp air, 50 Hz, one bench with a supply of its own. */
export const shop: BodyOf<"shop"> = {
  kind: "shop",
  timeZone,
  calendars: {
    bench: { week: fullWeek, closed: [...closed] },
    wood: { week: fullWeek, closed: [...closed] },
    owner: { week: mornings, closed: [...closed] },
  },
  people: [
    { id: roles.bench, skills: ["audio", "valves", "safety"], calendar: "bench" },
    { id: roles.wiring, skills: ["wiring", "voltages"], calendar: "bench" },
    { id: roles.wood, skills: ["wood", "finish", "packing"], calendar: "wood" },
    { id: roles.owner, skills: ["audio", "safety"], calendar: "owner" },
  ],
  places: [
    { id: "wiring bench", kind: "single", capacity: 1 },
    { id: "audio bench", kind: "single", capacity: 1 },
    { id: "heat-run rack", kind: "batch", capacity: 4, cycle_h: 24 },
    { id: "soak shelf", kind: "single", capacity: 4 },
    { id: "burn-in rack", kind: "single", capacity: 96 },
    { id: "hot plate", kind: "batch", capacity: 3, cycle_h: 48 },
    { id: "case shop", kind: "single", capacity: 1 },
    { id: "finishing room", kind: "batch", capacity: 6, cycle_h: 20 },
  ],
  building_Hz: 50,
  cleanSupply_Hz: [57],
  currency: "EUR",
};

/** Customers stand outside the chain of evidence, so that they can be forgotten. */
export const customers = [
  { id: "c-01", name: "A reader on the prairie", address: "Grain Elevator Road 4, Saskatchewan, Canada" },
  { id: "c-02", name: "A listener in the high desert", address: "Mesa Track 11, New Mexico, United States" },
  { id: "c-03", name: "A family by the eastern sea", address: "Chiba, Japan" },
  { id: "c-04", name: "A studio on the strait", address: "Singapore" },
  { id: "c-05", name: "A hut above the tree line", address: "Graubünden, Switzerland" },
  { id: "c-06", name: "A house behind the dunes", address: "South Australia, Australia" },
  { id: "c-07", name: "A quiet room in the north", address: "Jutland, Denmark" },
] as const;

export const destinations = {
  canada: { place: "Saskatchewan, Canada", nominal_V: 120, frequency_Hz: 60 },
  desert: { place: "New Mexico, United States", nominal_V: 120, frequency_Hz: 60 },
  japan: { place: "Chiba, Japan", nominal_V: 100, frequency_Hz: 50 },
  singapore: { place: "Singapore", nominal_V: 230, frequency_Hz: 50 },
  alps: { place: "Graubünden, Switzerland", nominal_V: 230, frequency_Hz: 50 },
  australia: { place: "South Australia, Australia", nominal_V: 230, frequency_Hz: 50 },
  denmark: { place: "Jutland, Denmark", nominal_V: 230, frequency_Hz: 50 },
} as const;
