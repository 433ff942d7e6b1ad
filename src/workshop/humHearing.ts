import type { BodyOf, Evidence } from "../claims/evidence.ts";
import type { Calculate } from "./calculate.ts";
import type { HumHearingView, HumLineView } from "./views.ts";

export type Heard = Evidence<"recording">;
type Headphone = BodyOf<"headphone">;
type TracedLine = Omit<HumLineView, "heardOn">;

export interface HumCase {
  readonly unit: string;
  readonly building_Hz: number;
  readonly feeds?: Readonly<Record<string, readonly string[]>>;
  readonly outputImpedance_ohm: number;
  readonly recordings: readonly Heard[];
  /** Recordings on a regenerator that can't be believed, and why: their lines are not compared. */
  readonly leftOut?: readonly { readonly recording: string; readonly why: string }[];
  readonly supplies?: HumHearingView["supplies"];
  readonly microphony?: HumHearingView["microphony"];
  readonly headphones: readonly Headphone[];
  /** What a valve's own readings say about it, in sentences. */
  saysOf(valve: string): readonly string[];
  /** Length of a recording and whether its file was cut short. */
  lengthOf(recording: Heard): { readonly duration_s: number; readonly truncated: boolean };
}

interface Trace {
  readonly lines: readonly TracedLine[];
  readonly verdict: HumHearingView["verdict"];
  readonly nextRecording: HumHearingView["nextRecording"];
  readonly notes?: readonly string[];
}

/** A hearing compares the newest dozen recordings; `hum.trace` takes no more. */
const mostHeard = 12;

/** Recordings of a unit made to find hum, those put right by a newer entry left out, oldest first. */
export function humRecordings(evidence: readonly Evidence[], unit: string): Heard[] {
  const superseded = new Set(
    evidence.flatMap(({ body }) => ("supersedes" in body && body.supersedes ? [body.supersedes] : [])),
  );
  return evidence
    .filter(
      (entry): entry is Heard =>
        entry.body.kind === "recording" &&
        entry.body.unit === unit &&
        entry.body.purpose === "hum" &&
        !superseded.has(entry.id),
    )
    .slice(-mostHeard);
}

/** The hum hearing of a unit: causes of every line, which headphones hear it, and what to record next. */
export async function humHearing(hearing: HumCase, calculate: Calculate): Promise<HumHearingView> {
  const { recordings, headphones } = hearing;
  const trace: Trace | undefined =
    recordings.length === 0 ? undefined : await calculate<Trace>("hum.trace", traceQuestion(hearing));
  const lines = await withHeadphones(trace?.lines ?? [], hearing, calculate);
  const verdict = trace?.verdict ?? {};
  return {
    unit: hearing.unit,
    building_Hz: hearing.building_Hz,
    recordings: recordings.map((entry) => ({
      recording: entry.body.recording,
      at: entry.at,
      source: entry.body.supply.source,
      frequency_Hz: entry.body.supply.frequency_Hz,
      valves: entry.body.valves,
      input: entry.body.input,
      ...hearing.lengthOf(entry),
    })),
    lines,
    verdict,
    supplies: hearing.supplies ?? [],
    ...(hearing.microphony && { microphony: hearing.microphony }),
    nextRecording: trace?.nextRecording ?? null,
    headphones: headphones.map(({ headphone, impedance_ohm, sensitivity_dB_per_V }) => ({
      headphone,
      impedance_ohm,
      sensitivity_dB_per_V,
    })),
    sentences:
      recordings.length === 0
        ? [
            ...leftOutWords(hearing),
            "No hum recording of this unit yet. Begin with one on the building's mains, input shorted.",
          ]
        : [
            ...withReadings(sentences(verdict, lines, toldOf(recordings)), verdict, hearing),
            ...(hearing.microphony && hearing.microphony.state !== "quiet" ? [hearing.microphony.words] : []),
            ...leftOutWords(hearing),
          ],
    notes: trace?.notes ?? [],
  };
}

function leftOutWords({ leftOut = [] }: HumCase): string[] {
  return leftOut.map(
    ({ recording, why }) =>
      `Recording ${recording} is not compared: ${why}. A regenerator with cut peaks or a sag lowers HT, and a hum that goes with it is not cured.`,
  );
}

/** The recording that a hearing is told on: the first on a clean offset supply, else the first of all. */
function toldOf(recordings: readonly Heard[]): Heard | undefined {
  return recordings.find(isOffsetSupply) ?? recordings[0];
}

/** Whether the unit ran on a supply of its own whose lines stand apart from the building's. */
export function isOffsetSupply({ body }: Heard): boolean {
  return body.supply.source === "regenerated" && Math.abs(body.supply.frequency_Hz - body.building_Hz) > 0.5;
}

function traceQuestion({ building_Hz, feeds, recordings }: HumCase): object {
  return {
    building_Hz,
    ...(feeds ? { feeds } : {}),
    recordings: recordings.map(({ body }) => ({
      id: body.recording,
      recording: body.file_sha256,
      fullScale_Vpk: body.fullScale_Vpk,
      channels: body.channels,
      supply: { source: body.supply.source, frequency_Hz: body.supply.frequency_Hz },
      valves: body.valves,
      input: body.input,
    })),
  };
}

/** The readings of a valve that was found to be the cause, told right after the verdict. */
function withReadings(told: string[], verdict: HumHearingView["verdict"], { saysOf }: HumCase): string[] {
  const valves = Object.values(verdict).flatMap((found) =>
    found.state === "decided" && found.cause === "valve" && found.valve !== undefined ? [found.valve] : [],
  );
  const [first, ...rest] = told;
  return first === undefined ? told : [first, ...[...new Set(valves)].flatMap(saysOf), ...rest];
}

/** Each line with what every headphone makes of it. */
async function withHeadphones(
  lines: readonly TracedLine[],
  { headphones, outputImpedance_ohm }: HumCase,
  calculate: Calculate,
): Promise<HumLineView[]> {
  if (lines.length === 0) return [];
  const asked = lines.map(({ frequency_Hz, level_Vrms }) => ({ frequency_Hz, level_Vrms }));
  const heard = await Promise.all(
    headphones.map(async ({ headphone, impedance_ohm, sensitivity_dB_per_V }) => {
      const answer = await calculate<{ lines: { margin_dB: number; audible: "yes" | "no" | "doubtful" }[] }>(
        "hum.audible",
        { lines: asked, outputImpedance_ohm, headphone: { impedance_ohm, sensitivity_dB_per_V } },
      );
      return { headphone, lines: answer.lines };
    }),
  );
  return lines.map((line, index) => ({
    ...line,
    heardOn: heard.map(({ headphone, lines: judged }) => {
      const { margin_dB, audible } = judged[index]!;
      return { headphone, margin_dB, audible };
    }),
  }));
}

/** The hearing in words, what matters most first: verdicts, then the unit's own lines, then the building's. */
function sentences(
  verdict: HumHearingView["verdict"],
  lines: readonly HumLineView[],
  told: Heard | undefined,
): string[] {
  const weight = (state: string, cause?: string) =>
    cause === "valve" ? 0 : state === "decided" ? 1 : state === "undecided" ? 2 : 3;
  const channels = Object.entries(verdict)
    .toSorted(
      ([, a], [, b]) =>
        weight(a.state, "cause" in a ? a.cause : undefined) - weight(b.state, "cause" in b ? b.cause : undefined),
    )
    .map(([channel, found]) => {
      const name = `${capital(channel)} channel`;
      if (found.state === "quiet") return `${name}: quiet, no mains-related line stands out of the floor.`;
      if (found.state === "undecided") return `${name}: undecided. ${found.reason}`;
      const cause =
        found.cause === "valve"
          ? `valve ${found.valve} at ${found.position}`
          : (causeInWords[found.cause] ?? found.cause);
      return `${name}: ${cause} (${oddsWords(found.odds)}).`;
    });
  if (!told) return channels;
  const inTold = lines.filter((line) => line.recording === told.body.recording);
  return [...channels, ...ownSentences(inTold), ...buildingSentences(inTold)];
}

const causeInWords: Readonly<Record<string, string>> = {
  mains: "the distortion of this building's mains brings it in; it is gone on a clean supply",
  "pick-up": "pick-up of this building's field; what another house brings can't be told from here",
  amplifier: "the amplifier's own supply or wiring",
};

/** Chance can't be excluded, so no odds are ever called certain. */
function oddsWords(odds: number): string {
  return odds > 0.99 ? "odds over 99 in 100" : `odds ${Math.round(odds * 100)} in 100`;
}

/** Lines that follow the unit's own supply, the loudest first; those nobody can hear are told together. */
function ownSentences(lines: readonly HumLineView[]): string[] {
  const own = lines.filter(({ of }) => of === "supply").toSorted((a, b) => loudest_dB(b) - loudest_dB(a));
  const heard = own
    .filter((line) => isWithinReach(line))
    .map((line) => `${hertz(line)} in the ${line.channel} channel, ${causeOf(line)}: ${audibleWords(line)}.`);
  const faint = own.filter((line) => !isWithinReach(line));
  if (faint.length === 0) return heard;
  const named = [...new Set(faint.slice(0, 4).map(hertz))].join(", ");
  return [
    ...heard,
    `Its other lines (${named}${faint.length > 4 ? " and others" : ""}) are below the threshold of hearing on all headphones on file.`,
  ];
}

/** The building's own frequency and its multiples, told together for each channel. */
function buildingSentences(lines: readonly HumLineView[]): string[] {
  const building = lines.filter(({ of }) => of === "building");
  return [...new Set(building.map(({ channel }) => channel))].flatMap((channel) => {
    const here = building.filter((line) => line.channel === channel);
    const loud = here.toSorted((a, b) => loudest_dB(b) - loudest_dB(a))[0]!;
    const isPickUp = here.every((line) => line.causes.every(({ cause, share }) => cause === "pick-up" || share < 0.1));
    const cause = isPickUp ? "pick-up of this building's field" : causeOf(loud);
    return [
      `${Math.round(here[0]!.frequency_Hz / here[0]!.order)} Hz and its multiples in the ${channel} channel: ${cause}; the loudest of them is ${audibleWords(loud)}.`,
    ];
  });
}

function causeOf({ causes }: HumLineView): string {
  const main = causes.toSorted((a, b) => b.share - a.share)[0];
  if (!main || main.low < 0.5) return "of a cause not told apart";
  return main.cause === "valve" ? `mostly valve ${main.valve} at ${main.position}` : `mostly ${main.cause}`;
}

function hertz({ frequency_Hz }: HumLineView): string {
  return `${frequency_Hz.toFixed(0)} Hz`;
}

function isWithinReach({ heardOn }: HumLineView): boolean {
  return heardOn.length === 0 || heardOn.some(({ audible }) => audible !== "no");
}

function loudest_dB(line: HumLineView): number {
  return Math.max(Number.NEGATIVE_INFINITY, ...line.heardOn.map((heard) => heard.margin_dB));
}

function audibleWords({ heardOn }: HumLineView): string {
  if (heardOn.length === 0) return "no headphones are on file to judge it by";
  const yes = heardOn.filter((heard) => heard.audible === "yes").length;
  const doubtful = heardOn.filter((heard) => heard.audible === "doubtful").length;
  if (yes === 0 && doubtful === 0) return `below the threshold of hearing on all ${heardOn.length} headphones`;
  if (yes === 0) return `audible for certain on none of ${heardOn.length} headphones, doubtful on ${doubtful}`;
  return `audible on ${yes} of ${heardOn.length} headphones${doubtful > 0 ? `, doubtful on ${doubtful}` : ""}`;
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}
