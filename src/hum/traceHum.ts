import { weightA } from "../bench/weighting.ts";
import { BadInput } from "../maths/badInput.ts";
import type { Random } from "../maths/random.ts";
import { attributeChannel, repeatsOf } from "./attributeChannel.ts";
import type { CauseShare, Setting } from "./cause.ts";
import { checkTraceInput, isOffset } from "./checkTraceInput.ts";
import { type GainChange, gainChanges } from "./gainTrial.ts";
import type { LineReading } from "./lineReading.ts";
import { type NextRecording, nextRecording, type OpenChannel } from "./nextRecording.ts";
import { type Origin, originOf } from "./origin.ts";
import { leastUse_s, type RecordingLines, readLines, usedLength_s } from "./readLines.ts";
import { type SupplyTrial, supplyTrials } from "./supplyTrial.ts";
import { tieByStrongLine } from "./tieByStrongLine.ts";
import { isReference, sizeOf, type TraceInput } from "./traceInput.ts";
import type { Verdict } from "./verdict.ts";

export interface HumLine {
  readonly channel: string;
  readonly order: number;
  readonly of: "supply" | "building";
  readonly frequency_Hz: number;
  readonly level_Vrms: number;
  readonly doubt_Vrms: number;
  readonly recording: string;
  readonly causes: readonly CauseShare[];
  /** What of the causes may be named. */
  readonly origin: Origin;
}

export interface HumTrace {
  readonly lines: readonly HumLine[];
  readonly verdict: Readonly<Record<string, Verdict>>;
  readonly nextRecording: NextRecording | null;
  readonly recordings: readonly {
    readonly id: string;
    readonly supply_Hz: number;
    readonly building_Hz: number;
    readonly duration_s: number;
    /** By the recording's own supply channel; what speaks against it keeps the recording out of every contrast. */
    readonly supplyTrial?: SupplyTrial;
  }[];
  readonly truncated?: true;
  readonly usable_s?: number;
  readonly notes: readonly string[];
}

/** An answer takes no longer than this unless whoever asks grants more. */
const usualSeconds = 10;
/** Of which the weighing of causes takes no more than this on an ordinary machine; as much again is left for a busy one. */
const weighing_s = 2.4;

/**
 * Tells where a unit's hum comes from, by contrast between recordings on different supplies and with other valves.
 *
 * Every line is split between distortion of the building's mains (gone on a clean supply), pick-up of the building's
 * field (stays at the building's frequency), the amplifier (follows the unit's supply) and each valve (goes with the
 * valve). The verdict is about the first recording on the building's supply, else the first.
 *
 * @param input   recordings of one unit; those whose input was closed otherwise than the verdict's bring lines only
 * @param random  for sampling; the same seed gives the same answer
 * @returns lines with shares of power, a verdict a channel, and the recording that would decide what is left
 * @throws BadInput  recordings that cannot be compared, with the field
 * @remarks Method and its limits: docs/decisions/0003-hum-by-contrast.md.
 */
export function traceHum(
  input: TraceInput,
  random: Random,
  progress?: (share: number, what: string) => void,
): HumTrace {
  checkTraceInput(input);
  const { recordings, building_Hz } = input;
  const positions = Object.keys(recordings[0]!.valves);
  const settings = recordings.map(
    ({ supply, valves }): Setting => ({
      supply,
      offset: isOffset(supply.frequency_Hz, building_Hz),
      valves: Object.fromEntries(positions.map((position) => [position, valves[position]!])),
    }),
  );
  const granted = (input.seconds ?? usualSeconds) / usualSeconds;
  const most_s = granted * usedLength_s(input);
  if (most_s < leastUse_s) {
    const given = `${recordings.length} recordings`;
    const allowed = `as many as leave ${leastUse_s} s of each within the time for an answer (${most_s.toFixed(1)} s)`;
    const seconds = Math.ceil((usualSeconds * granted * leastUse_s) / most_s);
    throw new BadInput("recordings", given, allowed, `send fewer recordings or channels, or grant seconds: ${seconds}`);
  }
  const read = recordings.map((recording, i) => {
    progress?.((0.5 * i) / recordings.length, `reading ${recording.id}`);
    return readLines(recording, i, building_Hz, most_s);
  });
  const reaches = (position: string, channel: string) => input.feeds?.[position]?.includes(channel) ?? true;
  const readings = tieByStrongLine(
    read.flatMap((lines) => lines.readings),
    settings,
    reaches,
  );

  const trials = supplyTrials(recordings);
  const isFair = (r: number) => (trials[r]?.against.length ?? 0) === 0;

  const channels = [...new Set(recordings.flatMap(({ channels }) => channels))].filter((c) => !isReference(c));
  const used_s = read.map((lines) => lines.used_s);
  const evidence = channels.map((channel, c) => {
    const reference = referenceFor(input, channel);
    const own = readings.filter((line) => line.channel === channel);
    const gains = gainChanges(own, settings, reference, used_s);
    const comparable = recordings.map(
      (r, i) =>
        i === reference ||
        (r.channels.includes(channel) && r.input === recordings[reference]!.input && isFair(i) && !gains[i]),
    );
    return {
      settings,
      comparable,
      reference,
      reaches: (position: string) => reaches(position, channel),
      readings: own,
      budget_s: (weighing_s * granted) / channels.length,
      random: random.fork(c),
      gains,
    };
  });
  const repeats = evidence.map(repeatsOf);
  const verdict: Record<string, Verdict> = {};
  const causes = new Map<LineReading, readonly CauseShare[]>();
  const open: OpenChannel[] = [];
  let unweighed = 0;
  for (const [c, channel] of channels.entries()) {
    progress?.(0.5 + (0.5 * c) / channels.length, `weighing the causes in ${channel}`);
    const { reference, readings: own } = evidence[c]!;
    const answer = attributeChannel({ ...evidence[c]!, repeats });
    verdict[channel] = answer.verdict;
    for (const [line, shares] of answer.causes) causes.set(line, shares);
    const atReference = own.filter((line) => line.recording === reference && line.stands);
    const loudness = atReference.reduce((sum, l) => sum + weightA(l.frequency_Hz) ** 2 * l.level_Vrms ** 2, 0);
    unweighed += answer.unweighed;
    open.push({
      channel,
      design: answer.design,
      verdict: answer.verdict,
      loudness,
      lines: answer.open,
      reaches: (position) => reaches(position, channel),
    });
  }

  const lines = readings
    .filter((line) => line.stands)
    .map((line): HumLine => {
      const { channel, order, frequency_Hz, level_Vrms, doubt_Vrms } = line;
      const of = line.family === "supply" ? "supply" : "building";
      const id = recordings[line.recording]!.id;
      return {
        channel,
        order,
        of,
        frequency_Hz,
        level_Vrms,
        doubt_Vrms,
        recording: id,
        causes: causes.get(line) ?? [],
        origin: originOf(causes.get(line) ?? []),
      };
    });
  const first = referenceFor(input, channels[0]!);
  const compared = settings.filter(
    (_, i) => i === first || (recordings[i]!.input === recordings[first]!.input && isFair(i)),
  );
  const cut = recordings.flatMap((recording, i) => (sizeOf(recording).truncated ? [read[i]!.duration_s] : []));
  return {
    lines,
    verdict,
    nextRecording: nextRecording(open, compared, settings[first]!, building_Hz, random.fork("next")),
    recordings: read.map(({ supply_Hz, building_Hz: seen_Hz, duration_s }, i) => {
      const supplyTrial = trials[i];
      return {
        id: recordings[i]!.id,
        supply_Hz,
        building_Hz: seen_Hz,
        duration_s,
        ...(supplyTrial && { supplyTrial }),
      };
    }),
    ...(cut.length > 0 && { truncated: true as const, usable_s: Math.min(...cut) }),
    notes: [
      ...recordings.flatMap(({ id }, i) => unfairWords(id, trials[i])),
      ...evidence.flatMap(({ gains }, c) => gainWords(channels[c]!, gains, recordings)),
      ...channels.flatMap((channel, c) => putBackWords(channel, verdict[channel]!, settings, evidence[c]!.comparable)),
      ...notesOn(input, read, recordings[first]!.input),
      ...unweighedWords(unweighed),
    ],
  };
}

/** The first recording on the building's supply that has the channel, else the first that has it. */
function referenceFor({ recordings }: TraceInput, channel: string): number {
  const onBuilding = recordings.findIndex((r) => r.supply.source === "building" && r.channels.includes(channel));
  return onBuilding >= 0 ? onBuilding : recordings.findIndex((r) => r.channels.includes(channel));
}

function unfairWords(id: string, trial: SupplyTrial | undefined): string[] {
  if (!trial || trial.against.length === 0) return [];
  return [
    `${id}: its supply was not sound (${trial.against.join("; ")}). That lowers HT, and a hum that falls with it is not cured: its lines stand, but it decides nothing.`,
  ];
}

function gainWords(
  channel: string,
  gains: readonly (GainChange | undefined)[],
  recordings: TraceInput["recordings"],
): string[] {
  return gains.flatMap((change, r) => {
    if (!change) return [];
    const { since, lines_dB, hiss_dB, building_dB } = change;
    const field = building_dB === undefined ? "" : ` and the building's lines by ${building_dB.toFixed(0)} dB`;
    return [
      `${recordings[r]!.id}: in ${channel} the hum moved by ${lines_dB.toFixed(0)} dB since ${recordings[since]!.id}, its hiss by ${hiss_dB.toFixed(0)} dB${field}. That is how a changed gain looks (another valve, the volume control, the recorder), so it decides nothing there.`,
    ];
  });
}

/** At the building's own frequency a lead that was laid otherwise meanwhile looks like a valve that took its hum along. */
function putBackWords(
  channel: string,
  verdict: Verdict,
  settings: readonly Setting[],
  comparable: readonly boolean[],
): string[] {
  if (verdict.state !== "decided" || verdict.cause !== "valve") return [];
  const { position, valve } = verdict;
  const offset = settings.filter((setting, r) => comparable[r] && setting.offset);
  if (offset.some(({ valves }) => valves[position] === valve) && offset.some((s) => s.valves[position] !== valve))
    return [];
  return [
    `${valve} at ${position} was not exchanged on an offset supply, so a lead laid otherwise meanwhile would look the same in ${channel}: put it back and hear the hum return before it is laid aside.`,
  ];
}

function unweighedWords(lines: number): string[] {
  if (lines === 0) return [];
  return [
    `${lines} faint lines were not weighed, to answer in time; their causes stand as open. More seconds granted weigh them too.`,
  ];
}

function notesOn(input: TraceInput, read: readonly RecordingLines[], closed: string) {
  const notes: string[] = [];
  for (const [i, recording] of input.recordings.entries()) {
    const { id, input: given } = recording;
    const { clipped, duration_s } = read[i]!;
    if (clipped.length > 0) notes.push(`${id}: ${clipped.join(" and ")} clipped; its lines are not to be trusted.`);
    if (sizeOf(recording).truncated)
      notes.push(`${id}: the file is cut short; ${duration_s.toFixed(2)} s of it were used.`);
    if (duration_s < 2) notes.push(`${id}: ${duration_s.toFixed(2)} s is short; 8 s part near lines better.`);
    if (given !== closed)
      notes.push(`${id}: its input was ${given}, not ${closed}; its lines stand, but it decides nothing.`);
  }
  const cut = read.filter(({ used_s, duration_s }) => used_s < 0.99 * duration_s);
  if (cut.length > 0) {
    const used_s = Math.min(...cut.map((lines) => lines.used_s)).toFixed(1);
    const which = cut.length === read.length ? "each recording" : `${cut.length} of ${read.length} recordings`;
    notes.push(`Only the first ${used_s} s of ${which} were read, to answer in time; more seconds granted read more.`);
  }
  const positions = Object.keys(input.recordings[0]!.valves);
  for (const position of Object.keys(input.feeds ?? {})) {
    if (!positions.includes(position)) notes.push(`feeds names ${position}, which no recording has a valve at.`);
  }
  return notes;
}
