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

export const returnedUnits: readonly string[] = Object.keys(returned);

/** What a past unit brings of its own: of most, what every unit brings. */
export function heardOf(unit: string): Heard {
  return returned[unit] ?? { channels: { left: unheard, right: unheard } };
}
