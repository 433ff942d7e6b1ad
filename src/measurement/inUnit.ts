/** Units that are powers of ten of one another, each with its size in the first. */
const families: readonly Readonly<Record<string, number>>[] = [
  { V: 1, mV: 1e-3, uV: 1e-6, kV: 1e3 },
  { Vrms: 1, mVrms: 1e-3, uVrms: 1e-6 },
  { A: 1, mA: 1e-3, uA: 1e-6 },
  { ohm: 1, kohm: 1e3, Mohm: 1e6, mohm: 1e-3 },
  { W: 1, mW: 1e-3 },
  { Hz: 1, kHz: 1e3 },
  { g: 1, kg: 1e3 },
  { F: 1, uF: 1e-6, nF: 1e-9, pF: 1e-12 },
  { C: 1 },
  { mm: 1 },
  { mS: 1 },
];

const tailOf = (quantity: string) => quantity.slice(quantity.lastIndexOf("_") + 1);

/**
 * The factor that brings a figure of one quantity into the unit of another: `level_V` into `jack_mV`, 1000.
 *
 * Ratios, per cent and decibels have no unit that would tell what they are of: of these only the same name will do.
 *
 * @returns undefined  where the one can't be read as the other
 */
export function factorInto(from: string, to: string): number | undefined {
  if (from === to) return 1;
  const family = families.find((one) => tailOf(from) in one && tailOf(to) in one);
  if (!family || !from.includes("_") || !to.includes("_")) return undefined;
  return family[tailOf(from)]! / family[tailOf(to)]!;
}
