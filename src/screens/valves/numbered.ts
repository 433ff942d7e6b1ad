const mostValves = 500;

/**
 * Numbers that follow on from a first one, its leading zeros kept: `T-098`, 4 → T-098, T-099, T-100, T-101.
 * Nothing where the first ends in no digit, or the count is not a whole number from 1 to 500.
 */
export function numbered(first: string, count: number): readonly string[] | undefined {
  const found = /^(.*?)(\d{1,9})$/.exec(first);
  if (!found || !Number.isInteger(count) || count < 1 || count > mostValves) return undefined;
  const [, prefix = "", digits = ""] = found;
  return Array.from({ length: count }, (_, i) => prefix + String(Number(digits) + i).padStart(digits.length, "0"));
}
