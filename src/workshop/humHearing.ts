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
  readonly headphones: readonly Headphone[];
  /** Length of a recording and whether its file was cut short. */
  lengthOf(recording: Heard): { readonly duration_s: number; readonly truncated: boolean };
}

interface Trace {
  readonly lines: readonly TracedLine[];
  readonly verdict: HumHearingView["verdict"];
  readonly nextRecording: HumHearingView["nextRecording"];
  readonly notes?: readonly string[];
}

/** Recordings of a unit made to find hum, those put right by a newer entry left out, oldest first. */
export function humRecordings(evidence: readonly Evidence[], unit: string): Heard[] {
  const superseded = new Set(
    evidence.flatMap(({ body }) => ("supersedes" in body && body.supersedes ? [body.supersedes] : [])),
  );
  return evidence.filter(
    (entry): entry is Heard =>
      entry.body.kind === "recording" &&
      entry.body.unit === unit &&
      entry.body.purpose === "hum" &&
      !superseded.has(entry.id),
  );
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
    nextRecording: trace?.nextRecording ?? null,
    headphones: headphones.map(({ headphone, impedance_ohm, sensitivity_dB_per_V }) => ({
      headphone,
      impedance_ohm,
      sensitivity_dB_per_V,
    })),
    sentences:
      recordings.length === 0
        ? ["No hum recording of this unit yet. Begin with one on the building's mains, input shorted."]
        : sentences(verdict, lines),
    notes: trace?.notes ?? [],
  };
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
      supply: body.supply,
      valves: body.valves,
      input: body.input,
    })),
  };
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

function sentences(verdict: HumHearingView["verdict"], lines: readonly HumLineView[]): string[] {
  const channels = Object.entries(verdict).map(([channel, found]) => {
    if (found.state === "quiet")
      return `${capital(channel)} channel: quiet, no mains-related line stands out of the floor.`;
    if (found.state === "undecided") return `${capital(channel)} channel: undecided. ${found.reason}`;
    const where =
      found.cause === "valve"
        ? `valve ${found.valve} at ${found.position}`
        : (causeInWords[found.cause] ?? found.cause);
    return `${capital(channel)} channel: ${where} (odds ${(found.odds * 100).toFixed(0)} %).`;
  });
  return [...channels, ...familySentences(lines)];
}

const causeInWords: Readonly<Record<string, string>> = {
  mains: "the distortion of this building's mains brings it in; it is gone on a clean supply",
  "pick-up": "pick-up of this building's field; what another house brings can't be told from here",
  amplifier: "the amplifier's own supply or wiring",
};

/** One sentence for each family of lines on an offset supply: what it is and whether anyone can hear it. */
function familySentences(lines: readonly HumLineView[]): string[] {
  const strongest = new Map<string, HumLineView>();
  for (const line of lines) {
    const main = line.causes.toSorted((a, b) => b.share - a.share)[0];
    if (!main || main.share < 0.5 || main.low < 0.2) continue;
    const key = `${line.channel} ${line.recording} ${Math.round(line.frequency_Hz)} ${main.cause}`;
    const held = strongest.get(key);
    if (!held || held.level_Vrms < line.level_Vrms) strongest.set(key, line);
  }
  return [...strongest.values()]
    .toSorted((a, b) => loudest(b) - loudest(a))
    .slice(0, 6)
    .map((line) => {
      const main = line.causes.toSorted((a, b) => b.share - a.share)[0]!;
      const by = main.cause === "valve" ? `valve ${main.valve} at ${main.position}` : main.cause;
      return `${line.frequency_Hz.toFixed(1)} Hz, ${line.channel}, ${line.recording}: mostly ${by}; ${audibleWords(line)}.`;
    });
}

function loudest(line: HumLineView): number {
  return Math.max(Number.NEGATIVE_INFINITY, ...line.heardOn.map((heard) => heard.margin_dB));
}

function audibleWords({ heardOn }: HumLineView): string {
  if (heardOn.length === 0) return "no headphones are on file to judge it by";
  const yes = heardOn.filter((heard) => heard.audible === "yes");
  const doubtful = heardOn.filter((heard) => heard.audible === "doubtful");
  if (yes.length === 0 && doubtful.length === 0)
    return `below the threshold of hearing on all ${heardOn.length} headphones`;
  const doubt = doubtful.length > 0 ? `, doubtful on ${doubtful.length}` : "";
  return `audible on ${yes.length} of ${heardOn.length} headphones${doubt}`;
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}
