import recorderAddress from "./recorder.worklet.ts?worker&url";
import { afterSweep_s, beforeSweep_s, type Stimulus, soundingTime_s, stimulusSamples } from "./stimulus.ts";

export interface CaptureQuestion {
  readonly stimulus: Stimulus;
  /** Length of the record; a sweep's is given by the sweep. */
  readonly record_s: number;
  readonly device?: string;
  readonly rate_Hz?: number;
  /** Which of the player's two channels sound. */
  readonly driven: "both" | "left" | "right";
}

export interface Level {
  /** Highest magnitude of the last parcel, 1 being full scale. */
  readonly peak: number;
  readonly clipped: boolean;
}

export interface Progress {
  readonly phase: "settling" | "recording";
  readonly elapsed_s: number;
  readonly whole_s: number;
  readonly levels: readonly Level[];
}

export interface Captured {
  readonly rate_Hz: number;
  readonly samples: readonly Float64Array[];
  readonly clipped: readonly boolean[];
  /** Samples that never arrived, by the audio thread's own count. */
  readonly lost: number;
  /** What the browser says it did to the sound, where it should have done nothing. */
  readonly meddling: readonly string[];
  /** Rate at which the input runs, where the browser converted it to another. */
  readonly converted_Hz?: number;
}

/** Time for filters and coupling capacitors to settle on a tone before anything is kept. */
const settle_s = 1;
/** At or above this a sample is taken as having run out of range. */
const fullScale = 0.9999;

export class Stopped extends Error {}

const untouched = { echoCancellation: false, noiseSuppression: false, autoGainControl: false } as const;

/** The inputs that may be recorded from; names are known once the person has allowed it. */
export async function inputs(): Promise<readonly { readonly id: string; readonly name: string }[]> {
  const devices = await navigator.mediaDevices.enumerateDevices();
  return devices
    .filter(({ kind, deviceId }) => kind === "audioinput" && deviceId !== "")
    .map(({ deviceId, label }) => ({ id: deviceId, name: label }));
}

/** Whether this page may record at all: browsers allow it on the machine itself and over HTTPS only. */
export const canRecord = (): boolean => window.isSecureContext && navigator.mediaDevices !== undefined;

/**
 * Plays the stimulus and records at the same time, the browser's own processing switched off.
 *
 * @param tell  called with each parcel of samples, about ten times a second
 * @throws Stopped when the signal aborts; DOMException when the person refuses or no input is there
 */
export async function capture(
  question: CaptureQuestion,
  tell: (progress: Progress) => void,
  signal: AbortSignal,
): Promise<Captured> {
  const stream = await navigator.mediaDevices.getUserMedia({
    audio: {
      ...untouched,
      channelCount: { ideal: 2 },
      ...(question.rate_Hz && { sampleRate: { ideal: question.rate_Hz } }),
      ...(question.device && { deviceId: { exact: question.device } }),
    },
  });
  const track = stream.getAudioTracks()[0]!;
  // At any other rate than the input's own the browser would convert every sample.
  const rate_Hz = question.rate_Hz ?? track.getSettings().sampleRate;
  const context = new AudioContext({ latencyHint: "playback", ...(rate_Hz && { sampleRate: rate_Hz }) });
  try {
    await context.audioWorklet.addModule(recorderAddress);
    await context.resume();
    return await record(context, stream, question, tell, signal);
  } finally {
    for (const track of stream.getTracks()) track.stop();
    await context.close();
  }
}

async function record(
  context: AudioContext,
  stream: MediaStream,
  { stimulus, record_s, driven }: CaptureQuestion,
  tell: (progress: Progress) => void,
  signal: AbortSignal,
): Promise<Captured> {
  const rate_Hz = context.sampleRate;
  const settings = stream.getAudioTracks()[0]!.getSettings();
  const recorder = new AudioWorkletNode(context, "stillglow-recorder", {
    numberOfOutputs: 0,
    channelCount: Math.max(1, Math.min(2, settings.channelCount ?? 2)),
    channelCountMode: "explicit",
    channelInterpretation: "discrete",
  });
  context.createMediaStreamSource(stream).connect(recorder);

  const isSweep = stimulus.kind === "sweep";
  const before_s = isSweep ? 0 : settle_s;
  const kept_s = isSweep ? beforeSweep_s + soundingTime_s(stimulus, record_s) + afterSweep_s : record_s;
  const begins_s = context.currentTime + 0.1;
  const player = play(
    context,
    stimulus,
    isSweep ? soundingTime_s(stimulus, record_s) : before_s + record_s + 0.5,
    driven,
  );
  player?.start(begins_s + (isSweep ? beforeSweep_s : 0));
  const firstFrame = Math.round((begins_s + before_s) * rate_Hz);
  const frames = Math.round(kept_s * rate_Hz);

  const kept = new Keeping(firstFrame, frames);
  await new Promise<void>((done, fail) => {
    const stop = () => fail(new Stopped());
    if (signal.aborted) return stop();
    signal.addEventListener("abort", stop, { once: true });
    stream
      .getAudioTracks()[0]!
      .addEventListener("ended", () => fail(new Error("The input went away while recording.")));
    recorder.port.onmessage = ({ data }: MessageEvent<Parcel>) => {
      kept.take(data);
      const elapsed_s = (data.first - firstFrame) / rate_Hz;
      tell({
        phase: elapsed_s < 0 ? "settling" : "recording",
        elapsed_s: Math.min(kept_s, Math.abs(elapsed_s)),
        whole_s: elapsed_s < 0 ? before_s : kept_s,
        levels: data.samples.map(levelOf),
      });
      if (kept.isFull) done();
    };
  }).finally(() => player?.stop());

  const samples = kept.samples();
  const { sampleRate: input_Hz } = settings;
  return {
    rate_Hz,
    samples,
    clipped: samples.map((channel) => channel.some((value) => Math.abs(value) >= fullScale)),
    lost: kept.lost,
    meddling: Object.keys(untouched).filter((name) => settings[name as keyof typeof untouched] === true),
    ...(input_Hz !== undefined && input_Hz !== rate_Hz && { converted_Hz: input_Hz }),
  };
}

interface Parcel {
  readonly first: number;
  readonly samples: readonly Float32Array[];
}

/** The frames asked for, put where the audio thread says they belong. */
class Keeping {
  private readonly channels: Float64Array[] = [];
  private arrived = 0;
  private reached = 0;

  constructor(
    private readonly firstFrame: number,
    private readonly frames: number,
  ) {}

  take({ first, samples }: Parcel): void {
    const at = first - this.firstFrame;
    const length = samples[0]?.length ?? 0;
    for (const [c, channel] of samples.entries()) {
      this.channels[c] ??= new Float64Array(this.frames);
      const into = this.channels[c]!;
      for (let n = Math.max(0, -at); n < length && at + n < this.frames; n++) into[at + n] = channel[n]!;
    }
    this.arrived += Math.max(0, Math.min(at + length, this.frames) - Math.max(at, 0));
    this.reached = Math.max(this.reached, at + length);
  }
  get isFull(): boolean {
    return this.reached >= this.frames;
  }
  get lost(): number {
    return this.frames - this.arrived;
  }
  samples(): readonly Float64Array[] {
    return this.channels;
  }
}

function play(
  context: AudioContext,
  stimulus: Stimulus,
  seconds: number,
  driven: CaptureQuestion["driven"],
): AudioBufferSourceNode | undefined {
  if (stimulus.kind === "silence") return undefined;
  const sound = stimulusSamples(stimulus, context.sampleRate, seconds);
  const buffer = context.createBuffer(2, sound.length, context.sampleRate);
  if (driven !== "right") buffer.copyToChannel(sound, 0);
  if (driven !== "left") buffer.copyToChannel(sound, 1);
  const player = new AudioBufferSourceNode(context, { buffer });
  player.connect(context.destination);
  return player;
}

function levelOf(samples: Float32Array): Level {
  let peak = 0;
  for (const value of samples) peak = Math.max(peak, Math.abs(value));
  return { peak, clipped: peak >= fullScale };
}
