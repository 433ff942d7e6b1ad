export const noon = "2026-03-01T12:00:00.000Z";

/** A small entry that leans on nothing else. */
export function headphone(name: string, more: object = {}): object {
  return {
    at: noon,
    by: "bench",
    kind: "headphone",
    headphone: name,
    impedance_ohm: 32,
    sensitivity_dB_per_V: 110,
    ...more,
  };
}
