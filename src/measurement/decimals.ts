/** Decimals that show a doubt to two figures when it begins with 1 or 2, else to one. */
export function decimalsOf(doubt: number): number {
  const decade = Math.floor(Math.log10(doubt));
  const figures = Number((doubt / 10 ** decade).toFixed(1)) < 3 ? 2 : 1;
  return Math.min(9, Math.max(0, figures - 1 - decade));
}
