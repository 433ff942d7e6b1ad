import data from "../../reference/timberPapers.json" with { type: "json" };
import { plainName, type Species, species } from "./species.ts";

export interface Papers {
  /** `asked` where a list names the wood or its genus, `none known` for a wood of the catalogue that none names. */
  readonly state: "asked" | "none known" | "not known";
  readonly appendix?: string;
  readonly of?: string;
  readonly covers?: string;
  readonly seen?: string;
  readonly ask: readonly string[];
}

/**
 * Whether a wood may need papers to cross a border, and what to ask for.
 *
 * @param wood  English name, or a Latin one
 * @remarks A list from memory in part, and lists change: it asks, the authority of both countries answers.
 * @source  reference/timberPapers.json
 */
export function papersFor(wood: string): Papers {
  const known = species.find((one) => [one.name, ...one.also].some((name) => plainName(name) === plainName(wood)));
  const listing = data.listed.find(
    (entry) =>
      entry.names.some((name) => plainName(name) === plainName(wood)) ||
      isOfGenus(wood, entry) ||
      (known !== undefined && isOfGenus(known.latin, entry)),
  );
  if (listing) {
    return {
      state: "asked",
      appendix: listing.appendix,
      of: listing.of,
      covers: listing.covers,
      seen: listing.seen === false ? "from memory" : String(listing.seen),
      ask: [
        "Of the supplier: the Latin name, the country of harvest, and the import papers of this lot.",
        "Of the home authority, before the order is confirmed: whether a finished case of this wood needs an export paper, and one from the country it goes to.",
        ...data.rules.map(({ where, asks }) => `For the ${where}: ${asks}, where its goods are on the list.`),
        "Keep both with the unit's folder; a board without its papers stays at home.",
      ],
    };
  }
  return {
    state: known ? "none known" : "not known",
    ask: [
      known
        ? `No list at hand names ${known.name.toLowerCase()}; some destinations still ask for the species and the country of harvest.`
        : `${wood} is not in the catalogue: find its Latin name and look it up in the current list before it is cut for abroad.`,
    ],
  };
}

function isOfGenus(latin: string, { genus, only }: { readonly genus: string; readonly only?: string }): boolean {
  const [first = "", second = ""] = latin.toLowerCase().split(/\s+/);
  if (first !== genus.toLowerCase()) return false;
  return only === undefined || only.startsWith("populations") || second === "" || only.split(", ").includes(second);
}

/** Every wood of the catalogue that may need papers. */
export function woodsWithPapers(): Species[] {
  return species.filter((one) => papersFor(one.name).state === "asked");
}
