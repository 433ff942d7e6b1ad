/** How a language writes numbers, dates and counted words. */
export interface Forms {
  /** Every noun begins large, wherever it stands. */
  readonly hasLargeNouns: boolean;
  number(english: string): string;
  moment(iso: string): string;
  names(list: readonly string[]): string;
  /** The form of a word that goes with a count; as many as the language has, the last for the rest. */
  ofCount(count: string, ways: readonly string[]): string;
}

const order: readonly Intl.LDMLPluralRule[] = ["zero", "one", "two", "few", "many", "other"];
const instant = /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2}))?/;

/** Polish has a month after its day in the genitive; of the short ones only May is a whole word that shows it. */
export const inGenitive = (date: string): string => date.replace(/(?<=\d )maj(?!\p{L})/u, "maja");

export function formsOf(locale: string): Forms {
  const written = new Intl.NumberFormat(locale, { useGrouping: true }).formatToParts(12345678.5);
  const sign = (type: string, otherwise: string) => written.find((part) => part.type === type)?.value ?? otherwise;
  const decimal = sign("decimal", ".");
  const group = sign("group", " ");
  const rules = new Intl.PluralRules(locale);
  const categories = order.filter((one) => rules.resolvedOptions().pluralCategories.includes(one));
  const list = new Intl.ListFormat(locale, { type: "conjunction" });
  const day = new Intl.DateTimeFormat(locale, {
    ...{ timeZone: "UTC", weekday: "short", day: "numeric", month: "short", year: "numeric" },
  });
  const dayHere = new Intl.DateTimeFormat(locale, {
    ...{ timeZone: "UTC", weekday: "short", day: "numeric", month: "short" },
  });
  const clock = new Intl.DateTimeFormat(locale, {
    ...{ timeZone: "UTC", hour: "2-digit", minute: "2-digit", hourCycle: "h23" },
  });
  const unbroken = (text: string) => inGenitive(text).replace(",", "").replaceAll(" ", "\u00a0");
  return {
    hasLargeNouns: locale.startsWith("de"),
    number: (english) =>
      english
        .replaceAll(",", "\u0000")
        .replace(".", decimal)
        .replaceAll("\u0000", group)
        .replace(/-(?=\d)/g, "\u2212"),
    moment: (iso) => {
      const found = instant.exec(iso);
      if (!found) return iso;
      const [, year, month, date, hour, minute] = found.map(Number);
      const wall = new Date(Date.UTC(year!, month! - 1, date!, found[4] ? hour! : 0, found[5] ? minute! : 0));
      return found[4] ? `${unbroken(dayHere.format(wall))}, ${clock.format(wall)}` : unbroken(day.format(wall));
    },
    names: (names) => list.format(names),
    ofCount: (count, ways) => {
      const value = Number(count.replaceAll(",", "").replace("\u2212", "-"));
      const at = categories.indexOf(Number.isFinite(value) ? rules.select(Math.abs(value)) : "other");
      // A broken count in Polish takes the form of a few: 1,5 godziny.
      const place = ways.length < categories.length && at === categories.length - 1 && ways.length === 3 ? 1 : at;
      return ways[Math.min(place < 0 ? ways.length - 1 : place, ways.length - 1)]!;
    },
  };
}
