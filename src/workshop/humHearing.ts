import type { BodyOf, Evidence } from "../claims/evidence.ts";
import type { Ledger } from "../claims/index.ts";
import { audibleRange_Hz } from "../hum/hearing.ts";
import type { UnderWay } from "./answerInThread.ts";
import type { Calculate } from "./calculate.ts";
import { groupBy } from "./groupBy.ts";
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
  readonly recordings?: readonly {
    readonly id: string;
    readonly supplyTrial?: { readonly against: readonly string[] };
  }[];
  readonly notes?: readonly string[];
}

interface HissPoint {
  readonly frequency_Hz: number;
  readonly V_per_rtHz: number;
}

/** So many recordings `hum.trace` takes. */
const mostHeard = 40;
/** Time granted for a few recordings, and for each one more. */
const seconds = { few: 4, usual: 10, each: 2 } as const;

/**
 * Recordings of a unit made to find hum, those put right by a newer entry left out, oldest first.
 *
 * Where there are more than can be compared, the newest of every way the unit stood comes before repeats of it.
 */
export function humRecordings(ledger: Ledger, unit: string): Heard[] {
  const made = ledger
    .about("recording", unit)
    .filter(({ id, body }) => body.purpose === "hum" && ledger.supersederOf(id) === undefined);
  if (made.length <= mostHeard) return made;
  const stood = ({ body }: Heard) => {
    const valves = Object.entries(body.valves).toSorted(([a], [b]) => (a < b ? -1 : 1));
    return JSON.stringify([body.supply.source, body.supply.frequency_Hz, body.input, valves]);
  };
  const newest = new Set(new Map(made.map((entry) => [stood(entry), entry])).values());
  const repeats = made.filter((entry) => !newest.has(entry));
  const kept = new Set([...repeats, ...newest].slice(-mostHeard));
  return made.filter((entry) => kept.has(entry));
}

/**
 * The hum hearing of a unit: causes of every line, which headphones hear it, and what to record next.
 *
 * @param tell  told how far it is while it has to be computed
 */
export async function humHearing(
  hearing: HumCase,
  calculate: Calculate,
  tell?: (under: UnderWay) => void,
): Promise<HumHearingView> {
  const { recordings, headphones } = hearing;
  const trace: Trace | undefined =
    recordings.length === 0 ? undefined : await calculate<Trace>("hum.trace", traceQuestion(hearing), tell);
  const told = toldOf(recordings);
  tell?.({ share: 1, what: "who would hear it" });
  const hiss = told && headphones.length > 0 && (trace?.lines.length ?? 0) > 0 ? await hissOf(told, calculate) : {};
  const lines = await withHeadphones(trace?.lines ?? [], hearing, told?.body.recording, hiss, calculate);
  const verdict = trace?.verdict ?? {};
  const spoken = sentences(verdict, lines, told);
  const verdicts = Object.keys(verdict).length;
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
            ...withReadings(spoken.slice(0, verdicts), verdict, hearing),
            ...leftOutWords(hearing),
            ...(hearing.microphony && hearing.microphony.state !== "quiet" ? [hearing.microphony.words] : []),
            ...spoken.slice(verdicts),
            ...unfairWords(trace),
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

/** Recordings that `hum.trace` itself found made on a supply that was not sound. */
function unfairWords(trace: Trace | undefined): string[] {
  return (trace?.recordings ?? []).flatMap(({ id, supplyTrial }) =>
    supplyTrial === undefined || supplyTrial.against.length === 0
      ? []
      : [
          `Recording ${id} decides nothing: by its own supply channel, ${supplyTrial.against.join("; ")}. A hum that falls with the HT is not cured.`,
        ],
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
  const more = Math.max(0, recordings.length - seconds.few);
  return {
    building_Hz,
    ...(more > 0 ? { seconds: seconds.usual + seconds.each * more } : {}),
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

const noHiss: readonly HissPoint[] = [];

/** Density of the hiss in every channel of a recording. */
async function hissOf({ body }: Heard, calculate: Calculate): Promise<Readonly<Record<string, readonly HissPoint[]>>> {
  const { channels } = await calculate<{ channels: Record<string, { hissDensity: readonly HissPoint[] }> }>(
    "bench.noise",
    {
      recording: body.file_sha256,
      fullScale_Vpk: body.fullScale_Vpk,
      channels: body.channels,
      building_Hz: body.building_Hz,
    },
  );
  return Object.fromEntries(Object.entries(channels).map(([channel, { hissDensity }]) => [channel, hissDensity]));
}

interface Judged {
  readonly margin_dB: number;
  readonly audible: "yes" | "no" | "doubtful";
  readonly masking?: { readonly masked: "yes" | "no" | "doubtful" };
}

/**
 * Each line with what every headphone makes of it; in the recording that the hearing is told on, also whether the
 * channel's own hiss covers it.
 */
async function withHeadphones(
  lines: readonly TracedLine[],
  { headphones, outputImpedance_ohm }: HumCase,
  told: string | undefined,
  hiss: Readonly<Record<string, readonly HissPoint[]>>,
  calculate: Calculate,
): Promise<HumLineView[]> {
  const hissFor = ({ recording, channel }: TracedLine) => (recording === told ? (hiss[channel] ?? noHiss) : noHiss);
  // Below 20 Hz and above 18 kHz no threshold is tabulated: such a line stands, and nobody is said to hear it.
  const groups = groupBy(
    lines.filter(({ frequency_Hz: f }) => f >= audibleRange_Hz[0] && f <= audibleRange_Hz[1]),
    hissFor,
  );
  const heardOn = new Map<TracedLine, HumLineView["heardOn"]>();
  for (const [hissDensity, group] of groups) {
    const asked = group.map(({ frequency_Hz, level_Vrms }) => ({ frequency_Hz, level_Vrms }));
    const heard = await Promise.all(
      headphones.map(async ({ headphone, impedance_ohm, sensitivity_dB_per_V }) => {
        const answer = await calculate<{ lines: readonly Judged[] }>("hum.audible", {
          lines: asked,
          ...(hissDensity.length > 0 && { hissDensity }),
          outputImpedance_ohm,
          headphone: { impedance_ohm, sensitivity_dB_per_V },
        });
        return { headphone, lines: answer.lines };
      }),
    );
    for (const [index, line] of group.entries()) {
      heardOn.set(
        line,
        heard.map(({ headphone, lines: judged }) => {
          const { margin_dB, audible, masking } = judged[index]!;
          return { headphone, margin_dB, audible, ...(masking && { masked: masking.masked }) };
        }),
      );
    }
  }
  return lines.map((line) => ({ ...line, heardOn: heardOn.get(line) ?? [] }));
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
  const within = own.filter((line) => isWithinReach(line));
  const heard = [...groupBy(within, (line) => `${line.channel} channel, ${causeOf(line)}`)].flatMap(
    ([where, alike]) => {
      const [loudest, ...others] = alike as [HumLineView, ...HumLineView[]];
      if (others.length < 2) return alike.map((line) => `${hertz(line)} in the ${where}: ${audibleWords(line)}.`);
      const all = alike.map(({ frequency_Hz }) => frequency_Hz.toFixed(0)).join(", ");
      return [`${all} Hz in the ${where}: the loudest, ${hertz(loudest)}, is ${audibleWords(loudest)}.`];
    },
  );
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

/** What of its causes may be named, and no more. */
function causeOf({ origin }: HumLineView): string {
  const names = (origin?.causes ?? []).map((one) =>
    one.cause === "valve" ? `valve ${one.valve} at ${one.position}` : one.cause,
  );
  if (origin?.state === "one cause") return `mostly ${names[0]}`;
  return "of a cause not told apart";
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

function audibleWords({ heardOn, frequency_Hz }: HumLineView): string {
  if (frequency_Hz < audibleRange_Hz[0] || frequency_Hz > audibleRange_Hz[1])
    return "outside the 20 Hz to 18 kHz that thresholds are known for";
  if (heardOn.length === 0) return "no headphones are on file to judge it by";
  const yes = heardOn.filter((heard) => heard.audible === "yes").length;
  const doubtful = heardOn.filter((heard) => heard.audible === "doubtful").length;
  if (yes === 0 && doubtful === 0) return `below the threshold of hearing on all ${heardOn.length} headphones`;
  if (yes === 0) return `audible for certain on none of ${heardOn.length} headphones, doubtful on ${doubtful}`;
  const covered = heardOn.filter(({ audible, masked }) => audible !== "no" && masked === "yes").length;
  return `audible on ${yes} of ${heardOn.length} headphones${doubtful > 0 ? `, doubtful on ${doubtful}` : ""}${covered > 0 ? ", though its own hiss covers it" : ""}`;
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}
