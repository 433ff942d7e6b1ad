import { on } from "./days.ts";
import type { CameBack } from "./faultsBefore.ts";
import type { UnitPlan } from "./units.ts";

type Heard = Pick<UnitPlan, "channels" | "reservoir" | "control">;

/** Ordinary rooms, ordinary wiring: of these units little was ever recorded. */
const unheard: UnitPlan["channels"][string] = {
  field_uVrms: [5, 2, 1],
  ripple_uVrms: [2, 0.5, 0.1],
  winding_uVrms: 0.2,
};

/** Nothing reaches these outputs but the building's field. */
const clean = (field_uVrms: UnitPlan["channels"][string]["field_uVrms"]): UnitPlan["channels"][string] => ({
  field_uVrms,
  ripple_uVrms: [0.01, 0.004, 0],
  winding_uVrms: 0.002,
});

const silent: UnitPlan["channels"][string] = {
  field_uVrms: [0.004, 0.002, 0.001],
  ripple_uVrms: [0.003, 0.001, 0],
  winding_uVrms: 0.001,
};

/** Units of the year before that came back to the bench, and what they really bring with them. */
const returned: Readonly<Record<string, Heard>> = {
  // A screw of the HT earth was never tightened: the reservoir's charging pulses reach the inputs.
  "0585": {
    channels: {
      left: { field_uVrms: [7, 3, 1], ripple_uVrms: [4, 0.6, 0.2], winding_uVrms: 0.6, charging_mohm: 0.4 },
      right: { field_uVrms: [6, 3, 1], ripple_uVrms: [4, 0.6, 0.2], winding_uVrms: 0.6, charging_mohm: 0.33 },
    },
    reservoir: { winding_Vpk: 400, source_ohm: 25, reservoir_uF: 100, load_mA: 160 },
  },
  // The two tracks of its volume control part company near their cold end.
  "0237": { channels: { left: unheard, right: unheard }, control: { leads_dB: 3.4, over: 0.16, waves_dB: 0.05 } },
  "0239": { channels: { left: unheard, right: unheard }, control: { leads_dB: 0.05, over: 0.3, waves_dB: 0.01 } },
  "0236": { channels: { left: silent, right: silent } },
  "0240": { channels: { left: silent, right: silent } },
  "0242": { channels: { left: clean([14, 6, 2.5]), right: clean([12, 6, 3]) } },
};

/** What their customers said, and when they came. */
export const cameBack: readonly CameBack[] = [
  { unit: "0237", back: on("2026-12-14", "10:20"), says: "quiet on one side when it is turned down" },
  { unit: "0239", back: on("2026-12-17", "11:05"), says: "quiet on one side when it is turned down" },
  { unit: "0585", back: on("2027-01-18", "10:40"), says: "it buzzes" },
  { unit: "0240", back: on("2027-02-08", "10:15"), says: "it rings when somebody walks by" },
  { unit: "0236", back: on("2027-02-09", "11:30"), says: "it rings when somebody walks by" },
  { unit: "0242", back: on("2027-02-10", "10:30"), says: "it hums" },
];

export const returnedUnits: readonly string[] = Object.keys(returned);

/** What a past unit brings of its own: of most, what every unit brings. */
export function heardOf(unit: string): Heard {
  return returned[unit] ?? { channels: { left: unheard, right: unheard } };
}
