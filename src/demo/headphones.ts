import type { BodyOf } from "../claims/evidence.ts";

/** Five invented headphones, from the most to the least sensitive; dB/V is free-field equivalent. */
export const headphones: readonly BodyOf<"headphone">[] = [
  { kind: "headphone", headphone: "Sandpiper in-ear", impedance_ohm: 32, sensitivity_dB_per_V: 132 },
  { kind: "headphone", headphone: "Turnstone in-ear", impedance_ohm: 64, sensitivity_dB_per_V: 127 },
  { kind: "headphone", headphone: "Oystercatcher closed", impedance_ohm: 38, sensitivity_dB_per_V: 112 },
  { kind: "headphone", headphone: "Fulmar open", impedance_ohm: 300, sensitivity_dB_per_V: 104 },
  { kind: "headphone", headphone: "Great auk", impedance_ohm: 600, sensitivity_dB_per_V: 94 },
];
