const rule = new Intl.PluralRules("pl");

/** The form of a noun that goes with a count: 1 lampa, 3 lampy, 5 lamp. */
export function forma(liczba: number, jeden: string, kilka: string, wiele: string): string {
  const taka = rule.select(liczba);
  return taka === "one" ? jeden : taka === "few" ? kilka : wiele;
}

/** A count with its noun: `1 lampa`, `3 lampy`, `5 lamp`. */
export const ile = (liczba: number, jeden: string, kilka: string, wiele: string): string =>
  `${liczba} ${forma(liczba, jeden, kilka, wiele)}`;
