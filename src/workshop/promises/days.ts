/** A promise names a day: it is kept until that day is over where it was given. */
export function endOfDay(instant: string): string {
  const offset = instant.match(/(Z|[+-]\d\d:\d\d)$/)?.[0] ?? "Z";
  return `${instant.slice(0, 10)}T23:59:59${offset}`;
}
