/** Median and the value that 95 of 100 do not exceed. */
export function spread(values: readonly number[]): { readonly median: number; readonly p95: number } {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
  return { median: at(0.5), p95: at(0.95) };
}

export function middleAnd95(values: readonly number[]): string {
  const { median, p95 } = spread(values);
  const short = (value: number) => (value < 10 ? value.toFixed(1) : value.toFixed(0));
  return `${short(median)}, ${short(p95)} ms`;
}
