import type { Random } from "../maths/random.ts";
import type { OpenLine } from "./attributeChannel.ts";
import { type Cause, causeInWords, type Setting, type Supply } from "./cause.ts";
import { type Design, designOf } from "./design.ts";
import { informationFrom } from "./information.ts";
import { contrastLacking, type Verdict } from "./verdict.ts";

export interface NextRecording {
  readonly why: string;
  readonly supply: Supply;
  readonly valves: Readonly<Record<string, string>>;
  /** What it is expected to tell of the causes left, and what it costs from how the unit stands now. */
  readonly gain_bits: number;
  readonly minutes: number;
}

export interface OpenChannel {
  readonly channel: string;
  readonly design: Design;
  readonly verdict: Verdict;
  /** A-weighted power, by which the louder channel is served first. */
  readonly loudness: number;
  readonly lines: readonly OpenLine[];
  reaches(position: string): boolean;
}

/** Upward, for the core's flux, and so that few lines of the two families fall together: 57 Hz beside 50 Hz. */
const rise = 1.14;
const further = 0.07;
/**
 * Minutes at the bench: a recording with its note; another supply set and settled; a unit switched off, discharged,
 * cool enough to touch and warm again; each valve exchanged meanwhile. Common practice, no source.
 */
const minutes = { recording: 2, supply: 4, opened: 18, valve: 2 } as const;
/** Worth of a contrast that a verdict still lacks, where its cause is all but sure. */
const contrast_bits = 0.5;
/** Less than this tells nothing that chance does not. */
const nothing_bits = 0.01;

interface Candidate {
  readonly setting: Setting;
  /** What it would do, after the list of what is still possible. */
  why(channel: string): string;
}

/**
 * The recording that tells most, a minute, of what causes most of the hum in the channels left open: an offset supply,
 * the building's, or one more valve in one socket.
 *
 * Told in bits of the cause (`informationFrom`), and where the likeliest cause only lacks a contrast before it may be
 * named, in what of that contrast it brings.
 *
 * @param settings  of the recordings that may be compared, the last one as the unit stands now
 * @returns null when every channel is decided or quiet
 */
export function nextRecording(
  channels: readonly OpenChannel[],
  settings: readonly Setting[],
  reference: Setting,
  building_Hz: number,
  random: Random,
): NextRecording | null {
  const open = channels
    .filter(({ verdict }) => verdict.state === "undecided")
    .toSorted((a, b) => b.loudness - a.loudness);
  const [loudest] = open;
  if (!loudest) return null;

  const rated = candidatesFor(open, settings, reference, building_Hz).map((candidate, n) => {
    const gains = open.map((channel) => gainOf(channel, candidate.setting, settings, reference, random.fork(n)));
    const gain_bits = gains.reduce((sum, gain) => sum + gain, 0);
    const cost_min = minutesTo(candidate.setting, settings.at(-1)!);
    return { candidate, gain_bits, minutes: cost_min, told: open[gains.indexOf(Math.max(...gains))]! };
  });
  const useful = rated.filter(({ gain_bits }) => gain_bits > nothing_bits);
  const best = useful.toSorted((a, b) => b.gain_bits / b.minutes - a.gain_bits / a.minutes)[0];
  if (!best) return secondLook(loudest, settings, reference, building_Hz);
  const { candidate, gain_bits, minutes: cost_min, told } = best;
  const rank = useful.length > 1 ? ` Of ${useful.length} ways on it tells most for its ${cost_min} minutes.` : "";
  return {
    why: `${listed(told)} ${candidate.why(told.channel)}${rank}`,
    supply: candidate.setting.supply,
    valves: candidate.setting.valves,
    gain_bits,
    minutes: cost_min,
  };
}

/** What one channel gains: bits of its cause, and what the likeliest cause lacks before it may be named. */
function gainOf(
  { design, lines, verdict, reaches }: OpenChannel,
  next: Setting,
  settings: readonly Setting[],
  reference: Setting,
  random: Random,
): number {
  const told_bits = informationFrom(design, lines, next, settings, reaches, random);
  const likeliest = verdict.state === "undecided" ? verdict.possible[0] : undefined;
  if (!likeliest) return told_bits;
  const lackingIn = (of: readonly Setting[]) =>
    contrastLacking(designOf(of, of.indexOf(reference), reaches), likeliest);
  const before = lackingIn(settings);
  if (before === 0) return told_bits;
  return told_bits + (contrast_bits * likeliest.odds * Math.max(0, before - lackingIn([...settings, next]))) / before;
}

function candidatesFor(
  open: readonly OpenChannel[],
  settings: readonly Setting[],
  reference: Setting,
  building_Hz: number,
): readonly Candidate[] {
  const used = settings.find(({ offset, supply }) => offset && supply.frequency_Hz > building_Hz)?.supply;
  const offset: Supply = used ?? { source: "regenerated", frequency_Hz: Math.round(building_Hz * rise) };
  const house: Supply = { source: "building", frequency_Hz: building_Hz };
  const standing = (supply: Supply, valves: Setting["valves"]): Setting => ({
    supply,
    valves,
    offset: supply === offset,
  });
  const candidates: Candidate[] = [
    {
      setting: standing(offset, reference.valves),
      why: (channel) =>
        `In ${channel}, a supply at ${offset.frequency_Hz} Hz parts what follows the unit's supply from the building's field and from what the building's mains bring in.`,
    },
    {
      setting: standing(house, reference.valves),
      why: (channel) => `In ${channel}, the building's own mains show what they bring in.`,
    },
  ];
  const supplies = [used ? offset : reference.supply];
  for (const position of Object.keys(reference.valves)) {
    if (!open.some(({ reaches }) => reaches(position))) continue;
    for (const supply of supplies) {
      const valve = reference.valves[position]!;
      const spare = spareFor(position, valve, settings, reference, supply);
      candidates.push({
        setting: standing(supply, { ...reference.valves, [position]: spare.id }),
        why: () =>
          `${capital(spare.words)} at ${position} in place of ${valve}, everything else as it was: hum that falls was the valve's, hum that stays was not.`,
      });
    }
  }
  return candidates.filter(({ setting }) => !settings.some((made) => isSame(made, setting)));
}

/** Minutes from how the unit stands now. */
function minutesTo(next: Setting, now: Setting): number {
  const supply = next.supply.source === now.supply.source && next.supply.frequency_Hz === now.supply.frequency_Hz;
  const exchanged = Object.keys(next.valves).filter(
    (position) => next.valves[position] !== now.valves[position],
  ).length;
  return (
    minutes.recording +
    (supply ? 0 : minutes.supply) +
    (exchanged === 0 ? 0 : minutes.opened + exchanged * minutes.valve)
  );
}

/** Where no contrast is left to make: the same once more, at another frequency and longer. */
function secondLook(
  loudest: OpenChannel,
  settings: readonly Setting[],
  { valves }: Setting,
  building_Hz: number,
): NextRecording {
  const used = settings.filter(({ offset }) => offset).map(({ supply }) => supply.frequency_Hz);
  const frequency_Hz = Math.round(Math.max(building_Hz * rise, ...used) + building_Hz * further);
  const supply: Supply = { source: "regenerated", frequency_Hz };
  return {
    why: `${listed(loudest)} They lie close together; a second offset frequency, with a mains reference channel and a longer recording, reads them apart once more.`,
    supply,
    valves,
    gain_bits: 0,
    minutes: minutesTo({ supply, valves, offset: true }, settings.at(-1)!),
  };
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
    if (!settings.some((made) => isSame(made, { supply, valves }))) return { id, words: `fit ${id}` };
  }
  const tried = [...seen].join(" or ");
  return { id: `other than ${tried}`, words: "fit another valve from the shelf" };
}

function isSame(a: Pick<Setting, "supply" | "valves">, b: Pick<Setting, "supply" | "valves">): boolean {
  return (
    a.supply.source === b.supply.source &&
    a.supply.frequency_Hz === b.supply.frequency_Hz &&
    Object.keys(a.valves).every((position) => a.valves[position] === b.valves[position])
  );
}

function listed({ channel, verdict }: OpenChannel): string {
  const names: readonly Cause[] = verdict.state === "undecided" ? verdict.possible : [];
  return `Still possible in ${channel}: ${names.map(causeInWords).join("; ")}.`;
}

function capital(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
