import { causeInWords, type Setting, type Supply } from "./cause.ts";
import type { Design } from "./design.ts";
import type { Verdict } from "./verdict.ts";

export interface NextRecording {
  readonly why: string;
  readonly supply: Supply;
  readonly valves: Readonly<Record<string, string>>;
}

export interface OpenChannel {
  readonly channel: string;
  readonly design: Design;
  readonly verdict: Verdict;
  /** A-weighted power, by which the louder channel is served first. */
  readonly loudness: number;
}

/** Upward, for the core's flux, and so that few lines of the two families fall together: 57 Hz beside 50 Hz. */
const rise = 1.14;

/**
 * The recording that would part the candidates left: an offset supply first, then one more valve in the socket of the
 * likeliest valve not yet cleared, by itself.
 *
 * @param settings  of the recordings that may be compared
 * @returns null when every channel is decided or quiet
 */
export function nextRecording(
  channels: readonly OpenChannel[],
  settings: readonly Setting[],
  reference: Setting,
  building_Hz: number,
): NextRecording | null {
  const open = channels
    .filter(({ verdict }) => verdict.state === "undecided")
    .toSorted((a, b) => b.loudness - a.loudness);
  const [first] = open;
  if (!first) return null;

  const used = settings.find(({ offset, supply }) => offset && supply.frequency_Hz > building_Hz)?.supply;
  const offset: Supply = used ?? { source: "regenerated", frequency_Hz: Math.round(building_Hz * rise) };
  const namesOf = (channel: OpenChannel) => (channel.verdict.state === "undecided" ? channel.verdict.possible : []);
  const outside = open.find((channel) => namesOf(channel).some(({ cause }) => cause !== "valve"));
  const asReference = settings.some((s) => s.offset && sameValves(s.valves, reference.valves));
  if (outside && !settings.some((s) => s.offset)) {
    return {
      why: `${listed(outside)} In ${outside.channel}, a supply at ${offset.frequency_Hz} Hz parts what follows the unit's supply from the building's field and from what the building's mains bring in.`,
      supply: offset,
      valves: reference.valves,
    };
  }

  const suspect = open
    .flatMap((channel) => namesOf(channel).map((cause) => ({ cause, channel })))
    .find(({ cause }) => cause.cause === "valve");
  if (suspect?.cause.cause === "valve") {
    const { position, valve } = mostUseful(open, settings, reference) ?? suspect.cause;
    const supply = settings.some((s) => s.offset) ? offset : reference.supply;
    const spare = spareFor(position, valve, settings, reference, supply);
    const valves = { ...reference.valves, [position]: spare.id };
    return {
      why: `${listed(suspect.channel)} ${capital(spare.words)} at ${position} in place of ${valve}, everything else as it was: hum that falls was the valve's, hum that stays was not.`,
      supply,
      valves,
    };
  }
  if (!asReference) {
    return {
      why: `${listed(first)} The valves of the first recording on an offset supply show what the unit's own hum was then.`,
      supply: offset,
      valves: reference.valves,
    };
  }
  const further = Math.round(offset.frequency_Hz + building_Hz * 0.07);
  return {
    why: `${listed(first)} They lie close together; a second offset frequency, with a mains reference channel and a longer recording, reads them apart once more.`,
    supply: { source: "regenerated", frequency_Hz: further },
    valves: reference.valves,
  };
}

/** The suspected valve least often taken out by itself; among equals the likeliest. */
function mostUseful(open: readonly OpenChannel[], settings: readonly Setting[], reference: Setting) {
  const suspects = open.flatMap(({ verdict }) =>
    verdict.state === "undecided" ? verdict.possible.flatMap((cause) => (cause.cause === "valve" ? [cause] : [])) : [],
  );
  const takenOut = (position: string) =>
    settings.filter(({ valves }) =>
      Object.entries(valves).every(([p, valve]) => (valve === reference.valves[p]) === (p !== position)),
    ).length;
  return suspects.toSorted((a, b) => takenOut(a.position) - takenOut(b.position) || b.odds - a.odds)[0];
}

/** A valve already seen at the position if that recording is not made yet, else one from the shelf. */
function spareFor(
  position: string,
  valve: string,
  settings: readonly Setting[],
  reference: Setting,
  supply: Supply,
): { id: string; words: string } {
  const seen = new Set(settings.map(({ valves }) => valves[position]!));
  for (const id of seen) {
    if (id === valve || Object.values(reference.valves).includes(id)) continue;
    const valves = { ...reference.valves, [position]: id };
    const made = settings.some((s) => s.supply.frequency_Hz === supply.frequency_Hz && sameValves(s.valves, valves));
    if (!made) return { id, words: `fit ${id}` };
  }
  const tried = [...seen].join(" or ");
  return { id: `other than ${tried}`, words: "fit another valve from the shelf" };
}

function sameValves(a: Readonly<Record<string, string>>, b: Readonly<Record<string, string>>): boolean {
  return Object.keys(a).every((position) => a[position] === b[position]);
}

function listed({ channel, verdict }: OpenChannel): string {
  const names = verdict.state === "undecided" ? verdict.possible.map(causeInWords) : [];
  return `Still possible in ${channel}: ${names.join("; ")}.`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
