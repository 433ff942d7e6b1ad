/** A count with the noun as Polish counts it: 1 odczyt, 2 odczyty, 5 odczytów, 22 odczyty. */
export function ilu(count: number, one: string, few: string, many: string): string {
  const last = count % 10;
  const isTeen = count % 100 >= 12 && count % 100 <= 14;
  return `${count} ${count === 1 ? one : last >= 2 && last <= 4 && !isTeen ? few : many}`;
}
