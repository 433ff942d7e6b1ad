import type { HumHearingView, HumLineView } from "../../workshop/views.ts";
import { hearingOf, type Verdict } from "./causes.ts";

type Recording = HumHearingView["recordings"][number];

/** A supply nearer than this to the building's mains does not part their lines. */
const apart_Hz = 0.5;

/** The recording's own supply can be told from the building's mains by its frequency. */
const isOffset = (recording: Recording, building_Hz: number): boolean =>
  recording.source === "regenerated" && Math.abs(recording.frequency_Hz - building_Hz) >= apart_Hz;

function weight(verdict: Verdict | undefined): number {
  if (!verdict || verdict.state === "quiet") return 3;
  if (verdict.state === "undecided") return 2;
  return verdict.cause === "valve" ? 0 : 1;
}

/** Channels by the weight of their verdict: a valve, another decided cause, undecided, quiet; then any that only has lines. */
export function channelsByWeight(hearing: HumHearingView): readonly string[] {
  const channels = new Set([...Object.keys(hearing.verdict), ...hearing.lines.map((line) => line.channel)]);
  return [...channels].sort((a, b) => weight(hearing.verdict[a]) - weight(hearing.verdict[b]));
}

function loudness(lines: readonly HumLineView[]): number {
  const heard = lines.filter((line) => hearingOf(line) !== "no");
  return (heard.length > 0 ? heard : lines).reduce((most, line) => Math.max(most, line.level_Vrms), 0);
}

/**
 * A channel's recordings with the one its verdict is told on first: a valve's on an offset supply with that valve in,
 * any other cause's on an offset supply; of several the one with the strongest heard line, and none without lines where
 * another has some. The others follow as made.
 */
export function recordingsByTelling(hearing: HumHearingView, channel: string): readonly Recording[] {
  const verdict = hearing.verdict[channel];
  const accused = verdict?.state === "decided" ? verdict.valve : undefined;
  const tells = (recording: Recording) =>
    isOffset(recording, hearing.building_Hz) &&
    (accused === undefined || Object.values(recording.valves).includes(accused));
  const linesOf = (recording: Recording) =>
    hearing.lines.filter((line) => line.recording === recording.recording && line.channel === channel);
  const hasLines = (recording: Recording) => linesOf(recording).length > 0;
  // What causes make together is told where the verdict is about: on the building's mains.
  const together = verdict?.state === "undecided" && verdict.together !== undefined;
  const mixed = together ? hearing.recordings.find((one) => one.source === "building" && hasLines(one)) : undefined;
  const [offset] = hearing.recordings.filter(tells).sort((a, b) => loudness(linesOf(b)) - loudness(linesOf(a)));
  const first =
    mixed ??
    (verdict?.state !== "quiet" && offset && !hasLines(offset)
      ? (hearing.recordings.find(hasLines) ?? offset)
      : offset);
  const offsetLast = (recording: Recording) => (isOffset(recording, hearing.building_Hz) ? 0 : 1);
  const others = hearing.recordings.filter((recording) => recording !== first);
  return [...(first ? [first] : []), ...others.sort((a, b) => offsetLast(a) - offsetLast(b))];
}
