const trials = {
  air: { reference: "jar of wet table salt", quantity: "humidity_pct", true: 75.3, limit: 3 },
  balance: { reference: "check weight", quantity: "mass_g", true: 500, limit: 0.5 },
} as const;

/** An instrument that the timber desk meets for the first time, with what such a one is usually tried on. */
export function newInstrument(instrument: string, kind: keyof typeof trials) {
  return { kind: "instrument" as const, instrument, title: instrument, trial: { ...trials[kind] } };
}
