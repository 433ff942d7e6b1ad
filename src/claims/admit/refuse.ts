import { BadInput, quote } from "../../maths/badInput.ts";

/** Names that are on record; a map or set of thousands is asked, not gone through. */
type Known = Iterable<string> | ReadonlySet<string> | ReadonlyMap<string, unknown>;

/** Refuses a name that is not on record, naming those that are, as far as they fit. */
export function requireKnown(path: string, name: string, known: Known, what: string): void {
  const isIndexed = known instanceof Map || known instanceof Set;
  if (isIndexed && known.has(name)) return;
  const names: string[] = [...(isIndexed ? known.keys() : (known as Iterable<string>))];
  if (names.includes(name)) return;
  const some = names.slice(0, 8).join(", ");
  const mend =
    names.length === 0
      ? `enter the ${what} first`
      : `known: ${some}${names.length > 8 ? `, and ${names.length - 8} more` : ""}; check the spelling or enter the ${what} first`;
  throw new BadInput(path, quote(name), `no ${what} of that name is on record`, mend);
}

/** Refuses the second of two equal names in a list. */
export function requireDistinct(path: string, names: readonly string[], what: string): void {
  const second = names.findIndex((name, i) => names.indexOf(name) < i);
  if (second < 0) return;
  throw new BadInput(`${path}[${second}]`, quote(names[second]), `each ${what} once`, "leave the second one out");
}
